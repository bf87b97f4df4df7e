#include "audio/analysis_engine.hpp"
#include "audio/file_source.hpp"
#include "audio/sound_file.hpp"
#include "audio/virtual_source.hpp"
#include "core/analysis/analyser.hpp"
#include "core/instrument/examples.hpp"
#include "core/virtual/virtual_instrument.hpp"
#include "tests/support/deadline.hpp"
#include "tests/support/sound_files.hpp"
#include "tests/support/temporary_folder.hpp"
#include "tests/support/virtual_instrument.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>
#include <mutex>
#include <stdexcept>
#include <vector>

using namespace quillbench;

namespace {

constexpr SampleRate kRate{48000.0};
constexpr std::size_t kKey = 20;

VirtualCommand keyCommand(VirtualCommand::Kind kind, std::int64_t frame, std::size_t key) {
    VirtualCommand command;
    command.kind = kind;
    command.at = FrameIndex(frame);
    command.key = key;
    return command;
}

/// Three keys, one after another, each let go.
const std::vector<VirtualCommand>& melody() {
    static const std::vector<VirtualCommand> commands = [] {
        std::vector<VirtualCommand> made;
        for (std::int64_t i = 0; i < 3; ++i) {
            const std::size_t key = kKey + static_cast<std::size_t>(i) * 2;
            made.push_back(keyCommand(VirtualCommand::Kind::KeyDown, 4800 + i * 28800, key));
            made.push_back(keyCommand(VirtualCommand::Kind::KeyUp, 24000 + i * 28800, key));
        }
        return made;
    }();
    return commands;
}

constexpr std::int64_t kMelodyFrames = 102400; // 400 blocks, past the last damper

std::vector<float> melodySound() {
    auto instrument = test::oneChoirAlone(kRate);
    for (const VirtualCommand& command : melody()) {
        REQUIRE(instrument->apply(command));
    }
    std::vector<float> sound(kMelodyFrames);
    instrument->render(sound);
    return sound;
}

template <typename Event>
std::vector<Event> only(const std::vector<EngineEvent>& events) {
    std::vector<Event> chosen;
    for (const EngineEvent& event : events) {
        if (const auto* found = std::get_if<Event>(&event)) {
            chosen.push_back(*found);
        }
    }
    return chosen;
}

bool same(const StringReading& a, const StringReading& b) {
    return a.standing == b.standing && a.string == b.string && a.pluck == b.pluck &&
           a.pitch == b.pitch && std::equal_to<>()(a.pitchUncertainty, b.pitchUncertainty) &&
           a.used == b.used && a.warnings == b.warnings;
}

bool same(const std::vector<StringReading>& a, const std::vector<StringReading>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const auto& x, const auto& y) {
        return same(x, y);
    });
}

/// A source that gives what it was told to, and shows the state it was told to.
class ScriptedSource final : public AudioSource {
public:
    [[nodiscard]] SampleRate sampleRate() const override { return kRate; }

    [[nodiscard]] Result<void> start() override {
        if (refuses) {
            return failure(ErrorCode::Environment, "refused");
        }
        return {};
    }

    void stop() override {}

    [[nodiscard]] bool take(AudioBlock& block) override {
        const std::lock_guard lock(mutex_);
        if (throws) {
            throw std::runtime_error("out of memory, say");
        }
        if (blocks_.empty()) {
            return false;
        }
        block = blocks_.front();
        blocks_.pop_front();
        return true;
    }

    [[nodiscard]] EngineState state() const override {
        const std::lock_guard lock(mutex_);
        return state_;
    }

    void add(std::int64_t first,
             std::uint32_t count,
             bool discontinuity = false,
             float lastSample = 0.0F) {
        AudioBlock block;
        block.samples[count - 1] = lastSample;
        block.first = FrameIndex(first);
        block.count = count;
        block.discontinuity = discontinuity;
        const std::lock_guard lock(mutex_);
        blocks_.push_back(block);
    }

    void show(EnginePhase phase) {
        const std::lock_guard lock(mutex_);
        state_ = EngineState{phase, std::nullopt};
    }

    bool refuses = false;
    bool throws = false;

private:
    mutable std::mutex mutex_;
    std::deque<AudioBlock> blocks_;
    EngineState state_;
};

} // namespace

TEST_CASE("the engine hears what its analyser hears, whatever the blocks", "[unit]") {
    const std::vector<float> sound = melodySound();
    Analyser analyser(kRate, {});
    analyser.setTarget(test::targetOfOneOctave());
    std::vector<StringReading> direct;
    std::uint64_t snapshots = 0;
    constexpr std::size_t kPart = 1000; // the engine's blocks are of 256
    for (std::size_t done = 0; done < sound.size(); done += kPart) {
        const auto part = std::span(sound).subspan(done, std::min(kPart, sound.size() - done));
        if (const auto snapshot =
                analyser.push({FrameIndex(static_cast<std::int64_t>(done)), part, false})) {
            ++snapshots;
            if (snapshot->finished) {
                direct.push_back(*snapshot->finished);
            }
        }
    }
    REQUIRE(snapshots > 35);
    REQUIRE(direct.size() >= 2);
    CHECK(direct.front().standing != Standing::Nothing);

    auto source = std::make_shared<VirtualSource>(test::oneChoirAlone(kRate), kRate, Pace::AsTaken);
    for (const VirtualCommand& command : melody()) {
        REQUIRE(source->send(command));
    }
    AnalysisEngine engine(source);
    engine.setTarget(test::targetOfOneOctave());
    CHECK(engine.snapshot() == nullptr);
    std::int64_t heard = 0;
    while (heard < kMelodyFrames) {
        heard +=
            engine.advance(FrameCount(std::min<std::int64_t>(4096, kMelodyFrames - heard))).value();
    }
    CHECK(heard == kMelodyFrames);
    REQUIRE(engine.snapshot());
    const auto events = engine.drainEvents();
    CHECK(same(only<StringReading>(events), direct));
    CHECK(only<GapEvent>(events).empty());
    CHECK(engine.drainEvents().empty());

    const test::TemporaryFolder folder;
    REQUIRE(test::writeSound(
        folder.path() / "a.wav", sound, 48000, 1, SF_FORMAT_WAV | SF_FORMAT_FLOAT));
    auto file = FileSource::open(folder.path() / "a.wav", Pace::AsTaken);
    REQUIRE(file);
    AnalysisEngine threaded(std::move(*file));
    threaded.setTarget(test::targetOfOneOctave());
    REQUIRE(threaded.start());
    std::vector<EngineEvent> log;
    CHECK(test::becomesTrue(
        [&] {
            const auto drained = threaded.drainEvents();
            log.insert(log.end(), drained.begin(), drained.end());
            return !drained.empty() && std::holds_alternative<StateEvent>(drained.back()) &&
                   std::get<StateEvent>(drained.back()).state.phase == EnginePhase::Ended;
        },
        Seconds(60)));
    CHECK(same(only<StringReading>(log), direct));
    CHECK(threaded.state().phase == EnginePhase::Ended);
}

TEST_CASE("every gap is logged where it was, with what was lost", "[unit]") {
    auto source = std::make_shared<ScriptedSource>();
    source->add(5000, 256); // where a source begins is no gap
    source->add(5256, 256);
    source->add(5768, 256);       // one block was dropped
    source->add(6024, 100, true); // the device does not say how much it lost
    source->add(6124, 256);
    source->add(54380, 256, true); // away for a second
    AnalysisEngine engine(source);
    engine.advance(FrameCount(100000));
    const auto gaps = only<GapEvent>(engine.drainEvents());
    REQUIRE(gaps.size() == 3);
    CHECK(gaps[0].at == FrameIndex(5768));
    CHECK(gaps[0].lost == FrameCount(256));
    CHECK(gaps[1].at == FrameIndex(6024));
    CHECK_FALSE(gaps[1].lost);
    CHECK(gaps[2].at == FrameIndex(54380));
    CHECK(gaps[2].lost == FrameCount(48000));
}

TEST_CASE("a device that delivers what cannot be sound has lost sound", "[unit]") {
    const float bad = GENERATE(std::numeric_limits<float>::quiet_NaN(),
                               std::numeric_limits<float>::infinity(),
                               -std::numeric_limits<float>::max());
    auto source = std::make_shared<ScriptedSource>();
    source->add(0, 256);
    source->add(256, 256, false, bad);
    source->add(512, 256);
    AnalysisEngine engine(source);
    engine.advance(FrameCount(1000));
    const auto gaps = only<GapEvent>(engine.drainEvents());
    REQUIRE(gaps.size() == 1);
    CHECK(gaps[0].at == FrameIndex(256));
    CHECK_FALSE(gaps[0].lost);
    const KeptSound kept = engine.sound(FrameIndex(256), FrameIndex(768));
    REQUIRE(kept.samples.size() == 512);
    CHECK(std::all_of(kept.samples.begin(), kept.samples.end(), isSound));
}

TEST_CASE("the engine shows its source's states and logs each change once", "[unit]") {
    auto source = std::make_shared<ScriptedSource>();
    AnalysisEngine engine(source);
    std::vector<EnginePhase> shown;
    for (const EnginePhase phase : {EnginePhase::Starting,
                                    EnginePhase::Starting,
                                    EnginePhase::Running,
                                    EnginePhase::Silent,
                                    EnginePhase::Lost,
                                    EnginePhase::Recovering,
                                    EnginePhase::Running}) {
        source->show(phase);
        CHECK(engine.state().phase == phase);
        engine.advance(FrameCount(1));
        for (const StateEvent& event : only<StateEvent>(engine.drainEvents())) {
            shown.push_back(event.state.phase);
        }
    }
    CHECK(shown == std::vector{EnginePhase::Starting,
                               EnginePhase::Running,
                               EnginePhase::Silent,
                               EnginePhase::Lost,
                               EnginePhase::Recovering,
                               EnginePhase::Running});
}

TEST_CASE("what a source refuses, or breaks at, is told", "[unit]") {
    auto source = std::make_shared<ScriptedSource>();
    SECTION("a refused start") {
        source->refuses = true;
        AnalysisEngine engine(source);
        const auto started = engine.start();
        REQUIRE_FALSE(started);
        CHECK(started.error().text == "refused");
    }
    SECTION("an exception on the engine's thread") {
        source->throws = true;
        AnalysisEngine engine(source);
        REQUIRE(engine.start());
        CHECK(test::becomesTrue([&] { return engine.state().phase == EnginePhase::Failed; },
                                Seconds(20)));
        CHECK(engine.state().error->text.find("out of memory, say") != std::string::npos);
        engine.stop();
        source->throws = false;
        source->show(EnginePhase::Running);
        REQUIRE(engine.start());
        CHECK(engine.state().phase == EnginePhase::Running);
    }
}

TEST_CASE("what is heard can be kept", "[unit]") {
    const test::TemporaryFolder folder;
    const std::vector<float> sound = melodySound();
    REQUIRE(test::writeSound(
        folder.path() / "a.wav", sound, 48000, 1, SF_FORMAT_WAV | SF_FORMAT_FLOAT));
    auto file = FileSource::open(folder.path() / "a.wav", Pace::AsTaken);
    REQUIRE(file);
    AnalysisEngine engine(std::move(*file));
    CHECK_FALSE(engine.stopRecording());
    REQUIRE(engine.advance(FrameCount(25600)) == FrameCount(25600));
    REQUIRE(engine.startRecording(folder.path() / "kept.flac"));
    const auto twice = engine.startRecording(folder.path() / "other.flac");
    CHECK_FALSE(twice);
    REQUIRE(engine.advance(FrameCount(25600)) == FrameCount(25600));
    const auto frames = engine.stopRecording();
    REQUIRE(frames);
    CHECK(frames->value() == 25600);
    engine.advance(FrameCount(256));
    const auto kept = readSound(folder.path() / "kept.flac");
    REQUIRE(kept);
    REQUIRE(kept->samples.size() == 25600);
    double worst = 0.0;
    for (std::size_t i = 0; i < kept->samples.size(); ++i) {
        worst = std::max(worst,
                         std::fabs(static_cast<double>(kept->samples[i]) -
                                   static_cast<double>(sound[25600 + i])));
    }
    CHECK(worst <= 1.5 / 8388608); // 24 bits
}
