#include "core/dsp/constants.hpp"
#include "core/dsp/definition_time.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using namespace quillbench;

namespace {

constexpr double kPointEvery = 0.04;

template <typename Power>
PhaseTrack trackOf(const Power& power, double heard) {
    PhaseTrack track;
    double t = 0.02;
    while (t < heard) {
        PhasePoint point;
        point.t = t;
        point.power = power(t);
        (void)track.points.tryPush(point);
        t += kPointEvery;
    }
    return track;
}

double endOfOne(const PhaseTrack& track, const PartialDecay& decay) {
    std::array<double, 1> end{};
    definitionEnds({&track, 1}, {&decay, 1}, end);
    return end[0];
}

/// As the definition says, on a grid forty times finer: the first instant whose mean over 0.1 s has fallen 40 dB.
template <typename Power>
double slowEnd(const Power& power) {
    const auto mean = [&](double from) {
        double sum = 0.0;
        for (int i = 0; i < 100; ++i) {
            sum += power(from + 0.001 * i);
        }
        return sum / 100.0;
    };
    const double first = mean(kSustainFrom);
    int k = 0;
    while (mean(kSustainFrom + 0.001 * k) > 1e-4 * first && kSustainFrom + 0.001 * k < kSustainTo) {
        ++k;
    }
    return kSustainFrom + 0.001 * k;
}

PartialDecay decayOf(double rate) {
    PartialDecay decay;
    decay.power = 1.0;
    decay.rate = rate;
    decay.late = rate;
    return decay;
}

} // namespace

TEST_CASE("a partial's time ends where its power has fallen 40 dB, not where a line says",
          "[dsp]") {
    // Two stages: a straight line through the levels would end it elsewhere.
    const double slow = GENERATE(1.0, 2.0, 3.0);
    const auto power = [&](double t) {
        return std::exp(-16.0 * t) + 0.003 * std::exp(-2.0 * slow * t);
    };
    const PhaseTrack track = trackOf(power, 2.6);
    CHECK(endOfOne(track, decayOf(4.0)) == Approx(slowEnd(power)).margin(1.5 * kPointEvery));
}

TEST_CASE("a passing null of two polarisations does not end a partial", "[dsp]") {
    const auto power = [](double t) { return std::exp(-2.0 * t) * (1.0 + std::cos(12.0 * t)); };
    CHECK(endOfOne(trackOf(power, 2.6), decayOf(1.0)) == Approx(kSustainTo));
}

TEST_CASE("what was not heard is foretold by the late decay", "[dsp]") {
    const auto power = [](double t) { return std::exp(-8.0 * t); };
    // exp(−8·t) falls 40 dB in ln(10⁴)/8 seconds.
    const double end = kSustainFrom + std::log(1e4) / 8.0;
    CHECK(endOfOne(trackOf(power, 0.5), decayOf(4.0)) == Approx(end).margin(kPointEvery));
    CHECK(endOfOne(trackOf(power, 0.09), decayOf(4.0)) == Approx(end).margin(kPointEvery));
}

TEST_CASE("50 dB under the loudest partial is the end of a faint one", "[dsp]") {
    const auto loud = [](double) { return 1.0; };
    const auto faint = [](double t) { return 1e-3 * std::exp(-4.0 * t); };
    const std::array<PhaseTrack, 2> tracks{trackOf(loud, 2.6), trackOf(faint, 2.6)};
    const std::array<PartialDecay, 2> decays{decayOf(0.01), decayOf(2.0)};
    std::array<double, 2> ends{};
    definitionEnds(tracks, decays, ends);
    CHECK(ends[0] == Approx(kSustainTo));
    // 1e-3·exp(−4·t) = 1e-5, its mean over 0.1 s about 0.05 s earlier.
    CHECK(ends[1] == Approx(std::log(100.0) / 4.0 - 0.05).margin(1.5 * kPointEvery));
}
