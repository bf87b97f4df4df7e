#include "core/dsp/tied_pair/tied_string.hpp"

#include "core/dsp/constants.hpp"
#include "core/dsp/string_priors.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>

namespace quillbench {

namespace {

constexpr double kCourseStep = 0.005; ///< s
constexpr std::size_t kCoursePoints = 1801;

// What a string may bring, one standard deviation. **Source** measured notes and the spread of the virtual instruments.
constexpr double kStiffnessLn = 0.6;
constexpr double kGlideCentsAtPluck = 0.9; ///< about as much more or less
constexpr double kStretchLn = 0.3;
constexpr double kOffsetCents = 0.2;
constexpr double kDecayLn = 0.5;
constexpr double kSplitCents = 1.2;
constexpr double kSlowerLn = -0.45; ///< the second polarisation dies more slowly
constexpr double kSlowerSpread = 0.35;

} // namespace

GlideCourse::GlideCourse(std::span<const double> energies, std::span<const double> decays)
    : integral_(kCoursePoints),
      course_(kCoursePoints) {
    EXPECTS(!energies.empty() && energies.size() == decays.size());
    const double all = std::accumulate(energies.begin(), energies.end(), 0.0);
    for (std::size_t line = 0; line < energies.size(); ++line) {
        const double share = energies[line] / all;
        const double rate = 2.0 * decays[line];
        const double fall = std::exp(-rate * kCourseStep);
        double left = share;
        for (std::size_t i = 0; i < kCoursePoints; ++i) {
            course_[i] += left;
            integral_[i] += (share - left) / rate;
            left *= fall;
        }
    }
}

GlideCourse::Phase GlideCourse::at(double time, double stretch) const {
    const double after = std::max(time, 0.0);
    const double faster = std::exp(stretch);
    const double place = after * faster / kCourseStep;
    const std::size_t i = std::min(static_cast<std::size_t>(place), kCoursePoints - 2);
    const double beyond = place - static_cast<double>(i);
    const double s = course_[i] + (course_[i + 1] - course_[i]) * beyond;
    const double value = (integral_[i] + 0.5 * beyond * kCourseStep * (course_[i] + s)) / faster;
    return {value, after * s - value};
}

double TiedString::expectedHz(int partial) const {
    const double n = partial + 1;
    return n * reference * std::exp(mean[kTiedPlace] * kCent) *
           std::sqrt(1.0 + std::exp(mean[kTiedStiffness]) * n * n);
}

TiedString
tiedString(double hz, double inharmonicity, double pluck, int partials, double placeCents) {
    EXPECTS(partials >= 1 && inharmonicity > 0.0);
    const StringPriors priors = stringPriors(hz, 0.0);
    const double f0 = hz / std::sqrt(1.0 + inharmonicity);
    Eigen::VectorXd mean(TiedString::local(partials));
    Eigen::VectorXd deviation(mean.size());
    mean.head<kTiedGlobals>() << 0.0, std::log(inharmonicity), kGlideCentsAtPluck, 0.0;
    deviation.head<kTiedGlobals>() << placeCents, kStiffnessLn, kGlideCentsAtPluck, kStretchLn;
    std::vector<double> energies;
    std::vector<double> decays;
    for (int i = 0; i < partials; ++i) {
        const double n = i + 1;
        const double at = n * f0 * std::sqrt(1.0 + inharmonicity * n * n);
        const double decay = priors.decayRate * relativeDecay(i + 1, at);
        mean.segment<kTiedLocals>(TiedString::local(i)) << 0.0, std::log(decay), 0.0, kSlowerLn;
        deviation.segment<kTiedLocals>(TiedString::local(i)) << kOffsetCents, kDecayLn, kSplitCents,
            kSlowerSpread;
        energies.push_back(1.0 / n);
        decays.push_back(decay);
    }
    return {f0, pluck, partials, mean, deviation, GlideCourse(energies, decays)};
}

} // namespace quillbench
