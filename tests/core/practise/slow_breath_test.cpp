#include "core/practise/slow_breath.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace quillbench;

namespace {

constexpr SampleRate kSlowRate{48000.0};

/// Loudness about an instant of a sound.
double slowRmsAt(const std::vector<float>& sound, double at) {
    const auto middle = static_cast<std::size_t>(at * kSlowRate.hz());
    double sum = 0.0;
    for (std::size_t i = middle - 960; i < middle + 960; ++i) {
        sum += static_cast<double>(sound[i]) * static_cast<double>(sound[i]);
    }
    return std::sqrt(sum / 1920.0);
}

} // namespace

TEST_CASE("a breath played at a third of its speed swells a third as often", "[practise]") {
    Breath breath;
    breath.hop = Seconds(0.02);
    for (int i = 0; i < 200; ++i) { // four seconds of two beats a second
        const double swell = 0.55 + 0.45 * std::cos(2.0 * std::numbers::pi * 2.0 * 0.02 * i);
        REQUIRE(breath.level.tryPush(static_cast<float>(20.0 * std::log10(swell) - 30.0)));
    }
    const auto sound = slowBreath(breath, Hertz(440.0), 1.0 / 3.0, kSlowRate);
    CHECK(static_cast<double>(sound.size()) == Approx(3.0 * 199 * 0.02 * 48000.0).margin(2.0));
    for (const double crest : {1.5, 3.0, 4.5, 9.0}) {
        // A tenth of full scale at the loudest; a sine's mean square is half of it.
        CHECK(slowRmsAt(sound, crest) == Approx(0.1 / std::numbers::sqrt2).epsilon(0.03));
        CHECK(slowRmsAt(sound, crest + 0.75) < 0.15 * slowRmsAt(sound, crest));
    }
    double steepest = 0.0;
    for (std::size_t i = 1; i < sound.size(); ++i) {
        steepest = std::max(
            steepest, std::abs(static_cast<double>(sound[i]) - static_cast<double>(sound[i - 1])));
    }
    // Of the tone itself, and a hundredth for its swelling: no click.
    CHECK(steepest < 1.01 * 0.1 * 2.0 * std::numbers::pi * 440.0 / 48000.0);
    CHECK(sound.front() == 0.0F);
    CHECK(std::abs(sound.back()) < 1e-6F);
}

TEST_CASE("nothing sounds of a breath that was not heard", "[practise]") {
    CHECK(slowBreath(Breath(), Hertz(440.0), 0.5, kSlowRate).empty());
}
