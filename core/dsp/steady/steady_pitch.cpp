#include "core/dsp/steady/steady_pitch.hpp"

#include "core/support/median.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace quillbench {

namespace {

constexpr std::size_t kFewestLooks = 4;
constexpr std::size_t kMostLooks = 60; // twenty seconds
constexpr double kAnotherToneCents = 60.0;
constexpr double kDiesBelow = 1e-3; // of the loudest look's power: 30 dB
constexpr double kLeftOfWaver = 0.1;
constexpr double kFloorCents = 0.05;

/// The looks in cents from their middle one.
std::vector<double> centsOf(const std::vector<ToneSeen>& looks, Hertz from) {
    std::vector<double> cents;
    cents.reserve(looks.size());
    for (const ToneSeen& one : looks) {
        cents.push_back(interval(from, one.pitch).value());
    }
    return cents;
}

double meanOf(const std::vector<double>& values, std::size_t from, std::size_t to) {
    const auto at = [&values](std::size_t i) {
        return values.begin() + static_cast<std::ptrdiff_t>(i);
    };
    return std::accumulate(at(from), at(to), 0.0) / static_cast<double>(to - from);
}

Hertz middleOf(const std::vector<ToneSeen>& looks) {
    std::vector<double> values;
    values.reserve(looks.size());
    for (const ToneSeen& one : looks) {
        values.push_back(one.pitch.value());
    }
    return Hertz(medianOf(std::move(values)));
}

} // namespace

SteadyPitchFollower::SteadyPitchFollower(SampleRate rate) : rate_(rate), look_(rate) {
}

void SteadyPitchFollower::restart() {
    waiting_.clear();
    looks_.clear();
    loudest_ = 0.0;
}

void SteadyPitchFollower::push(std::span<const float> samples) {
    waiting_.insert(waiting_.end(), samples.begin(), samples.end());
    std::size_t from = 0;
    while (waiting_.size() - from >= look_.length() + pause()) {
        from += pause();
        take(look_.see(std::span<const float>(waiting_).subspan(from, look_.length())));
        from += look_.length();
        ++looked_;
    }
    waiting_.erase(waiting_.begin(), waiting_.begin() + static_cast<std::ptrdiff_t>(from));
}

/// Looks at even distances would all meet a vibrato in step with them at the same place: up to half a look is left out
/// between them, by the golden section.
std::size_t SteadyPitchFollower::pause() const {
    const double share = std::fmod(static_cast<double>(looked_) * std::numbers::phi, 1.0);
    return static_cast<std::size_t>(0.5 * share * static_cast<double>(look_.length()));
}

void SteadyPitchFollower::take(const std::optional<ToneSeen>& seen) {
    if (!seen || seen->power < kDiesBelow * loudest_) {
        looks_.clear();
        loudest_ = 0.0;
        return;
    }
    if (!looks_.empty() &&
        std::abs(interval(middleOf(looks_), seen->pitch).value()) > kAnotherToneCents) {
        looks_.clear();
        loudest_ = 0.0;
    }
    loudest_ = std::max(loudest_, seen->power);
    looks_.push_back(*seen);
    if (looks_.size() > kMostLooks) {
        looks_.erase(looks_.begin());
    }
}

std::optional<SteadyPitch> SteadyPitchFollower::reading() const {
    // The first look may hold the attack, the newest the next tone's.
    if (looks_.size() < kFewestLooks + 2) {
        return std::nullopt;
    }
    const std::vector<ToneSeen> held(looks_.begin() + 1, looks_.end() - 1);
    const Hertz middle = middleOf(held);
    const std::vector<double> cents = centsOf(held, middle);
    const std::size_t count = cents.size();
    const double mean = meanOf(cents, 0, count);
    double squares = 0.0;
    for (const double one : cents) {
        squares += (one - mean) * (one - mean);
    }
    const double spread = std::sqrt(squares / static_cast<double>(count - 1));
    const double drift = meanOf(cents, count / 2, count) - meanOf(cents, 0, count / 2);
    SteadyPitch pitch;
    pitch.pitch = transpose(middle, Cents(mean));
    double wavers = 0.0;
    for (const ToneSeen& one : held) {
        wavers += one.waver.value() * one.waver.value();
    }
    pitch.waver = Cents(std::sqrt(wavers / static_cast<double>(count)));
    pitch.uncertainty =
        Cents(std::hypot(std::hypot(spread / std::sqrt(static_cast<double>(count)), drift / 2.0),
                         kLeftOfWaver * pitch.waver.value(),
                         kFloorCents));
    pitch.length = Seconds(static_cast<double>(count * look_.length()) / rate_.hz());
    return pitch;
}

} // namespace quillbench
