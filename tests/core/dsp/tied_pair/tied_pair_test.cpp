// A pair fitted together with the record of its lower string alone, against strings of which everything is known: every
// partial two damped lines in closed form, written apart from the program's own strings, and their beat by its definition.

#include "core/dsp/tied_pair/tied_pair.hpp"
#include "tests/core/dsp/two_strings.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <complex>
#include <cstddef>
#include <numbers>
#include <utility>
#include <vector>

namespace quillbench {

namespace {

using test::kPluckS;
using test::kRateHz;

/// A string of which every partial has two polarisations.
struct PolarisedString {
    double f0Hz = 200.0;
    double inharmonicity = 4e-5;
    double amplitude = 0.1;
    double splitCents = 1.1; ///< of partial 1; by turns above and below
    double share = 0.6;      ///< second polarisation against the first
    double turned = 2.1;     ///< its phase against the first's

    struct Line {
        double hz;
        double decay;
        std::complex<double> amplitude; ///< at the pluck
    };

    [[nodiscard]] std::array<Line, 2> partial(int n) const {
        const double hz = n * f0Hz * std::sqrt(1.0 + inharmonicity * n * n);
        const double decay = 1.1 * (1.0 + hz / 1500.0);
        const double size = amplitude / n * (std::abs(std::sin(0.43 * n)) + 0.05);
        const double phase = 0.7 * n * n;
        const double cents = n % 2 == 0 ? -splitCents : splitCents;
        return {Line{hz, decay, std::polar(size, phase)},
                Line{hz * std::exp2(cents / 1200.0),
                     0.62 * decay,
                     std::polar(size * share, phase + turned)}};
    }

    void addTo(std::vector<double>& sound, double pluckS, double loudness = 1.0) const {
        for (int n = 1; n <= 16; ++n) {
            for (const Line& line : partial(n)) {
                test::PlainString::addLine(sound,
                                           pluckS,
                                           line.hz,
                                           loudness * std::abs(line.amplitude),
                                           line.decay,
                                           std::arg(line.amplitude));
            }
        }
    }

    /// Least-squares slope of the phase of both lines together from 0.10 to 2.5 s after the pluck, in Hz: the
    /// definition of a mean frequency.
    [[nodiscard]] double meanHz(int n) const {
        const auto lines = partial(n);
        constexpr int kSteps = 2400;
        double last = 0.0;
        double phase = 0.0;
        double slope = 0.0;
        double squares = 0.0;
        for (int i = 0; i <= kSteps; ++i) {
            const double t = 0.1 + 0.001 * i;
            const std::complex<double> z =
                lines[0].amplitude * std::exp(-lines[0].decay * t) +
                lines[1].amplitude *
                    std::polar(std::exp(-lines[1].decay * t),
                               2.0 * std::numbers::pi * (lines[1].hz - lines[0].hz) * t);
            const double now = std::arg(z);
            phase += i == 0 ? now : std::remainder(now - last, 2.0 * std::numbers::pi);
            last = now;
            slope += (t - 1.3) * phase;
            squares += (t - 1.3) * (t - 1.3);
        }
        return lines[0].hz + slope / squares / (2.0 * std::numbers::pi);
    }
};

KnownString recorded(const PolarisedString& string, int partial) {
    std::vector<double> sound = test::noise(2.4, 1e-5, 5);
    string.addTo(sound, kPluckS);
    const SampleRate rate(kRateHz);
    const double hz = string.partial(1)[0].hz;
    auto known = hearAlone(
        sound, rate, Seconds(kPluckS), Seconds(2.35), Hertz(hz), Cents(60.0), meetingOnes(partial));
    REQUIRE(known.has_value());
    known->record = recordAlone(sound, rate, Seconds(kPluckS), Seconds(2.35), *known, partial);
    REQUIRE(known->record != nullptr);
    return *known;
}

constexpr double kLowerLater = 0.02;

/// The pair, the lower string plucked a little after the upper one, and not quite as hard as before.
std::vector<double> pairOf(const PolarisedString& lower, const PolarisedString& upper) {
    std::vector<double> sound = test::noise(2.4, 1e-5, 6);
    upper.addTo(sound, kPluckS);
    lower.addTo(sound, kPluckS + kLowerLater, 0.8);
    return sound;
}

} // namespace

TEST_CASE("a unison of two strings that beat with themselves is read by its definition") {
    const double cents = GENERATE(-1.4, 0.35, 2.2);
    PolarisedString lower;
    PolarisedString upper;
    upper.f0Hz = lower.f0Hz * std::exp2(cents / 1200.0);
    upper.amplitude = 0.07;
    upper.splitCents = -0.8;
    upper.turned = 1.2;
    const KnownString known = recorded(lower, 1);
    const std::vector<double> sound = pairOf(lower, upper);
    const double truth = upper.meanHz(1) - lower.meanHz(1);
    TiedQuestion question;
    question.firstPluck = Seconds(kPluckS);
    question.laterPluck = Seconds(kPluckS + kLowerLater);
    question.beat = truth + 0.15; // where another hearing left it
    const auto optima =
        hearTied(sound, SampleRate(kRateHz), Seconds(kPluckS + 2.0), *known.record, question);
    REQUIRE_FALSE(optima.empty());
    CAPTURE(cents, truth, optima.front().deviation);
    CHECK(optima.front().beat == Approx(truth).margin(0.04));
}

TEST_CASE("a fifth of two strings that beat with themselves is read by its definition") {
    PolarisedString lower;
    PolarisedString upper;
    upper.f0Hz = 1.5 * lower.f0Hz * std::exp2(-1.9 / 1200.0);
    upper.inharmonicity = 9e-5;
    upper.splitCents = 0.9;
    const KnownString known = recorded(lower, 3);
    const std::vector<double> sound = pairOf(lower, upper);
    const double truth = upper.meanHz(2) - lower.meanHz(3);
    TiedQuestion question;
    question.lowerPartial = 3;
    question.upperPartial = 2;
    question.firstPluck = Seconds(kPluckS);
    question.laterPluck = Seconds(kPluckS + kLowerLater);
    question.beat = truth - 0.2;
    const auto optima =
        hearTied(sound, SampleRate(kRateHz), Seconds(kPluckS + 2.0), *known.record, question);
    REQUIRE_FALSE(optima.empty());
    CAPTURE(truth, optima.front().deviation);
    CHECK(optima.front().beat == Approx(truth).margin(0.02));
}

TEST_CASE("too little of a string alone makes no record") {
    std::vector<double> sound = test::noise(1.0, 1e-5, 5);
    PolarisedString().addTo(sound, kPluckS);
    KnownString known = keptString(Hertz(200.0), Cents(0.2));
    CHECK(recordAlone(sound, SampleRate(kRateHz), Seconds(kPluckS), Seconds(0.5), known, 1) ==
          nullptr);
}

TEST_CASE(
    "a hearing far from the fit's peak counts for little, one beside it decides between peaks") {
    const std::vector<TiedOptimum> one{{0.50, 0.01, 0.0}};
    const BothHearings far = bothHearings(one, 3.0, 0.2, 440.0);
    CHECK(far.beat == Approx(0.50).margin(0.03));
    CHECK(bothHearings(one, 0.52, 0.05, 440.0).beat == Approx(0.50).margin(0.01));
    const std::vector<TiedOptimum> mirrored{{-0.40, 0.02, 0.0}, {0.40, 0.02, -1.0}};
    CHECK(bothHearings(mirrored, 0.35, 0.1, 440.0).beat == Approx(0.40).margin(0.03));
    CHECK(bothHearings(mirrored, -0.35, 0.1, 440.0).beat == Approx(-0.40).margin(0.03));
    // Undecided between two peaks: the uncertainty spans both.
    const std::vector<TiedOptimum> even{{-0.40, 0.02, 0.0}, {0.40, 0.02, 0.0}};
    CHECK(bothHearings(even, 0.0, 0.5, 440.0).uncertainty > 0.3);
}

} // namespace quillbench
