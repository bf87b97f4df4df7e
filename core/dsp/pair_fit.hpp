#pragma once

#include "core/dsp/comb_fit.hpp"
#include "core/dsp/known_string.hpp"
#include "core/dsp/polarised_band.hpp"
#include "core/units/cents.hpp"
#include "core/units/frames.hpp"

#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// What one string brings into a fit. `known` may be null and outlives the voice.
struct Voice {
    CombState state;
    CombPrior prior;
    double offsetCents = 0.3; ///< scatter of partials about the comb, one standard deviation
    const KnownString* known = nullptr;
};

/// A string near `hz` of which nothing else is known. **Range** hz 15 to 4000; pluck in s on the fit's axis.
[[nodiscard]] Voice freshVoice(double hz, Cents range, double pluck);

/// A string that was heard alone, or of which a reading was kept.
[[nodiscard]] Voice knownVoice(const KnownString& known, double pluck);

/// The stretch of sound that a fit looks at, in s.
struct FitSpan {
    std::span<const double> samples; ///< full scale ±1
    SampleRate rate;
    double zero = 0.0;  ///< instant that becomes 0 on the fit's axis
    double start = 0.0; ///< on the fit's axis
    double stop = 0.0;
    double spacing =
        100.0; ///< Hz between neighbouring lines: no frame is shorter than four of its periods
};

/// How much a fit takes in. Partials above 5 kHz carry little on a harpsichord and are split widely.
struct FitPlan {
    double topHz = 5000.0;
    int mostPartials = 24;
    int mostFrames = 180;
};

inline constexpr std::size_t kAllBands = std::numeric_limits<std::size_t>::max();

/// Cuts the bands and sets the fit up; lines of the two strings that frames cannot part share a band.
[[nodiscard]] CombFit
makeFit(const FitSpan& span, const std::vector<Voice>& voices, const FitPlan& plan);

/// Index of a partial's line in a fit, if it is there.
[[nodiscard]] std::optional<std::size_t>
findLine(const CombFit& fit, std::size_t string, int number);

/// **Range** line is an index of the fit's lines.
[[nodiscard]] std::size_t bandOf(const CombFit& fit, std::size_t line);

/// What is known of the two polarisations of a line. Refers to `fit`, which outlives it; `known` may be null.
[[nodiscard]] PolarisedPartial
polarisedPartial(const CombFit& fit, std::size_t line, const KnownString* known);

/// centre − reach to centre + reach. **Range** step > 0.
[[nodiscard]] std::vector<double> gridAround(double centre, double reach, double step);

/// Values of the grid at its deepest local minima, deepest first. **Range** as many costs as values.
[[nodiscard]] std::vector<double>
deepest(const std::vector<double>& grid, const std::vector<double>& cost, std::size_t most);

} // namespace quillbench
