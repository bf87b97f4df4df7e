#include "core/virtual/knock.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kSilent = 1e-6; // −120 dB re full scale

} // namespace

Knocks::Knocks(SampleRate rate) : rate_(rate) {
}

void Knocks::start(const KnockKind& kind, std::uint64_t seed) {
    const auto free = std::find_if(
        knocks_.begin(), knocks_.end(), [](const Knock& knock) { return knock.level < kSilent; });
    if (free == knocks_.end()) {
        return;
    }
    const double centre = std::min(kind.centre.value(), 0.4 * rate_.hz());
    const double radius = std::exp(-std::numbers::pi * centre * kind.bandwidth / rate_.hz());
    *free = Knock{};
    free->random = Random(seed);
    free->level = kind.level;
    free->keep = std::pow(10.0, -3.0 / (kind.decay60.count() * rate_.hz()));
    free->feed = 2.0 * radius * std::cos(2.0 * std::numbers::pi * centre / rate_.hz());
    free->back = radius * radius;
    // Uniform noise of variance 1/3 through two poles: variance (1+b)/((1−b)·((1+b)²−a²)) [textbook AR(2)].
    const double a = free->feed;
    const double b = free->back;
    free->in = std::sqrt(3.0 * (1.0 - b) * ((1.0 + b) * (1.0 + b) - a * a) / (1.0 + b));
}

void Knocks::addTo(std::span<float> into) {
    for (Knock& knock : knocks_) {
        for (float& sample : into) {
            if (knock.level < kSilent) {
                break;
            }
            const double y = knock.in * knock.random.uniform(-1.0, 1.0) + knock.feed * knock.y1 -
                             knock.back * knock.y2;
            knock.y2 = knock.y1;
            knock.y1 = y;
            sample += static_cast<float>(knock.level * y);
            knock.level *= knock.keep;
        }
    }
}

bool Knocks::sound() const {
    return std::any_of(
        knocks_.begin(), knocks_.end(), [](const Knock& knock) { return knock.level >= kSilent; });
}

} // namespace quillbench
