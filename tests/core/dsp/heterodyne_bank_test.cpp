#include "core/dsp/constants.hpp"
#include "core/dsp/heterodyne_bank.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace quillbench;

namespace {

constexpr double kRate = 16000.0;

/// Harmonics 1 to 10 of `hz`, amplitude 1/n, phase 0 at sample 0.
std::vector<double> harmonics(double hz, std::size_t count) {
    std::vector<double> samples(count);
    for (std::size_t i = 0; i < count; ++i) {
        for (int n = 1; n <= 10; ++n) {
            samples[i] += std::cos(kTwoPi * hz * n * static_cast<double>(i) / kRate) / n;
        }
    }
    return samples;
}

} // namespace

TEST_CASE("a partial at its reference keeps amplitude and phase, its neighbours vanish", "[dsp]") {
    // 16 kHz / 200 Hz = 80 samples a period; frames of four periods.
    const std::vector<double> sound = harmonics(200.0, 8000);
    HeterodyneBank bank(kRate, 400, 200);
    const std::vector<double> references{200.0, 600.0, 2000.0};
    bank.begin(0, 319, references); // 319 + 1 samples between the zeros of Hann's window
    bank.extend(sound);
    REQUIRE(bank.frames() > 50);
    for (std::size_t p = 0; p < references.size(); ++p) {
        const double n = references[p] / 200.0;
        for (const auto& frame : bank.track(p)) {
            CHECK(std::abs(frame) == Approx(1.0 / n).epsilon(1e-3));
            CHECK(std::abs(std::arg(frame)) < 1e-3);
        }
    }
}

TEST_CASE("a line beside the reference turns at its distance", "[dsp]") {
    const std::vector<double> sound = harmonics(200.5, 16000);
    HeterodyneBank bank(kRate, 400, 400);
    const std::vector<double> reference{200.0};
    bank.begin(100, 320, reference);
    bank.extend(sound);
    const auto track = bank.track(0);
    const std::size_t last = track.size() - 1;
    const double turned = std::arg(track[20] / track[0]) / kTwoPi;
    CHECK(turned / (bank.time(20) - bank.time(0)) == Approx(0.5).epsilon(0.01));
    CHECK(bank.time(last) < 1.0);
    CHECK(bank.time(0) == Approx((100 + 159.5) / kRate));
}

TEST_CASE("frames do not depend on when the sound was handed over", "[dsp]") {
    const std::vector<double> sound = harmonics(150.0, 6000);
    const std::vector<double> reference{150.0, 300.0};
    HeterodyneBank once(kRate, 500, 300);
    once.begin(10, 427, reference);
    once.extend(sound);
    HeterodyneBank often(kRate, 500, 300);
    often.begin(10, 427, reference);
    for (std::size_t end = 0; end <= sound.size(); end += 37) {
        often.extend({sound.data(), end});
    }
    often.extend(sound);
    REQUIRE(often.frames() == once.frames());
    for (std::size_t k = 0; k < once.frames(); ++k) {
        CHECK(often.track(1)[k] == once.track(1)[k]);
    }
}
