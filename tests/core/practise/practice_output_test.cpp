#include "core/practise/practice_output.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

using namespace quillbench;

namespace {

constexpr double kOutputRate = 48000.0;

std::vector<float> tone(double hz, double amplitude, double seconds) {
    std::vector<float> sound(static_cast<std::size_t>(seconds * kOutputRate));
    for (std::size_t i = 0; i < sound.size(); ++i) {
        sound[i] = static_cast<float>(amplitude * std::sin(2.0 * std::numbers::pi * hz *
                                                           static_cast<double>(i) / kOutputRate));
    }
    return sound;
}

double loudest(const std::vector<float>& sound, std::size_t from = 0) {
    float most = 0.0F;
    for (std::size_t i = from; i < sound.size(); ++i) {
        most = std::max(most, std::abs(sound[i]));
    }
    return static_cast<double>(most);
}

} // namespace

TEST_CASE("practice starts quiet", "[practise]") {
    PracticeOutput output{SampleRate(kOutputRate)};
    std::vector<float> sound = tone(440.0, 0.5, 0.2);
    output.process(sound);
    CHECK(loudest(sound) == Approx(0.5 * std::pow(10.0, kQuietStartDb / 20.0)).epsilon(0.01));
}

TEST_CASE("nothing leaves above the ceiling, however loud it is asked for", "[practise]") {
    PracticeOutput output{SampleRate(kOutputRate)};
    output.setLevel(60.0);
    std::vector<float> sound = tone(440.0, 1.0, 0.5);
    output.process(sound);
    CHECK(loudest(sound) <= kOutputCeiling);
}

TEST_CASE("a change of level does not click", "[practise]") {
    PracticeOutput output{SampleRate(kOutputRate)};
    std::vector<float> sound = tone(200.0, 0.1, 0.3);
    const std::size_t half = sound.size() / 2 + 17;
    output.process(std::span(sound).first(half));
    output.setLevel(kLoudestDb);
    output.hearOnly(Hertz(200.0));
    output.process(std::span(sound).subspan(half));
    // The steepest step of the tone itself at its loudest, twice that for the band's gain, and the ramp's own.
    const double steepest = 2.0 * std::numbers::pi * 200.0 / kOutputRate * 0.1;
    double worst = 0.0;
    for (std::size_t i = 1; i < sound.size(); ++i) {
        worst = std::max(
            worst, std::abs(static_cast<double>(sound[i]) - static_cast<double>(sound[i - 1])));
    }
    CHECK(worst < 2.0 * steepest + 0.2 / 960.0);
}

TEST_CASE("the partials that meet are heard alone, their neighbours hardly", "[practise]") {
    PracticeOutput output{SampleRate(kOutputRate)};
    output.setLevel(kLoudestDb);
    output.hearOnly(Hertz(660.0));
    std::vector<float> meeting = tone(660.0, 0.05, 0.5);
    output.process(meeting);
    // A fifth 220 : 330 Hz meets at 660; the nearest other partials lie at 440 and 880.
    std::vector<float> below = tone(440.0, 0.05, 0.5);
    output.process(below);
    std::vector<float> above = tone(880.0, 0.05, 0.5);
    output.process(above);
    const double inBand = loudest(meeting, 12000);
    CHECK(inBand == Approx(0.1).epsilon(0.02));
    CHECK(loudest(below, 12000) < 0.15 * inBand);
    CHECK(loudest(above, 12000) < 0.15 * inBand);
}

TEST_CASE("a sound of its own is played once, and fades where another takes its place",
          "[practise]") {
    PracticeOutput output{SampleRate(kOutputRate)};
    output.setLevel(kLoudestDb);
    std::vector<float> settle(4800, 0.0F);
    output.process(settle);
    output.addSound(std::vector<float>(3000, 0.1F));
    std::vector<float> first(1000, 0.0F);
    output.process(first);
    CHECK(first.back() == Approx(0.1F).epsilon(0.01));
    output.addSound({});
    std::vector<float> after(2000, 0.0F);
    output.process(after);
    CHECK(after.front() == Approx(0.1F).epsilon(0.01));
    CHECK(std::is_sorted(after.rbegin(), after.rend()));
    CHECK(after.back() == 0.0F);
    output.addSound(std::vector<float>(500, 0.1F));
    std::vector<float> whole(1000, 0.0F);
    output.process(whole);
    CHECK(std::count(whole.begin(), whole.end(), 0.0F) == 500);
}

TEST_CASE("what sounded before fades under what comes", "[practise]") {
    PracticeOutput output{SampleRate(kOutputRate)};
    output.setLevel(kLoudestDb);
    std::vector<float> settle(4800, 0.0F);
    output.process(settle);
    output.addTail(std::vector<float>(static_cast<std::size_t>(output.fade().value()), 0.1F));
    std::vector<float> silence(4800, 0.0F);
    output.process(silence);
    CHECK(silence.front() == Approx(0.1F).epsilon(0.01));
    CHECK(std::is_sorted(silence.rbegin(), silence.rend()));
    CHECK(silence.back() == Approx(0.0F));
}
