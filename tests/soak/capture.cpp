// soak_capture SECONDS HOGS [DEVICE]: captures through PortAudio and listens, while HOGS threads keep the processor
// busy. Prints the longest callback, what capture counted (most that waited in the ring, lost sound), the device's clock
// against the computer's, memory. Run inside tests/support/virtual_microphone.sh for a device without hardware.
#include "audio/analysis_engine.hpp"
#include "audio/capture_stream.hpp"
#include "audio/sound_worker.hpp"
#include "tests/soak/callback_watch.hpp"
#include "tests/soak/memory.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <thread>
#include <variant>
#include <vector>

using namespace quillbench;
using soak::residentMegabytes;

namespace {

/// Capture as it is, whose clock is asked on the thread that takes.
class Watched final : public AudioSource {
public:
    Watched(SoundWorker& worker, const CaptureSettings& settings) : stream_(worker, settings) {}

    [[nodiscard]] SampleRate sampleRate() const override { return stream_.sampleRate(); }

    [[nodiscard]] Result<void> start() override { return stream_.start(); }

    void stop() override { stream_.stop(); }

    [[nodiscard]] bool take(AudioBlock& block) override {
        const bool taken = stream_.take(block);
        if (const auto drift = stream_.clock().drift()) {
            ppm = drift->ppm;
            ppmUncertainty = drift->ppmUncertainty;
        }
        return taken;
    }

    [[nodiscard]] EngineState state() const override { return stream_.state(); }

    [[nodiscard]] CaptureCounts counts() const { return stream_.counts(); }

    std::atomic<double> ppm{0.0};
    std::atomic<double> ppmUncertainty{0.0};

private:
    CaptureStream stream_;
};

} // namespace

int main(int argc, char** argv) {
    if (argc < 3) {
        std::fprintf(stderr, "usage: soak_capture SECONDS HOGS [DEVICE]\n");
        return 2;
    }
    const int seconds = std::atoi(argv[1]);
    const int hogs = std::atoi(argv[2]);
    SoundWorker worker;
    auto source = std::make_shared<Watched>(
        worker, CaptureSettings{argc > 3 ? argv[3] : "vmic", 0, SampleRate(48000)});
    AnalysisEngine engine(source);
    if (const auto started = engine.start(); !started) {
        std::fprintf(stderr, "%s\n", started.error().text.c_str());
        return 1;
    }
    std::atomic<bool> busy{true};
    std::vector<std::thread> threads;
    for (int i = 0; i < hogs; ++i) {
        threads.emplace_back([&busy] {
            volatile std::uint64_t work = 0;
            while (busy) {
                work = work + 1;
            }
        });
    }
    std::size_t readings = 0;
    std::size_t gaps = 0;
    double early = 0.0;
    for (int second = 1; second <= seconds; ++second) {
        std::this_thread::sleep_for(std::chrono::seconds(1));
        for (const EngineEvent& event : engine.drainEvents()) {
            readings += std::holds_alternative<StringReading>(event) ? 1U : 0U;
            gaps += std::holds_alternative<GapEvent>(event) ? 1U : 0U;
        }
        early = second == std::min(seconds, 30) ? residentMegabytes() : early;
    }
    const CaptureCounts counts = source->counts();
    std::printf("%d s, %d hogs: %llu callbacks, the longest %.3f ms; most in the ring %llu blocks; "
                "overflows %llu, dropped %llu, gaps %zu; last words %zu; clock %+.1f ± %.1f ppm; "
                "memory %.1f MB after 30 s, %.1f MB at the end\n",
                seconds,
                hogs,
                static_cast<unsigned long long>(counts.callbacks),
                soak::longestCallbackMs(),
                static_cast<unsigned long long>(counts.fullest),
                static_cast<unsigned long long>(counts.overflows),
                static_cast<unsigned long long>(counts.dropped),
                gaps,
                readings,
                source->ppm.load(),
                source->ppmUncertainty.load(),
                early,
                residentMegabytes());
    busy = false;
    for (std::thread& thread : threads) {
        thread.join();
    }
    engine.stop();
    return counts.dropped == 0 ? 0 : 1;
}
