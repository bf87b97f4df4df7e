#include "app/formats/reading_names.hpp"

#include <array>
#include <utility>

namespace quillbench {

namespace {

constexpr std::array<std::pair<Warning, const char*>, 11> kWarnings{{
    {Warning::Clipped, "clipped"},
    {Warning::Hum, "hum"},
    {Warning::Noisy, "noisy"},
    {Warning::TwoStrings, "two strings"},
    {Warning::NotTheStringAsked, "not the string asked"},
    {Warning::RingingTwin, "ringing twin"},
    {Warning::AutomaticGain, "automatic gain"},
    {Warning::Gated, "gated"},
    {Warning::TooShort, "too short"},
    {Warning::FalseBeat, "false beat"},
    {Warning::OffTarget, "off target"},
}};

} // namespace

std::vector<std::string> warningNames(const StringReading& reading) {
    std::vector<std::string> names;
    for (const auto& [warning, name] : kWarnings) {
        if (reading.has(warning)) {
            names.emplace_back(name);
        }
    }
    return names;
}

std::string stepStateName(StepState state) {
    switch (state) {
    case StepState::Untouched:
        return "untouched";
    case StepState::Working:
        return "working";
    case StepState::Settled:
        return "settled";
    case StepState::Kept:
        return "kept";
    case StepState::Skipped:
        return "skipped";
    }
    return {};
}

} // namespace quillbench
