#include "core/dsp/stagger/solo_template.hpp"

#include "core/dsp/constants.hpp"
#include "core/dsp/stagger/beginnings.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

constexpr double kLead = 0.002;
constexpr double kNoiseOver = 0.05; // s of quiet that tell the noise
constexpr double kLocal = 0.004;    // s over which pluck and noise are compared
// Two plucks of one string differ in pitch by this much while they are loud (3 cents: a few decibels of strength).
constexpr double kGlides = 0.0017;
constexpr double kLeastAlike = 0.15;
constexpr double kFade = 0.3; // of the template's length, at its end

/// The part from `from` on, each moment kept as far as it stands above the noise (Wiener's gain).
std::vector<double> cut(const std::vector<double>& wave,
                        std::size_t from,
                        std::size_t count,
                        double noise,
                        std::size_t half) {
    std::vector<double> part(wave.begin() + static_cast<std::ptrdiff_t>(from),
                             wave.begin() + static_cast<std::ptrdiff_t>(from + count));
    std::vector<double> sums(count + 1, 0.0);
    for (std::size_t i = 0; i < count; ++i) {
        sums[i + 1] = sums[i] + part[i] * part[i];
    }
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t low = i > half ? i - half : 0;
        const std::size_t high = std::min(count, i + half + 1);
        const double power = (sums[high] - sums[low]) / static_cast<double>(high - low);
        const double toEnd = static_cast<double>(count - i) / (kFade * static_cast<double>(count));
        part[i] *= std::max(0.0, 1.0 - 1.3 * noise / (power + 1e-30)) * std::min(1.0, toEnd);
    }
    return part;
}

} // namespace

SoloTemplate cutTemplate(const FilteredSound& solo,
                         std::span<const double> edgesHz,
                         double rateHz,
                         std::size_t pluck) {
    SoloTemplate out;
    out.at = pluck;
    out.lead = std::min(pluck, static_cast<std::size_t>(kLead * rateHz));
    const std::size_t from = pluck - out.lead;
    const std::size_t count = std::min(
        solo.whole.size() - from, out.lead + static_cast<std::size_t>(kTemplateSeconds * rateHz));
    const auto half = static_cast<std::size_t>(kLocal / 2.0 * rateHz);
    out.wave.assign(count, 0.0);
    for (std::size_t b = 0; b < solo.bands.size(); ++b) {
        const std::vector<double>& band = solo.bands[b];
        std::vector<double> wave =
            cut(band, from, count, quietestPower(band, rateHz, kNoiseOver), half);
        std::vector<double>& drift = out.drift.emplace_back(count, 0.0);
        const double middleHz = 0.5 * (edgesHz[b] + (b == 0 ? 0.0 : edgesHz[b - 1]));
        for (std::size_t i = out.lead; i < count; ++i) {
            const double turned =
                kTwoPi * middleHz * kGlides * static_cast<double>(i - out.lead) / rateHz;
            const double alike = std::max(kLeastAlike, std::exp(-0.5 * turned * turned));
            wave[i] *= alike;
            drift[i] = 1.0 / (alike * alike) - 1.0;
        }
        for (std::size_t i = 0; i < count; ++i) {
            out.wave[i] += wave[i];
        }
        out.bands.push_back(std::move(wave));
    }
    return out;
}

} // namespace quillbench
