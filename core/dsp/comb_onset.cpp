#include "core/dsp/comb_onset.hpp"

#include "core/dsp/decimator.hpp"
#include "core/dsp/heterodyne_bank.hpp"
#include "core/dsp/stiff_comb.hpp"
#include "core/dsp/string_priors.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace quillbench {

namespace {

constexpr double kLongest = 600.0;     // seconds
constexpr int kMostOnsetPartials = 10; // higher ones may lie outside their band
constexpr double kHighestOnsetHz = 5500.0;
constexpr double kPeriods = 4.0;
constexpr double kShortestFrame = 0.016; // seconds
constexpr double kLongestFrame = 0.16;
constexpr double kBefore = 0.20; // seconds compared
constexpr double kAfter = 0.15;
constexpr double kMostRise = 3.0; // nepers of power that one partial may add
constexpr double kLeastRise = 0.3;

/// References of the partials that are listened to.
std::vector<double> referencesOf(const ListeningFor& what, SampleRate rate) {
    const StringPriors priors = stringPriors(what.target.value(), what.inharmonicity);
    const StiffComb comb{what.target.value() / std::sqrt(1.0 + priors.inharmonicity),
                         priors.inharmonicity};
    const int skip = what.alsoSounding > 1.5 ? static_cast<int>(std::lround(what.alsoSounding)) : 0;
    std::vector<double> references;
    for (int n = 1; n <= kMostOnsetPartials; ++n) {
        const double hz = comb.partial(n);
        if (hz < std::min(kHighestOnsetHz, 0.42 * rate.hz()) && (skip == 0 || n % skip != 0)) {
            references.push_back(hz);
        }
    }
    return references;
}

/// Mean over the partials of ln(power / its median over time), frame by frame.
std::vector<double> loudness(const HeterodyneBank& bank) {
    std::vector<double> sum(bank.frames(), 0.0);
    for (std::size_t p = 0; p < bank.partials(); ++p) {
        std::vector<double> logs;
        for (const auto& frame : bank.track(p)) {
            logs.push_back(std::log(std::norm(frame) + 1e-14));
        }
        std::vector<double> sorted = logs;
        const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2);
        std::nth_element(sorted.begin(), middle, sorted.end());
        for (std::size_t k = 0; k < logs.size(); ++k) {
            sum[k] += std::clamp(logs[k] - *middle, -kMostRise, kMostRise) /
                      static_cast<double>(bank.partials());
        }
    }
    return sum;
}

} // namespace

std::optional<FrameIndex> loudestRise(const ListeningFor& what,
                                      std::span<const float> samples,
                                      SampleRate rate,
                                      FrameIndex from) {
    const auto most = static_cast<std::size_t>(kLongest * rate.hz());
    samples = samples.first(std::min(samples.size(), most));
    Decimator decimator(rate);
    decimator.begin(0, 0);
    std::vector<double> sound;
    sound.reserve(samples.size() / static_cast<std::size_t>(decimator.factor()) + 8);
    decimator.push(samples, sound);
    const double rateHz = decimator.outputRateHz();
    const double seconds =
        std::clamp(kPeriods / what.target.value(), kShortestFrame, kLongestFrame);
    const auto length = static_cast<std::size_t>(seconds * rateHz);
    if (sound.size() < 4 * length) {
        return std::nullopt;
    }
    HeterodyneBank bank(rateHz, length + 8, 4 * sound.size() / length + 16);
    bank.begin(0, length, referencesOf(what, rate));
    bank.extend(sound);
    const std::vector<double> levels = loudness(bank);
    const auto before = static_cast<std::size_t>(kBefore / bank.hopSeconds()) + 1;
    const auto after = static_cast<std::size_t>(kAfter / bank.hopSeconds()) + 1;
    std::optional<FrameIndex> best;
    double bestRise = kLeastRise;
    for (std::size_t k = 2; k + after < levels.size(); ++k) {
        const FrameIndex at(static_cast<std::int64_t>(bank.time(k) * rate.hz()));
        if (at < from) {
            continue;
        }
        const std::size_t first = k > before ? k - before : 0;
        double rise = 0.0;
        for (std::size_t i = first; i < k; ++i) {
            rise -= levels[i] / static_cast<double>(k - first);
        }
        for (std::size_t i = k; i < k + after; ++i) {
            rise += levels[i] / static_cast<double>(after);
        }
        if (rise > bestRise) {
            bestRise = rise;
            best = at;
        }
    }
    return best;
}

} // namespace quillbench
