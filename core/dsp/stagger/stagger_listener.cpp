#include "core/dsp/stagger/stagger_listener.hpp"

#include "core/dsp/stagger/band_split.hpp"
#include "core/dsp/stagger/beginnings.hpp"
#include "core/dsp/stagger/pluck_enumeration.hpp"
#include "core/dsp/stagger/pluck_likelihood.hpp"
#include "core/dsp/stagger/resample.hpp"
#include "core/dsp/stagger/ring_whitener.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace quillbench {

namespace {

constexpr double kRate = 16000.0;
constexpr double kRingAfter = 0.15; // s after the loudest moment
constexpr double kRingFor = 0.6;
constexpr double kPeriods = 1.2; // of the key, that the whitening filter sees
constexpr double kLead = 0.002;
constexpr double kTemplateFor = 0.15;
constexpr double kReach = 0.45; // plucks lie within this of the loudest beginning
constexpr double kSilence = 1e-14;
constexpr std::array<double, 3> kEdges{1200.0, 3000.0, 7000.0};
constexpr std::size_t kKept = 60;

struct Prepared {
    std::vector<double> sound;
    std::vector<double> whitened;
    std::vector<std::vector<double>> bands;
};

double meanSquare(std::span<const double> sound) {
    double sum = 0.0;
    for (const double x : sound) {
        sum += x * x;
    }
    return sound.empty() ? 0.0 : sum / static_cast<double>(sound.size());
}

/// Where the sound is loudest, over 10 ms.
std::size_t loudestPlace(std::span<const double> sound) {
    const std::size_t step = 160;
    std::size_t best = 0;
    double most = -1.0;
    for (std::size_t i = 0; i + step <= sound.size(); i += step) {
        const double power = meanSquare(sound.subspan(i, step));
        if (power > most) {
            most = power;
            best = i;
        }
    }
    return best;
}

std::span<const double> ringOf(std::span<const double> sound) {
    const std::size_t from =
        std::min(sound.size(), loudestPlace(sound) + static_cast<std::size_t>(kRingAfter * kRate));
    const auto count = static_cast<std::size_t>(kRingFor * kRate);
    return sound.subspan(from, std::min(count, sound.size() - from));
}

SoloTemplate templateOf(const Prepared& solo, double period) {
    const double floor = quietestPower(solo.whitened, kRate, 0.05);
    const std::size_t pluck = firstStrongBeginning(solo.whitened, kRate, period, floor);
    const auto lead = std::min(pluck, static_cast<std::size_t>(kLead * kRate));
    const std::size_t from = pluck - lead;
    const std::size_t count =
        std::min(solo.whitened.size() - from, static_cast<std::size_t>(kTemplateFor * kRate));
    SoloTemplate out;
    out.lead = lead;
    const auto cut = [&](const std::vector<double>& wave, double noise) {
        std::vector<double> part(wave.begin() + static_cast<std::ptrdiff_t>(from),
                                 wave.begin() + static_cast<std::ptrdiff_t>(from + count));
        // Where noise is as loud as the pluck the solo tells nothing.
        const std::size_t half = 32;
        std::vector<double> sums(part.size() + 1, 0.0);
        for (std::size_t i = 0; i < part.size(); ++i) {
            sums[i + 1] = sums[i] + part[i] * part[i];
        }
        for (std::size_t i = 0; i < part.size(); ++i) {
            const std::size_t low = i > half ? i - half : 0;
            const std::size_t high = std::min(part.size(), i + half + 1);
            const double power = (sums[high] - sums[low]) / static_cast<double>(high - low);
            const double end = static_cast<double>(part.size() - i) /
                               (0.3 * static_cast<double>(part.size()));
            part[i] *= std::max(0.0, 1.0 - 1.3 * noise / (power + 1e-30)) * std::min(1.0, end);
        }
        return part;
    };
    out.wave.assign(count, 0.0);
    for (const std::vector<double>& band : solo.bands) {
        out.bands.push_back(cut(band, quietestPower(band, kRate, 0.05)));
        for (std::size_t i = 0; i < count; ++i) {
            out.wave[i] += out.bands.back()[i];
        }
    }
    return out;
}

void refine(PluckHypothesis& hypothesis, const PluckLikelihood& likelihood) {
    for (const int step : {8, 4, 2, 1}) {
        for (bool better = true; better;) {
            better = false;
            for (std::size_t i = 0; i < hypothesis.plucks.size(); ++i) {
                for (const int by : {-step, step}) {
                    PluckHypothesis trial = hypothesis;
                    trial.plucks[i].at = static_cast<std::size_t>(
                        std::max(0, static_cast<int>(trial.plucks[i].at) + by));
                    likelihood.judge(trial);
                    if (trial.score > hypothesis.score + 1e-9) {
                        hypothesis = trial;
                        better = true;
                    }
                }
            }
        }
    }
}

} // namespace

StaggerReading listenToStagger(std::span<const float> samples,
                               SampleRate rate,
                               const StaggerQuestion& question) {
    EXPECTS(!question.choirs.empty());
    EXPECTS(question.key.value() >= 15.0 && question.key.value() <= 4000.0);
    StaggerReading reading;
    Prepared mixed;
    mixed.sound = resample(samples, rate.hz(), kRate);
    const auto order = static_cast<std::size_t>(
        std::clamp(kPeriods * kRate / question.key.value(), 64.0, 600.0));
    std::vector<Prepared> solos;
    std::vector<std::span<const double>> rings{ringOf(mixed.sound)};
    for (const StaggeredChoir& choir : question.choirs) {
        if (choir.solo) {
            solos.push_back({resample(choir.solo->samples, choir.solo->rate.hz(), kRate), {}, {}});
        }
    }
    for (const Prepared& solo : solos) {
        rings.push_back(ringOf(solo.sound));
    }
    if (rings[0].size() <= order || meanSquare(rings[0]) < kSilence ||
        solos.size() < question.choirs.size()) {
        return reading;
    }
    const RingWhitener whitener(rings, order);
    const auto prepare = [&](Prepared& what) {
        what.whitened = whitener.apply(what.sound);
        what.bands = splitBands(what.whitened, kRate, kEdges);
    };
    prepare(mixed);
    std::vector<SoloTemplate> templates;
    const double period = 1.0 / question.key.value();
    for (std::size_t i = 0; i < solos.size(); ++i) {
        prepare(solos[i]);
        templates.push_back(templateOf(solos[i], period / question.choirs[i].ratio));
    }
    const double floor = quietestPower(mixed.whitened, kRate, 0.05);
    const std::size_t strong = firstStrongBeginning(mixed.whitened, kRate, period, floor);
    const auto reach = static_cast<std::size_t>(kReach * kRate);
    const std::size_t from = strong > reach ? strong - reach : 0;
    const std::size_t to = std::min(mixed.whitened.size(), strong + reach);
    std::vector<std::size_t> places;
    for (const Beginning& beginning :
         findBeginnings(mixed.whitened, kRate, from, to, floor, 4.0)) {
        places.push_back(beginning.at);
    }
    std::vector<PluckHypothesis> all =
        enumeratePlucks(mixed.whitened, templates, from, to, places, kKept);
    std::vector<PluckLikelihood::Band> bands;
    for (std::size_t b = 0; b < kEdges.size(); ++b) {
        bands.push_back({kEdges[b] - (b == 0 ? 0.0 : kEdges[b - 1]),
                         quietestPower(mixed.bands[b], kRate, 0.05)});
    }
    const std::size_t end = std::min(mixed.whitened.size(),
                                     to + static_cast<std::size_t>(kTemplateFor * kRate));
    const PluckLikelihood likelihood(mixed.bands, bands, templates, kRate, from, end);
    for (PluckHypothesis& hypothesis : all) {
        likelihood.judge(hypothesis);
    }
    const auto better = [](const PluckHypothesis& a, const PluckHypothesis& b) {
        return a.score > b.score;
    };
    std::sort(all.begin(), all.end(), better);
    const std::size_t closely = std::min<std::size_t>(all.size(), 8);
    for (std::size_t i = 0; i < closely; ++i) {
        refine(all[i], likelihood);
    }
    std::sort(all.begin(), all.end(), better);
    if (all.empty()) {
        return reading;
    }
    std::vector<SupposedPluck> plucks(all[0].plucks.begin(), all[0].plucks.end());
    std::sort(plucks.begin(), plucks.end(), [](const SupposedPluck& a, const SupposedPluck& b) {
        return a.at < b.at;
    });
    for (const SupposedPluck& pluck : plucks) {
        ChoirPluck heard;
        heard.at = Seconds(static_cast<double>(pluck.at) / kRate);
        heard.choir = pluck.choir;
        heard.confidence = 1.0;
        reading.plucks.tryPush(heard);
    }
    reading.countConfidence = 1.0;
    return reading;
}

} // namespace quillbench
