#include "core/temperament/temperament.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace quillbench {

namespace {

constexpr int kFlattest = -15; // F♭♭
constexpr int kSharpest = 19;  // B♯♯
constexpr std::size_t kTwelve = 12;
// A chain of twelve that begins from G♭ to F has F, C, G, D, A, E and B.
constexpr int kFirstFirst = -6;
constexpr int kLastFirst = -1;
constexpr double kWidestTempering = 100.0; // cents
constexpr double kClosed = 1e-6;           // cents; fractions given as decimals still close

std::string centsText(double cents) {
    char text[48];
    std::snprintf(text, sizeof text, "%+.3f", cents);
    return text;
}

Tempering total(std::span<const Tempering> fifths) {
    Tempering all;
    for (const Tempering& each : fifths) {
        all = all + each;
    }
    return all;
}

Tempering oneCommaNarrow() {
    Tempering comma;
    comma.pythagorean = Fraction(-1);
    return comma;
}

double wrapped(double cents) {
    const double within = std::fmod(cents, 1200.0);
    return within < 0.0 ? within + 1200.0 : within;
}

bool isWolf(const Tempering& fifth) {
    return std::abs(fifth.cents().value()) > 0.5 * pythagoreanComma().value() + 1e-9;
}

std::string fifthName(PitchClass lower, PitchClass upper) {
    return toAscii(lower) + "-" + toAscii(upper);
}

} // namespace

Cents openBy(std::span<const Tempering> twelveFifths) {
    return total(twelveFifths).cents() + pythagoreanComma();
}

Temperament::Temperament(TemperamentDescription description,
                         std::vector<PitchClass> notes,
                         std::vector<Tempering> fifths)
    : description_(std::move(description)),
      notes_(std::move(notes)),
      fifths_(std::move(fifths)) {
    EXPECTS(notes_.size() >= kTwelve);
    const double widening = pureFifth().value() - 700.0;
    deviation_.reserve(notes_.size());
    Tempering soFar;
    for (std::size_t i = 0; i < notes_.size(); ++i) {
        deviation_.emplace_back(static_cast<double>(i) * widening + soFar.cents().value());
        if (i < fifths_.size()) {
            soFar = soFar + fifths_[i];
        }
    }
    const Cents ofC = deviation_[indexOf(PitchClass{Letter::C, 0})];
    for (Cents& each : deviation_) {
        each -= ofC;
    }
}

Result<Temperament> Temperament::fromFifths(TemperamentDescription description,
                                            PitchClass first,
                                            std::vector<Tempering> fifths,
                                            bool openChain) {
    const std::size_t count = fifths.size();
    if (count < kTwelve - 1 || count > 34) {
        return failure(ErrorCode::BadArgument,
                       "fifths: " + std::to_string(count) +
                           " given, needed are 11 (the twelfth is then what is left), 12, or one "
                           "fewer than the notes of an open chain of 13 to 35 notes");
    }
    if (count > kTwelve && !openChain) {
        return failure(ErrorCode::BadArgument,
                       "fifths: " + std::to_string(count) +
                           " given, a circle has 12; say that the chain is open if it has split "
                           "sharps");
    }
    const bool circle = count < kTwelve || (count == kTwelve && !openChain);
    const std::size_t noteCount = circle ? kTwelve : count + 1;
    const int from = first.fifthsFromC();
    if (from < kFlattest || from + static_cast<int>(noteCount) - 1 > kSharpest) {
        return failure(ErrorCode::BadArgument,
                       "first: a chain of " + std::to_string(noteCount) + " notes from " +
                           toAscii(first) + " leaves the range Fbb to B##");
    }
    std::vector<PitchClass> notes;
    for (std::size_t i = 0; i < noteCount; ++i) {
        notes.push_back(pitchClassAtFifth(from + static_cast<int>(i)));
    }
    for (std::size_t i = 0; i < count; ++i) {
        const double cents = fifths[i].cents().value();
        if (!(std::abs(cents) <= kWidestTempering)) {
            return failure(ErrorCode::BadArgument,
                           "fifths: " + fifthName(notes[i], notes[(i + 1) % noteCount]) + " is " +
                               centsText(cents) + " cents from pure, allowed is -100 to +100");
        }
    }
    if (count == kTwelve - 1) {
        fifths.push_back(oneCommaNarrow() + -total(fifths));
        const double left = fifths.back().cents().value();
        if (!(std::abs(left) <= kWidestTempering)) {
            return failure(ErrorCode::BadArgument,
                           "fifths: what is left for the last fifth, " +
                               fifthName(notes.back(), notes.front()) + ", is " + centsText(left) +
                               " cents from pure, allowed is -100 to +100");
        }
    }
    if (circle) {
        const double open = openBy(fifths).value();
        if (std::abs(open) > kClosed) {
            return failure(ErrorCode::BadArgument,
                           "fifths: the circle does not close, it is open by " + centsText(open) +
                               " cents (the twelve temperings have to add up to -23.460); change a "
                               "fifth by as much, or leave the last one out");
        }
    }
    return Temperament(std::move(description), std::move(notes), std::move(fifths));
}

Result<Temperament> Temperament::fromCents(TemperamentDescription description,
                                           const std::vector<std::pair<PitchClass, Cents>>& notes) {
    if (notes.size() < kTwelve || notes.size() > 35) {
        return failure(ErrorCode::BadArgument,
                       "cents: " + std::to_string(notes.size()) +
                           " notes given, needed are 12 to 35");
    }
    std::vector<std::pair<PitchClass, Cents>> chain = notes;
    std::sort(chain.begin(), chain.end(), [](const auto& a, const auto& b) {
        return a.first.fifthsFromC() < b.first.fifthsFromC();
    });
    std::vector<Tempering> fifths;
    for (std::size_t i = 0; i < chain.size(); ++i) {
        const auto& [note, cents] = chain[i];
        if (!(cents.value() >= 0.0 && cents.value() < 1200.0)) {
            return failure(ErrorCode::BadArgument,
                           "cents: " + toAscii(note) + " is " + centsText(cents.value()) +
                               ", allowed is 0 to below 1200 (cents above C)");
        }
        if (i + 1 == chain.size()) {
            break;
        }
        const auto& [next, nextCents] = chain[i + 1];
        if (next.fifthsFromC() != note.fifthsFromC() + 1) {
            return failure(
                ErrorCode::BadArgument,
                "cents: the names have to make one chain of fifths without gaps or "
                "repeats; after " +
                    toAscii(note) + " comes " +
                    toAscii(pitchClassAtFifth(std::min(note.fifthsFromC() + 1, kSharpest))) +
                    ", found was " + toAscii(next));
        }
        const double size = wrapped(nextCents.value() - cents.value());
        const double tempering = size - pureFifth().value();
        if (!(std::abs(tempering) <= kWidestTempering)) {
            return failure(ErrorCode::BadArgument,
                           "cents: the fifth " + fifthName(note, next) + " comes out " +
                               centsText(tempering) + " cents from pure, allowed is -100 to +100");
        }
        Tempering plain;
        plain.plain = Cents(tempering);
        fifths.push_back(plain);
    }
    const PitchClass first = chain.front().first;
    return fromFifths(std::move(description), first, std::move(fifths), chain.size() > kTwelve);
}

bool Temperament::closesWithoutWolf() const {
    return isCircle() && !isWolf(fifths_.back());
}

bool Temperament::isRegular() const {
    const double first = fifths_.front().cents().value();
    return std::all_of(
        fifths_.begin(),
        fifths_.begin() + static_cast<std::ptrdiff_t>(notes_.size()) - 1,
        [first](const Tempering& each) { return std::abs(each.cents().value() - first) < 1e-9; });
}

Cents Temperament::closes() const {
    const double open = openBy(std::span(fifths_).first(kTwelve)).value();
    return Cents(isCircle() && std::abs(open) < kClosed ? 0.0 : open);
}

bool Temperament::contains(PitchClass note) const {
    return std::find(notes_.begin(), notes_.end(), note) != notes_.end();
}

std::size_t Temperament::indexOf(PitchClass note) const {
    const int place = note.fifthsFromC();
    std::size_t best = notes_.size();
    int bestDistance = 0;
    for (std::size_t i = 0; i < notes_.size(); ++i) {
        const int distance = std::abs(notes_[i].fifthsFromC() - place);
        if (distance % static_cast<int>(kTwelve) == 0 &&
            (best == notes_.size() || distance < bestDistance)) {
            best = i;
            bestDistance = distance;
        }
    }
    ENSURES(best < notes_.size());
    return best;
}

PitchClass Temperament::played(PitchClass note) const {
    return notes_[indexOf(note)];
}

Cents Temperament::centsFromC(PitchClass note) const {
    const double chroma = note.chroma();
    return Cents(wrapped(100.0 * chroma + deviation_[indexOf(note)].value()));
}

Cents Temperament::offsetFromEqual(PitchClass note, PitchClass anchor) const {
    return deviation_[indexOf(note)] - deviation_[indexOf(anchor)];
}

Result<Temperament> Temperament::withRoot(PitchClass root) const {
    const int shift = root.fifthsFromC();
    const int first = notes_.front().fifthsFromC();
    if (closesWithoutWolf()) {
        std::vector<Tempering> turned(fifths_.size());
        for (std::size_t i = 0; i < fifths_.size(); ++i) {
            const int target = (static_cast<int>(i) + shift) % 12;
            turned[static_cast<std::size_t>(target < 0 ? target + 12 : target)] = fifths_[i];
        }
        return Temperament(description_, notes_, std::move(turned));
    }
    const int last = notes_.back().fifthsFromC() + shift;
    if (first + shift < kFlattest || last > kSharpest) {
        return failure(ErrorCode::BadArgument,
                       "root: with " + toAscii(root) +
                           " the chain of fifths leaves the range Fbb to B##; choose a root with "
                           "fewer sharps or flats");
    }
    std::vector<PitchClass> moved;
    for (const PitchClass& note : notes_) {
        moved.push_back(pitchClassAtFifth(note.fifthsFromC() + shift));
    }
    return Temperament(description_, std::move(moved), fifths_);
}

Result<Temperament> Temperament::extended(PitchClass first, PitchClass last) const {
    if (!isRegular()) {
        return failure(ErrorCode::BadArgument,
                       "notes: only a regular temperament, whose fifths are all alike, goes on "
                       "beyond its twelve notes; '" +
                           id() + "' is not one");
    }
    const int count = last.fifthsFromC() - first.fifthsFromC() + 1;
    if (count < static_cast<int>(kTwelve) || count > 35) {
        return failure(ErrorCode::BadArgument,
                       "notes: from " + toAscii(first) + " up the chain of fifths to " +
                           toAscii(last) + " are " + std::to_string(count) +
                           " notes, allowed are 12 to 35 (such as Ab to D#)");
    }
    return fromFifths(description_,
                      first,
                      std::vector<Tempering>(static_cast<std::size_t>(count - 1), fifths_.front()),
                      count > static_cast<int>(kTwelve));
}

Temperament Temperament::described(TemperamentDescription description) const {
    Temperament result = *this;
    result.description_ = std::move(description);
    return result;
}

Temperament spelledByWolf(const Temperament& temperament) {
    const auto fifths = temperament.fifths();
    if (!temperament.isCircle() || std::count_if(fifths.begin(), fifths.end(), isWolf) != 1) {
        return temperament;
    }
    const auto wolf = std::find_if(fifths.begin(), fifths.end(), isWolf);
    int first =
        temperament.notes().front().fifthsFromC() + static_cast<int>(wolf - fifths.begin()) + 1;
    while (first > kLastFirst) {
        first -= static_cast<int>(kTwelve);
    }
    if (first < kFirstFirst) {
        return temperament;
    }
    std::vector<Tempering> turned(fifths.begin(), fifths.end());
    std::rotate(turned.begin(), turned.begin() + (wolf + 1 - fifths.begin()), turned.end());
    return Temperament::fromFifths(
               temperament.description(), pitchClassAtFifth(first), std::move(turned))
        .value();
}

Note playedKey(const Temperament& temperament, const Note& note) {
    const PitchClass pitchClass = temperament.played(note.pitchClass);
    const int octave = 4 + (note.midiNumber() - Note{pitchClass, 4}.midiNumber()) / 12;
    return Note{pitchClass, static_cast<std::int8_t>(octave)};
}

Hertz pitchOf(const Temperament& temperament, ReferencePitch reference, Note note) {
    EXPECTS(reference.hz.value() > 0.0);
    const int semitones = note.midiNumber() - reference.note.midiNumber();
    return transpose(reference.hz,
                     Cents(100.0 * semitones) +
                         temperament.offsetFromEqual(note.pitchClass, reference.note.pitchClass));
}

} // namespace quillbench
