#include "core/dsp/string_verdict.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kDoubtful = 3.0; // cents: nearly all partials have to fit
constexpr int kJudgedPartials = 12;
constexpr double kOnComb = 10.0; // cents, and 0.3 Hz
constexpr double kLogOfCent = std::numbers::ln2 / 1200.0;

/// Frequency of a partial in Hz, most where it is loudest.
double whereLoud(const PhaseTrack& track) {
    double s0 = 0.0;
    double st = 0.0;
    double stt = 0.0;
    double sy = 0.0;
    double sty = 0.0;
    for (const PhasePoint& point : track.points) {
        const double w = 1.0 / point.variance;
        s0 += w;
        st += w * point.t;
        stt += w * point.t * point.t;
        sy += w * point.phase;
        sty += w * point.t * point.phase;
    }
    const double lever = stt - st * st / s0;
    return track.referenceHz + (sty - st * sy / s0) / lever / (2.0 * std::numbers::pi);
}

} // namespace

void decaysOf(std::span<const PhaseTrack> tracks,
              const StringPriors& priors,
              std::span<PartialDecay> decays) {
    EXPECTS(decays.size() >= tracks.size());
    double ratio = 1.0;
    for (const int pass : {0, 1}) {
        double logs = 0.0;
        double weights = 0.0;
        for (std::size_t i = 0; i < tracks.size(); ++i) {
            decays[i] = EnergyModel::decayOf(tracks[i], priors, ratio);
            const double expected =
                priors.decayRate * relativeDecay(tracks[i].n, tracks[i].referenceHz) * ratio;
            const double heard = tracks[i].points[tracks[i].points.size() - 1].t;
            const double weight = heard * expected;
            logs += weight * std::log(decays[i].rate / expected);
            weights += weight;
        }
        if (pass == 0) {
            ratio = std::exp(logs / (weights + 0.5));
        }
    }
}

PartialReading partialOf(const PhaseTrack& track,
                         const PartialDecay& decay,
                         const MeanPartial& mean,
                         double trust) {
    PartialReading reading;
    reading.number = track.n;
    reading.frequency = Hertz(mean.hz);
    reading.frequencyUncertainty = mean.hz * mean.sdCents * kLogOfCent;
    reading.level = Decibel::fromPower(decay.power);
    reading.decay60 = Seconds(6.907755 / decay.rate);
    reading.used = trust > 0.2;
    return reading;
}

bool isOneString(std::span<const PhaseTrack> tracks, const SustainFit& fit, int skipMultiples) {
    const StiffComb& comb = fit.comb;
    std::array<bool, kJudgedPartials + 1> heard{};
    std::array<bool, kJudgedPartials + 1> fits{};
    int last = 0;
    for (const PhaseTrack& track : tracks) {
        if (track.n > kJudgedPartials) {
            break;
        }
        const double hz = whereLoud(track);
        const double off = std::abs(std::log(hz / comb.partial(track.n))) / kLogOfCent;
        const auto n = static_cast<std::size_t>(track.n);
        heard[n] = true;
        fits[n] = off < kOnComb + 0.3 / (hz * kLogOfCent);
        last = track.n;
    }
    const auto onComb = static_cast<double>(std::count(fits.begin(), fits.end(), true));
    const auto audible = static_cast<double>(std::count(heard.begin(), heard.end(), true));
    if (onComb < (fit.pitchSdCents < kDoubtful ? 0.4 : 0.8) * audible) {
        return false;
    }
    for (const int k : {2, 3}) {
        std::array<int, 2> all{}; // others, multiples of k
        std::array<int, 2> good{};
        for (int n = 1; n <= last; ++n) {
            if (skipMultiples == 0 || n % skipMultiples != 0) {
                const std::size_t which = n % k == 0 ? 1 : 0;
                ++all[which];
                good[which] += fits[static_cast<std::size_t>(n)] ? 1 : 0;
            }
        }
        if (all[1] >= 2 && all[0] >= 3 && good[1] > 0.6 * all[1] && good[0] < 0.25 * all[0]) {
            return false;
        }
    }
    return true;
}

} // namespace quillbench
