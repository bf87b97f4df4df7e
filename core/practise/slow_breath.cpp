#include "core/practise/slow_breath.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kSlowLoudest = 0.1; // of full scale
constexpr Seconds kSlowEnds{0.02};

} // namespace

std::vector<float> slowBreath(const Breath& breath, Hertz at, double speed, SampleRate rate) {
    EXPECTS(speed > 0.0 && speed <= 1.0);
    EXPECTS(at.value() > 0.0 && 2.0 * at.value() < rate.hz());
    if (breath.level.size() < 2 || breath.hop <= Seconds(0.0)) {
        return {};
    }
    const double loudest =
        static_cast<double>(*std::max_element(breath.level.begin(), breath.level.end()));
    const std::size_t points = breath.level.size();
    const double perFrame = speed / rate.hz() / breath.hop.count(); // points
    const double turn = 2.0 * std::numbers::pi * at.value() / rate.hz();
    const auto ends = static_cast<double>(rate.frames(kSlowEnds).value());
    std::vector<float> sound(static_cast<std::size_t>(static_cast<double>(points - 1) / perFrame));
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const auto frame = static_cast<double>(i);
        const double place = frame * perFrame;
        const auto before = std::min(static_cast<std::size_t>(place), points - 2);
        const double share = place - static_cast<double>(before);
        const double level = (1.0 - share) * static_cast<double>(breath.level[before]) +
                             share * static_cast<double>(breath.level[before + 1]);
        const double toEnd = static_cast<double>(sound.size() - 1 - i);
        const double soft = std::min({1.0, frame / ends, toEnd / ends});
        const double amplitude = kSlowLoudest * std::pow(10.0, (level - loudest) / 20.0);
        sound[i] = static_cast<float>(soft * amplitude * std::sin(turn * frame));
    }
    return sound;
}

} // namespace quillbench
