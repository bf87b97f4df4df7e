#include "core/dsp/damper/release_instant.hpp"

#include "core/dsp/damper/damper_shape.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

namespace quillbench {

namespace {

constexpr double kEnvelopeHop = 0.001; // s
constexpr double kInstantStep = 0.001; // s
constexpr double kRingBack = 0.13;     // s of ring before the rough release
constexpr double kFallAhead = 0.08;    // s after it
constexpr double kReachBack = 0.08;    // s that the release may lie earlier
constexpr double kReachAhead = 0.03;   // and later
constexpr double kUntouched = 0.04;    // s before the rough release that are surely not all ring
constexpr double kShortFrame = 0.010;  // s, at least
constexpr double kFramePeriods = 1.6;  // at least
constexpr double kModelMiss = 0.003;   // of a partial's amplitude, that a parabola leaves
constexpr double kStepScatter = 0.6;   // of the step about "all of the ring stops", by room
constexpr double kTailScatter = 0.4;   // of the slow step
constexpr double kTailDecay = 0.5;     // s, of a room
constexpr double kLongTail = 4.0;      // of the damper's decay where that is as slow
constexpr double kRingMemory = 0.02;   // s before the release that tell what stops
constexpr double kHighestPartial = 5000.0; // Hz
constexpr int kMostPartials = 40;
constexpr double kEdge = 0.008; // s: a release this near to the edge is looked for further back
constexpr int kMostMoves = 5;
constexpr std::array kDamperDecays{
    0.03, 0.045, 0.065, 0.09, 0.12, 0.16, 0.21, 0.27, 0.35, 0.45, 0.6, 0.8, 1.1, 1.6};

using Complex = std::complex<double>;

/// Complex envelopes around one rough release.
struct Envelopes {
    std::vector<double> seconds; ///< of each frame
    Eigen::MatrixXcd partials;   ///< frames × partials, of about unit size before the release
    std::vector<double> window;  ///< of a frame
    double frameSeconds = 0.0;
    std::ptrdiff_t untouched = 0; ///< frames that are surely ring
};

/// One partial's envelope at zero frequency.
Eigen::VectorXcd envelope(std::span<const double> sound,
                          double rateHz,
                          double hz,
                          const std::vector<double>& window,
                          const std::vector<std::size_t>& starts) {
    const double turn = -2.0 * std::numbers::pi * hz / rateHz;
    std::vector<Complex> kernel(window.size());
    for (std::size_t i = 0; i < window.size(); ++i) {
        kernel[i] = window[i] * std::polar(1.0, turn * static_cast<double>(i));
    }
    Eigen::VectorXcd out(static_cast<std::ptrdiff_t>(starts.size()));
    for (std::size_t k = 0; k < starts.size(); ++k) {
        double re = 0.0;
        double im = 0.0;
        for (std::size_t i = 0; i < window.size(); ++i) {
            re += sound[starts[k] + i] * kernel[i].real();
            im += sound[starts[k] + i] * kernel[i].imag();
        }
        out[static_cast<std::ptrdiff_t>(k)] =
            Complex(re, im) * std::polar(1.0, turn * static_cast<double>(starts[k]));
    }
    return out;
}

/// Takes the ring's own frequency and level out of an envelope.
void standStill(Eigen::VectorXcd& line, std::ptrdiff_t untouched, std::ptrdiff_t before) {
    constexpr std::ptrdiff_t kApart = 4;
    Complex sum = 0.0;
    for (std::ptrdiff_t k = kApart; k < untouched; ++k) {
        sum += line[k] * std::conj(line[k - kApart]);
    }
    const double turn = std::arg(sum) / static_cast<double>(kApart);
    for (std::ptrdiff_t k = 0; k < line.size(); ++k) {
        line[k] *= std::polar(1.0, -turn * static_cast<double>(k));
    }
    const double level = std::sqrt(line.head(before).squaredNorm() / static_cast<double>(before));
    line /= std::max(level, 1e-12);
}

std::optional<Envelopes> envelopesAround(std::span<const double> sound,
                                         double rateHz,
                                         double stringHz,
                                         double inharmonicity,
                                         double rough) {
    Envelopes all;
    const auto length =
        static_cast<std::size_t>(std::max(kFramePeriods / stringHz, kShortFrame) * rateHz);
    all.window = hannOfUnitSum(length);
    all.frameSeconds = static_cast<double>(length) / rateHz;
    const double half = all.frameSeconds / 2.0;
    std::vector<std::size_t> starts;
    std::ptrdiff_t before = 0;
    const auto steps = static_cast<int>((kRingBack + kFallAhead + half) / kEnvelopeHop);
    for (int step = 0; step < steps; ++step) {
        const double at = rough - kRingBack - half + kEnvelopeHop * step;
        const double start = std::round((at - half) * rateHz);
        if (start < 0.0 ||
            start + static_cast<double>(length) >= static_cast<double>(sound.size())) {
            continue;
        }
        starts.push_back(static_cast<std::size_t>(start));
        all.seconds.push_back((start + static_cast<double>(length) / 2.0) / rateHz);
        all.untouched += at < rough - kUntouched ? 1 : 0;
        before += at < rough - kUntouched / 2.0 ? 1 : 0;
    }
    if (all.untouched < 12 || starts.size() < 40) {
        return std::nullopt;
    }
    const double f0 = stringHz / std::sqrt(1.0 + inharmonicity);
    const int most = std::clamp(static_cast<int>(kHighestPartial / stringHz), 3, kMostPartials);
    std::vector<Eigen::VectorXcd> lines;
    for (int n = 1; n <= most; ++n) {
        const double hz = n * f0 * std::sqrt(1.0 + inharmonicity * n * n);
        if (hz < 0.45 * rateHz) {
            lines.push_back(envelope(sound, rateHz, hz, all.window, starts));
            standStill(lines.back(), all.untouched, before);
        }
    }
    if (lines.empty()) {
        return std::nullopt;
    }
    all.partials.resize(static_cast<std::ptrdiff_t>(starts.size()),
                        static_cast<std::ptrdiff_t>(lines.size()));
    for (std::size_t n = 0; n < lines.size(); ++n) {
        all.partials.col(static_cast<std::ptrdiff_t>(n)) = lines[n];
    }
    return all;
}

/// Weighs instants and decays against envelopes.
class InstantSearch {
public:
    InstantSearch(Envelopes envelopes, double rough) : all_(std::move(envelopes)), rough_(rough) {
        const auto frames = static_cast<std::ptrdiff_t>(all_.seconds.size());
        Eigen::MatrixXd ring(frames, 3);
        for (std::ptrdiff_t k = 0; k < frames; ++k) {
            const double u = (all_.seconds[static_cast<std::size_t>(k)] - rough) / kRingBack;
            ring.row(k) << 1.0, u, u * u;
        }
        alike_ = std::max(1.0, all_.frameSeconds / 2.0 / kEnvelopeHop);
        ring_ = orthonormal(ring);
        rest_ = all_.partials - ring_ * (ring_.transpose() * all_.partials);
        restEnergy_ = rest_.cwiseAbs2().colwise().sum().transpose().array();
        const Eigen::MatrixXcd calm = all_.partials.topRows(all_.untouched);
        const Eigen::MatrixXd basis = orthonormal(ring.topRows(all_.untouched));
        const Eigen::MatrixXcd left = calm - basis * (basis.transpose() * calm);
        const double freedom = std::max(4.0, static_cast<double>(all_.untouched) - 3.0 * alike_);
        noise_ = left.cwiseAbs2().colwise().sum().transpose().array() / freedom +
                 kModelMiss * kModelMiss;
    }

    [[nodiscard]] ReleaseInstant search() const {
        std::vector<double> instants;
        std::vector<double> scores;
        const auto count = static_cast<int>((kReachBack + kReachAhead) / kInstantStep);
        for (int i = 0; i < count; ++i) {
            const double at = rough_ - kReachBack + kInstantStep * i;
            const Eigen::RowVectorXcd stops = whatStops(at);
            const Eigen::VectorXd tail = step(at, kTailDecay);
            for (const double decay : kDamperDecays) {
                const Eigen::VectorXd slow =
                    decay < 0.6 * kTailDecay ? tail : step(at, kLongTail * decay);
                instants.push_back(at);
                scores.push_back(score(step(at, decay), slow, stops));
            }
        }
        return weigh(instants, scores);
    }

private:
    static Eigen::MatrixXd orthonormal(const Eigen::MatrixXd& columns) {
        const Eigen::HouseholderQR<Eigen::MatrixXd> qr(columns);
        return qr.householderQ() * Eigen::MatrixXd::Identity(columns.rows(), columns.cols());
    }

    static ReleaseInstant weigh(const std::vector<double>& instants,
                                const std::vector<double>& scores) {
        const double best = *std::max_element(scores.begin(), scores.end());
        double whole = 0.0;
        double first = 0.0;
        double second = 0.0;
        for (std::size_t i = 0; i < scores.size(); ++i) {
            const double weight = std::exp(scores[i] - best);
            const double late = instants[i] - instants.front();
            whole += weight;
            first += weight * late;
            second += weight * late * late;
        }
        first /= whole;
        return {instants.front() + first, std::sqrt(std::max(0.0, second / whole - first * first))};
    }

    /// What has stopped of a string, seen through the frames' window.
    [[nodiscard]] Eigen::VectorXd step(double at, double decay) const {
        const std::size_t stride = std::max<std::size_t>(1, all_.window.size() / 24);
        const double perSample = all_.frameSeconds / static_cast<double>(all_.window.size());
        Eigen::VectorXd out(static_cast<std::ptrdiff_t>(all_.seconds.size()));
        for (std::size_t k = 0; k < all_.seconds.size(); ++k) {
            const double middle = all_.seconds[k] - at;
            double sum = 0.0;
            if (middle > -all_.frameSeconds / 2.0) {
                double whole = 0.0;
                for (std::size_t i = 0; i < all_.window.size(); i += stride) {
                    const double late =
                        middle + static_cast<double>(i) * perSample - all_.frameSeconds / 2.0;
                    sum += all_.window[i] * (1.0 - dampedAmplitude(late, decay));
                    whole += all_.window[i];
                }
                sum /= whole;
            }
            out[static_cast<std::ptrdiff_t>(k)] = sum;
        }
        return out;
    }

    /// Each partial's mean just before the release.
    [[nodiscard]] Eigen::RowVectorXcd whatStops(double at) const {
        std::ptrdiff_t from = 0;
        std::ptrdiff_t count = 0;
        for (std::size_t k = 0; k < all_.seconds.size(); ++k) {
            const double before = at - all_.frameSeconds / 2.0 - all_.seconds[k];
            from += before >= kRingMemory ? 1 : 0;
            count += before > 0.0 && before < kRingMemory ? 1 : 0;
        }
        if (count < 4) {
            from = 0;
            count = 8;
        }
        return all_.partials.middleRows(from, count).colwise().mean();
    }

    [[nodiscard]] double score(const Eigen::VectorXd& fast,
                               const Eigen::VectorXd& slow,
                               const Eigen::RowVectorXcd& stops) const {
        Eigen::MatrixXd steps(fast.size(), 2);
        steps << fast, slow;
        steps -= ring_ * (ring_.transpose() * steps);
        const Eigen::Matrix2d products = steps.transpose() * steps;
        const Eigen::MatrixXcd wanted = steps.transpose() * rest_;
        const auto frames = static_cast<double>(fast.size());
        double sum = 0.0;
        for (std::ptrdiff_t n = 0; n < rest_.cols(); ++n) {
            const double stiff = noise_[n] * alike_ / (kStepScatter * kStepScatter);
            const double loose = noise_[n] * alike_ / (kTailScatter * kTailScatter);
            // The step is −stops + first, the slow one second.
            const Complex gone = -stops[n];
            const Complex b1 = wanted(0, n) - products(0, 0) * gone;
            const Complex b2 = wanted(1, n) - products(1, 0) * gone;
            const double a11 = products(0, 0) + stiff;
            const double a22 = products(1, 1) + loose;
            const double a12 = products(0, 1);
            const double determinant = a11 * a22 - a12 * a12;
            const Complex first = (a22 * b1 - a12 * b2) / determinant;
            const Complex second = (a11 * b2 - a12 * b1) / determinant;
            const double given = restEnergy_[n] - 2.0 * std::real(std::conj(gone) * wanted(0, n)) +
                                 products(0, 0) * std::norm(gone);
            const double left = given - std::real(std::conj(first) * b1 + std::conj(second) * b2);
            sum -= frames / alike_ * std::log(std::max(left, 0.0) / frames + noise_[n]) +
                   0.5 * std::log(determinant / (stiff * loose));
        }
        return sum;
    }

    Envelopes all_;
    double rough_;
    double alike_ = 1.0; ///< neighbouring frames that say the same
    Eigen::MatrixXd ring_;
    Eigen::MatrixXcd rest_; ///< of each partial, without what rings on
    Eigen::ArrayXd restEnergy_;
    Eigen::ArrayXd noise_; ///< power a frame, of each partial
};

} // namespace

std::optional<ReleaseInstant> settleRelease(std::span<const double> sound,
                                            double rateHz,
                                            double stringHz,
                                            double inharmonicity,
                                            double rough) {
    std::optional<ReleaseInstant> found;
    double centre = rough;
    for (int move = 0; move < kMostMoves; ++move) {
        auto envelopes = envelopesAround(sound, rateHz, stringHz, inharmonicity, centre);
        if (!envelopes) {
            break;
        }
        found = InstantSearch(std::move(*envelopes), centre).search();
        if (found->seconds > centre - kReachBack + kEdge) {
            break;
        }
        centre = found->seconds;
    }
    return found;
}

} // namespace quillbench
