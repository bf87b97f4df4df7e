#include "core/virtual/room_sound.hpp"

#include <cmath>
#include <numbers>

namespace quillbench {

RoomSound::RoomSound(const VirtualRoom& room, SampleRate rate, Random random)
    : random_(random),
      noisy_(room.noise.has_value()),
      humming_(room.hum.has_value()) {
    if (noisy_) {
        // One pole at each of these corners, the lower the stronger: about 1/f between 30 Hz and 3 kHz.
        constexpr std::array<double, kPoles> kCornersHz{30.0, 300.0, 3000.0};
        constexpr double kWhite = 0.3;
        double variance = kWhite * kWhite / 3.0;
        for (std::size_t i = 0; i < kPoles; ++i) {
            keep_[i] = std::exp(-2.0 * std::numbers::pi * kCornersHz[i] / rate.hz());
            // Each pole carries an equal share of the power: a third part each of uniform noise's 1/3.
            gain_[i] = std::sqrt(1.0 - keep_[i] * keep_[i]);
        }
        for (std::size_t i = 0; i < kPoles; ++i) {
            for (std::size_t j = 0; j < kPoles; ++j) {
                variance += gain_[i] * gain_[j] / (1.0 - keep_[i] * keep_[j]) / 3.0;
            }
            variance += 2.0 * kWhite * gain_[i] / 3.0;
        }
        const double scale = room.noise->amplitude() / std::sqrt(variance);
        white_ = kWhite * scale;
        for (double& gain : gain_) {
            gain *= scale;
        }
    }
    if (humming_) {
        for (std::size_t h = 0; h < kHarmonics; ++h) {
            // Even harmonics (rectifiers, transformers) are the stronger ones; they fall with their number.
            const double n = static_cast<double>(h + 1);
            const double level = (h % 2 == 1 ? 1.0 : 0.5) * 2.0 / (n + 1.0);
            const double angle = 2.0 * std::numbers::pi * n * room.mains.value() / rate.hz();
            const double phase = random_.uniform(0.0, 2.0 * std::numbers::pi);
            const double amplitude = 1.5 * level * room.hum->amplitude();
            lines_[h].feed = 2.0 * std::cos(angle);
            lines_[h].y1 = amplitude * std::cos(phase - angle);
            lines_[h].y2 = amplitude * std::cos(phase - 2.0 * angle);
        }
    }
}

void RoomSound::addTo(std::span<float> into) {
    if (!noisy_ && !humming_) {
        return;
    }
    for (float& sample : into) {
        double sum = 0.0;
        if (noisy_) {
            const double noise = random_.uniform(-1.0, 1.0);
            sum = white_ * noise;
            for (std::size_t i = 0; i < kPoles; ++i) {
                state_[i] = keep_[i] * state_[i] + gain_[i] * noise;
                sum += state_[i];
            }
        }
        if (humming_) {
            for (Line& line : lines_) {
                const double y = line.feed * line.y1 - line.y2;
                line.y2 = line.y1;
                line.y1 = y;
                sum += y;
            }
        }
        sample += static_cast<float>(sum);
    }
}

} // namespace quillbench
