#include "audio/device_list.hpp"

namespace quillbench {
namespace {

const AudioDevice* find(const std::vector<AudioDevice>& devices,
                        const std::string& name,
                        int AudioDevice::*channels,
                        bool AudioDevice::*isDefault) {
    const AudioDevice* alike = nullptr;
    for (const AudioDevice& device : devices) {
        if (device.*channels <= 0) {
            continue;
        }
        if (name.empty() ? device.*isDefault : device.name == name) {
            return &device;
        }
        if (alike == nullptr && !name.empty() &&
            nameWithoutCard(device.name) == nameWithoutCard(name)) {
            alike = &device;
        }
    }
    return alike;
}

} // namespace

std::vector<SampleRate> usualRates() {
    return {SampleRate(44100.0),
            SampleRate(48000.0),
            SampleRate(88200.0),
            SampleRate(96000.0),
            SampleRate(176400.0),
            SampleRate(192000.0)};
}

const AudioDevice* DeviceList::findInput(const std::string& name) const {
    return find(devices, name, &AudioDevice::inputChannels, &AudioDevice::defaultInput);
}

const AudioDevice* DeviceList::findOutput(const std::string& name) const {
    return find(devices, name, &AudioDevice::outputChannels, &AudioDevice::defaultOutput);
}

std::string nameWithoutCard(const std::string& name) {
    const std::size_t card = name.rfind(" (hw:");
    return card == std::string::npos ? name : name.substr(0, card);
}

} // namespace quillbench
