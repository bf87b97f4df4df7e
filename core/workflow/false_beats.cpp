#include "core/workflow/false_beats.hpp"

#include <algorithm>
#include <map>
#include <variant>

namespace quillbench {

namespace {

constexpr double kLongEnough = 1.0; // s: a shorter pluck tells of no beat
constexpr std::size_t kLeastPlucks = 3;

struct Plucks {
    std::vector<double> rates;
    std::size_t of = 0;
};

} // namespace

std::vector<HeardFalseBeat> falseBeatsHeard(std::span<const SessionEvent> events) {
    std::map<StringId, Plucks> byString;
    for (const SessionEvent& event : events) {
        const auto* heard = std::get_if<Heard>(&event.what);
        if (heard == nullptr || heard->reading.standing != Standing::Ok ||
            heard->reading.used.count() < kLongEnough || heard->reading.has(Warning::TwoStrings)) {
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
        if (told < kLeastPlucks || 2 * told <= plucks.of) {
            continue;
        }
        const auto middle = plucks.rates.begin() + static_cast<std::ptrdiff_t>(told / 2);
        std::nth_element(plucks.rates.begin(), middle, plucks.rates.end());
        found.push_back({string, BeatRate(*middle), told, plucks.of});
    }
    return found;
}

} // namespace quillbench
