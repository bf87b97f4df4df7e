// Two threads at once; run under the thread sanitizer too (label rt). Bounded by counts and deadlines, never by sleeps.
#include "audio/capture_callback.hpp"
#include "audio/latest.hpp"
#include "audio/playback_callback.hpp"
#include "audio/recorder.hpp"
#include "audio/snapshot_cell.hpp"
#include "audio/spsc_ring.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <atomic>
#include <thread>
#include <vector>

using namespace quillbench;

namespace {

/// Torn in two if it is not handed over whole.
struct Wide {
    std::array<std::uint64_t, 40> words{};

    static Wide of(std::uint64_t value) {
        Wide wide;
        wide.words.fill(value);
        return wide;
    }

    [[nodiscard]] bool isWhole() const {
        return std::all_of(
            words.begin(), words.end(), [this](std::uint64_t word) { return word == words[0]; });
    }
};

} // namespace

TEST_CASE("a ring keeps order and loses nothing between two threads", "[rt]") {
    constexpr std::uint64_t kItems = 200000;
    SpscRing<Wide> ring(GENERATE(1U, 8U, 1024U));
    std::jthread producer([&ring] {
        for (std::uint64_t i = 0; i < kItems;) {
            if (ring.tryPush(Wide::of(i))) {
                ++i;
            } else {
                std::this_thread::yield();
            }
        }
    });
    std::uint64_t expected = 0;
    bool inOrder = true;
    bool whole = true;
    while (expected < kItems) {
        Wide item;
        if (!ring.tryPop(item)) {
            std::this_thread::yield();
            continue;
        }
        inOrder = inOrder && item.words[0] == expected;
        whole = whole && item.isWhole();
        ++expected;
    }
    CHECK(inOrder);
    CHECK(whole);
}

TEST_CASE("the newest value comes over whole and never an older one after it", "[rt]") {
    constexpr std::uint64_t kLast = 200000;
    Latest<Wide> latest(Wide::of(0));
    std::jthread writer([&latest] {
        for (std::uint64_t i = 1; i <= kLast; ++i) {
            latest.set(Wide::of(i));
        }
    });
    std::uint64_t before = 0;
    bool forward = true;
    bool whole = true;
    while (before < kLast) {
        const Wide& value = latest.get();
        forward = forward && value.words[0] >= before;
        whole = whole && value.isWhole();
        before = value.words[0];
    }
    CHECK(forward);
    CHECK(whole);
}

TEST_CASE("a snapshot stays what it was while newer ones come", "[rt]") {
    constexpr std::uint64_t kLast = 20000;
    SnapshotCell<Wide> cell;
    CHECK(cell.get() == nullptr);
    std::jthread writer([&cell] {
        for (std::uint64_t i = 1; i <= kLast; ++i) {
            cell.set(std::make_shared<const Wide>(Wide::of(i)));
        }
    });
    std::uint64_t before = 0;
    bool forward = true;
    bool whole = true;
    while (before < kLast) {
        const auto value = cell.get();
        if (value) {
            forward = forward && value->words[0] >= before;
            whole = whole && value->isWhole();
            before = value->words[0];
        }
    }
    CHECK(forward);
    CHECK(whole);
}

TEST_CASE("every captured frame arrives or is counted as dropped", "[rt]") {
    CaptureCallback capture(SampleRate(48000), 0);
    constexpr std::int64_t kCalls = 6000;
    constexpr std::size_t kFrames = 480;
    std::atomic<bool> done{false};
    std::jthread device([&] {
        std::vector<float> input(kFrames);
        for (std::int64_t call = 0; call < kCalls; ++call) {
            if (call % 2000 == 0) {
                capture.beforeRun(std::chrono::steady_clock::now());
            }
            for (std::size_t i = 0; i < kFrames; ++i) {
                input[i] = static_cast<float>(call % 4096);
            }
            CallbackData data;
            data.input = input.data();
            data.frames = kFrames;
            data.channels = 1;
            data.time = std::chrono::steady_clock::now();
            capture.process(data);
        }
        done = true;
    });
    std::int64_t taken = 0;
    std::int64_t before = -1;
    bool forward = true;
    bool whole = true;
    AudioBlock block;
    for (bool last = false;;) {
        if (capture.take(block)) {
            forward = forward && block.first.value() > before;
            before = block.first.value();
            whole = whole && std::all_of(block.samples.begin(),
                                         block.samples.begin() + block.count,
                                         [&](float sample) { return sample == block.samples[0]; });
            taken += block.count;
            (void)capture.stamp();
            (void)capture.counts();
        } else if (last) {
            break;
        } else {
            last = done;
        }
    }
    CHECK(forward);
    CHECK(whole);
    CHECK(static_cast<std::uint64_t>(taken) == capture.counts().frames);
    CHECK(capture.counts().callbacks == static_cast<std::uint64_t>(kCalls));
    // A call of 480 frames is two blocks, of 256 and 224.
    const auto lost = kCalls * static_cast<std::int64_t>(kFrames) - taken;
    const auto dropped = static_cast<std::int64_t>(capture.counts().dropped);
    CHECK(lost >= dropped * 224);
    CHECK(lost <= dropped * 256);
}

TEST_CASE("what is written is played once and in order while tones change", "[rt]") {
    PlaybackCallback playback(SampleRate(48000));
    constexpr std::size_t kSamples = 400000;
    std::jthread renderer([&playback] {
        std::vector<float> part;
        for (std::size_t done = 0; done < kSamples;) {
            part.clear();
            for (std::size_t i = 0; i < std::min<std::size_t>(300, kSamples - done); ++i) {
                part.push_back(static_cast<float>((done + i) % 1000 + 1) / 1024.0F);
            }
            const std::size_t taken = playback.write(part);
            done += taken;
            if (taken == 0) {
                std::this_thread::yield();
            }
        }
    });
    std::jthread person([&playback](const std::stop_token& stop) {
        while (!stop.stop_requested()) {
            playback.setTone({}); // a request of no tone: the written sound stays readable
            std::this_thread::yield();
        }
    });
    std::size_t heard = 0;
    bool inOrder = true;
    std::vector<float> output(777);
    while (heard < kSamples) {
        CallbackData data;
        data.output = output.data();
        data.frames = output.size();
        data.channels = 1;
        playback.process(data);
        for (const float sample : output) {
            if (sample != 0.0F) {
                inOrder = inOrder && sample == static_cast<float>(heard % 1000 + 1) / 1024.0F;
                ++heard;
            }
        }
    }
    CHECK(inOrder);
    CHECK(heard == kSamples);
}

TEST_CASE("a recording is written while it is pushed and looked at", "[rt]") {
    const test::TemporaryFolder folder;
    auto recorder = Recorder::begin(folder.path() / "kept.flac", SampleRate(48000));
    REQUIRE(recorder);
    std::jthread engine([&recorder] {
        const std::vector<float> samples(256, 0.5F);
        for (std::int64_t i = 0; i < 2000; ++i) {
            (*recorder)->push({FrameIndex(i * 256), samples, false});
        }
    });
    for (int i = 0; i < 100; ++i) {
        CHECK_FALSE((*recorder)->trouble());
    }
    engine.join();
    const auto frames = (*recorder)->finish();
    REQUIRE(frames);
    CHECK(frames->value() == 512000);
}
