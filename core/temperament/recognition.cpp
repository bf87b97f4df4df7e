#include "core/temperament/recognition.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quillbench {

namespace {

constexpr std::size_t kNotes = 12;
constexpr double kPoorestMisfit = 31.26; // chi-square, 11 degrees of freedom, 99.9 %
constexpr double kToldApart = 9.0;       // three standard deviations
constexpr Hertz kAnchor{440.0};          // offsets are told from here; any pitch would do
constexpr int kChainStart = -3;          // E♭

using TwelveNotes = std::array<double, kNotes>;

/// Offset from equal temperament at kAnchor, and its uncertainty, by place on the keyboard.
struct TwelveHeard {
    TwelveNotes offset{};
    TwelveNotes uncertainty{};
};

PitchClass noteAtPlace(std::size_t fifthsUp) {
    return pitchClassAtFifth(kChainStart + static_cast<int>(fifthsUp));
}

std::size_t placeOf(PitchClass note) {
    return static_cast<std::size_t>(note.chroma());
}

double fromEqual(const HeardNote& one) {
    const double semitonesFromA = one.note.pitchClass.chroma() - 9;
    const double cents = interval(kAnchor, one.pitch).value() - 100.0 * semitonesFromA;
    // Octaves apart it is the same note.
    return cents - 1200.0 * std::round(cents / 1200.0);
}

Result<TwelveHeard> gather(std::span<const HeardNote> heard) {
    TwelveNotes weight{};
    TwelveNotes sum{};
    TwelveNotes first{};
    for (const HeardNote& one : heard) {
        EXPECTS(one.pitch.value() > 0.0 && one.uncertainty.value() >= 0.0);
        const std::size_t place = placeOf(one.note.pitchClass);
        const double w = 1.0 / std::pow(std::max(one.uncertainty.value(), 1e-3), 2.0);
        const double offset = fromEqual(one);
        // The instrument may stand half an octave from the anchor, where one note wraps and another does not.
        first[place] = weight[place] > 0.0 ? first[place] : offset;
        const double near = offset - 1200.0 * std::round((offset - first[place]) / 1200.0);
        weight[place] += w;
        sum[place] += w * near;
    }
    std::string missing;
    TwelveHeard all;
    for (std::size_t i = 0; i < kNotes; ++i) {
        const PitchClass note = noteAtPlace(i);
        const std::size_t place = placeOf(note);
        if (!(weight[place] > 0.0)) {
            missing += (missing.empty() ? "" : ", ") + toDisplay(note);
            continue;
        }
        all.offset[place] = sum[place] / weight[place];
        all.uncertainty[place] = 1.0 / std::sqrt(weight[place]);
        const double reference = all.offset[placeOf(noteAtPlace(0))];
        all.offset[place] -= 1200.0 * std::round((all.offset[place] - reference) / 1200.0);
    }
    if (!missing.empty()) {
        return failure(ErrorCode::NothingFound,
                       "not heard yet: " + missing + "; all twelve notes are needed");
    }
    return all;
}

std::vector<HeardFifth> fifthsOf(const TwelveHeard& heard) {
    const double equalTempering = 700.0 - pureFifth().value();
    std::vector<HeardFifth> fifths;
    fifths.reserve(kNotes);
    for (std::size_t i = 0; i < kNotes; ++i) {
        const PitchClass lower = noteAtPlace(i);
        const PitchClass upper = noteAtPlace((i + 1) % kNotes);
        const std::size_t low = placeOf(lower);
        const std::size_t high = placeOf(upper);
        fifths.push_back({lower,
                          upper,
                          Cents(equalTempering + heard.offset[high] - heard.offset[low]),
                          Cents(std::hypot(heard.uncertainty[high], heard.uncertainty[low]))});
    }
    return fifths;
}

TemperamentMatch compare(const TwelveHeard& heard,
                         const std::vector<HeardFifth>& fifths,
                         const Temperament& candidate) {
    TwelveNotes off{};
    TwelveNotes weight{};
    double weights = 0.0;
    double sum = 0.0;
    double weightOfReadings = 0.0;
    for (std::size_t i = 0; i < kNotes; ++i) {
        const PitchClass note = noteAtPlace(i);
        const std::size_t place = placeOf(note);
        off[place] = heard.offset[place] - candidate.offsetFromEqual(note).value();
        const double variance =
            std::pow(heard.uncertainty[place], 2.0) + std::pow(kHandOfTheTuner.value(), 2.0);
        weight[place] = 1.0 / variance;
        weights += weight[place];
        sum += weight[place] * off[place];
        weightOfReadings += std::pow(heard.uncertainty[place], 2.0);
    }
    const double shift = sum / weights;
    TemperamentMatch match;
    match.temperament = &candidate;
    match.a4 = transpose(kAnchor, Cents(shift));
    match.a4Uncertainty = Cents(1.0 / std::sqrt(weights));
    double squares = 0.0;
    for (std::size_t i = 0; i < kNotes; ++i) {
        const PitchClass note = noteAtPlace(i);
        const Cents left(off[placeOf(note)] - shift);
        squares += left.value() * left.value();
        match.misfit += weight[placeOf(note)] * left.value() * left.value();
        if (abs(left) >= abs(match.furthestBy)) {
            match.furthest = note;
            match.furthestBy = left;
        }
    }
    match.distance = Cents(std::sqrt(squares / kNotes));
    match.distanceUncertainty = Cents(std::sqrt(weightOfReadings) / kNotes);
    match.fifthsOff.reserve(kNotes);
    for (const HeardFifth& fifth : fifths) {
        match.fifthsOff.emplace_back(off[placeOf(fifth.upper)] - off[placeOf(fifth.lower)]);
    }
    return match;
}

} // namespace

Result<Recognition> recogniseTemperament(std::span<const HeardNote> heard,
                                         std::span<const Temperament> candidates) {
    const Result<TwelveHeard> twelve = gather(heard);
    if (!twelve) {
        return Unexpected<Error>(twelve.error());
    }
    Recognition result;
    result.fifths = fifthsOf(*twelve);
    for (const Temperament& candidate : candidates) {
        if (candidate.isCircle()) {
            result.matches.push_back(compare(*twelve, result.fifths, candidate));
        }
    }
    std::stable_sort(
        result.matches.begin(),
        result.matches.end(),
        [](const TemperamentMatch& a, const TemperamentMatch& b) { return a.misfit < b.misfit; });
    if (!result.matches.empty()) {
        const double best = result.matches.front().misfit;
        result.known = best <= kPoorestMisfit;
        for (TemperamentMatch& match : result.matches) {
            match.asGoodAsBest = match.misfit <= best + kToldApart;
        }
    }
    return result;
}

} // namespace quillbench
