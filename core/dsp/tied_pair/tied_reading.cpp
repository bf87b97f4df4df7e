#include "core/dsp/tied_pair/tied_reading.hpp"

#include "core/dsp/constants.hpp"
#include "core/support/random.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>

namespace quillbench {

namespace {

using Complex = std::complex<double>;

constexpr double kReadStep = 0.004; ///< s
constexpr int kReadPoints = 601;    ///< 0.10 to 2.5 s
constexpr int kEnvelopePoints = 25; ///< a tenth of a second
/// A partial has died where it has fallen by so much, or lies so far below its string's loudest.
constexpr double kDiedOwn = 1e-4;
constexpr double kDiedLoudest = 1e-5;
constexpr int kLeastPoints = 30;
constexpr std::size_t kFirstQuarter = 150; ///< points
constexpr int kDraws = 32;

/// A partial's two polarisations over the definition's time, without the frequency of the first.
struct Sounding {
    std::array<Complex, kReadPoints> z;
    double hz = 0.0;
};

Sounding sound(const TiedFit& fit,
               const Eigen::VectorXd& at,
               const TiedPart& part,
               Complex first,
               Complex second,
               double later) {
    const TiedString& string = fit.model.strings[part.string];
    const Eigen::Index o = fit.first(part.string);
    const double sharper = std::expm1(at[o + kTiedGlide] * kCent);
    const auto a = fit.model.lineAt(at, part, false);
    const auto b = fit.model.lineAt(at, part, true);
    Sounding sounding;
    sounding.hz = a.hz;
    for (int i = 0; i < kReadPoints; ++i) {
        const double since = later + kSustainFrom + i * kReadStep - string.pluck;
        const double glide = sharper * string.course.at(since, at[o + kTiedStretch]).value;
        sounding.z[static_cast<std::size_t>(i)] =
            (first * std::exp(-a.decay * since) +
             second *
                 std::polar(std::exp(-b.decay * since), kTwoPi * (b.hz - a.hz) * (since + glide))) *
            std::polar(1.0, kTwoPi * a.hz * glide);
    }
    return sounding;
}

/// Points until it has died.
int pointsOf(const Sounding& sounding, double loudest) {
    std::array<double, kReadPoints> envelope{};
    double sum = 0.0;
    for (int i = kReadPoints + kEnvelopePoints - 2; i >= 0; --i) {
        sum += std::norm(sounding.z[static_cast<std::size_t>(std::min(i, kReadPoints - 1))]);
        if (i + kEnvelopePoints < kReadPoints + kEnvelopePoints - 1) {
            sum -= std::norm(
                sounding
                    .z[static_cast<std::size_t>(std::min(i + kEnvelopePoints, kReadPoints - 1))]);
        }
        if (i < kReadPoints) {
            envelope[static_cast<std::size_t>(i)] = sum / kEnvelopePoints;
        }
    }
    const double least = std::max(envelope[0] * kDiedOwn, loudest * kDiedLoudest);
    for (int i = 0; i < kReadPoints; ++i) {
        if (envelope[static_cast<std::size_t>(i)] < least) {
            return std::max(i, kLeastPoints);
        }
    }
    return kReadPoints;
}

/// Least-squares slope of the phase over so many points, as a frequency.
double meanHz(const Sounding& sounding, int points) {
    double phase = std::arg(sounding.z[0]);
    double sum = 0.0;
    double squares = 0.0;
    const double middle = 0.5 * (points - 1);
    for (int i = 0; i < points; ++i) {
        if (i > 0) {
            const auto k = static_cast<std::size_t>(i);
            phase += std::arg(sounding.z[k] * std::conj(sounding.z[k - 1]));
        }
        sum += (i - middle) * phase;
        squares += (i - middle) * (i - middle);
    }
    return sounding.hz + sum / squares / kReadStep / kTwoPi;
}

double quantile(std::vector<double> values, double share) {
    std::sort(values.begin(), values.end());
    const double place = share * static_cast<double>(values.size() - 1);
    const auto i = static_cast<std::size_t>(place);
    const std::size_t j = std::min(i + 1, values.size() - 1);
    return values[i] + (place - static_cast<double>(i)) * (values[j] - values[i]);
}

} // namespace

std::optional<TiedMeeting>
TiedMeeting::find(const TiedFit& fit, int lowerPartial, int upperPartial, double laterPluck) {
    TiedMeeting meeting;
    meeting.later_ = laterPluck;
    int found = 0;
    for (std::size_t b = 0; b < fit.bands.size(); ++b) {
        const auto& parts = fit.bands[b].segments[0].parts;
        for (std::size_t p = 0; p < parts.size(); ++p) {
            const Line line{parts[p], b, 2 * static_cast<Eigen::Index>(p)};
            if (parts[p].string == 0 && parts[p].partial == lowerPartial) {
                meeting.lower_ = line;
                ++found;
            }
            if (parts[p].string == 1 && parts[p].partial == upperPartial) {
                meeting.upper_ = line;
                ++found;
            }
        }
    }
    return found == 2 ? std::optional(meeting) : std::nullopt;
}

TiedMeeting::Loudest TiedMeeting::loudest(const TiedFit& fit, const Eigen::VectorXd& at) const {
    Loudest loud;
    for (std::size_t b = 0; b < fit.bands.size(); ++b) {
        const Eigen::VectorXcd a = fit.amplitudes(at, b);
        const auto parts = fit.bands[b].segments[0].parts;
        for (std::size_t p = 0; p < parts.size(); ++p) {
            const auto k = 2 * static_cast<Eigen::Index>(p);
            const Sounding sounding = sound(fit, at, parts[p], a[k], a[k + 1], later_);
            double power = 0.0;
            for (std::size_t i = 0; i < kFirstQuarter; ++i) {
                power += std::norm(sounding.z[i]);
            }
            double& most = parts[p].string == 0 ? loud.lower : loud.upper;
            most = std::max(most, power / static_cast<double>(kFirstQuarter));
        }
    }
    return loud;
}

double TiedMeeting::beat(const TiedFit& fit,
                         const Eigen::VectorXd& at,
                         const Amplitudes& lower,
                         const Amplitudes& upper,
                         const Loudest& loud) const {
    const Sounding low = sound(fit, at, lower_.part, lower.first, lower.second, later_);
    const Sounding high = sound(fit, at, upper_.part, upper.first, upper.second, later_);
    const int points = std::min(pointsOf(low, loud.lower), pointsOf(high, loud.upper));
    return meanHz(high, points) - meanHz(low, points);
}

TiedOptimum TiedMeeting::optimum(const TiedFit& fit, const Eigen::VectorXd& at, double cost) const {
    TiedOptimum optimum;
    const Loudest loud = loudest(fit, at);
    const auto amplitudesAt = [&](const Eigen::VectorXd& there, Random* random) {
        std::array<Amplitudes, 2> result;
        Eigen::VectorXcd a;
        for (std::size_t k = 0; k < 2; ++k) {
            const Line& line = k == 0 ? lower_ : upper_;
            if (k == 0 || line.band != lower_.band) {
                a = random == nullptr ? fit.amplitudes(there, line.band)
                                      : fit.drawnAmplitudes(there, line.band, *random);
            }
            result[k] = {a[line.first], a[line.first + 1]};
        }
        return result;
    };
    const auto found = amplitudesAt(at, nullptr);
    optimum.beat = beat(fit, at, found[0], found[1], loud);
    optimum.lnWeight = -cost + fit.logVolume(at);
    const Eigen::LLT<Eigen::MatrixXd> root(fit.normalMatrix(at));
    std::vector<double> draws;
    Random random(1);
    for (int i = 0; i < kDraws; ++i) {
        Eigen::VectorXd white(at.size());
        for (double& one : white) {
            one = random.normal();
        }
        const Eigen::VectorXd there = at + root.matrixU().solve(white);
        const auto drawn = amplitudesAt(there, &random);
        draws.push_back(beat(fit, there, drawn[0], drawn[1], loud));
    }
    optimum.deviation = 0.5 * (quantile(draws, 0.84) - quantile(draws, 0.16));
    return optimum;
}

} // namespace quillbench
