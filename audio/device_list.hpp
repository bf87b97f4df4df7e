#pragma once

#include "core/units/frames.hpp"

#include <string>
#include <vector>

namespace quillbench {

/// What the host's sound system offers under one name.
struct AudioDevice {
    std::string name;
    std::string hostApi; ///< "ALSA", "JACK Audio Connection Kit", …
    int inputChannels = 0;
    int outputChannels = 0;
    std::vector<SampleRate>
        inputRates; ///< of 44.1–192 kHz; empty also while another program holds the device
    std::vector<SampleRate> outputRates; ///< likewise
    SampleRate preferredRate;
    bool defaultInput = false;
    bool defaultOutput = false;
};

/// A copy of the device list at one instant.
struct DeviceList {
    std::vector<AudioDevice> devices;

    /// The device of that name, or the default one for an empty name; null where there is none. A name that differs
    /// only in ALSA's card numbers "(hw:1,0)", which change when a device is plugged in again, is the same device.
    [[nodiscard]] const AudioDevice* findInput(const std::string& name) const;
    [[nodiscard]] const AudioDevice* findOutput(const std::string& name) const;
};

/// The rates of ordinary sound cards, 44.1 to 192 kHz, ascending.
[[nodiscard]] std::vector<SampleRate> usualRates();

/// `name` without a trailing "(hw:1,0)".
[[nodiscard]] std::string nameWithoutCard(const std::string& name);

} // namespace quillbench
