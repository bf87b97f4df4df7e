#pragma once

#include <cmath>
#include <cstdint>
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
            ++taken_;
            end_ = run_ >= 2 ? taken_ : end_;
        }
    }

    [[nodiscard]] bool found() const { return loudest_ > 0.01F && flats_ >= 4; }

    /// Samples since begin() up to the end of the last flat top; 0 where none was found.
    [[nodiscard]] std::int64_t end() const { return found() ? end_ : 0; }

private:
    std::int64_t taken_ = 0;
    std::int64_t end_ = 0;
    float loudest_ = 0.0F;
    float last_ = 0.0F;
    int run_ = 0;
    int flats_ = 0;
};

} // namespace quillbench
