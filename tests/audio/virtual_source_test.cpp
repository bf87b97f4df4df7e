#include "audio/virtual_source.hpp"
#include "core/instrument/examples.hpp"
#include "core/virtual/virtual_instrument.hpp"
#include "tests/support/deadline.hpp"
#include "tests/support/virtual_instrument.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <thread>
#include <vector>

using namespace quillbench;

namespace {

constexpr SampleRate kVirtualRate{48000.0};

VirtualCommand keyDown(std::int64_t frame, std::size_t key) {
    VirtualCommand command;
    command.kind = VirtualCommand::Kind::KeyDown;
    command.at = FrameIndex(frame);
    command.key = key;
    return command;
}

} // namespace

TEST_CASE("the virtual instrument sounds the same through its source", "[unit]") {
    constexpr std::size_t kFrames = 48128; // 188 blocks
    auto direct = test::nominalVirtualInstrument(kVirtualRate);
    VirtualSource source(test::nominalVirtualInstrument(kVirtualRate), kVirtualRate, Pace::AsTaken);
    for (const auto& command : {keyDown(1000, 20), keyDown(1001, 24), keyDown(30000, 27)}) {
        REQUIRE(direct->apply(command));
        REQUIRE(source.send(command));
    }
    std::vector<float> expected(kFrames);
    direct->render(expected);
    AudioBlock block;
    CHECK_FALSE(source.take(block)); // not started
    REQUIRE(source.start());
    std::vector<float> taken;
    while (taken.size() < kFrames && source.take(block)) {
        CHECK(block.first.value() == static_cast<std::int64_t>(taken.size()));
        taken.insert(taken.end(), block.samples.begin(), block.samples.begin() + block.count);
    }
    CHECK(taken == expected);
    CHECK(source.now().value() == static_cast<std::int64_t>(kFrames));
    CHECK(*std::max_element(taken.begin(), taken.end()) > 0.001F);
}

TEST_CASE("commands beyond what the queue holds are refused, not lost", "[unit]") {
    VirtualSource source(test::nominalVirtualInstrument(kVirtualRate), kVirtualRate, Pace::AsTaken);
    int sent = 0;
    while (source.send(keyDown(100, 20))) {
        ++sent;
    }
    CHECK(sent == 1024);
    REQUIRE(source.start());
    AudioBlock block;
    REQUIRE(source.take(block));
    CHECK(source.send(keyDown(100, 20)));
}

TEST_CASE("without a loudspeaker the virtual instrument runs by the clock", "[rt]") {
    VirtualSource source(test::nominalVirtualInstrument(kVirtualRate), kVirtualRate);
    const auto start = std::chrono::steady_clock::now();
    REQUIRE(source.start());
    CHECK(source.state().phase == EnginePhase::Running);
    std::int64_t taken = 0;
    bool inOrder = true;
    bool early = false;
    bool pluckHeard = false;
    bool sent = false;
    AudioBlock block;
    const bool came = test::becomesTrue(
        [&] {
            while (source.take(block)) {
                inOrder = inOrder && block.first.value() == taken;
                taken += block.count;
                const Seconds passed = std::chrono::steady_clock::now() - start;
                early = early || static_cast<double>(taken) > 48000.0 * passed.count() + 1.0;
            }
            if (!sent && taken > 4800) {
                sent = source.send(keyDown(0, 20));
            }
            source.inspect([&](VirtualInstrument& instrument) {
                pluckHeard = pluckHeard || instrument.takePluck().has_value();
            });
            return taken >= 24000 && pluckHeard;
        },
        Seconds(20));
    CHECK(came);
    CHECK(inOrder);
    CHECK_FALSE(early);
    source.stop();
    CHECK(source.state().phase == EnginePhase::Idle);
    while (source.take(block)) {
        taken += block.count;
    }
    CHECK(taken == source.now().value());
    REQUIRE(source.start()); // it goes on where it stopped
    CHECK(test::becomesTrue([&] { return source.take(block); }, Seconds(20)));
    CHECK(block.first.value() == taken);
}

TEST_CASE("where nothing sounds everything stands still until something is done", "[rt]") {
    std::atomic<int> wentOn{0};
    std::atomic<bool> restedThen{false};
    VirtualSource source(test::nominalVirtualInstrument(kVirtualRate), kVirtualRate);
    source.setRestsAfter(Seconds(0.05));
    source.whenItGoesOn([&] {
        restedThen = restedThen || source.rests();
        ++wentOn;
    });
    REQUIRE(source.start());
    const auto rests = [&] { return source.rests(); };
    REQUIRE(test::becomesTrue(rests, Seconds(20)));
    CHECK(wentOn == 0);
    const FrameIndex stood = source.now();
    AudioBlock block;
    std::int64_t taken = 0;
    while (source.take(block)) {
        taken += block.count;
    }
    CHECK(taken == stood.value()); // all that was made is there

    SECTION("a key") {
        REQUIRE(source.send(keyDown(0, 20)));
        float loudest = 0.0F;
        bool inOrder = true;
        REQUIRE(test::becomesTrue(
            [&] {
                while (source.take(block)) {
                    inOrder = inOrder && block.first.value() == taken; // without a gap
                    taken += block.count;
                    for (std::size_t i = 0; i < block.count; ++i) {
                        loudest = std::max(loudest, std::abs(block.samples[i]));
                    }
                }
                return taken > stood.value() + 9600;
            },
            Seconds(20)));
        CHECK(inOrder);
        CHECK(loudest > 0.001F);
        CHECK_FALSE(source.rests()); // as long as the string rings
    }
    SECTION("a look at the instrument") {
        source.inspect([](VirtualInstrument&) {});
        REQUIRE(test::becomesTrue([&] { return wentOn > 0; }, Seconds(20)));
        REQUIRE(test::becomesTrue(rests, Seconds(20)));
        CHECK(source.now() > stood);
    }
    SECTION("a command that is to be done later") {
        REQUIRE(source.send(keyDown(stood.value() + 24000, 20)));
        CHECK(test::becomesTrue([&] { return source.now() > stood + FrameCount(24000); },
                                Seconds(20)));
    }
    SECTION("an end") {
        source.stop();
        CHECK_FALSE(source.rests());
    }
    CHECK(wentOn >= 1);
    CHECK_FALSE(restedThen);
}
