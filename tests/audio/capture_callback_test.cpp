#include "audio/capture_callback.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <optional>
#include <vector>

using namespace quillbench;

namespace {

using Clock = CaptureCallback::Clock;

// Sample i of channel c, told apart from all others.
float mark(std::int64_t frame, int channel) {
    return static_cast<float>(frame % 1000) + static_cast<float>(channel) / 8.0F;
}

void feed(CaptureCallback& capture,
          std::int64_t first,
          std::size_t frames,
          int channels,
          bool disturbed = false,
          Clock::time_point time = Clock::now()) {
    std::vector<float> samples;
    for (std::size_t i = 0; i < frames; ++i) {
        for (int c = 0; c < channels; ++c) {
            samples.push_back(mark(first + static_cast<std::int64_t>(i), c));
        }
    }
    CallbackData data;
    data.input = samples.data();
    data.frames = frames;
    data.channels = channels;
    data.disturbed = disturbed;
    data.time = time;
    capture.process(data);
}

} // namespace

TEST_CASE("capture copies one channel whatever the size of the callbacks", "[unit]") {
    const int channels = GENERATE(1, 2, 5);
    const int channel = channels - 1;
    CaptureCallback capture(SampleRate(48000), channel);
    capture.beforeRun(Clock::now());
    Random random(7);
    std::int64_t fed = 0;
    std::int64_t expected = 0;
    for (int call = 0; call < 200; ++call) {
        const std::size_t frames = random.bits() % 1500; // 0 too
        feed(capture, fed, frames, channels);
        fed += static_cast<std::int64_t>(frames);
        AudioBlock block;
        while (capture.take(block)) {
            CHECK(block.first.value() == expected);
            CHECK_FALSE(block.discontinuity);
            REQUIRE(block.count >= 1);
            REQUIRE(block.count <= AudioBlock::kMaxFrames);
            bool same = true;
            for (std::size_t i = 0; i < block.count; ++i) {
                same = same &&
                       block.samples[i] == mark(expected + static_cast<std::int64_t>(i), channel);
            }
            CHECK(same);
            expected += static_cast<std::int64_t>(block.count);
        }
    }
    CHECK(expected == fed);
    CHECK(capture.counts().frames == static_cast<std::uint64_t>(fed));
    CHECK(capture.counts().callbacks == 200);
    CHECK(capture.counts().dropped == 0);
    CHECK(capture.counts().fullest >= 1);
    CHECK(capture.counts().fullest <= 6); // 1499 frames in blocks of 256
}

TEST_CASE("what the ring could not take is counted and seen as a jump", "[unit]") {
    CaptureCallback capture(SampleRate(48000), 0);
    capture.beforeRun(Clock::now());
    constexpr std::int64_t kFrames = 256;
    std::int64_t fed = 0;
    while (capture.counts().dropped < 3) { // nobody takes
        feed(capture, fed, static_cast<std::size_t>(kFrames), 1);
        fed += kFrames;
    }
    const std::int64_t kept = fed - 3 * kFrames;
    CHECK(capture.counts().fullest == static_cast<std::uint64_t>(kept / kFrames));
    AudioBlock block;
    std::int64_t expected = 0;
    while (capture.take(block)) {
        CHECK(block.first.value() == expected);
        expected += static_cast<std::int64_t>(block.count);
    }
    CHECK(expected == kept);
    feed(capture, fed, static_cast<std::size_t>(kFrames), 1);
    REQUIRE(capture.take(block));
    CHECK(block.first.value() == fed);
    CHECK(block.samples[0] == mark(fed, 0));
}

TEST_CASE("an overflow marks the next block that arrives, once", "[unit]") {
    CaptureCallback capture(SampleRate(48000), 0);
    capture.beforeRun(Clock::now());
    AudioBlock block;
    feed(capture, 0, 100, 1);
    REQUIRE(capture.take(block));
    CHECK_FALSE(block.discontinuity);
    feed(capture, 100, 600, 1, true);
    REQUIRE(capture.take(block));
    CHECK(block.discontinuity);
    REQUIRE(capture.take(block));
    CHECK_FALSE(block.discontinuity);
    CHECK(capture.counts().overflows == 1);
}

TEST_CASE("an overflow whose block is dropped marks the one after", "[unit]") {
    CaptureCallback capture(SampleRate(48000), 0);
    capture.beforeRun(Clock::now());
    std::int64_t fed = 0;
    while (capture.counts().dropped == 0) {
        feed(capture, fed, 64, 1);
        fed += 64;
    }
    feed(capture, fed, 64, 1, true); // dropped too
    AudioBlock block;
    while (capture.take(block)) {
        CHECK_FALSE(block.discontinuity);
    }
    feed(capture, fed + 64, 64, 1);
    REQUIRE(capture.take(block));
    CHECK(block.discontinuity);
}

TEST_CASE("a device that was away leaves out the frames of that time", "[unit]") {
    CaptureCallback capture(SampleRate(48000), 0);
    const Clock::time_point start = Clock::now();
    capture.beforeRun(start);
    feed(capture, 0, 200, 1, false, start);
    capture.beforeRun(start + std::chrono::milliseconds(2500));
    feed(capture, 0, 200, 1, false, start + std::chrono::milliseconds(2510));
    AudioBlock block;
    REQUIRE(capture.take(block));
    REQUIRE(capture.take(block));
    CHECK(block.first.value() == 200 + 120000); // 2.5 s at 48 kHz
    CHECK(block.discontinuity);
    CHECK(capture.counts().openings == 2);
}
