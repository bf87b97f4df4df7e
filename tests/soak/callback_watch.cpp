#include "tests/soak/callback_watch.hpp"

#include <portaudio.h>

#include <atomic>
#include <chrono>
#include <cstdint>

namespace quillbench::soak {
namespace {

constexpr std::int64_t kCold = 100;

PaStreamCallback* inside = nullptr;
std::atomic<std::int64_t> calls{0};
std::atomic<std::int64_t> longestNs{0};

int watched(const void* input,
            void* output,
            unsigned long frames,
            const PaStreamCallbackTimeInfo* time,
            PaStreamCallbackFlags flags,
            void* user) {
    const auto began = std::chrono::steady_clock::now();
    const int result = inside(input, output, frames, time, flags, user);
    const std::int64_t took = std::chrono::duration_cast<std::chrono::nanoseconds>(
                                  std::chrono::steady_clock::now() - began)
                                  .count();
    if (calls.fetch_add(1) >= kCold && took > longestNs.load()) {
        longestNs.store(took); // one stream, one writer
    }
    return result;
}

} // namespace

// The linker's names for what stood there and for what --wrap=Pa_OpenStream puts in its place.
extern "C" {
decltype(Pa_OpenStream) openUnwatched __asm__("__real_Pa_OpenStream");
decltype(Pa_OpenStream) openWatched __asm__("__wrap_Pa_OpenStream");

PaError openWatched(PaStream** stream,
                    const PaStreamParameters* input,
                    const PaStreamParameters* output,
                    double rateHz,
                    unsigned long frames,
                    PaStreamFlags flags,
                    PaStreamCallback* callback,
                    void* user) {
    inside = callback;
    return openUnwatched(stream, input, output, rateHz, frames, flags, &watched, user);
}
}

double longestCallbackMs() {
    return 1e-6 * static_cast<double>(longestNs.load());
}

} // namespace quillbench::soak
