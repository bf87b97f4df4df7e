#include "core/dsp/known_string.hpp"

#include "core/dsp/constants.hpp"
#include "core/dsp/pair_fit.hpp"
#include "core/dsp/string_priors.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

/// A string's mean frequency is taken over this stretch after its pluck, in s.

/// The string as the fit found it, its partials without their polarisations.
KnownString knownFrom(const CombFit& fit) {
    KnownString known;
    const CombState& state = fit.strings()[0];
    known.f0Hz = state.f0;
    known.inharmonicity = std::exp(state.lnB);
    known.glide = state.glide;
    const auto sustain = fit.sustainPitch(0, kSustainFrom, kSustainTo);
    known.sustain = Hertz(sustain.value);
    known.deviation = Cents(sustain.deviation / sustain.value / kCent);
    for (const CombLine& line : fit.lines()) {
        known.partials.push_back(KnownPartial{line.number,
                                              line.offset,
                                              std::exp(line.lnDecay),
                                              std::abs(line.amplitude),
                                              std::nullopt});
    }
    return known;
}

KnownPolarisation polarisationOf(const CombFit& fit, std::size_t line) {
    const CombBand& band = fit.bands()[bandOf(fit, line)];
    PolarisedBandPlan plan;
    plan.frameCorrelation = fit.frameCorrelation();
    plan.centre = band.centre;
    const auto heard =
        fitPolarisedBand(fit.times(), band.envelope, {polarisedPartial(fit, line, nullptr)}, plan);
    const PolarisedPartial& p = heard.best.front();
    return {p.hz,
            p.hzDeviation,
            p.lnDecay,
            p.lnDecayDeviation,
            p.splitHz,
            p.splitDeviation,
            p.lnSlower,
            p.lnSlowerDeviation,
            p.secondShare,
            heard.meanHz.front(),
            std::sqrt(std::max(heard.covariance(0, 0), 0.0)),
            heard.fragility.front()};
}

} // namespace

std::optional<KnownString> hearAlone(std::span<const double> samples,
                                     SampleRate rate,
                                     Seconds pluck,
                                     Seconds stop,
                                     Hertz target,
                                     Cents range,
                                     std::span<const int> closely) {
    const FitSpan span{samples,
                       rate,
                       pluck.count(),
                       0.05,
                       std::min((stop - pluck).count(), kSustainTo),
                       target.value()};
    if (span.stop - span.start < 0.15) {
        return std::nullopt;
    }
    Voice voice = freshVoice(target.value(), range, 0.0);
    // Coarse: few partials, so that the whole range stays inside their bands.
    CombFit coarse = makeFit(span, {voice}, FitPlan{FitPlan{}.topHz, 8, 120});
    const double reach = voice.state.f0 * (std::exp(range.value() * kCent) - 1.0);
    const double step = std::min(0.25 / (span.stop - span.start) / 6.0, reach / 20.0);
    const auto grid = gridAround(voice.state.f0, reach, step);
    std::optional<KnownString> result;
    double lowest = 0.0;
    for (const double f0 : deepest(grid, coarse.scan(0, grid, 8), 2)) {
        voice.state.f0 = f0;
        CombFit fit = makeFit(span, {voice}, FitPlan{FitPlan{}.topHz, 10, 120});
        fit.refine(8, kAllBands);
        Voice finer = voice;
        finer.state = fit.strings()[0];
        CombFit full = makeFit(span, {finer}, FitPlan{6000.0, 32, 200});
        const double cost = full.refine(12, kAllBands);
        if (result && cost >= lowest) {
            continue;
        }
        lowest = cost;
        result = knownFrom(full);
        for (const int number : closely) {
            if (const auto line = findLine(full, 0, number)) {
                result->partials[*line].polarisation = polarisationOf(full, *line);
            }
        }
    }
    return result;
}

std::array<int, 6> meetingOnes(int partial) {
    EXPECTS(partial >= 1);
    std::array<int, 6> partials{};
    for (std::size_t i = 0; i < partials.size(); ++i) {
        partials[i] = static_cast<int>(i + 1) * partial;
    }
    return partials;
}

KnownString keptString(Hertz sustain, Cents deviation) {
    const StringPriors priors = stringPriors(sustain.value(), 0.0);
    KnownString known;
    known.inharmonicity = priors.inharmonicity;
    known.f0Hz = sustain.value() / std::sqrt(1.0 + priors.inharmonicity);
    known.glide = priors.glideCents * kCent;
    known.sustain = sustain;
    known.deviation = deviation;
    return known;
}

} // namespace quillbench
