#include "core/dsp/damper/damper_falls.hpp"

#include "core/dsp/damper/damper_shape.hpp"

#include <algorithm>
#include <cstddef>

namespace quillbench::detail {

namespace {

constexpr double kShapeFor = 0.5; // s, more than is ever compared

/// Power of the fall at an instant, not smoothed by any frame.
double plainPower(const Fall& fall, double late) {
    const double direct = dampedAmplitude(late, fall.damper60);
    const double slow = dampedAmplitude(late, std::max(fall.room60, fall.damper60));
    return (1.0 - fall.share) * direct * direct + fall.share * slow * slow;
}

void smooth(Fall& fall, double frameSeconds) {
    const auto half = static_cast<int>(std::ceil(frameSeconds / 2.0 / 0.001));
    const std::vector<double> window = hannOfUnitSum(2 * static_cast<std::size_t>(half) + 1);
    double squares = 0.0;
    for (const double w : window) {
        squares += w * w;
    }
    const auto count = static_cast<std::size_t>((kFallBefore + kShapeFor) / kReleaseHop);
    fall.db.assign(count, 0.0);
    for (std::size_t i = 0; i < count; ++i) {
        const double late = static_cast<double>(i) * kReleaseHop - kFallBefore;
        double amplitude = 0.0;
        double power = 0.0;
        for (int k = -half; k <= half; ++k) {
            const double w = window[static_cast<std::size_t>(std::ptrdiff_t{k} + half)];
            const double at = late + 0.001 * k;
            amplitude += w * dampedAmplitude(at, fall.damper60);
            const double slow = dampedAmplitude(at, std::max(fall.room60, fall.damper60));
            power += w * w / squares * slow * slow;
        }
        fall.db[i] = toDb((1.0 - fall.share) * amplitude * amplitude + fall.share * power);
    }
}

} // namespace

std::vector<Fall> allFalls(double frameSeconds, double slowest60) {
    std::vector<Fall> falls;
    for (const double damper :
         {0.03,  0.037, 0.045, 0.055, 0.067, 0.08, 0.093, 0.108, 0.125, 0.145, 0.17, 0.2, 0.23,
          0.265, 0.305, 0.35,  0.405, 0.47,  0.54, 0.62,  0.72,  0.83,  0.96,  1.1,  1.3, 1.6}) {
        if (damper > slowest60 && !falls.empty()) {
            break;
        }
        falls.push_back({damper, 0.0, damper, {}});
        for (const double share : {0.04, 0.12, 0.3, 0.6}) {
            for (const double room : {0.25, 0.4, 0.65, 1.1}) {
                if (room > 1.5 * damper) {
                    falls.push_back({damper, share, room, {}});
                }
            }
        }
    }
    for (Fall& fall : falls) {
        smooth(fall, frameSeconds);
    }
    return falls;
}

double timeToFall(const Fall& fall, double ownDb, double db) {
    double late = 0.0;
    while (late < 20.0 && toDb(plainPower(fall, late)) - ownDb * late > -db) {
        late += 0.0005;
    }
    return late;
}

double integratedDecay(const Fall& fall, double ownDb) {
    const double step = 0.001;
    std::vector<double> energy;
    const auto steps = static_cast<std::size_t>(std::ceil((12.0 - kDamperGrip) / step));
    energy.reserve(steps);
    for (std::size_t i = 0; i < steps; ++i) {
        const double late = kDamperGrip + step * static_cast<double>(i);
        energy.push_back(plainPower(fall, late) * fromDb(-ownDb * late));
    }
    for (std::size_t i = energy.size() - 1; i > 0; --i) {
        energy[i - 1] += energy[i];
    }
    const double whole = energy[0];
    std::size_t start = 0;
    while (start + 1 < energy.size() && toDb(energy[start] / whole) >= -5.0) {
        ++start;
    }
    std::size_t end = start;
    while (end + 1 < energy.size() && toDb(energy[end] / whole) >= -25.0) {
        ++end;
    }
    return 60.0 * static_cast<double>(end - start) * step /
           (toDb(energy[start]) - toDb(energy[end]));
}

} // namespace quillbench::detail
