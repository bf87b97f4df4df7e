#include "audio/analysis_engine.hpp"
#include "audio/sound_file.hpp"
#include "audio/virtual_source.hpp"
#include "tests/support/deadline.hpp"
#include "tests/support/temporary_folder.hpp"
#include "tests/support/virtual_instrument.hpp"

#include <catch2/catch.hpp>

#include <chrono>

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
