#include "core/practise/practice_pair.hpp"
#include "tests/core/practise/practised_strings.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

using namespace quillbench;
using namespace quillbench::test;

namespace {

std::optional<Exercise> drawn(ExerciseWish wish, double level, std::uint64_t seed) {
    return drawExercise(practised(), wish, level, tempered, seed);
}

/// The loudest that a partial is within a stretch of a sound: discrete Fourier sums over 50 ms each.
double loudest(std::span<const float> sound, double rateHz, double hz) {
    const auto piece = static_cast<std::size_t>(0.05 * rateHz);
    double most = 0.0;
    for (std::size_t begin = 0; begin + piece <= sound.size(); begin += piece) {
        std::complex<double> sum;
        for (std::size_t i = 0; i < piece; ++i) {
            sum += static_cast<double>(sound[begin + i]) *
                   std::polar(1.0, -2.0 * std::numbers::pi * hz * static_cast<double>(i) / rateHz);
        }
        most = std::max(most, std::abs(sum));
    }
    return most;
}

} // namespace

TEST_CASE("one beat and a half is heard before the strings have died away", "[practise]") {
    constexpr double kRateHz = 48'000.0;
    constexpr double kSlow = 0.35; // beats a second: too slow for a treble string
    const auto where = GENERATE(EarRegister::Tenor, EarRegister::Middle, EarRegister::Treble);
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        const auto exercise =
            drawn({ExerciseKind::Count, PracticeInterval::Unison, where}, kSlow, seed);
        REQUIRE(exercise);
        CHECK(exercise->level >= kSlow);
        CHECK(std::abs(exercise->beat.perSecond()) * exercise->multiple ==
              Approx(exercise->level).epsilon(1e-9));
        const PracticePair pair = pairOf(practised(), *exercise, tempered, SampleRate(kRateHz));
        const double beat = 1.0 / exercise->level;
        const std::vector<float> sound = soundOf(pair, kPluckAfter + Seconds(1.5 * beat));
        const double hz =
            pair.settings.pitches[pair.lower.choir][pair.lower.course].value() * exercise->multiple;
        const std::span all(sound);
        const auto period = static_cast<std::size_t>(0.5 * beat * kRateHz);
        const double first = loudest(all.first(period), kRateHz, hz);
        const double last = loudest(all.last(period), kRateHz, hz);
        INFO("seed " << seed << ", " << exercise->level << " beats a second");
        CHECK(20.0 * std::log10(last / first) > -45.0);
    }
}

TEST_CASE("where strings sing long enough the beat is as slow as was wished", "[practise]") {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const auto low =
            drawn({ExerciseKind::Count, PracticeInterval::Fifth, EarRegister::Bass}, 0.8, seed);
        REQUIRE(low);
        CHECK(low->level == 0.8);
        // Of all keys those are taken that can.
        const auto any = drawn({ExerciseKind::Count, PracticeInterval::Unison, {}}, 0.8, seed);
        REQUIRE(any);
        CHECK(any->level == 0.8);
    }
}
