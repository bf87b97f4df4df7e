#include "audio/portaudio_library.hpp"

#include "audio/thread_role.hpp"
#include "core/support/contract.hpp"

#include <dlfcn.h>
#include <portaudio.h>

#include <utility>

namespace quillbench {
namespace {

void sayNothing(const char* /*text*/) {
}

void sayNothingOf(const char* /*file*/,
                  int /*line*/,
                  const char* /*function*/,
                  int /*error*/,
                  const char* /*format*/,
                  ...) {
}

template <typename Handler>
void install(const char* setter, Handler handler) {
    if (void* const found = dlsym(RTLD_DEFAULT, setter)) {
        reinterpret_cast<void (*)(Handler)>(found)(handler);
    }
}

/// ALSA and JACK print a line to standard error for each thing they do not find, at every making of the list; what
/// matters reaches us as error codes. They are asked by name, since PortAudio may be built without either.
void quietHostLibraries() {
    install("snd_lib_error_set_handler", &sayNothingOf);
    install("jack_set_error_function", &sayNothing);
    install("jack_set_info_function", &sayNothing);
}

PaStreamParameters oneChannel(PaDeviceIndex index) {
    PaStreamParameters parameters{};
    parameters.device = index;
    parameters.channelCount = 1;
    parameters.sampleFormat = paFloat32;
    parameters.suggestedLatency = 0.05; // s; not used by the question
    return parameters;
}

std::vector<SampleRate> supportedRates(PaDeviceIndex index, Direction direction) {
    const PaStreamParameters parameters = oneChannel(index);
    std::vector<SampleRate> rates;
    for (const SampleRate rate : usualRates()) {
        const PaError answer = direction == Direction::Input
                                   ? Pa_IsFormatSupported(&parameters, nullptr, rate.hz())
                                   : Pa_IsFormatSupported(nullptr, &parameters, rate.hz());
        if (answer == paFormatIsSupported) {
            rates.push_back(rate);
        }
    }
    return rates;
}

} // namespace

Result<PortAudioLibrary> PortAudioLibrary::open() {
    EXPECTS(onThread(ThreadRole::SoundWorker));
    quietHostLibraries();
    if (const PaError error = Pa_Initialize(); error != paNoError) {
        return failure(ErrorCode::Environment,
                       std::string("the sound system does not start (") + Pa_GetErrorText(error) +
                           "): check that sound works in other programs");
    }
    return PortAudioLibrary();
}

PortAudioLibrary::PortAudioLibrary(PortAudioLibrary&& other) noexcept
    : open_(std::exchange(other.open_, false)) {
}

PortAudioLibrary& PortAudioLibrary::operator=(PortAudioLibrary&& other) noexcept {
    std::swap(open_, other.open_);
    return *this;
}

PortAudioLibrary::~PortAudioLibrary() {
    if (open_) {
        Pa_Terminate();
    }
}

DeviceList PortAudioLibrary::devices() const {
    EXPECTS(onThread(ThreadRole::SoundWorker));
    DeviceList list;
    const PaDeviceIndex count = Pa_GetDeviceCount();
    for (PaDeviceIndex i = 0; i < count; ++i) {
        const PaDeviceInfo* info = Pa_GetDeviceInfo(i);
        const PaHostApiInfo* host = info == nullptr ? nullptr : Pa_GetHostApiInfo(info->hostApi);
        if (host == nullptr) {
            continue;
        }
        AudioDevice device;
        device.name = info->name;
        device.hostApi = host->name;
        device.inputChannels = info->maxInputChannels;
        device.outputChannels = info->maxOutputChannels;
        device.preferredRate = SampleRate(info->defaultSampleRate);
        device.defaultInput = i == Pa_GetDefaultInputDevice();
        device.defaultOutput = i == Pa_GetDefaultOutputDevice();
        if (info->maxInputChannels > 0) {
            device.inputRates = supportedRates(i, Direction::Input);
        }
        if (info->maxOutputChannels > 0) {
            device.outputRates = supportedRates(i, Direction::Output);
        }
        list.devices.push_back(std::move(device));
    }
    return list;
}

int findDevice(Direction direction, const std::string& name) {
    EXPECTS(onThread(ThreadRole::SoundWorker));
    const bool input = direction == Direction::Input;
    if (name.empty()) {
        return input ? Pa_GetDefaultInputDevice() : Pa_GetDefaultOutputDevice();
    }
    int alike = -1;
    for (PaDeviceIndex i = 0; i < Pa_GetDeviceCount(); ++i) {
        const PaDeviceInfo* info = Pa_GetDeviceInfo(i);
        if (info == nullptr || (input ? info->maxInputChannels : info->maxOutputChannels) <= 0) {
            continue;
        }
        if (name == info->name) {
            return i;
        }
        if (alike < 0 && nameWithoutCard(name) == nameWithoutCard(info->name)) {
            alike = i;
        }
    }
    return alike;
}

} // namespace quillbench
