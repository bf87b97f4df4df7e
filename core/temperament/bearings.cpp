#include "core/temperament/bearings.hpp"

#include "core/temperament/bearing_chain.hpp"
#include "core/temperament/bearing_moves.hpp"
#include "core/temperament/bearing_steps.hpp"
#include "core/temperament/beat_table.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

namespace quillbench {

namespace {

using detail::BearingChain;
using detail::fromStandard;
using detail::kFifthsAround;
using detail::kPure;
using detail::kWidestTunedFifth;
using detail::Move;
using detail::shareBetween;
using detail::shareOf;
using detail::stepOf;
using detail::temporaryOf;

constexpr std::size_t kChecksPerNote = 2;

/// Makes the steps of a plan out of moves, with octaves where a note is wanted in another, and checks.
class PlanWriter {
public:
    explicit PlanWriter(const BearingChain& chain)
        : chain_(chain),
          isSet_(chain.keys().size(), {false, false}) {}

    std::vector<BearingStep> write(const std::vector<Move>& moves, int start) {
        begin(start);
        for (const Move& move : moves) {
            perform(move);
        }
        setSplitSharps();
        setTopNote();
        return std::move(steps_);
    }

private:
    [[nodiscard]] bool isSet(const Note& note) const {
        const std::size_t index = chain_.indexOf(note);
        const int lift = note.octave - chain_.keys()[index].octave;
        return lift >= 0 && lift <= 1 && isSet_[index][static_cast<std::size_t>(lift)];
    }

    void markSet(const Note& note) {
        const std::size_t index = chain_.indexOf(note);
        isSet_[index][static_cast<std::size_t>(note.octave - chain_.keys()[index].octave)] = true;
    }

    void add(const BearingStep& step) {
        const Note tuned = step.tune;
        const bool final = step.kind != StepKind::Temporary;
        steps_.push_back(step);
        if (final) {
            markSet(tuned);
            if (tuned == chain_.keys()[chain_.indexOf(tuned)]) {
                addChecks(tuned);
            }
        }
    }

    void ensureSet(const Note& note) {
        if (isSet(note)) {
            return;
        }
        const Note& atHome = chain_.keys()[chain_.indexOf(note)];
        add(stepOf(chain_.scale(),
                   StepKind::Tune,
                   note,
                   note == atHome ? BearingChain::up(note, 1) : atHome));
    }

    void begin(int start) {
        const Note standard = playedKey(chain_.scale().temperament, chain_.scale().reference.note);
        Note tuned = chain_.key(start);
        if (standard.pitchClass == tuned.pitchClass) {
            if (chain_.inRange(standard)) {
                tuned = standard;
            }
            // A standard many octaves away is taken as its own octave.
            const bool near = std::abs(standard.octave - tuned.octave) <= 2;
            add(fromStandard(chain_.scale(), tuned, near ? standard : tuned));
        } else { // the standard is one of the split sharps that follow later
            add(fromStandard(chain_.scale(), tuned, tuned));
        }
        ensureSet(chain_.key(start));
    }

    void perform(const Move& move) {
        switch (move.way) {
        case Move::Way::FromOne: {
            const bool upwards = move.to > move.from;
            const Note against = BearingChain::up(chain_.key(move.from), upwards ? 0 : move.lift);
            const Note tuned = BearingChain::up(chain_.key(move.to), upwards ? move.lift : 0);
            ensureSet(against);
            add(stepOf(chain_.scale(), StepKind::Tune, tuned, against));
            ensureSet(chain_.key(move.to));
            break;
        }
        case Move::Way::BetweenTwo:
            add(shareOf(chain_.scale(),
                        chain_.key(move.to),
                        chain_.key(move.to - 1),
                        chain_.key(move.to + 1)));
            break;
        case Move::Way::FourAlike: {
            const int low = move.from;
            const BearingStep above =
                temporaryOf(chain_.scale(), chain_.key(low + 1), chain_.key(low));
            const BearingStep below =
                temporaryOf(chain_.scale(), chain_.key(low + 3), chain_.key(low + 4));
            add(above);
            add(below);
            add(shareBetween(chain_.scale(), chain_.key(low + 2), above, below));
            add(shareOf(chain_.scale(), chain_.key(low + 1), chain_.key(low), chain_.key(low + 2)));
            add(shareOf(
                chain_.scale(), chain_.key(low + 3), chain_.key(low + 2), chain_.key(low + 4)));
            break;
        }
        }
    }

    /// The notes of an open chain beyond the twelve, outwards, from a pure third where there is one.
    void setSplitSharps() {
        const int count = static_cast<int>(chain_.keys().size());
        for (int i = chain_.first() - 1; i >= 0; --i) {
            setSplit(i, i + 1, i + 4);
        }
        for (int i = chain_.first() + kFifthsAround; i < count; ++i) {
            setSplit(i, i - 1, i - 4);
        }
    }

    void setSplit(int index, int byFifth, int byThird) {
        const Note& note = chain_.keys()[static_cast<std::size_t>(index)];
        const Note& third = chain_.keys()[static_cast<std::size_t>(byThird)];
        const bool above = byThird < index;
        const Note& lower = above ? third : note;
        const Note& upper = above ? note : third;
        const int lift = upper.midiNumber() < lower.midiNumber() ? 1 : 0;
        const double width = widthFromPure(IntervalKind::MajorThird,
                                           chain_.scale().pitchOf(lower),
                                           chain_.scale().pitchOf(BearingChain::up(upper, lift)))
                                 .value();
        if (std::abs(width) < kPure && chain_.inRange(BearingChain::up(upper, lift))) {
            const Note against = above ? third : BearingChain::up(third, lift);
            ensureSet(against);
            add(stepOf(chain_.scale(),
                       StepKind::Tune,
                       above ? BearingChain::up(note, lift) : note,
                       against));
            ensureSet(note);
        } else {
            add(stepOf(chain_.scale(),
                       StepKind::Tune,
                       note,
                       chain_.keys()[static_cast<std::size_t>(byFifth)]));
        }
    }

    void setTopNote() {
        for (const Note& each : chain_.keys()) {
            if (each.midiNumber() == chain_.lowest()) {
                ensureSet(BearingChain::up(each, 1));
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
        for (std::size_t i = 0; i < chain_.keys().size(); ++i) {
            const Note& other = chain_.keys()[i];
            if (!isSet_[i][0] || other.midiNumber() == tuned.midiNumber()) {
                continue;
            }
            const bool upwards = other.midiNumber() < tuned.midiNumber();
            const Note& lower = upwards ? other : tuned;
            const Note& upper = upwards ? tuned : other;
            const auto kind =
                chain_.circle() ? intervalOfKeys(lower, upper) : intervalAsSpelled(lower, upper);
            if (!kind || rankAsCheck(*kind) > 2 || alreadyHeard(tuned, other)) {
                continue;
            }
            const BearingStep check = stepOf(chain_.scale(), StepKind::Check, tuned, other);
            const double width =
                widthFromPure(*kind, chain_.scale().pitchOf(lower), chain_.scale().pitchOf(upper))
                    .value();
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

    const BearingChain& chain_;
    std::vector<std::array<bool, 2>> isSet_;
    std::vector<BearingStep> steps_;
};

} // namespace

BearingPlan computedPlan(const TunedScale& scale, BearingRange range) {
    const BearingChain chain(scale, range);
    const int start = chain.startingPlace();
    BearingPlan plan;
    plan.id = "computed";
    plan.name = "Computed for this temperament";
    plan.source = "worked out from the temperament: beatless intervals first, shared fifths, "
                  "then counted beats";
    plan.steps = PlanWriter(chain).write(cheapestMoves(chain, start), start);
    return plan;
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
