// What an audio callback must not do: allocate, or call the system (which locking, waiting and logging come down to).
#include "audio/capture_callback.hpp"
#include "audio/playback_callback.hpp"
#include "tests/support/alloc_guard.hpp"

#include <catch2/catch.hpp>
#include <linux/seccomp.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <functional>
#include <memory>
#include <mutex>
#include <thread>
#include <vector>

using namespace quillbench;

namespace {

constexpr int kCalls = 4000;
constexpr int kManyCalls = 100000;

/// Capture that nobody takes from the middle on: the ring fills up. Overflows now and then.
void capture(CaptureCallback& callback, const std::vector<float>& input, int calls) {
    AudioBlock block;
    for (int call = 0; call < calls; ++call) {
        CallbackData data;
        data.input = call % 100 == 99 ? nullptr : input.data();
        data.frames = static_cast<std::size_t>(call) * 37 % 1400;
        data.channels = 2;
        data.disturbed = call % 50 == 0;
        data.time = std::chrono::steady_clock::time_point(std::chrono::milliseconds(10 * call));
        callback.process(data);
        while (call < calls / 2 && callback.take(block)) {
        }
        (void)callback.stamp();
    }
}

/// Playback with changing tones; the renderer keeps up, then does not.
void play(PlaybackCallback& callback,
          std::vector<float>& output,
          const std::vector<float>& sound,
          int calls,
          std::size_t mostFrames) {
    for (int call = 0; call < calls; ++call) {
        ToneRequest request;
        for (int voice = 0; voice < call / 10 % 5; ++voice) {
            (void)request.voices.tryPush(
                {Hertz(100.0 * (voice + 1)), Decibel::fromAmplitude(0.1), 1 + call % 16});
        }
        callback.setTone(request);
        if (call < calls / 2) {
            callback.write(sound);
        }
        CallbackData data;
        data.output = output.data();
        data.frames = static_cast<std::size_t>(call) * 37 % mostFrames;
        data.channels = 2;
        callback.process(data);
    }
}

enum class Ending { Well, ForASystemCall, NoSandbox };

/// Does `work` in a child process that the kernel ends at the first system call.
Ending withoutSystemCalls(const std::function<void()>& work) {
    const pid_t child = fork();
    if (child == 0) {
        // Strict mode leaves read, write, exit and return from signals.
        if (prctl(PR_SET_SECCOMP, SECCOMP_MODE_STRICT) != 0) {
            _exit(2);
        }
        work();
        syscall(SYS_exit, 0);
    }
    int status = 0;
    waitpid(child, &status, 0);
    if (WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL) {
        return Ending::ForASystemCall;
    }
    return WIFEXITED(status) && WEXITSTATUS(status) == 0 ? Ending::Well : Ending::NoSandbox;
}

} // namespace

TEST_CASE("the guard bites: an allocation is counted", "[unit]") {
    const test::AllocGuard guard;
    auto one = std::make_unique<int>(1);
    std::vector<float> many(100);
    many[0] = static_cast<float>(*one);
    one.reset();
    const std::size_t allocations = guard.allocations();
    const std::size_t releases = guard.releases();
    CHECK(allocations == 2);
    CHECK(releases == 1);
}

TEST_CASE("capture takes nothing from the heap", "[unit]") {
    CaptureCallback callback(SampleRate(48000), 1);
    callback.beforeRun(std::chrono::steady_clock::now());
    const std::vector<float> input(2800, 0.25F);
    std::size_t touched = 0;
    {
        const test::AllocGuard guard;
        capture(callback, input, kCalls);
        touched = guard.allocations() + guard.releases();
    }
    CHECK(touched == 0);
    CHECK(callback.counts().dropped > 0); // the full ring was among it
    CHECK(callback.counts().overflows == kCalls / 50);
}

TEST_CASE("playback takes nothing from the heap", "[unit]") {
    PlaybackCallback callback(SampleRate(48000));
    callback.beforeRun();
    std::vector<float> output(2800);
    const std::vector<float> sound(700, 0.1F);
    std::size_t touched = 0;
    {
        const test::AllocGuard guard;
        play(callback, output, sound, kCalls / 10, 1400);
        touched = guard.allocations() + guard.releases();
    }
    CHECK(touched == 0);
    CHECK(callback.underruns() > 0); // the empty ring was among it
}

TEST_CASE("the sandbox bites: a system call ends the child", "[unit]") {
    const Ending nothing = withoutSystemCalls([] {});
    if (nothing == Ending::NoSandbox) {
        SUCCEED("this kernel has no strict seccomp: the two tests of system calls prove nothing");
        return;
    }
    CHECK(nothing == Ending::Well);
    CHECK(withoutSystemCalls([] { syscall(SYS_getppid); }) == Ending::ForASystemCall);
    // More than the heap has at hand comes from the kernel.
    CHECK(withoutSystemCalls([] { std::vector<char>(std::size_t{64} << 20U).back() = 1; }) ==
          Ending::ForASystemCall);
    CHECK(withoutSystemCalls([] { std::this_thread::yield(); }) == Ending::ForASystemCall);
    std::mutex taken;
    const std::lock_guard lock(taken);
    CHECK(withoutSystemCalls([&] { taken.lock(); }) == Ending::ForASystemCall);
}

TEST_CASE("a hundred thousand callbacks of capture and playback make no system call", "[unit]") {
    CaptureCallback captureCallback(SampleRate(48000), 1);
    captureCallback.beforeRun(std::chrono::steady_clock::now());
    const std::vector<float> input(2800, 0.25F);
    CHECK(withoutSystemCalls([&] { capture(captureCallback, input, kManyCalls); }) !=
          Ending::ForASystemCall);
    PlaybackCallback playbackCallback(SampleRate(48000));
    playbackCallback.beforeRun();
    std::vector<float> output(2800);
    const std::vector<float> sound(700, 0.1F);
    CHECK(withoutSystemCalls([&] { play(playbackCallback, output, sound, kManyCalls, 200); }) !=
          Ending::ForASystemCall);
}
