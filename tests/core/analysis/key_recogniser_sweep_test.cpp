#include "tests/support/key_trials.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;
using namespace quillbench::trials;

TEST_CASE("keys are recognised over the whole compass", "[analysis][slow]") {
    for (const Around around : kAround) {
        const KeyScore score = scoreKeys(around, 2, 1, SampleRate(48000.0));
        const double share = 100.0 * score.right / score.plucks;
        INFO(nameOf(around) << ": right " << share << " %, wrong " << score.wrong << ", unknown "
                            << score.unknown << " of " << score.plucks);
        const bool noisy = around == Around::WhiteNoise || around == Around::PinkNoise ||
                           around == Around::OldNotesNoisy;
        const bool quiet = around == Around::Quiet || around == Around::Hum;
        // With its octave sounding, the lowest fifth of a 16′ is still mistaken for that octave.
        const bool two = around == Around::TwoRegisters;
        // The project's own aim: 99.5 % in quiet, 98 % at 10 dB SNR; the rest between them.
        CHECK(share >= (quiet ? 99.5 : noisy ? 98.0 : two ? 96.0 : 98.5));
        CHECK(score.wrong <= score.plucks / (two ? 25 : 100));
    }
}

TEST_CASE("keys are recognised at other sample rates", "[analysis][slow]") {
    for (const double rate : {44100.0, 96000.0}) {
        const KeyScore score = scoreKeys(Around::Quiet, 1, 3, SampleRate(rate));
        INFO(rate << " Hz");
        CHECK(score.right == score.plucks);
    }
}
