#include "audio/device_list.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;

namespace {

AudioDevice device(const char* name, int inputs, int outputs) {
    AudioDevice made;
    made.name = name;
    made.inputChannels = inputs;
    made.outputChannels = outputs;
    return made;
}

} // namespace

TEST_CASE("a device is found by its name, though its card number changed", "[unit]") {
    DeviceList list;
    list.devices = {device("Field Recorder: Audio (hw:2,0)", 2, 0),
                    device("Loud: Analog (hw:0,0)", 0, 2),
                    device("Built-in: Analog (hw:1,0)", 2, 2)};
    list.devices[2].defaultInput = true;
    CHECK(list.findInput("Built-in: Analog (hw:1,0)") == &list.devices[2]);
    CHECK(list.findInput("Field Recorder: Audio (hw:7,0)") == &list.devices[0]);
    CHECK(list.findInput("") == &list.devices[2]);
    CHECK(list.findOutput("") == nullptr);
    CHECK(list.findInput("Loud: Analog (hw:0,0)") == nullptr); // has no inputs
    CHECK(list.findOutput("Loud: Analog (hw:0,0)") == &list.devices[1]);
    CHECK(list.findInput("Unknown") == nullptr);
    CHECK(DeviceList{}.findInput("") == nullptr);
}

TEST_CASE("of two alike devices the one with the same card number is taken", "[unit]") {
    DeviceList list;
    list.devices = {device("Pair: Audio (hw:1,0)", 1, 0), device("Pair: Audio (hw:2,0)", 1, 0)};
    CHECK(list.findInput("Pair: Audio (hw:2,0)") == &list.devices[1]);
    CHECK(list.findInput("Pair: Audio (hw:5,0)") == &list.devices[0]);
}
