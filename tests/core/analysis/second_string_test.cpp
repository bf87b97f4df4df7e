#include "core/analysis/second_string.hpp"
#include "core/dsp/string_listener.hpp"
#include "tests/support/string_trials.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;
using namespace quillbench::trials;

namespace {

const SampleRate kSecondStringRate(48000.0);
constexpr std::size_t kPluck = 24000;

/// A string and, if `multiple` is not 0, another one near its unison or octave: as stiff as a choir has it,
/// within a tenth.
struct Pair {
    std::vector<float> sound = std::vector<float>(kPluck + 52800);
    StringReading reading;

    Pair(std::uint64_t seed,
         double hz,
         int multiple,
         double cents,
         double levelDb,
         bool onlyNoise = false) {
        Random random(seed);
        SyntheticString first = drawString(random, hz);
        if (!onlyNoise) {
            SyntheticPluck(first).addTo(
                sound, kSecondStringRate, kPluck, Decibel::fromAmplitude(0.1));
        }
        if (multiple > 0) {
            const double other = hz * multiple * std::exp2(cents / 1200.0);
            SyntheticString second = drawString(random, other);
            second.inharmonicity =
                first.inharmonicity * std::pow(multiple, 1.5) * std::exp(0.1 * random.normal());
            second.flexible = Hertz(other / std::sqrt(1.0 + second.inharmonicity));
            SyntheticPluck(second).addTo(
                sound,
                kSecondStringRate,
                kPluck + 400.0,
                Decibel::fromAmplitude(0.1 * std::pow(10.0, levelDb / 20.0)));
        }
        addNoise(sound, random, Decibel::fromAmplitude(4e-4), true);
        StringListener listener(kSecondStringRate);
        ListeningFor what;
        what.target = Hertz(hz);
        listener.begin(what, FrameIndex(kPluck));
        listener.push({FrameIndex(0), std::span<const float>(sound).first(kPluck + 48000), false});
        reading = listener.reading();
    }

    [[nodiscard]] std::optional<SecondString> second() const {
        SecondStringFinder finder(kSecondStringRate);
        return finder.find(std::span<const float>(sound).subspan(kPluck), reading);
    }
};

} // namespace

TEST_CASE("a single string is not taken for two", "[analysis]") {
    for (std::uint64_t seed = 0; seed < 8; ++seed) {
        const Pair single(seed, 45.0 * std::exp2(static_cast<double>(seed) / 1.6), 0, 0.0, 0.0);
        REQUIRE(single.reading.standing != Standing::Nothing);
        const auto second = single.second();
        INFO("seed " << seed << ", evidence " << (second ? second->evidence : 0.0));
        CHECK(!second);
    }
}

TEST_CASE("a second string is found and its distance given", "[analysis]") {
    const int multiple = GENERATE(1, 2);
    int found = 0;
    int placed = 0;
    for (std::uint64_t seed = 0; seed < 12; ++seed) {
        const double away = 8.0 + 3.0 * static_cast<double>(seed);
        const double cents = seed % 2 == 0 ? away : -away;
        const double hz = 60.0 * std::exp2(static_cast<double>(seed) / 4.0);
        const Pair pair(100 + seed, hz, multiple, cents, -5.0);
        const auto second = pair.second();
        if (second) {
            ++found;
            CHECK(second->levelDb > -20.0);
            // With two strings of one pitch the reading may be of the other one.
            placed += std::abs(std::abs(second->offset.value()) - away) < 4.0 ? 1 : 0;
        }
    }
    INFO("multiple " << multiple << ": found " << found << ", placed " << placed);
    // Above an octave string's own even partials there is little room to be seen.
    CHECK(found >= (multiple == 1 ? 9 : 5));
    CHECK(placed >= found - 2);
}

TEST_CASE("noise beside a reading is no second string", "[analysis]") {
    Pair quiet(7, 220.0, 0, 0.0, 0.0, true);
    quiet.reading.fundamental = Hertz(220.0);
    quiet.reading.inharmonicity = 5e-5;
    CHECK(!quiet.second());
    std::fill(quiet.sound.begin(), quiet.sound.end(), 0.0F);
    CHECK(!quiet.second());
    std::fill(quiet.sound.begin(), quiet.sound.end(), 0.4F);
    CHECK(!quiet.second());
}
