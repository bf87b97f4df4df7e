#pragma once

#include "core/support/random.hpp"
#include "core/units/frames.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <array>
#include <cstddef>
#include <span>

namespace quillbench {

/// The room's noise, more of it towards the bass as in any room, and the mains hum with its harmonics.
class RoomSound {
public:
    RoomSound(const VirtualRoom& room, SampleRate rate, Random random);

    void addTo(std::span<float> into);

private:
    static constexpr std::size_t kPoles = 3;
    static constexpr std::size_t kHarmonics = 8;

    struct Line {
        double feed = 0.0;
        double y1 = 0.0;
        double y2 = 0.0;
    };

    Random random_;
    bool noisy_ = false;
    bool humming_ = false;
    double white_ = 0.0;
    std::array<double, kPoles> keep_{};
    std::array<double, kPoles> gain_{};
    std::array<double, kPoles> state_{};
    std::array<Line, kHarmonics> lines_{};
};

} // namespace quillbench
