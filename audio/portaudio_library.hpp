#pragma once

#include "audio/device_list.hpp"
#include "core/support/result.hpp"

#include <string>

namespace quillbench {

/// PortAudio between Pa_Initialize and Pa_Terminate: while one of these lives. PortAudio makes its device list when
/// the first one opens, and only then. The whole library is one per process and not thread-safe.
/// **Thread** ThreadRole::SoundWorker only.
class PortAudioLibrary {
public:
    /// **Errors** Environment.
    [[nodiscard]] static Result<PortAudioLibrary> open();

    PortAudioLibrary(PortAudioLibrary&& other) noexcept;
    PortAudioLibrary& operator=(PortAudioLibrary&& other) noexcept;
    PortAudioLibrary(const PortAudioLibrary&) = delete;
    PortAudioLibrary& operator=(const PortAudioLibrary&) = delete;
    ~PortAudioLibrary();

    /// Reads the list, and tries which of the usual rates each device takes. Devices that run now are not tried and
    /// show their preferred rate.
    [[nodiscard]] DeviceList devices() const;

private:
    PortAudioLibrary() = default;
    bool open_ = true;
};

enum class Direction { Input, Output };

/// PortAudio's index of a device; −1 where there is none of that name. An empty name is the host's default.
[[nodiscard]] int findDevice(Direction direction, const std::string& name);

} // namespace quillbench
