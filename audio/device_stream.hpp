#pragma once

#include "audio/callback_data.hpp"
#include "audio/engine_state.hpp"
#include "audio/portaudio_library.hpp"
#include "core/units/frames.hpp"

#include <atomic>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <mutex>
#include <optional>
#include <string>

namespace quillbench {

/// What a stream asks of a device.
struct DeviceRequest {
    Direction direction = Direction::Input;
    std::string device; ///< empty: the default
    int channels = 1;   ///< as many are opened; an output with fewer gets what it has
    SampleRate rate;
    Seconds latency{0.05}; ///< buffering asked of the device
};

/// One PortAudio stream with everything its callback touches, so that it outlives its user when the sound server
/// hangs: SoundWorker co-owns it. Knows how to open and close itself, and how it fares.
class DeviceStream {
public:
    using Clock = std::chrono::steady_clock;

    /// No callback for so long is shown as Silent.
    static constexpr Seconds kSilentAfter{0.3};
    /// No callback for so long is a lost device (measured: a suspended source and a frozen server show nothing else).
    static constexpr Seconds kLostAfter{1.0};
    /// When the worker has not noticed a loss so long after, it hangs itself, and state() says Lost without it.
    static constexpr Seconds kWorkerHangs{0.4};
    /// Opening that takes longer is shown as Lost.
    static constexpr Seconds kOpensWithin{2.0};
    /// The first callback may take so long (measured: about 1 s with a sleeping source).
    static constexpr Seconds kFirstWithin{3.0};

    explicit DeviceStream(DeviceRequest request);
    DeviceStream(const DeviceStream&) = delete;
    DeviceStream& operator=(const DeviceStream&) = delete;
    virtual ~DeviceStream();

    /// **Thread** any ordinary thread.
    [[nodiscard]] EngineState state() const;

    [[nodiscard]] const DeviceRequest& request() const { return request_; }

    void want();   ///< from now on it should run
    void unwant(); ///< from now on it should not

    // The rest: **Thread** ThreadRole::SoundWorker.

    /// Opens and starts; on failure it is Lost, or Failed where no retry helps.
    void open();

    /// Stops at once and closes. Hangs while the sound server is frozen.
    void close();

    [[nodiscard]] bool isOpen() const { return stream_ != nullptr; }

    /// The device stands still, or is not looked for.
    [[nodiscard]] bool rests() const;

    /// An open device stands still, and a lost one is not looked for, or goes on; nothing in other states. What does
    /// not go on is Lost and closed. While it rests its state is Idle.
    void setResting(bool resting);

    [[nodiscard]] bool waitsToOpen() const; ///< wanted, not open, not resting, not Failed

    /// If it is open and its device is gone or has been silent too long: becomes Lost, says true.
    bool noticeLoss();

    /// Lost without having been open.
    void markLost(Error error);

protected:
    /// The work of the audio callback, under the rules of CallbackData.
    virtual void process(const CallbackData& data) noexcept = 0;

    /// Before the first callback after each opening; none runs meanwhile.
    virtual void beforeRun(Clock::time_point now, Seconds latency) = 0;

private:
    enum class Stage { Idle, Wanted, Opening, Open, Resting, Lost, Failed };
    struct Callback;

    struct Status {
        Stage stage = Stage::Idle;
        Clock::time_point since;
        std::optional<Error> error;
        bool wasLost = false;
        bool wasOpen = false;
    };

    void setStage(Stage stage, std::optional<Error> error = std::nullopt);
    void failToOpen(int portAudioError, int device);
    [[nodiscard]] std::string deviceText() const;
    [[nodiscard]] Clock::time_point lastCallback() const;

    DeviceRequest request_;
    mutable std::mutex mutex_; // guards status_
    Status status_;
    void* stream_ = nullptr; // PaStream
    int channels_ = 0;
    std::atomic<bool> heard_{false};               // a callback has come since the opening
    std::atomic<Clock::rep> lastCallbackTicks_{0}; // its time
};

} // namespace quillbench
