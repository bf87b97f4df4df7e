#include "core/action/repetition.hpp"

#include "core/action/smooth_curve.hpp"
#include "core/dsp/damper/release_fit.hpp"
#include "core/support/contract.hpp"
#include "core/support/median.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr double kLeastRise = 5.0; // dB within kRiseOver
constexpr Seconds kRiseOver{0.024};
constexpr Seconds kApart{0.05};     // nobody repeats twenty times a second
constexpr double kFarBelow = 20.0;  // dB under the loudest: a neighbour, a knock, or the room
constexpr double kSkipped = 1.6;    // of the usual interval: a stroke is missing between
constexpr double kHangsAfter = 0.4; // of the strokes asked for
constexpr Seconds kJustAfter{0.03};

/// Level of the frame at an instant after, held inside.
double later(const CombPower& power, std::size_t frame, Seconds by) {
    const auto step = static_cast<std::size_t>(std::lround(by.count() / power.hopSeconds));
    return power.db[std::min(frame + step, power.db.size() - 1)];
}

std::vector<RepeatedPluck> plucksIn(const CombPower& power) {
    std::vector<RepeatedPluck> plucks;
    const std::vector<double>& db = power.db;
    const auto reach = static_cast<std::size_t>(
        std::lround(std::max(kRiseOver.count(), power.frameSeconds) / power.hopSeconds));
    const auto apart = static_cast<std::size_t>(
        std::lround(std::max(kApart.count(), 1.5 * power.frameSeconds) / power.hopSeconds));
    const double loudest = *std::max_element(db.begin(), db.end());
    for (std::size_t i = reach; i < db.size(); ++i) {
        const double rise = db[i] - db[i - reach];
        if (rise < kLeastRise || db[i] < loudest - kFarBelow) {
            continue;
        }
        // The steepest of the frames that see the same rise.
        std::size_t best = i;
        double most = rise;
        std::size_t end = i;
        for (std::size_t j = i; j < std::min(i + apart, db.size()); ++j) {
            const double other = db[j] - db[j - reach];
            if (other > most) {
                most = other;
                best = j;
            }
            end = j;
        }
        RepeatedPluck pluck;
        const double middle = static_cast<double>(best) - 0.5 * static_cast<double>(reach);
        pluck.at = Seconds(power.firstSeconds + middle * power.hopSeconds);
        pluck.rise = most;
        pluck.level = later(power, best, kJustAfter);
        if (pluck.level >= loudest - kFarBelow) {
            plucks.push_back(pluck);
        }
        i = end;
    }
    return plucks;
}

std::vector<double> intervalsOf(const std::vector<RepeatedPluck>& plucks) {
    std::vector<double> intervals;
    for (std::size_t i = 1; i < plucks.size(); ++i) {
        intervals.push_back((plucks[i].at - plucks[i - 1].at).count());
    }
    return intervals;
}

} // namespace

RepetitionReading
hearRepetition(std::span<const float> samples, SampleRate rate, Hertz string, int asked) {
    EXPECTS(asked >= 2 && asked <= 40);
    RepetitionReading reading;
    reading.asked = asked;
    reading.missed = asked;
    const std::vector<double> sound(samples.begin(), samples.end());
    const CombPower power = combPower(sound, rate.hz(), string.value(), 0.0);
    if (power.db.size() < 8) {
        return reading;
    }
    reading.plucks = plucksIn(power);
    const auto heard = static_cast<int>(reading.plucks.size());
    reading.missed = std::max(0, asked - heard);
    reading.hangs = heard > 0 && heard <= static_cast<int>(kHangsAfter * asked);
    if (heard < 3) {
        return reading;
    }
    std::vector<double> levels;
    for (const RepeatedPluck& pluck : reading.plucks) {
        levels.push_back(pluck.level);
    }
    const double weakest = *std::min_element(levels.begin(), levels.end());
    reading.weakestDb = weakest - medianOf(levels);
    const std::vector<double> intervals = intervalsOf(reading.plucks);
    const double usual = medianOf(intervals);
    reading.usualRate = 1.0 / usual;
    if (reading.missed > 0) {
        for (const double interval : intervals) {
            if (interval > kSkipped * usual) {
                reading.missesFrom = std::round(interval / usual) / interval;
                break;
            }
        }
    }
    return reading;
}

} // namespace quillbench
