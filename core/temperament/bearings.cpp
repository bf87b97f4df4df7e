#include "core/temperament/bearings.hpp"

#include "core/support/contract.hpp"
#include "core/temperament/bearing_steps.hpp"
#include "core/temperament/beat_table.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <functional>
#include <queue>

namespace quillbench {

namespace {

using detail::fromStandard;
using detail::shareBetween;
using detail::shareOf;
using detail::stepOf;
using detail::temporaryOf;

constexpr int kFifthsAround = 12;
constexpr int kRange = 19;                 // semitones: an octave and a fifth
constexpr double kWidestTunedFifth = 12.0; // cents; beyond, it is a wolf and nobody tunes by it
constexpr double kAlike = 0.02;            // cents between two temperings that feel the same
constexpr double kFastestTunedThird = 7.5; // beats a second, counted without a metronome: 6 to 7
constexpr double kAlmostPure = 0.15;       // beats a second; a beat outlasts the note
constexpr double kPure = 1e-6;             // cents
constexpr std::size_t kChecksPerNote = 2;

/// What a step costs a tuner, in the price of a beatless fifth. Common practice, no source.
namespace cost {
constexpr double kPureFifth = 1.0;
constexpr double kPureFourth = 1.05;
constexpr double kPureThird = 1.1;
constexpr double kPureMinorThird = 1.3;
constexpr double kAlmostPure = 1.6;
constexpr double kCounted = 3.0;
constexpr double kPerBeatOfThird = 0.25;
constexpr double kPerFastBeat = 0.1; // over three a second
constexpr double kOctave = 0.4;
constexpr double kShare = 2.0;
constexpr double kShareOfFour = 5.5;
constexpr double kWolf = 100.0;             // only where nothing else leads to a note
constexpr double kPerFifthFromStart = 0.02; // keeps both ends of the chain equally long
} // namespace cost

/// A way to set one or more notes of the twelve from others.
struct Move {
    enum class Way { FromOne, BetweenTwo, FourAlike };
    Way way = Way::FromOne;
    std::uint32_t needs = 0;
    std::uint32_t gives = 0;
    int from = 0; ///< place in the chain; for FourAlike the lower end
    int to = 0;   ///< the note set; for FourAlike the lower end too
    int lift = 0; ///< octaves that the upper note of a third is taken above its place
    double price = 0;
};

class Planner {
public:
    Planner(const TunedScale& scale, BearingRange range)
        : scale_(scale),
          lowest_(range == BearingRange::F3ToC5 ? 53 : 48) {
        const auto notes = scale.temperament.notes();
        circle_ = scale.temperament.closesWithoutWolf();
        const int count = static_cast<int>(notes.size());
        // Of an open chain the twelve about D make the octave; the others follow from them.
        constexpr int kFlattestUsual = -3; // E♭
        first_ = std::clamp(kFlattestUsual - notes.front().fifthsFromC(), 0, count - kFifthsAround);
        for (const PitchClass& each : notes) {
            const int chroma = each.chroma();
            const int midi =
                lowest_ + ((chroma - lowest_) % kFifthsAround + kFifthsAround) % kFifthsAround;
            const int octave = 4 + (midi - Note{each, 4}.midiNumber()) / kFifthsAround;
            keys_.push_back(Note{each, static_cast<std::int8_t>(octave)});
        }
        isSet_.assign(keys_.size(), {false, false});
    }

    BearingPlan plan() {
        const int start = startingPlace();
        listMoves(start);
        begin(start);
        for (const Move& move : inPlayableOrder(cheapestPath(start), start)) {
            perform(move);
        }
        setSplitSharps();
        setTopNote();
        BearingPlan result;
        result.id = "computed";
        result.name = "Computed for this temperament";
        result.source = "worked out from the temperament: beatless intervals first, shared fifths, "
                        "then counted beats";
        result.steps = std::move(steps_);
        return result;
    }

private:
    [[nodiscard]] std::size_t indexAt(int place) const {
        const int index = first_ + wrapped(place);
        return static_cast<std::size_t>(index);
    }

    [[nodiscard]] const Note& key(int place) const { return keys_[indexAt(place)]; }

    [[nodiscard]] static int wrapped(int place) {
        return (place % kFifthsAround + kFifthsAround) % kFifthsAround;
    }

    [[nodiscard]] static std::uint32_t bit(int place) {
        return std::uint32_t{1} << static_cast<unsigned>(wrapped(place));
    }

    [[nodiscard]] static Note up(Note note, int octaves) {
        note.octave = static_cast<std::int8_t>(note.octave + octaves);
        return note;
    }

    [[nodiscard]] bool inRange(const Note& note) const {
        return note.midiNumber() >= lowest_ && note.midiNumber() <= lowest_ + kRange;
    }

    /// Whether the chain goes from one place to another without a wolf or a gap.
    [[nodiscard]] bool reaches(int place, int fifths) const {
        const int end = place + fifths;
        return circle_ || (end >= 0 && end < kFifthsAround);
    }

    [[nodiscard]] Cents tempering(int place) const {
        const auto fifths = scale_.temperament.fifths();
        return fifths[indexAt(place)].cents();
    }

    [[nodiscard]] BeatRate beatOf(const Note& one, const Note& other) const {
        return stepOf(scale_, StepKind::Check, one, other).beat;
    }

    [[nodiscard]] int startingPlace() const {
        const PitchClass wanted = scale_.temperament.played(scale_.reference.note.pitchClass);
        int nearest = 0;
        for (int place = 0; place < kFifthsAround; ++place) {
            if (key(place).pitchClass.chroma() == wanted.chroma()) {
                nearest = place;
            }
        }
        return nearest;
    }

    void addMove(Move move, int start) {
        // Down the chain from the start, or up it: whichever way this move grows it.
        const int distance =
            move.to > move.from ? wrapped(move.to - start) : wrapped(start - move.to);
        move.price += cost::kPerFifthFromStart * distance;
        moves_.push_back(move);
    }

    void listMoves(int start) {
        for (int place = 0; place < kFifthsAround; ++place) {
            if (reaches(place, 1)) {
                addFifth(place, start);
            }
            if (reaches(place, 4)) {
                addMajorThird(place, start);
                addFourAlike(place);
            }
            if (reaches(place, 3)) {
                addMinorThird(place, start);
            }
            if (reaches(place, 2)) {
                addShare(place);
            }
        }
    }

    void addBothWays(int lower, int upper, int lift, double price, int start) {
        addMove({Move::Way::FromOne, bit(lower), bit(upper), lower, upper, lift, price}, start);
        addMove({Move::Way::FromOne, bit(upper), bit(lower), upper, lower, lift, price}, start);
    }

    void addFifth(int place, int start) {
        const double cents = std::abs(tempering(place).value());
        const bool fourth = key(place + 1).midiNumber() < key(place).midiNumber();
        const double beats = abs(beatOf(key(place), key(place + 1))).perSecond();
        double price = cost::kCounted + cost::kPerFastBeat * std::max(0.0, beats - 3.0);
        if (cents > kWidestTunedFifth || beats > kFastestCountable.perSecond()) {
            price = cost::kWolf;
        } else if (cents < kPure) {
            price = fourth ? cost::kPureFourth : cost::kPureFifth;
        } else if (beats < kAlmostPure) {
            price = cost::kAlmostPure;
        }
        addBothWays(place, place + 1, 0, price, start);
    }

    void addMajorThird(int place, int start) {
        const Note lower = key(place);
        const int lift = key(place + 4).midiNumber() < lower.midiNumber() ? 1 : 0;
        const Note upper = up(key(place + 4), lift);
        if (!inRange(upper)) {
            return;
        }
        const BearingStep third = stepOf(scale_, StepKind::Check, lower, upper);
        const double beats = abs(third.beat).perSecond();
        if (beats > kFastestTunedThird) {
            return;
        }
        const Cents width =
            widthFromPure(third.interval, scale_.pitchOf(lower), scale_.pitchOf(upper));
        const bool pure = std::abs(width.value()) < kPure;
        const double price =
            (pure ? cost::kPureThird : cost::kCounted + cost::kPerBeatOfThird * beats) +
            cost::kOctave * lift;
        addBothWays(place, place + 4, lift, price, start);
    }

    /// Three fifths up make a major sixth, or downwards a minor third; used where it is pure.
    void addMinorThird(int place, int start) {
        const Note one = key(place);
        const Note other = key(place + 3);
        const BearingStep third = stepOf(scale_, StepKind::Check, one, other);
        const Hertz a = scale_.pitchOf(one);
        const Hertz b = scale_.pitchOf(other);
        const Cents width = widthFromPure(third.interval, std::min(a, b), std::max(a, b));
        if (std::abs(width.value()) < kPure) {
            addBothWays(place, place + 3, 0, cost::kPureMinorThird, start);
        }
    }

    [[nodiscard]] bool alike(int place, int fifths) const {
        const double first = tempering(place).value();
        if (std::abs(first) < kPure) {
            return false;
        }
        for (int i = 1; i < fifths; ++i) {
            if (std::abs(tempering(place + i).value() - first) > kAlike) {
                return false;
            }
        }
        return true;
    }

    [[nodiscard]] static bool countable(const BearingStep& share) {
        return abs(share.beat) <= kFastestCountable &&
               (!share.alike || abs(share.alike->beat) <= kFastestCountable);
    }

    void addShare(int place) {
        if (alike(place, 2) &&
            countable(shareOf(scale_, key(place + 1), key(place), key(place + 2)))) {
            moves_.push_back({Move::Way::BetweenTwo,
                              bit(place) | bit(place + 2),
                              bit(place + 1),
                              place,
                              place + 1,
                              0,
                              cost::kShare});
        }
    }

    void addFourAlike(int place) {
        if (!alike(place, 4)) {
            return;
        }
        const BearingStep above = temporaryOf(scale_, key(place + 1), key(place));
        const BearingStep below = temporaryOf(scale_, key(place + 3), key(place + 4));
        if (countable(shareBetween(scale_, key(place + 2), above, below))) {
            moves_.push_back({Move::Way::FourAlike,
                              bit(place) | bit(place + 4),
                              bit(place + 1) | bit(place + 2) | bit(place + 3),
                              place,
                              place,
                              0,
                              cost::kShareOfFour});
        }
    }

    /// The cheapest sequence of moves from the start to all twelve notes.
    [[nodiscard]] std::vector<Move> cheapestPath(int start) {
        constexpr std::uint32_t kAll = (std::uint32_t{1} << kFifthsAround) - 1;
        constexpr double kFar = 1e9;
        std::vector<double> price(kAll + 1, kFar);
        std::vector<std::size_t> via(kAll + 1, 0);
        std::vector<std::uint32_t> before(kAll + 1, 0);
        using Entry = std::pair<double, std::uint32_t>;
        std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
        price[bit(start)] = 0.0;
        open.emplace(0.0, bit(start));
        while (!open.empty()) {
            const auto [here, notes] = open.top();
            open.pop();
            if (notes == kAll) {
                break;
            }
            if (here > price[notes]) {
                continue;
            }
            for (std::size_t i = 0; i < moves_.size(); ++i) {
                const Move& move = moves_[i];
                if ((notes & move.needs) != move.needs || (notes & move.gives) != 0) {
                    continue;
                }
                const std::uint32_t then = notes | move.gives;
                if (here + move.price < price[then] - 1e-12) {
                    price[then] = here + move.price;
                    via[then] = i;
                    before[then] = notes;
                    open.emplace(price[then], then);
                }
            }
        }
        std::vector<Move> path;
        ENSURES(price[kAll] < kFar);
        for (std::uint32_t notes = kAll; notes != bit(start); notes = before[notes]) {
            path.push_back(moves_[via[notes]]);
        }
        std::reverse(path.begin(), path.end());
        return path;
    }

    /// The same moves, each as soon as its notes are set: the cheap ones first, then what goes on from the note set
    /// last.
    [[nodiscard]] static std::vector<Move> inPlayableOrder(std::vector<Move> moves, int start) {
        std::vector<Move> ordered;
        std::uint32_t notes = bit(start);
        int last = start;
        while (!moves.empty()) {
            const auto better = [&](const Move& a, const Move& b) {
                const bool canA = (notes & a.needs) == a.needs;
                const bool canB = (notes & b.needs) == b.needs;
                if (canA != canB) {
                    return canA;
                }
                const bool onA = wrapped(a.from) == wrapped(last);
                const bool onB = wrapped(b.from) == wrapped(last);
                const double costA = std::floor(a.price) - (onA ? 0.5 : 0.0);
                const double costB = std::floor(b.price) - (onB ? 0.5 : 0.0);
                return costA < costB;
            };
            const auto next = std::min_element(moves.begin(), moves.end(), better);
            ENSURES((notes & next->needs) == next->needs);
            notes |= next->gives;
            last = next->to;
            ordered.push_back(*next);
            moves.erase(next);
        }
        return ordered;
    }

    [[nodiscard]] std::size_t indexOf(const Note& note) const {
        for (std::size_t i = 0; i < keys_.size(); ++i) {
            if (keys_[i].pitchClass == note.pitchClass) {
                return i;
            }
        }
        return keys_.size();
    }

    [[nodiscard]] bool isSet(const Note& note) const {
        const std::size_t index = indexOf(note);
        const int lift = note.octave - keys_[index].octave;
        return lift >= 0 && lift <= 1 && isSet_[index][static_cast<std::size_t>(lift)];
    }

    void markSet(const Note& note) {
        const std::size_t index = indexOf(note);
        isSet_[index][static_cast<std::size_t>(note.octave - keys_[index].octave)] = true;
    }

    void add(const BearingStep& step) {
        const Note tuned = step.tune;
        const bool final = step.kind != StepKind::Temporary;
        steps_.push_back(step);
        if (final) {
            markSet(tuned);
            if (tuned == keys_[indexOf(tuned)]) {
                addChecks(tuned);
            }
        }
    }

    void ensureSet(const Note& note) {
        if (isSet(note)) {
            return;
        }
        const Note& atHome = keys_[indexOf(note)];
        add(stepOf(scale_, StepKind::Tune, note, note == atHome ? up(note, 1) : atHome));
    }

    void begin(int start) {
        const Note standard = playedKey(scale_.temperament, scale_.reference.note);
        Note tuned = key(start);
        if (standard.pitchClass == tuned.pitchClass) {
            if (inRange(standard)) {
                tuned = standard;
            }
            // A standard many octaves away is taken as its own octave.
            const bool near = std::abs(standard.octave - tuned.octave) <= 2;
            add(fromStandard(scale_, tuned, near ? standard : tuned));
        } else { // the standard is one of the split sharps that follow later
            add(fromStandard(scale_, tuned, tuned));
        }
        ensureSet(key(start));
    }

    void perform(const Move& move) {
        switch (move.way) {
        case Move::Way::FromOne: {
            const bool upwards = move.to > move.from;
            const Note against = up(key(move.from), upwards ? 0 : move.lift);
            const Note tuned = up(key(move.to), upwards ? move.lift : 0);
            ensureSet(against);
            add(stepOf(scale_, StepKind::Tune, tuned, against));
            ensureSet(key(move.to));
            break;
        }
        case Move::Way::BetweenTwo:
            add(shareOf(scale_, key(move.to), key(move.to - 1), key(move.to + 1)));
            break;
        case Move::Way::FourAlike: {
            const int low = move.from;
            const BearingStep above = temporaryOf(scale_, key(low + 1), key(low));
            const BearingStep below = temporaryOf(scale_, key(low + 3), key(low + 4));
            add(above);
            add(below);
            add(shareBetween(scale_, key(low + 2), above, below));
            add(shareOf(scale_, key(low + 1), key(low), key(low + 2)));
            add(shareOf(scale_, key(low + 3), key(low + 2), key(low + 4)));
            break;
        }
        }
    }

    /// The notes of an open chain beyond the twelve, outwards, from a pure third where there is one.
    void setSplitSharps() {
        const int count = static_cast<int>(keys_.size());
        for (int i = first_ - 1; i >= 0; --i) {
            setSplit(i, i + 1, i + 4);
        }
        for (int i = first_ + kFifthsAround; i < count; ++i) {
            setSplit(i, i - 1, i - 4);
        }
    }

    void setSplit(int index, int byFifth, int byThird) {
        const Note& note = keys_[static_cast<std::size_t>(index)];
        const Note& third = keys_[static_cast<std::size_t>(byThird)];
        const bool above = byThird < index;
        const Note& lower = above ? third : note;
        const Note& upper = above ? note : third;
        const int lift = upper.midiNumber() < lower.midiNumber() ? 1 : 0;
        const double width = widthFromPure(IntervalKind::MajorThird,
                                           scale_.pitchOf(lower),
                                           scale_.pitchOf(up(upper, lift)))
                                 .value();
        if (std::abs(width) < kPure && inRange(up(upper, lift))) {
            const Note against = above ? third : up(third, lift);
            ensureSet(against);
            add(stepOf(scale_, StepKind::Tune, above ? up(note, lift) : note, against));
            ensureSet(note);
        } else {
            add(stepOf(scale_, StepKind::Tune, note, keys_[static_cast<std::size_t>(byFifth)]));
        }
    }

    void setTopNote() {
        for (const Note& each : keys_) {
            if (each.midiNumber() == lowest_) {
                ensureSet(up(each, 1));
            }
        }
    }

    [[nodiscard]] bool alreadyHeard(const Note& one, const Note& other) const {
        return std::any_of(steps_.begin(), steps_.end(), [&](const BearingStep& step) {
            const auto pairs = [&](const Note& a, const Note& b) {
                return (a == one && b == other) || (a == other && b == one);
            };
            return step.kind != StepKind::Temporary &&
                   (pairs(step.tune, step.against) ||
                    (step.alike && pairs(step.tune, step.alike->with)));
        });
    }

    /// Thirds first, then a fifth or fourth that no step has used, then sixths.
    [[nodiscard]] static int rankAsCheck(IntervalKind kind) {
        if (kind == IntervalKind::MajorThird) {
            return 0;
        }
        if (kind == IntervalKind::Fifth || kind == IntervalKind::Fourth) {
            return 1;
        }
        return kind == IntervalKind::MajorSixth ? 2 : 3;
    }

    void addChecks(const Note& tuned) {
        std::vector<BearingStep> checks;
        for (std::size_t i = 0; i < keys_.size(); ++i) {
            const Note& other = keys_[i];
            if (!isSet_[i][0] || other.midiNumber() == tuned.midiNumber()) {
                continue;
            }
            const bool upwards = other.midiNumber() < tuned.midiNumber();
            const Note& lower = upwards ? other : tuned;
            const Note& upper = upwards ? tuned : other;
            const auto kind =
                circle_ ? intervalOfKeys(lower, upper) : intervalAsSpelled(lower, upper);
            if (!kind || rankAsCheck(*kind) > 2 || alreadyHeard(tuned, other)) {
                continue;
            }
            const BearingStep check = stepOf(scale_, StepKind::Check, tuned, other);
            const double width =
                widthFromPure(*kind, scale_.pitchOf(lower), scale_.pitchOf(upper)).value();
            if (abs(check.beat) > kFastestCountable ||
                (rankAsCheck(*kind) == 1 && std::abs(width) > kWidestTunedFifth)) {
                continue;
            }
            checks.push_back(check);
        }
        std::stable_sort(
            checks.begin(), checks.end(), [](const BearingStep& a, const BearingStep& b) {
                return rankAsCheck(a.interval) < rankAsCheck(b.interval);
            });
        checks.resize(std::min(checks.size(), kChecksPerNote));
        steps_.insert(steps_.end(), checks.begin(), checks.end());
    }

    const TunedScale& scale_;
    int lowest_;
    int first_ = 0;       ///< place in the temperament's chain of the first of the twelve
    bool circle_ = false; ///< the chain may be walked round
    std::vector<Note> keys_;
    std::vector<std::array<bool, 2>> isSet_;
    std::vector<Move> moves_;
    std::vector<BearingStep> steps_;
};

} // namespace

BearingPlan computedPlan(const TunedScale& scale, BearingRange range) {
    return Planner(scale, range).plan();
}

std::string_view nameOf(StepKind kind) {
    switch (kind) {
    case StepKind::Tune:
        return "tune";
    case StepKind::Temporary:
        return "temporary";
    case StepKind::Share:
        return "share";
    case StepKind::Check:
        return "check";
    }
    return "tune";
}

} // namespace quillbench
