#include "core/workflow/false_beats.hpp"

#include <algorithm>
#include <map>
#include <variant>

namespace quillbench {

namespace {

constexpr double kLongEnough = 1.0; // s: a shorter pluck tells of no beat

struct Plucks {
    std::vector<double> rates;
    std::size_t of = 0;
};

} // namespace

bool tellsOfOwnBeat(const StringReading& reading) {
    return reading.standing == Standing::Ok && reading.used.count() >= kLongEnough &&
           !reading.has(Warning::TwoStrings);
}

std::vector<HeardFalseBeat> falseBeatsHeard(std::span<const SessionEvent> events) {
    std::map<StringId, Plucks> byString;
    for (const SessionEvent& event : events) {
        const auto* heard = std::get_if<Heard>(&event.what);
        if (heard == nullptr || !tellsOfOwnBeat(heard->reading)) {
            continue;
        }
        Plucks& plucks = byString[heard->reading.string];
        ++plucks.of;
        if (heard->reading.ownBeat) {
            plucks.rates.push_back(heard->reading.ownBeat->perSecond());
        }
    }
    std::vector<HeardFalseBeat> found;
    for (auto& [string, plucks] : byString) {
        const std::size_t told = plucks.rates.size();
        if (told < kPlucksThatName || 2 * told <= plucks.of) {
            continue;
        }
        const auto middle = plucks.rates.begin() + static_cast<std::ptrdiff_t>(told / 2);
        std::nth_element(plucks.rates.begin(), middle, plucks.rates.end());
        found.push_back({string, BeatRate(*middle), told, plucks.of});
    }
    return found;
}

} // namespace quillbench
