#include "core/analysis/analyser.hpp"
#include "core/dsp/pluck_detector.hpp"
#include "core/dsp/string_listener.hpp"
#include "tests/support/string_trials.hpp"

#include <catch2/catch.hpp>

#include <functional>

using namespace quillbench;
using namespace quillbench::trials;

namespace {

const SampleRate kRate(48000.0);

std::shared_ptr<AnalysisTarget> eightFoot() {
    auto target = std::make_shared<AnalysisTarget>();
    target->strings = choirStrings(0, 1.0, 415.0, 29, 61);
    return target;
}

double frames(double seconds) {
    return seconds * kRate.hz();
}

/// Sound that is composed and then listened to.
struct Scene {
    std::vector<float> sound;
    Random random;

    Scene(double seconds, std::uint64_t seed, double noise = 3e-4)
        : sound(static_cast<std::size_t>(frames(seconds))),
          random(seed) {
        addNoise(sound, random, Decibel::fromAmplitude(noise), true);
    }

    void pluck(SyntheticString string,
               double atSeconds,
               std::optional<SyntheticRelease> release = std::nullopt,
               double amplitude = 0.1) {
        SyntheticPluck(string).addTo(
            sound, kRate, frames(atSeconds), Decibel::fromAmplitude(amplitude), release);
    }

    /// The key played again and again: each pluck stops what sounded a little before.
    void plucks(SyntheticString string, double from, double every, int count) {
        for (int i = 0; i < count; ++i) {
            const double at = from + every * i;
            const double until = i + 1 < count ? every - 0.012 : 10.0;
            pluck(string, at, SyntheticRelease{Seconds(until), Seconds(0.03)});
        }
    }
};

struct Heard {
    std::vector<StringReading> finished;
    AnalysisSnapshot last;
    std::vector<AnalysisSnapshot> all;
};

Heard listen(Analyser& analyser,
             std::span<const float> sound,
             const std::function<std::size_t()>& blockSize,
             std::int64_t first = 0) {
    Heard heard;
    for (std::size_t i = 0; i < sound.size();) {
        const std::size_t count = std::min(blockSize(), sound.size() - i);
        const auto shot = analyser.push(
            {FrameIndex(first + static_cast<std::int64_t>(i)), sound.subspan(i, count), false});
        if (shot) {
            heard.last = *shot;
            heard.all.push_back(*shot);
            if (shot->finished) {
                heard.finished.push_back(*shot->finished);
            }
        }
        i += count;
    }
    return heard;
}

Heard listen(const std::vector<float>& sound, std::shared_ptr<const AnalysisTarget> target) {
    Analyser analyser(kRate, {});
    analyser.setTarget(std::move(target));
    return listen(analyser, sound, [] { return std::size_t{256}; });
}

SyntheticString stringAt(double hz, std::uint64_t seed) {
    Random random(seed);
    SyntheticString string = drawString(random, hz);
    string.glide = Cents(1.0);
    return string;
}

} // namespace

TEST_CASE("a clock that runs fast asks for no sound that is not there yet", "[unit]") {
    // Windows of so many seconds hold more frames by such a clock; plucks at every phase of a tick (400 frames).
    for (std::size_t phase = 0; phase < 400; phase += 40) {
        Scene scene(2.0, 3);
        scene.pluck(stringAt(207.5, 4), 0.4 + static_cast<double>(phase) / kRate.hz());
        Analyser analyser(kRate, ClockCalibration{1000.0, 1.0});
        analyser.setTarget(eightFoot());
        std::size_t readings = 0;
        for (std::size_t at = 0; at + 256 <= scene.sound.size(); at += 256) {
            const auto shot = analyser.push({FrameIndex(static_cast<std::int64_t>(at)),
                                             std::span<const float>(scene.sound).subspan(at, 256),
                                             false});
            readings += shot && shot->reading ? 1U : 0U;
        }
        CHECK(readings > 0);
    }
}

TEST_CASE("a pluck is recognised, read and finished once", "[analysis]") {
    const auto target = eightFoot();
    const auto key = static_cast<std::size_t>(GENERATE(4, 30, 58));
    const SyntheticString string =
        stringAt(transpose(target->strings[key].target, Cents(12.0)).value(), key);
    Scene scene(4.0, 1);
    scene.pluck(string, 0.7);
    const Heard heard = listen(scene.sound, target);
    REQUIRE(heard.finished.size() == 1);
    const StringReading& reading = heard.finished[0];
    CHECK(reading.string.course == key);
    CHECK(reading.standing != Standing::Nothing);
    CHECK(heard.last.pluckNumber == 1);
    CHECK(!heard.last.sounding);
    CHECK(kRate.duration(reading.pluck - FrameIndex(33600)).count() == Approx(0.0).margin(0.01));
    CHECK(interval(string.restPitch(), reading.pitch).value() == Approx(0.4).margin(1.0));
    CHECK(reading.used.count() >= 2.0);
    double firstReading = 99.0;
    for (const AnalysisSnapshot& shot : heard.all) {
        if (shot.reading && shot.reading->standing != Standing::Nothing) {
            firstReading =
                std::min(firstReading, kRate.duration(shot.upTo - reading.pluck).count());
        }
    }
    // Aim of the project: 0.15 s above 200 Hz, 0.3 s from 40 Hz.
    CHECK(firstReading <= (reading.pitch.value() > 200.0 ? 0.155 : 0.31));
}

TEST_CASE("blocks of any size give the same readings", "[analysis]") {
    const auto target = eightFoot();
    Scene scene(3.6, 2);
    scene.pluck(stringAt(131.0, 7), 0.5, SyntheticRelease{Seconds(0.6), Seconds(0.1)});
    scene.plucks(stringAt(220.5, 8), 1.5, 0.45, 4);
    const auto run = [&](const std::function<std::size_t()>& size) {
        Analyser analyser(kRate, {});
        analyser.setTarget(target);
        return listen(analyser, scene.sound, size);
    };
    const Heard reference = run([] { return std::size_t{256}; });
    REQUIRE(reference.finished.size() >= 4);
    Random random(9);
    const std::vector<std::function<std::size_t()>> partitions{
        [] { return std::size_t{1}; },
        [] { return std::size_t{8192}; },
        [&] { return static_cast<std::size_t>(random.uniform(1.0, 900.0)); }};
    for (const auto& partition : partitions) {
        const Heard other = run(partition);
        REQUIRE(other.finished.size() == reference.finished.size());
        for (std::size_t i = 0; i < other.finished.size(); ++i) {
            const StringReading& a = reference.finished[i];
            const StringReading& b = other.finished[i];
            CHECK(a.pluck == b.pluck);
            CHECK(a.string == b.string);
            CHECK(a.used.count() == b.used.count());
            CHECK(a.pitch.value() == b.pitch.value());
            CHECK(a.pitchUncertainty == b.pitchUncertainty);
            CHECK(a.inharmonicity == b.inharmonicity);
            CHECK(a.warnings == b.warnings);
        }
    }
}

TEST_CASE("a live reading is the one of the recording, bit for bit", "[analysis]") {
    const auto target = eightFoot();
    Scene scene(4.0, 3);
    scene.pluck(stringAt(174.0, 10), 0.6);
    const Heard heard = listen(scene.sound, target);
    // The recording's way: find the pluck, then hear the string up to pluck + w.
    PluckDetector detector(kRate);
    std::optional<Onset> onset; // the beginning of the file is one, too
    for (std::size_t i = 0; i + 480 <= scene.sound.size() && !onset; i += 480) {
        const auto found = detector.push({FrameIndex(static_cast<std::int64_t>(i)),
                                          std::span<const float>(scene.sound).subspan(i, 480),
                                          false});
        onset = found && found->at > FrameIndex(14400) ? found : onset;
    }
    REQUIRE(onset);
    int compared = 0;
    double last = 0.0;
    for (const AnalysisSnapshot& shot : heard.all) {
        const bool fresh = shot.reading && shot.reading->standing != Standing::Nothing &&
                           shot.reading->used.count() > 1.3 * last;
        if (!fresh) {
            continue;
        }
        const StringReading& live = *shot.reading;
        last = live.used.count();
        CHECK(live.pluck == onset->at);
        StringListener listener(kRate);
        ListeningFor what;
        what.string = live.string;
        what.target = live.target;
        what.range = target->range;
        listener.begin(what, onset->at);
        const auto end = static_cast<std::size_t>((live.pluck + kRate.frames(live.used)).value());
        listener.push({FrameIndex(0), std::span<const float>(scene.sound).first(end), false});
        const StringReading recorded = listener.reading();
        CHECK(recorded.used.count() == live.used.count());
        CHECK(recorded.pitch.value() == live.pitch.value());
        CHECK(recorded.pitchUncertainty == live.pitchUncertainty);
        CHECK(recorded.startSharpness.value() == live.startSharpness.value());
        ++compared;
    }
    CHECK(compared >= 8);
}

TEST_CASE("brisk plucks of one string are all counted and read", "[analysis]") {
    const auto target = eightFoot();

    struct Playing {
        std::size_t key;
        double every;
    };

    const Playing playing = GENERATE(Playing{8, 0.35}, Playing{24, 0.6}, Playing{50, 0.4});
    Scene scene(6.0 * playing.every + 1.2, 4);
    scene.plucks(stringAt(target->strings[playing.key].target.value() * 1.004, 11 + playing.key),
                 0.6,
                 playing.every,
                 6);
    scene.sound.resize(scene.sound.size() + 96000);
    const Heard heard = listen(scene.sound, target);
    INFO("key " << playing.key << ", every " << playing.every << " s");
    CHECK(heard.last.pluckNumber == 6);
    CHECK(heard.finished.size() == 6);
    for (const StringReading& reading : heard.finished) {
        CHECK(reading.string.course == playing.key);
        if (reading.standing == Standing::Ok) {
            CHECK(reading.deviation.value() == Approx(7.3).margin(2.0));
        }
    }
}

TEST_CASE("a string that is being turned is followed pluck by pluck", "[analysis]") {
    auto target = eightFoot();
    const std::size_t key = 28;
    target->asked = StringId{0, key};
    Scene scene(8.0, 5);
    std::vector<double> cents;
    for (int i = 0; i < 8; ++i) {
        cents.push_back(-30.0 + 4.0 * i);
        SyntheticString string =
            stringAt(transpose(target->strings[key].target, Cents(cents.back())).value(), 12);
        string.glide = Cents(0.3);
        scene.pluck(string, 0.6 + 0.6 * i, SyntheticRelease{Seconds(0.585), Seconds(0.03)});
    }
    const Heard heard = listen(scene.sound, target);
    REQUIRE(heard.finished.size() == 8);
    for (std::size_t i = 0; i < 8; ++i) {
        CHECK(heard.finished[i].deviation.value() == Approx(cents[i]).margin(1.5));
        CHECK(!heard.finished[i].has(Warning::NotTheStringAsked));
    }
}

TEST_CASE("another string than the one asked for is said", "[analysis]") {
    auto target = eightFoot();
    target->asked = StringId{0, 30};
    Scene scene(3.5, 6);
    SECTION("a neighbour") {
        scene.pluck(stringAt(target->strings[31].target.value(), 13), 0.5);
        const Heard heard = listen(scene.sound, target);
        REQUIRE(heard.finished.size() == 1);
        CHECK(heard.finished[0].has(Warning::NotTheStringAsked));
        CHECK(heard.finished[0].string.course == 31);
    }
    SECTION("none of the instrument's") {
        scene.pluck(stringAt(target->strings[60].target.value() * 1.5, 14), 0.5);
        const Heard heard = listen(scene.sound, target);
        REQUIRE(heard.finished.size() == 1);
        CHECK(heard.finished[0].has(Warning::NotTheStringAsked));
        CHECK(heard.finished[0].standing == Standing::Nothing);
        CHECK(!heard.last.recognised);
    }
    SECTION("its neighbour rings on meanwhile") {
        scene.pluck(stringAt(target->strings[31].target.value(), 15), 0.1, std::nullopt, 0.05);
        scene.pluck(stringAt(target->strings[30].target.value(), 16), 0.9);
        const Heard heard = listen(scene.sound, target);
        REQUIRE(!heard.finished.empty());
        CHECK(!heard.finished.back().has(Warning::NotTheStringAsked));
        CHECK(heard.finished.back().deviation.value() == Approx(0.0).margin(2.0));
    }
}

TEST_CASE("a register left on is said", "[analysis]") {
    const auto target = eightFoot();
    const double hz = target->strings[26].target.value();
    Scene scene(4.0, 12);
    SyntheticString string = stringAt(hz, 21);
    scene.pluck(string, 0.5);
    SECTION("alone") {
        const Heard heard = listen(scene.sound, target);
        REQUIRE(heard.finished.size() == 1);
        CHECK(!heard.finished[0].has(Warning::TwoStrings));
        CHECK(!heard.finished[0].has(Warning::RingingTwin));
    }
    SECTION("a second 8′") {
        string.flexible = transpose(string.flexible, Cents(17.0));
        string.seed = 22;
        scene.pluck(string, 0.51, std::nullopt, 0.07);
        const Heard heard = listen(scene.sound, target);
        REQUIRE(heard.finished.size() == 1);
        CHECK(heard.finished[0].has(Warning::TwoStrings));
    }
}

TEST_CASE("a damper ends the reading", "[analysis]") {
    const auto target = eightFoot();
    Scene scene(3.0, 7);
    scene.pluck(stringAt(220.0, 17), 0.5, SyntheticRelease{Seconds(0.8), Seconds(0.15)});
    addKnock(scene.sound, kRate, scene.random, frames(1.38), Decibel::fromAmplitude(0.02));
    const Heard heard = listen(scene.sound, target);
    REQUIRE(heard.finished.size() == 1);
    CHECK(heard.last.pluckNumber == 1);
    CHECK(heard.finished[0].used.count() <= 0.86);
    CHECK(heard.finished[0].used.count() >= 0.5);
    CHECK(heard.finished[0].standing != Standing::Nothing);
    CHECK(!heard.last.sounding);
}

TEST_CASE("knocks are no plucks, nor do they end a reading", "[analysis]") {
    const auto target = eightFoot();
    Scene scene(3.6, 8);
    addKnock(scene.sound, kRate, scene.random, frames(0.4), Decibel::fromAmplitude(0.1));
    scene.pluck(stringAt(160.0, 18), 0.9);
    addKnock(scene.sound, kRate, scene.random, frames(1.7), Decibel::fromAmplitude(0.03));
    addKnock(scene.sound, kRate, scene.random, frames(2.3), Decibel::fromAmplitude(0.05));
    const Heard heard = listen(scene.sound, target);
    CHECK(heard.last.pluckNumber == 1);
    REQUIRE(heard.finished.size() == 1);
    CHECK(heard.finished[0].used.count() > 2.3);
}

TEST_CASE("lost sound ends the reading and is never bridged", "[analysis]") {
    const auto target = eightFoot();
    Scene scene(4.0, 9);
    scene.pluck(stringAt(196.0, 19), 0.5);
    Analyser analyser(kRate, {});
    analyser.setTarget(target);
    const auto size = [] { return std::size_t{256}; };
    const std::span<const float> sound(scene.sound);
    const Heard before = listen(analyser, sound.first(72000), size);
    REQUIRE(before.last.reading);
    CHECK(before.last.sounding);
    const Heard after = listen(analyser, sound.subspan(76000), size, 76000);
    CHECK(after.last.gaps == 1);
    REQUIRE(after.finished.size() == 1);
    CHECK(after.finished[0].pluck + kRate.frames(after.finished[0].used) <= FrameIndex(72000));
    CHECK(after.last.pluckNumber == 1);
    CHECK(!after.last.sounding);
    const std::vector<float> quiet(4800);
    const auto shot = analyser.push({FrameIndex(192000), quiet, true});
    REQUIRE(shot);
    CHECK(shot->gaps == 2);
}

TEST_CASE("what is no pluck gives no reading", "[analysis]") {
    const auto target = eightFoot();
    Scene scene(5.0, 10);
    SECTION("silence") {
        std::fill(scene.sound.begin(), scene.sound.end(), 0.0F);
    }
    SECTION("a constant that is switched on") {
        std::fill(scene.sound.begin() + 48000, scene.sound.end(), 0.3F);
    }
    SECTION("noise that comes and goes") {
        for (std::size_t at = 24000; at + 24000 < scene.sound.size(); at += 48000) {
            addNoise(std::span(scene.sound).subspan(at, 24000),
                     scene.random,
                     Decibel::fromAmplitude(0.1),
                     at % 96000 == 24000);
        }
    }
    SECTION("clipped noise") {
        addNoise(scene.sound, scene.random, Decibel::fromAmplitude(0.5), false);
        for (float& sample : scene.sound) {
            sample = std::clamp(sample, -0.3F, 0.3F);
        }
    }
    SECTION("hum") {
        addHum(scene.sound, kRate, scene.random, 50.0, Decibel::fromAmplitude(0.1));
    }
    SECTION("knocks") {
        for (int knock = 0; knock < 11; ++knock) {
            const double at = frames(0.5 + 0.37 * knock);
            addKnock(scene.sound, kRate, scene.random, at, Decibel::fromAmplitude(0.1));
        }
    }
    const Heard heard = listen(scene.sound, target);
    CHECK(heard.last.pluckNumber == 0);
    CHECK(heard.finished.empty());
    CHECK(!heard.last.reading);
}

TEST_CASE("without a target only the microphone is watched", "[analysis]") {
    Scene scene(2.0, 11);
    scene.pluck(stringAt(220.0, 20), 0.5);
    const Heard heard = listen(scene.sound, nullptr);
    CHECK(heard.last.pluckNumber == 0);
    CHECK(heard.last.microphone.level.value() > -60.0);
    CHECK(heard.all.size() >= 55);
}
