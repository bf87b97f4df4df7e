#include "core/dsp/stagger/resample.hpp"
#include "core/dsp/stagger/ring_whitener.hpp"
#include "core/dsp/stagger/solo_pluck.hpp"
#include "core/dsp/synthetic_pluck.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <vector>

using namespace quillbench;
using namespace quillbench::literals;

namespace {

constexpr SampleRate kSoloRate(48000.0);
constexpr double kSoloAt = 0.42;

/// A solo whose plectrum touches the string before it plucks, in noise.
std::vector<double> touchedSolo(double hz, double touchBefore, double noise, double workingRate) {
    SyntheticString string;
    string.flexible = Hertz(hz);
    string.inharmonicity = 3e-5;
    string.pluckPoint = 0.14;
    string.seed = 7;
    Random random(3);
    std::vector<float> sound(static_cast<std::size_t>(1.4 * kSoloRate.hz()));
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const double after = static_cast<double>(i) / kSoloRate.hz() - (kSoloAt - touchBefore);
        const double touch = after >= 0.0 ? 0.01 * std::exp(-after / 0.003) : 0.0;
        sound[i] = static_cast<float>(std::hypot(noise, touch) * random.normal());
    }
    SyntheticPluck(string).addTo(sound, kSoloRate, kSoloAt * kSoloRate.hz(), -20.0_dB);
    return resample(sound, kSoloRate.hz(), workingRate);
}

} // namespace

TEST_CASE("the pluck of a solo is not the plectrum's touch before it, nor a later turn of the wave",
          "[dsp]") {
    constexpr double kWorkingRate = 16000.0;
    const double hz = GENERATE(46.0, 62.0, 131.0, 330.0, 988.0);
    const double before = GENERATE(0.011, 0.019, 0.028);
    const double noise = GENERATE(1e-4, 5e-3);
    INFO(hz << " Hz, touched " << before << " s before, noise " << noise);
    const std::vector<double> solo = touchedSolo(hz, before, noise, kWorkingRate);
    const std::span<const double> ring = std::span(solo).subspan(9600, 9600);
    const std::array<std::span<const double>, 1> rings{ring};
    const auto order = static_cast<std::size_t>(std::clamp(1.2 * kWorkingRate / hz, 64.0, 600.0));
    const std::vector<double> whitened = RingWhitener(rings, order).apply(solo);
    const std::size_t found = pluckOfSolo(solo, whitened, ring, kWorkingRate, 1.0 / hz);
    CHECK(static_cast<double>(found) / kWorkingRate == Approx(kSoloAt).margin(0.003));
}
