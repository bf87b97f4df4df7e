#include "audio/device_stream.hpp"

#include "audio/thread_role.hpp"
#include "core/support/contract.hpp"

#include <portaudio.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {
namespace {

constexpr const char* kNoAnswer =
    "the sound server does not answer: it is tried again; if this lasts, restart it";

} // namespace

struct DeviceStream::Callback {
    /// PortAudio's callback. Its contract (portaudio.h, PaStreamCallback): no memory allocation, no file access, no
    /// library call that may block; the whole output is always written; no PortAudio call.
    static int run(const void* input,
                   void* output,
                   unsigned long frames,
                   const PaStreamCallbackTimeInfo* /*time*/,
                   PaStreamCallbackFlags flags,
                   void* user) noexcept {
        auto& self = *static_cast<DeviceStream*>(user);
        CallbackData data;
        data.input = static_cast<const float*>(input);
        data.output = static_cast<float*>(output);
        data.frames = frames;
        data.channels = self.channels_;
        data.disturbed = (flags & (paInputOverflow | paInputUnderflow)) != 0;
        // On ordinary clock sources no system call: the kernel shares a page. It never blocks.
        data.time = Clock::now();
        self.process(data);
        self.lastCallbackTicks_.store(data.time.time_since_epoch().count(),
                                      std::memory_order_relaxed);
        self.heard_.store(true, std::memory_order_release);
        return paContinue;
    }
};

DeviceStream::DeviceStream(DeviceRequest request) : request_(std::move(request)) {
    EXPECTS(request_.channels >= 1);
    EXPECTS(request_.rate.hz() > 0.0);
}

DeviceStream::~DeviceStream() = default;

void DeviceStream::want() {
    const std::lock_guard lock(mutex_);
    status_ = Status{Stage::Wanted, Clock::now(), std::nullopt, false, false};
}

void DeviceStream::unwant() {
    setStage(Stage::Idle);
}

void DeviceStream::setStage(Stage stage, std::optional<Error> error) {
    const std::lock_guard lock(mutex_);
    status_.stage = stage;
    status_.since = Clock::now();
    status_.error = std::move(error);
    status_.wasLost = status_.wasLost || stage == Stage::Lost;
}

DeviceStream::Clock::time_point DeviceStream::lastCallback() const {
    return Clock::time_point(Clock::duration(lastCallbackTicks_.load(std::memory_order_relaxed)));
}

EngineState DeviceStream::state() const {
    Status status;
    {
        const std::lock_guard lock(mutex_);
        status = status_;
    }
    const Clock::time_point now = Clock::now();
    const Error noAnswer{ErrorCode::Environment, kNoAnswer, request_.device};
    switch (status.stage) {
    case Stage::Idle:
    case Stage::Resting:
        return {EnginePhase::Idle, std::nullopt};
    case Stage::Failed:
        return {EnginePhase::Failed, status.error};
    case Stage::Lost:
        return {EnginePhase::Lost, status.error, !status.wasOpen};
    case Stage::Wanted: // lasts only while the worker hangs with another stream
    case Stage::Opening:
        if (now - status.since > kOpensWithin) {
            return {EnginePhase::Lost, noAnswer};
        }
        if (status.wasLost) {
            return {EnginePhase::Lost, status.error, !status.wasOpen};
        }
        return {EnginePhase::Starting, std::nullopt};
    case Stage::Open:
        break;
    }
    if (!heard_.load(std::memory_order_acquire)) {
        return status.wasLost
                   ? EngineState{EnginePhase::Recovering,
                                 Error{ErrorCode::Environment,
                                       deviceText() + " is open again: waiting for its sound",
                                       request_.device}}
                   : EngineState{EnginePhase::Starting, std::nullopt};
    }
    const Seconds silent = now - lastCallback();
    if (silent > kLostAfter + kWorkerHangs) {
        return {EnginePhase::Lost, noAnswer};
    }
    if (silent > kSilentAfter) {
        return {
            EnginePhase::Silent,
            Error{ErrorCode::Environment, deviceText() + " has fallen silent", request_.device}};
    }
    return {EnginePhase::Running, std::nullopt};
}

bool DeviceStream::waitsToOpen() const {
    const std::lock_guard lock(mutex_);
    return stream_ == nullptr && status_.stage != Stage::Idle && status_.stage != Stage::Failed &&
           status_.stage != Stage::Resting;
}

bool DeviceStream::rests() const {
    const std::lock_guard lock(mutex_);
    return status_.stage == Stage::Resting;
}

std::string DeviceStream::deviceText() const {
    const std::string kind =
        request_.direction == Direction::Input ? "sound input" : "sound output";
    return request_.device.empty() ? "the default " + kind
                                   : "the " + kind + " '" + request_.device + "'";
}

void DeviceStream::markLost(Error error) {
    setStage(Stage::Lost, std::move(error));
}

void DeviceStream::open() {
    EXPECTS(onThread(ThreadRole::SoundWorker));
    EXPECTS(stream_ == nullptr);
    {
        const std::lock_guard lock(mutex_);
        if (status_.stage == Stage::Idle) {
            return;
        }
        status_.stage = Stage::Opening;
        status_.since = Clock::now();
    }
    const bool input = request_.direction == Direction::Input;
    const int device = findDevice(request_.direction, request_.device);
    if (device < 0) {
        failToOpen(paDeviceUnavailable, device);
        return;
    }
    const PaDeviceInfo* info = Pa_GetDeviceInfo(device);
    const int has = input ? info->maxInputChannels : info->maxOutputChannels;
    channels_ = input ? request_.channels : std::min(request_.channels, has);
    PaStreamParameters parameters{};
    parameters.device = device;
    parameters.channelCount = channels_;
    parameters.sampleFormat = paFloat32;
    parameters.suggestedLatency = request_.latency.count();
    heard_.store(false, std::memory_order_release);
    PaStream* stream = nullptr;
    PaError error = Pa_OpenStream(&stream,
                                  input ? &parameters : nullptr,
                                  input ? nullptr : &parameters,
                                  request_.rate.hz(),
                                  paFramesPerBufferUnspecified,
                                  paNoFlag,
                                  &Callback::run,
                                  this);
    if (error != paNoError) {
        failToOpen(error, device);
        return;
    }
    stream_ = stream;
    const PaStreamInfo* streamInfo = Pa_GetStreamInfo(stream);
    const double latency = streamInfo == nullptr ? 0.0
                           : input               ? streamInfo->inputLatency
                                                 : streamInfo->outputLatency;
    beforeRun(Clock::now(), Seconds(latency));
    error = Pa_StartStream(stream);
    if (error != paNoError) {
        Pa_CloseStream(stream);
        stream_ = nullptr;
        failToOpen(error, device);
        return;
    }
    const std::lock_guard lock(mutex_);
    if (status_.stage == Stage::Opening) { // else it was unwanted meanwhile
        status_.stage = Stage::Open;       // an earlier error stays until sound comes
        status_.since = Clock::now();
        status_.wasOpen = true;
    }
}

void DeviceStream::failToOpen(int portAudioError, int device) {
    const bool input = request_.direction == Direction::Input;
    Error error{ErrorCode::Environment, {}, request_.device};
    bool retry = true;
    if (device < 0) {
        error.text =
            request_.device.empty()
                ? (input ? std::string("no sound input is there: connect a microphone; it "
                                       "is taken as soon as it is found")
                         : std::string("no sound output is there: connect a loudspeaker or "
                                       "headphones; they are taken as soon as found"))
                : deviceText() +
                      " is not there: connect it, or choose another; it is taken as soon "
                      "as it is found";
    } else {
        const PaDeviceInfo* info = Pa_GetDeviceInfo(device);
        PaStreamParameters parameters{};
        parameters.device = device;
        parameters.channelCount = 1;
        parameters.sampleFormat = paFloat32;
        parameters.suggestedLatency = request_.latency.count();
        // A device that works at its own rate but not as asked will not change its mind.
        const bool answers = Pa_IsFormatSupported(input ? &parameters : nullptr,
                                                  input ? nullptr : &parameters,
                                                  info->defaultSampleRate) == paFormatIsSupported;
        if (portAudioError == paInvalidSampleRate && answers) {
            retry = false;
            error.text = deviceText() + " does not work at " +
                         std::to_string(std::lround(request_.rate.hz())) +
                         " Hz: choose another rate, such as " +
                         std::to_string(std::lround(info->defaultSampleRate)) + " Hz";
        } else if (portAudioError == paInvalidChannelCount && answers) {
            retry = false;
            error.text = deviceText() + " has " +
                         std::to_string(input ? info->maxInputChannels : info->maxOutputChannels) +
                         " channels, number " + std::to_string(request_.channels) +
                         " was asked for: choose one it has";
        } else {
            error.text = deviceText() + " does not open (" + Pa_GetErrorText(portAudioError) +
                         "): end other programs that may hold it, or choose another; it is tried "
                         "again every second";
        }
    }
    const std::lock_guard lock(mutex_);
    if (status_.stage != Stage::Opening) {
        return; // unwanted meanwhile
    }
    status_.stage = retry ? Stage::Lost : Stage::Failed;
    status_.since = Clock::now();
    status_.error = std::move(error);
    status_.wasLost = true;
}

void DeviceStream::setResting(bool resting) {
    EXPECTS(onThread(ThreadRole::SoundWorker));
    {
        const std::lock_guard lock(mutex_);
        const bool stood = status_.stage == Stage::Resting;
        const bool stands = status_.stage == (stream_ != nullptr ? Stage::Open : Stage::Lost);
        if (resting ? !stands : !stood) {
            return;
        }
        status_.stage = resting ? Stage::Resting : Stage::Opening;
        status_.since = Clock::now();
    }
    if (stream_ == nullptr) {
        return; // it is not looked for while it rests
    }
    heard_.store(false, std::memory_order_release);
    if (resting) {
        Pa_AbortStream(stream_);
        return;
    }
    const PaStreamInfo* info = Pa_GetStreamInfo(stream_);
    beforeRun(Clock::now(), Seconds(info == nullptr ? 0.0 : info->outputLatency));
    if (Pa_StartStream(stream_) != paNoError) {
        markLost(Error{ErrorCode::Environment,
                       deviceText() + " is gone: connect it again; it is looked for every second",
                       request_.device});
        close();
        return;
    }
    const std::lock_guard lock(mutex_);
    if (status_.stage == Stage::Opening) { // else it was unwanted meanwhile
        status_.stage = Stage::Open;
        status_.since = Clock::now();
    }
}

void DeviceStream::close() {
    EXPECTS(onThread(ThreadRole::SoundWorker));
    if (stream_ == nullptr) {
        return;
    }
    Pa_AbortStream(stream_);
    Pa_CloseStream(stream_);
    stream_ = nullptr;
}

bool DeviceStream::noticeLoss() {
    EXPECTS(onThread(ThreadRole::SoundWorker));
    if (stream_ == nullptr) {
        return false;
    }
    Clock::time_point since;
    {
        const std::lock_guard lock(mutex_);
        if (status_.stage != Stage::Open) {
            return false;
        }
        since = status_.since;
    }
    const Clock::time_point now = Clock::now();
    std::string what;
    if (Pa_IsStreamActive(stream_) != 1) {
        what = deviceText() + " is gone: connect it again; it is looked for every second";
    } else if (heard_.load(std::memory_order_acquire) ? now - lastCallback() > kLostAfter
                                                      : now - since > kFirstWithin) {
        what = deviceText() + " gives no sound: it is opened again every second";
    } else {
        return false;
    }
    const std::lock_guard lock(mutex_);
    if (status_.stage != Stage::Open) {
        return false;
    }
    status_ =
        Status{Stage::Lost, now, Error{ErrorCode::Environment, what, request_.device}, true, true};
    return true;
}

} // namespace quillbench
