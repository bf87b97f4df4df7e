#include "core/dsp/stagger/beginnings.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace quillbench {

namespace {

constexpr double kAhead = 0.001;
constexpr double kBehindNear = 0.0015;
constexpr double kBehindFar = 0.006;
constexpr double kApart = 0.003; // two beginnings that are told apart
constexpr double kStrong = 0.12; // of the strongest millisecond's power

class RunningPower {
public:
    explicit RunningPower(std::span<const double> sound) : sums_(sound.size() + 1, 0.0) {
        for (std::size_t i = 0; i < sound.size(); ++i) {
            sums_[i + 1] = sums_[i] + sound[i] * sound[i];
        }
    }

    [[nodiscard]] double mean(std::ptrdiff_t from, std::ptrdiff_t to) const {
        const auto end = static_cast<std::ptrdiff_t>(sums_.size()) - 1;
        from = std::clamp<std::ptrdiff_t>(from, 0, end);
        to = std::clamp<std::ptrdiff_t>(to, from, end);
        return to == from
                   ? 0.0
                   : (sums_[static_cast<std::size_t>(to)] - sums_[static_cast<std::size_t>(from)]) /
                         static_cast<double>(to - from);
    }

private:
    std::vector<double> sums_;
};

std::ptrdiff_t samples(double seconds, double rateHz) {
    return std::lround(seconds * rateHz);
}

} // namespace

std::vector<Beginning> findBeginnings(std::span<const double> whitened,
                                      double rateHz,
                                      std::size_t from,
                                      std::size_t to,
                                      double floor,
                                      double leastRiseDb) {
    const RunningPower power(whitened);
    const std::ptrdiff_t ahead = samples(kAhead, rateHz);
    const std::ptrdiff_t nearBack = samples(kBehindNear, rateHz);
    const std::ptrdiff_t farBack = samples(kBehindFar, rateHz);
    const std::ptrdiff_t apart = samples(kApart, rateHz) / 2;
    std::vector<Beginning> all;
    for (std::size_t i = from; i < to; ++i) {
        const auto at = static_cast<std::ptrdiff_t>(i);
        const double now = power.mean(at, at + ahead);
        const double before = std::max(power.mean(at - farBack, at - nearBack), floor);
        all.push_back({i, 10.0 * std::log10((now + 1e-30) / (before + 1e-30)), now});
    }
    std::vector<Beginning> found;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i].riseDb < leastRiseDb) {
            continue;
        }
        const std::size_t low =
            i > static_cast<std::size_t>(apart) ? i - static_cast<std::size_t>(apart) : 0;
        const std::size_t high = std::min(all.size(), i + static_cast<std::size_t>(apart) + 1);
        const bool highest =
            std::none_of(all.begin() + static_cast<std::ptrdiff_t>(low),
                         all.begin() + static_cast<std::ptrdiff_t>(high),
                         [&](const Beginning& b) { return b.riseDb > all[i].riseDb; });
        if (highest) {
            found.push_back(all[i]);
        }
    }
    return found;
}

std::size_t likeliestChange(std::span<const double> whitened,
                            double rateHz,
                            std::size_t from,
                            std::size_t to,
                            double floor) {
    const RunningPower power(whitened);
    const std::ptrdiff_t before = samples(0.004, rateHz);
    const std::ptrdiff_t after = samples(0.0015, rateHz);
    std::size_t best = from;
    double bestScore = -std::numeric_limits<double>::infinity();
    for (std::size_t i = from; i <= to && i < whitened.size(); ++i) {
        const auto at = static_cast<std::ptrdiff_t>(i);
        const double quiet = power.mean(at - before, at) + floor;
        const double loud = power.mean(at, at + after) + floor;
        const double both = power.mean(at - before, at + after) + floor;
        const double score = static_cast<double>(before + after) * std::log(both) -
                             static_cast<double>(before) * std::log(quiet) -
                             static_cast<double>(after) * std::log(loud);
        if (loud > quiet && score > bestScore) {
            bestScore = score;
            best = i;
        }
    }
    return best;
}

std::size_t firstStrongBeginning(std::span<const double> whitened,
                                 double rateHz,
                                 double periodSeconds,
                                 double floor) {
    const RunningPower power(whitened);
    const std::ptrdiff_t ahead = samples(kAhead, rateHz);
    const auto last = static_cast<std::ptrdiff_t>(whitened.size()) - ahead;
    std::ptrdiff_t loudest = 0;
    double most = 0.0;
    for (std::ptrdiff_t i = 0; i < last; ++i) {
        const double now = power.mean(i, i + ahead);
        if (now > most) {
            most = now;
            loudest = i;
        }
    }
    const std::ptrdiff_t reach = samples(1.2 * periodSeconds + 0.002, rateHz);
    std::ptrdiff_t first = std::max<std::ptrdiff_t>(0, loudest - reach);
    while (first < loudest && power.mean(first, first + ahead) < kStrong * most) {
        ++first;
    }
    const std::ptrdiff_t margin = samples(0.002, rateHz);
    return likeliestChange(whitened,
                           rateHz,
                           static_cast<std::size_t>(std::max<std::ptrdiff_t>(0, first - margin)),
                           static_cast<std::size_t>(first + margin),
                           floor);
}

double quietestPower(std::span<const double> sound, double rateHz, double windowSeconds) {
    const RunningPower power(sound);
    const std::ptrdiff_t window = std::max<std::ptrdiff_t>(1, samples(windowSeconds, rateHz));
    const auto count = static_cast<std::ptrdiff_t>(sound.size());
    double least = power.mean(0, count);
    for (std::ptrdiff_t i = 0; i + window <= count; i += std::max<std::ptrdiff_t>(1, window / 4)) {
        least = std::min(least, power.mean(i, i + window));
    }
    return least;
}

} // namespace quillbench
