#include "core/workflow/partial_offsets.hpp"

#include "core/support/contract.hpp"
#include "core/workflow/step.hpp"

#include <algorithm>

namespace quillbench {

namespace {

/// What was heard for less has not told its partials apart from their glide.
constexpr Seconds kLeastHeard{0.8};
/// One standard deviation.
constexpr Cents kSurePartial{0.4};
/// Further away lies another string, or a hum.
constexpr Cents kMostAside{3.0};

} // namespace

std::optional<PartialOffsets::Offset> PartialOffsets::at(int n) const {
    EXPECTS(n >= 1);
    const auto index = static_cast<std::size_t>(n - 1);
    return index < of.size() ? of[index] : std::nullopt;
}

bool PartialOffsets::any() const {
    return std::any_of(of.begin(), of.end(), [](const auto& one) { return one.has_value(); });
}

PartialOffsets offsetsOf(const StringReading& reading, double inharmonicity) {
    PartialOffsets offsets;
    if (reading.standing != Standing::Ok || reading.used < kLeastHeard ||
        reading.pitch.value() <= 0.0) {
        return offsets;
    }
    for (std::size_t i = 0; i < reading.partials.size(); ++i) {
        const PartialReading& partial = reading.partials[i];
        if (partial.number < 1 || partial.number > static_cast<int>(offsets.of.size()) ||
            partial.frequency.value() <= 0.0) {
            continue;
        }
        const Hertz place = transpose(Hertz(partial.number * reading.pitch.value()),
                                      partialStretch(partial.number, inharmonicity));
        const Cents aside = interval(place, partial.frequency);
        const Hertz further(partial.frequency.value() + partial.frequencyUncertainty);
        const Cents uncertainty = interval(partial.frequency, further);
        if (abs(aside) <= kMostAside && uncertainty <= kSurePartial) {
            offsets.of[static_cast<std::size_t>(partial.number - 1)] =
                PartialOffsets::Offset{aside, uncertainty};
        }
    }
    return offsets;
}

} // namespace quillbench
