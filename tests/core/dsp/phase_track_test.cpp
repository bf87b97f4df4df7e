#include "core/dsp/phase_track.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <vector>

using namespace quillbench;

namespace {

constexpr double kFrameRate = 16000.0;
constexpr double kTurn = 2.0 * std::numbers::pi;
constexpr std::size_t kFrame = 191; // 12 ms

/// Mean frequency over a track, against its reference.
double offsetOf(const PhaseTrack& track) {
    const PhasePoint& first = track.points[0];
    const PhasePoint& last = track.points[track.points.size() - 1];
    return (last.phase - first.phase) / (last.t - first.t) / kTurn;
}

PhaseTrack followed(const std::vector<double>& sound, double reference) {
    HeterodyneBank bank(kFrameRate, 400, 800);
    const std::vector<double> references{reference};
    bank.begin(0, kFrame, references);
    bank.extend(sound);
    return followPhase(bank, 0, 1, 0.0, 0.0);
}

} // namespace

TEST_CASE("a reference many hertz off costs no turn between points", "[dsp]") {
    const double off =
        GENERATE(-17.0, -13.0, -3.0, 8.0, 14.0, 18.0); // 12.5 Hz: half a turn a point
    std::vector<double> sound(16000);
    for (std::size_t i = 0; i < sound.size(); ++i) {
        sound[i] = std::cos(kTurn * (3000.0 + off) * static_cast<double>(i) / kFrameRate);
    }
    CHECK(offsetOf(followed(sound, 3000.0)) == Approx(off).margin(0.02));
}

TEST_CASE("through the minima of its beat a partial keeps the frequency of its louder half",
          "[dsp]") {
    // Two directions of motion, 6 Hz apart, the second 1 dB softer: the phase leaps at every minimum, always
    // the same way, so that on average it goes with the louder one.
    std::vector<double> sound(32000);
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const double t = static_cast<double>(i) / kFrameRate;
        sound[i] = std::cos(kTurn * 5000.0 * t) + 0.89 * std::cos(kTurn * 5006.0 * t + 1.0);
    }
    CHECK(offsetOf(followed(sound, 5003.0)) == Approx(-3.0).margin(0.3));
}
