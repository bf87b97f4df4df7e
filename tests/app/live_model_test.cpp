#include "app/models/live_model.hpp"
#include "audio/analysis_engine.hpp"
#include "audio/virtual_source.hpp"
#include "core/virtual/virtual_instrument.hpp"
#include "tests/support/virtual_instrument.hpp"

#include <catch2/catch.hpp>
#include <qtestsupport_core.h>

using namespace quillbench;

namespace {

constexpr SampleRate kLiveRate{48000.0};
constexpr int kComesWithinMs = 60'000;

} // namespace

TEST_CASE("the window looks no more while its source rests, and is back with the next pluck",
          "[ui]") {
    auto source = std::make_shared<VirtualSource>(test::oneChoirAlone(kLiveRate), kLiveRate);
    source->setRestsAfter(Seconds(0.5)); // the analysis wants to know the room
    AnalysisEngine engine(source);
    engine.setTarget(test::targetOfOneOctave());
    LiveModel live;
    int finished = 0;
    QObject::connect(&live, &LiveModel::readingFinished, [&finished] { ++finished; });
    REQUIRE(engine.start());
    live.watch(&engine);
    CHECK(live.running());
    REQUIRE(QTest::qWaitFor([&] { return !live.running(); }, kComesWithinMs));
    CHECK(engine.rests());
    const std::uint64_t shown = live.frames().shown;
    VirtualCommand key;
    key.key = 20;
    REQUIRE(source->send(key));
    REQUIRE(QTest::qWaitFor([&] { return live.running(); }, kComesWithinMs));
    REQUIRE(QTest::qWaitFor([&] { return finished > 0; }, kComesWithinMs));
    CHECK(live.frames().shown > shown + 30); // not twice a second, but thirty times
    key.kind = VirtualCommand::Kind::KeyUp;
    REQUIRE(source->send(key));
    REQUIRE(QTest::qWaitFor([&] { return !live.running(); }, kComesWithinMs));
    live.watch(nullptr);
    engine.stop();
}

TEST_CASE("news for a window that is gone reach nobody", "[ui]") {
    auto source = std::make_shared<VirtualSource>(test::oneChoirAlone(kLiveRate), kLiveRate);
    AnalysisEngine engine(source);
    {
        LiveModel live;
        live.watch(&engine);
    }
    REQUIRE(engine.start()); // which is news
    CHECK(QTest::qWaitFor([&] { return !engine.drainEvents().empty(); }, kComesWithinMs));
    engine.stop();
}
