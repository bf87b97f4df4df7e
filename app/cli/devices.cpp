#include "app/cli/command.hpp"
#include "app/formats/json_fields.hpp"
#include "audio/sound_worker.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

namespace quillbench::cli {
namespace {

using Json = nlohmann::ordered_json;

std::vector<long> inHertz(const std::vector<SampleRate>& rates) {
    std::vector<long> hertz;
    hertz.reserve(rates.size());
    for (const SampleRate rate : rates) {
        hertz.push_back(std::lround(rate.hz()));
    }
    return hertz;
}

Json toJson(const DeviceList& list) {
    Json devices = Json::array();
    for (const AudioDevice& device : list.devices) {
        devices.push_back({{"name", device.name},
                           {"host_api", device.hostApi},
                           {"input_channels", device.inputChannels},
                           {"output_channels", device.outputChannels},
                           {"input_rates_hz", inHertz(device.inputRates)},
                           {"output_rates_hz", inHertz(device.outputRates)},
                           {"preferred_rate_hz", std::lround(device.preferredRate.hz())},
                           {"default_input", device.defaultInput},
                           {"default_output", device.defaultOutput}});
    }
    return {{"schema", 1},
            {"kind", "devices"},
            {"id", nullptr},
            {"status", "ok"},
            {"devices", std::move(devices)}};
}

std::string
side(const char* name, int channels, const std::vector<SampleRate>& rates, bool isDefault) {
    if (channels <= 0) {
        return {};
    }
    std::string text = std::string("    ") + name + ": " + std::to_string(channels) +
                       (channels == 1 ? " channel" : " channels");
    if (rates.empty()) {
        text += ", busy or not answering";
    }
    for (std::size_t i = 0; i < rates.size(); ++i) {
        text += (i == 0 ? ", " : " ") + std::to_string(std::lround(rates[i].hz()));
    }
    text += rates.empty() ? "" : " Hz";
    return text + (isDefault ? " (default)\n" : "\n");
}

void printTable(const DeviceList& list) {
    for (const AudioDevice& device : list.devices) {
        std::printf(
            "%s  [%s]\n%s%s",
            device.name.c_str(),
            device.hostApi.c_str(),
            side("in ", device.inputChannels, device.inputRates, device.defaultInput).c_str(),
            side("out", device.outputChannels, device.outputRates, device.defaultOutput).c_str());
    }
}

int run(bool json) {
    SoundWorker worker;
    const auto list = worker.devices();
    if (!list) {
        std::fprintf(stderr, "quillbench-cli: %s\n", list.error().text.c_str());
        return kUnreadableInput;
    }
    if (list->devices.empty()) {
        std::fprintf(stderr, "quillbench-cli: no sound device is there\n");
    }
    if (json) {
        std::printf("%s\n", formatJsonLine(toJson(*list)).c_str());
    } else {
        printTable(*list);
    }
    return kDone;
}

} // namespace

void addDevices(CLI::App& app, int& exitCode) {
    CLI::App* command =
        app.add_subcommand("devices", "List the sound devices of this computer and their rates");
    auto json = std::make_shared<bool>(false);
    command->add_flag("--json", *json, "Print one JSON object");
    addExamples(*command, {"devices", "devices --json"});
    command->callback([json, &exitCode] { exitCode = run(*json); });
}

} // namespace quillbench::cli
