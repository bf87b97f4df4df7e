#pragma once

#include <cmath>
#include <span>

namespace quillbench {

/// Flat tops: runs of three samples or more that stay at the loudest level there has been.
class ClippingWatch {
public:
    void begin() { *this = ClippingWatch(); }

    void take(std::span<const float> samples) {
        for (const float sample : samples) {
            const float size = std::abs(sample);
            if (size > loudest_ * 1.001F) {
                loudest_ = size;
                flats_ = 0;
            }
            const bool flat = size > loudest_ * 0.999F && std::abs(sample - last_) < size * 1e-3F;
            run_ = flat ? run_ + 1 : 0;
            flats_ += run_ == 2 ? 1 : 0;
            last_ = sample;
        }
    }

    [[nodiscard]] bool found() const { return loudest_ > 0.01F && flats_ >= 4; }

private:
    float loudest_ = 0.0F;
    float last_ = 0.0F;
    int run_ = 0;
    int flats_ = 0;
};

} // namespace quillbench
