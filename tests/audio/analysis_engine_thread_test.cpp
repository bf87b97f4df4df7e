#include "audio/analysis_engine.hpp"
#include "audio/sound_file.hpp"
#include "audio/virtual_source.hpp"
#include "tests/support/deadline.hpp"
#include "tests/support/temporary_folder.hpp"
#include "tests/support/virtual_instrument.hpp"

#include <catch2/catch.hpp>

#include <atomic>
#include <chrono>
#include <vector>

using namespace quillbench;

namespace {

constexpr SampleRate kRate{48000.0};

} // namespace

TEST_CASE("the engine runs, is asked and is stopped from another thread", "[rt]") {
    const test::TemporaryFolder folder;
    auto source = std::make_shared<VirtualSource>(test::oneChoirAlone(kRate), kRate);
    AnalysisEngine engine(source);
    REQUIRE(engine.start());
    REQUIRE(engine.startRecording(folder.path() / "kept.flac"));
    std::uint64_t sequence = 0;
    std::uint64_t plucks = 0;
    bool forward = true;
    bool sent = false;
    VirtualCommand key; // goes down at once
    key.key = 20;
    std::size_t events = 0;
    CHECK(test::becomesTrue(
        [&] {
            engine.setTarget(test::targetOfOneOctave());
            if (!sent && source->now().value() > 9600) {
                sent = source->send(key);
            }
            if (const auto snapshot = engine.snapshot()) {
                forward = forward && snapshot->sequence >= sequence;
                sequence = snapshot->sequence;
                plucks = snapshot->pluckNumber;
            }
            events += engine.drainEvents().size();
            return plucks >= 1 && sequence >= 30;
        },
        Seconds(60)));
    CHECK(forward);
    CHECK(events >= 1); // that it runs
    CHECK(engine.state().phase == EnginePhase::Running);
    const auto stopping = std::chrono::steady_clock::now();
    engine.stop();
    CHECK(std::chrono::steady_clock::now() - stopping < std::chrono::seconds(3));
    CHECK(engine.state().phase == EnginePhase::Idle);
    for (const EngineEvent& event : engine.drainEvents()) {
        CHECK_FALSE(std::holds_alternative<RecordingEvent>(event));
    }
    const auto kept = readSound(folder.path() / "kept.flac");
    REQUIRE(kept);
    CHECK(kept->samples.size() > 9600);
}

TEST_CASE("a source that rests lets the engine sleep, and a pluck is heard as ever", "[rt]") {
    auto source = std::make_shared<VirtualSource>(test::oneChoirAlone(kRate), kRate);
    source->setRestsAfter(Seconds(0.5)); // the analysis wants to know the room
    AnalysisEngine engine(source);
    engine.setTarget(test::targetOfOneOctave());
    std::atomic<int> news{0};
    engine.whenNews([&news] { ++news; });
    REQUIRE(engine.start());
    std::vector<StringReading> readings;
    std::size_t gaps = 0;
    const auto drain = [&] {
        for (const EngineEvent& event : engine.drainEvents()) {
            if (const auto* reading = std::get_if<StringReading>(&event)) {
                readings.push_back(*reading);
            }
            gaps += std::holds_alternative<GapEvent>(event) ? 1U : 0U;
        }
    };
    std::vector<FrameIndex> stood;
    for (const std::size_t key : {std::size_t{20}, std::size_t{24}}) {
        REQUIRE(test::becomesTrue([&] { return engine.rests(); }, Seconds(60)));
        drain();
        stood.push_back(source->now());
        const int before = news;
        VirtualCommand command;
        command.key = key;
        REQUIRE(source->send(command));
        REQUIRE(test::becomesTrue([&] { return news > before; }, Seconds(20)));
        const std::size_t known = readings.size();
        REQUIRE(test::becomesTrue(
            [&] {
                drain();
                return readings.size() > known;
            },
            Seconds(60)));
        command.kind = VirtualCommand::Kind::KeyUp;
        REQUIRE(source->send(command));
    }
    engine.stop();
    CHECK(gaps == 0);
    REQUIRE(readings.size() >= 2);

    // The same keys at the same frames, by nobody's clock.
    auto taken = std::make_shared<VirtualSource>(test::oneChoirAlone(kRate), kRate, Pace::AsTaken);
    AnalysisEngine batch(taken);
    batch.setTarget(test::targetOfOneOctave());
    VirtualCommand command;
    command.key = 20;
    command.at = stood[0];
    REQUIRE(taken->send(command));
    StringReading first;
    bool told = false;
    for (int blocks = 0; blocks < 2000 && !told; ++blocks) {
        batch.advance(FrameCount(256));
        for (const EngineEvent& event : batch.drainEvents()) {
            if (const auto* reading = std::get_if<StringReading>(&event)) {
                first = *reading;
                told = true;
            }
        }
    }
    REQUIRE(told);
    CHECK(first.string == readings.front().string);
    CHECK(first.pluck == readings.front().pluck);
    CHECK(first.pitch == readings.front().pitch);
}
