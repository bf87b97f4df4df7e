#include "app/places/action/practice_faults.hpp"

#include "core/support/random.hpp"

#include <algorithm>

namespace quillbench {

namespace {

constexpr double kWeakPart = 0.45;   // of the usual displacement: 7 dB
constexpr double kLateBy = 0.35;     // s
constexpr double kStraysBy = 0.8;    // mm of key travel: as far as the next row
constexpr std::size_t kFromEnds = 6; // keys

} // namespace

std::vector<StringFault> faultsToFind(const Instrument& instrument, std::uint64_t seed) {
    Random random(seed);
    std::vector<StringFault> faults;
    std::vector<std::size_t> used;
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        const std::size_t strings = instrument.choirs[choir].strings.size();
        if (strings <= 3 * kFromEnds) {
            continue;
        }
        const auto add = [&](StringFault::Kind kind, double amount) {
            std::size_t course = 0;
            do {
                course = static_cast<std::size_t>(random.uniform(
                    static_cast<double>(kFromEnds), static_cast<double>(strings - kFromEnds)));
            } while (std::find(used.begin(), used.end(), course) != used.end());
            used.push_back(course);
            faults.push_back({kind, {choir, course}, amount});
        };
        add(StringFault::Kind::WeakPlectrum, kWeakPart);
        add(StringFault::Kind::LateDamper, kLateBy);
        if (instrument.registers.size() > 1) {
            add(StringFault::Kind::StrayJack, choir % 2 == 0 ? kStraysBy : -kStraysBy);
        }
        if (choir == 0) {
            add(StringFault::Kind::HangingJack, 0.0);
        }
    }
    return faults;
}

} // namespace quillbench
