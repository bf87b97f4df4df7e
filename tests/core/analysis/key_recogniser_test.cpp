#include "core/analysis/key_recogniser.hpp"
#include "tests/support/key_trials.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;
using namespace quillbench::trials;

namespace {

const SampleRate kRecogniserRate(48000.0);

/// One second of quiet, then the pluck, then half a second.
struct PluckedKeys {
    std::vector<float> sound = std::vector<float>(72000);
    std::size_t pluck = 48000;

    PluckedKeys() {
        Random random(5);
        addNoise(sound, random, Decibel::fromAmplitude(3e-4), true);
    }

    void add(double hz, std::uint64_t seed, double atFrame = 48000.0, double amplitude = 0.1) {
        Random random(seed);
        SyntheticPluck(drawString(random, hz))
            .addTo(sound, kRecogniserRate, atFrame, Decibel::fromAmplitude(amplitude));
    }

    [[nodiscard]] KeyVerdict heard(const AnalysisTarget& target) const {
        KeyRecogniser recogniser(kRecogniserRate);
        recogniser.setTarget(target);
        KeyTrial trial;
        trial.sound = sound;
        trial.pluck = pluck;
        return recognise(recogniser, trial);
    }
};

} // namespace

TEST_CASE("keys are recognised over the compass", "[analysis]") {
    for (const Around around : kAround) {
        const KeyScore score = scoreKeys(around, 1, 20, kRecogniserRate);
        INFO(nameOf(around) << ": " << score.right << " right, " << score.wrong << " wrong of "
                            << score.plucks);
        CHECK(score.wrong == 0);
        CHECK(score.right >= score.plucks - 1);
        CHECK(score.meanOffsetError < 3.0);
    }
}

TEST_CASE("an octave is not mistaken, whichever choir is on", "[analysis]") {
    // C4 of the 8′ and C3 of the 4′ sound the same pitch.
    PluckedKeys scene;
    scene.add(246.8, 11); // C4 at a′ = 415 Hz
    const AnalysisTarget eight = keyTarget(Around::Quiet, 1.0);
    const AnalysisTarget four = keyTarget(Around::Quiet, 2.0);
    const KeyVerdict onEight = scene.heard(eight);
    const KeyVerdict onFour = scene.heard(four);
    REQUIRE(onEight.string);
    REQUIRE(onFour.string);
    CHECK(onEight.string->course == 60 - 29);
    CHECK(onFour.string->course == 48 - 29);
}

TEST_CASE("the string asked for speaks for its key", "[analysis]") {
    AnalysisTarget target = keyTarget(Around::TwoRegisters, 1.0);
    const std::size_t key = 31;
    const double hz = target.strings[key].target.value();
    PluckedKeys scene;
    scene.add(hz, 21);
    scene.add(2.0 * hz * 1.003, 22, 48400.0);
    SECTION("nobody asked: the deepest string of the key") {
        const KeyVerdict verdict = scene.heard(target);
        REQUIRE(verdict.string);
        CHECK(*verdict.string == StringId{0, key});
    }
    SECTION("the 4′ is asked for") {
        target.asked = StringId{1, key};
        const KeyVerdict verdict = scene.heard(target);
        REQUIRE(verdict.string);
        CHECK(*verdict.string == StringId{1, key});
    }
    SECTION("another key is asked for") {
        target.asked = StringId{1, key + 4};
        const KeyVerdict verdict = scene.heard(target);
        REQUIRE(verdict.string);
        CHECK(verdict.string->course == key);
    }
}

TEST_CASE("a string a semitone off is taken as asked only when the session says so", "[analysis]") {
    AnalysisTarget target = keyTarget(Around::Quiet, 1.0);
    const std::size_t key = 30;
    target.asked = StringId{0, key};
    PluckedKeys scene;
    scene.add(transpose(target.strings[key].target, Cents(-110.0)).value(), 31);
    SECTION("not said: the string below") {
        const KeyVerdict verdict = scene.heard(target);
        REQUIRE(verdict.string);
        CHECK(verdict.string->course == key - 1);
    }
    SECTION("said") {
        target.askedMayBeFar = true;
        const KeyVerdict verdict = scene.heard(target);
        REQUIRE(verdict.string);
        CHECK(verdict.string->course == key);
        CHECK(verdict.offset.value() == Approx(-110.0).margin(5.0));
    }
    SECTION("said, and that it was last heard near there") {
        target.askedMayBeFar = true;
        target.askedLast = Cents(-95.0);
        const KeyVerdict verdict = scene.heard(target);
        REQUIRE(verdict.string);
        CHECK(verdict.string->course == key);
    }
    SECTION("said, but it was last heard far from there: the string below") {
        target.askedMayBeFar = true;
        target.askedLast = Cents(-40.0);
        const KeyVerdict verdict = scene.heard(target);
        REQUIRE(verdict.string);
        CHECK(verdict.string->course == key - 1);
        CHECK(verdict.offset.value() == Approx(-10.0).margin(5.0));
    }
}

TEST_CASE("a pitch between or beyond the strings is no string of theirs", "[analysis]") {
    AnalysisTarget whole;
    whole.strings = choirStrings(0, 1.0, 415.0, 48, 1); // C3 alone
    for (const double cents : {-300.0, -90.0, 80.0, 700.0, 1200.0, -1200.0, 1900.0}) {
        PluckedKeys scene;
        scene.add(transpose(whole.strings[0].target, Cents(cents)).value(), 41);
        const KeyVerdict verdict = scene.heard(whole);
        INFO(cents << " cents off, taken for " << (verdict.pitch ? verdict.pitch->value() : 0.0));
        CHECK(!verdict.string);
    }
}

TEST_CASE("what is no string", "[analysis]") {
    const AnalysisTarget target = keyTarget(Around::Quiet, 1.0);
    Random random(51);
    PluckedKeys scene;
    SECTION("silence") {
        std::fill(scene.sound.begin(), scene.sound.end(), 0.0F);
    }
    SECTION("a constant") {
        std::fill(scene.sound.begin(), scene.sound.end(), 0.5F);
    }
    SECTION("noise alone") {
        addNoise(scene.sound, random, Decibel::fromAmplitude(0.1), GENERATE(false, true));
    }
    SECTION("noise clipped to a square") {
        addNoise(scene.sound, random, Decibel::fromAmplitude(0.5), false);
        for (float& sample : scene.sound) {
            sample = sample > 0.0F ? 1.0F : -1.0F;
        }
    }
    SECTION("hum that was there before") {
        addHum(scene.sound,
               kRecogniserRate,
               random,
               GENERATE(50.0, 60.0),
               Decibel::fromAmplitude(0.1));
    }
    SECTION("a knock") {
        for (int i = 0; i < 3; ++i) {
            addKnock(scene.sound,
                     kRecogniserRate,
                     random,
                     48000.0 - 20000.0 * i,
                     Decibel::fromAmplitude(0.1));
        }
    }
    SECTION("a knock while a string rings on") {
        scene.add(130.0, 52, 5000.0);
        addKnock(scene.sound, kRecogniserRate, random, 48000.0, Decibel::fromAmplitude(0.03));
    }
    SECTION("a knock as the damper falls") {
        SyntheticPluck(drawString(random, 220.0))
            .addTo(scene.sound,
                   kRecogniserRate,
                   30000.0,
                   Decibel::fromAmplitude(0.1),
                   SyntheticRelease{Seconds(18000.0 / 48000.0), Seconds(0.2)});
        addKnock(scene.sound, kRecogniserRate, random, 48000.0, Decibel::fromAmplitude(0.03));
    }
    const KeyVerdict verdict = scene.heard(target);
    INFO("evidence " << verdict.evidence);
    CHECK(!verdict.string);
    CHECK(!verdict.pitch);
}

TEST_CASE("a missing partial and a clipped pluck do no harm", "[analysis]") {
    const AnalysisTarget target = keyTarget(Around::Quiet, 1.0);
    const std::size_t key = 28;
    const double hz = target.strings[key].target.value();
    PluckedKeys scene;
    SECTION("no fundamental") {
        scene.add(hz, 61);
        // Cancel partial 1 by a second pluck of it alone in antiphase: fit its amplitude over the look.
        double re = 0.0;
        double im = 0.0;
        for (std::size_t i = 48000; i < 72000; ++i) {
            const double turn =
                2.0 * 3.14159265358979 * hz * static_cast<double>(i) / kRecogniserRate.hz();
            re += static_cast<double>(scene.sound[i]) * std::cos(turn) / 12000.0;
            im += static_cast<double>(scene.sound[i]) * std::sin(turn) / 12000.0;
        }
        for (std::size_t i = 48000; i < 72000; ++i) {
            const double turn =
                2.0 * 3.14159265358979 * hz * static_cast<double>(i) / kRecogniserRate.hz();
            scene.sound[i] -= static_cast<float>(re * std::cos(turn) + im * std::sin(turn));
        }
    }
    SECTION("clipped") {
        scene.add(hz, 62);
        for (float& sample : scene.sound) {
            sample = std::clamp(sample, -0.06F, 0.06F);
        }
    }
    const KeyVerdict verdict = scene.heard(target);
    REQUIRE(verdict.string);
    CHECK(verdict.string->course == key);
}

TEST_CASE("the noise about a pluck is measured", "[analysis]") {
    PluckedKeys scene;
    scene.add(220.0, 65);
    const AnalysisTarget target = keyTarget(Around::Quiet, 1.0);
    CHECK(scene.heard(target).snrDb > 20.0);
    Random random(66);
    addNoise(scene.sound, random, Decibel::fromAmplitude(0.06), true);
    CHECK(scene.heard(target).snrDb < 10.0);
}

TEST_CASE("nothing is recognised where no string is expected", "[analysis]") {
    PluckedKeys scene;
    scene.add(220.0, 71);
    const KeyVerdict verdict = scene.heard(AnalysisTarget{});
    CHECK(!verdict.string);
    CHECK(verdict.settled);
}

TEST_CASE("a chromatic compass names any note", "[analysis]") {
    const AnalysisTarget target = chromaticTarget(Hertz(440.0), 24, 100);
    REQUIRE(target.strings.size() == 77);
    // ISO 16: a′ = 440 Hz is MIDI note 69.
    CHECK(target.strings[69 - 24].target.value() == Approx(440.0));
    PluckedKeys scene;
    scene.add(196.5, 81); // G3 is 196.00 Hz in equal temperament
    const KeyVerdict verdict = scene.heard(target);
    REQUIRE(verdict.string);
    CHECK(verdict.string->course == 55 - 24);
}
