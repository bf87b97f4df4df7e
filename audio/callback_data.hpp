#pragma once

#include <chrono>
#include <cstddef>

namespace quillbench {

/// What an audio callback is given. Whoever works on it must not allocate, lock, log, wait, throw, or call the system or
/// PortAudio.
struct CallbackData {
    const float* input = nullptr; ///< interleaved, `channels` each frame; may be null
    float* output = nullptr;      ///< likewise; all of it must be written
    std::size_t frames = 0;       ///< any number
    int channels = 0;
    bool disturbed = false; ///< the device lost or invented input before this buffer
    std::chrono::steady_clock::time_point time; ///< of the call
};

} // namespace quillbench
