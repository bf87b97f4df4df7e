#include "core/dsp/pair_fit.hpp"

#include "core/dsp/band_frames.hpp"
#include "core/dsp/constants.hpp"
#include "core/dsp/string_priors.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

/// What was heard of a partial alone: as one damped line, or as two where its polarisations were heard out.
void know(CombLine& line, const KnownPartial& partial, const KnownString& string) {
    line.offsetPrior = partial.offsetHz;
    line.lnDecayPrior = std::log(partial.decay);
    line.lnDecayDeviation = 0.25;
    if (const auto& p = partial.polarisation) {
        const CombState comb{string.f0Hz, std::log(string.inharmonicity), 0.0, 0.0};
        line.offsetPrior = p->hz - comb.partial(partial.number);
        line.offsetDeviation = std::hypot(p->hzDeviation, 0.1 * kCent * p->hz);
        line.lnDecayPrior = p->lnDecay;
        line.lnDecayDeviation = std::hypot(p->lnDecayDeviation, 0.05);
        line.second = {p->splitHz, p->lnSlower, std::max(p->secondShare * 1.3, 0.05)};
    }
}

std::vector<CombLine> linesOf(const std::vector<Voice>& voices, double topHz, int mostPartials) {
    std::vector<CombLine> lines;
    for (std::size_t s = 0; s < voices.size(); ++s) {
        const Voice& voice = voices[s];
        const StringPriors priors = stringPriors(voice.state.f0, 0.0);
        for (int n = 1; n <= mostPartials; ++n) {
            const double hz = voice.state.partial(n);
            if (hz > topHz) {
                break;
            }
            CombLine line;
            line.string = s;
            line.number = n;
            line.offsetDeviation = std::hypot(0.02, hz * voice.offsetCents * kCent);
            line.lnDecayPrior = std::log(priors.decayRate * relativeDecay(n, hz));
            line.lnDecayDeviation = 0.6;
            if (voice.known != nullptr) {
                for (const KnownPartial& partial : voice.known->partials) {
                    if (partial.number == n) {
                        know(line, partial, *voice.known);
                    }
                }
            }
            line.offset = line.offsetPrior;
            line.lnDecay = line.lnDecayPrior;
            lines.push_back(line);
        }
    }
    return lines;
}

/// Lines closer than three half main lobes of the frames share a band.
std::vector<CombBand>
bandsOf(const std::vector<Voice>& voices, const std::vector<CombLine>& lines, double frame) {
    std::vector<std::size_t> order(lines.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        order[i] = i;
    }
    const auto hz = [&](std::size_t i) {
        return voices[lines[i].string].state.partial(lines[i].number) + lines[i].offsetPrior;
    };
    std::sort(
        order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return hz(a) < hz(b); });
    std::vector<CombBand> bands;
    for (const std::size_t index : order) {
        const bool joins = !bands.empty() && bands.back().lines.size() < 2 &&
                           hz(index) - hz(bands.back().lines.back()) < 2.5 / frame &&
                           lines[index].string != lines[bands.back().lines.back()].string;
        if (!joins) {
            bands.emplace_back();
        }
        bands.back().lines.push_back(index);
    }
    for (CombBand& band : bands) {
        double sum = 0.0;
        for (const std::size_t index : band.lines) {
            sum += hz(index);
        }
        band.centre = sum / static_cast<double>(band.lines.size());
    }
    return bands;
}

} // namespace

CombFit makeFit(const FitSpan& span, const std::vector<Voice>& voices, const FitPlan& plan) {
    const double top = std::min(plan.topHz, 0.45 * span.rate.hz());
    std::vector<CombLine> lines = linesOf(voices, top, plan.mostPartials);
    const double length = span.stop - span.start;
    const double frame = std::min(std::max(4.0 / span.spacing, 0.012), length / 2.5);
    const double hop = std::max(frame / 4.0, length / plan.mostFrames);
    std::vector<CombBand> bands = bandsOf(voices, lines, frame);
    std::vector<double> centres;
    centres.reserve(bands.size());
    for (const CombBand& band : bands) {
        centres.push_back(band.centre);
    }
    BandFrames frames = cutBandFrames(span.samples,
                                      span.rate,
                                      BandFramesPlan{Seconds(span.zero + span.start),
                                                     Seconds(span.zero + span.stop),
                                                     Seconds(frame),
                                                     Seconds(hop)},
                                      centres);
    std::vector<double> times;
    times.reserve(frames.times.size());
    for (const double t : frames.times) {
        times.push_back(t - span.zero);
    }
    for (std::size_t b = 0; b < bands.size(); ++b) {
        const auto& z = frames.envelopes[b];
        bands[b].envelope =
            Eigen::Map<const Eigen::VectorXcd>(z.data(), static_cast<Eigen::Index>(z.size()));
    }
    std::vector<CombState> states;
    std::vector<CombPrior> priors;
    for (const Voice& voice : voices) {
        states.push_back(voice.state);
        priors.push_back(voice.prior);
    }
    const double correlation = std::max(1.0, 2.67 * (frame / 4.0) / hop);
    return CombFit(std::move(times),
                   std::move(states),
                   std::move(priors),
                   std::move(lines),
                   std::move(bands),
                   correlation);
}

std::vector<double> gridAround(double centre, double reach, double step) {
    std::vector<double> grid;
    const auto steps = static_cast<int>(std::lround(2.0 * reach / step));
    for (int i = 0; i <= steps; ++i) {
        grid.push_back(centre - reach + i * step);
    }
    return grid;
}

std::vector<double>
deepest(const std::vector<double>& grid, const std::vector<double>& cost, std::size_t most) {
    std::vector<std::size_t> minima;
    for (std::size_t i = 0; i < grid.size(); ++i) {
        const bool left = i == 0 || cost[i] <= cost[i - 1];
        const bool right = i + 1 == grid.size() || cost[i] <= cost[i + 1];
        if (left && right) {
            minima.push_back(i);
        }
    }
    std::sort(minima.begin(), minima.end(), [&](std::size_t a, std::size_t b) {
        return cost[a] < cost[b];
    });
    std::vector<double> best;
    for (std::size_t i = 0; i < std::min(most, minima.size()); ++i) {
        best.push_back(grid[minima[i]]);
    }
    return best;
}

Voice freshVoice(double hz, Cents range, double pluck) {
    Voice voice;
    const StringPriors priors = stringPriors(hz, 0.0);
    voice.state.lnB = std::log(priors.inharmonicity);
    voice.state.f0 = hz / std::sqrt(1.0 + std::exp(voice.state.lnB));
    voice.state.glide = 0.8 * kCent;
    voice.state.pluck = pluck;
    voice.prior.f0 = voice.state.f0;
    voice.prior.f0Deviation = 2.0 * range.value() * kCent * hz;
    voice.prior.lnB = voice.state.lnB;
    voice.prior.lnBDeviation = 1.2 * priors.inharmonicityLnSd;
    voice.prior.glide = 0.9 * kCent;
    voice.prior.glideDeviation = 0.9 * kCent;
    return voice;
}

Voice knownVoice(const KnownString& known, double pluck) {
    Voice voice;
    voice.state.f0 = known.f0Hz;
    voice.state.lnB = std::log(known.inharmonicity);
    voice.state.glide = known.glide;
    voice.state.pluck = pluck;
    voice.prior.f0 = known.f0Hz;
    voice.prior.f0Deviation = std::hypot(known.deviation.value(), 0.25) * kCent * known.f0Hz;
    voice.prior.lnB = voice.state.lnB;
    voice.prior.lnBDeviation = known.partials.empty() ? 0.5 : 0.1;
    voice.prior.glide = known.glide;
    voice.prior.glideDeviation = 0.5 * kCent;
    voice.offsetCents = known.partials.empty() ? 0.3 : 0.25;
    voice.known = &known;
    return voice;
}

std::optional<std::size_t> findLine(const CombFit& fit, std::size_t string, int number) {
    for (std::size_t i = 0; i < fit.lines().size(); ++i) {
        if (fit.lines()[i].string == string && fit.lines()[i].number == number) {
            return i;
        }
    }
    return std::nullopt;
}

std::size_t bandOf(const CombFit& fit, std::size_t line) {
    const auto holds = [line](const CombBand& band) {
        return std::find(band.lines.begin(), band.lines.end(), line) != band.lines.end();
    };
    const auto found = std::find_if(fit.bands().begin(), fit.bands().end(), holds);
    return static_cast<std::size_t>(found - fit.bands().begin());
}

PolarisedPartial polarisedPartial(const CombFit& fit, std::size_t index, const KnownString* known) {
    const CombLine& line = fit.lines()[index];
    const CombState& string = fit.strings()[line.string];
    PolarisedPartial partial;
    partial.hz = string.partial(line.number) + line.offsetPrior;
    partial.hzDeviation = line.offsetDeviation;
    partial.lnDecay = line.lnDecay;
    partial.splitDeviation = std::hypot(0.02, 0.8 * kCent * partial.hz);
    partial.pluck = string.pluck;
    partial.warp = [&fit, s = line.string, g = string.glide](double t) {
        return t + g * fit.glidePhase(s, t);
    };
    if (known == nullptr) {
        return partial;
    }
    for (const KnownPartial& heard : known->partials) {
        if (heard.number == line.number && heard.polarisation) {
            const KnownPolarisation& p = *heard.polarisation;
            // The string may have moved a little since; its polarisations moved with it.
            partial.hz = p.hz + string.partial(line.number) -
                         CombState{known->f0Hz, std::log(known->inharmonicity), 0.0, 0.0}.partial(
                             line.number);
            partial.hzDeviation = std::hypot(p.hzDeviation, 0.1 * kCent * partial.hz);
            partial.lnDecay = p.lnDecay;
            partial.lnDecayDeviation = std::hypot(p.lnDecayDeviation, 0.05);
            partial.splitHz = p.splitHz;
            partial.splitDeviation = std::hypot(p.splitDeviation, 0.01);
            partial.lnSlower = p.lnSlower;
            partial.lnSlowerDeviation = std::hypot(p.lnSlowerDeviation, 0.05);
            partial.secondShare = std::max(p.secondShare * 1.3, 0.05);
            partial.splitKnown = true;
        }
    }
    return partial;
}

} // namespace quillbench
