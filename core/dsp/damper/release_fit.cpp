#include "core/dsp/damper/release_fit.hpp"

#include "core/dsp/stagger/resample.hpp"
#include "core/dsp/string_priors.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <limits>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kRate = 16000.0;
constexpr double kHop = 0.002;
constexpr double kGrip = 0.006;       // s until a damper holds fully
constexpr double kAfterPluck = 0.05;  // s left out
constexpr double kLeastBefore = 0.06; // s of ring before the release
constexpr double kLeastAfter = 0.03;
constexpr double kShapeFor = 2.5; // s
constexpr double kCapDb = 6.0;    // a frame further off counts no more
constexpr double kLeastFallDb = 8.0;

double toDb(double power) {
    return 10.0 * std::log10(power + 1e-20);
}

double fromDb(double db) {
    return std::pow(10.0, db / 10.0);
}

/// A fall after the release: power against just before it, on a grid of kHop starting kBefore earlier.
struct Fall {
    double damper60 = 0.2; ///< s, of the damped string
    double share = 0.0;    ///< power that does not follow the damper at once
    double room60 = 0.5;   ///< s, of that share
    std::vector<double> power;
};

constexpr double kBefore = 0.06;

std::vector<double> hann(std::size_t count) {
    std::vector<double> window(count);
    double sum = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        window[i] = 0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * (static_cast<double>(i) + 1.0) /
                                         static_cast<double>(count + 1));
        sum += window[i];
    }
    for (double& w : window) {
        w /= sum;
    }
    return window;
}

/// Amplitude of the damped string `late` seconds after the release.
double damped(double late, double damper60) {
    if (late <= 0.0) {
        return 1.0;
    }
    const double held = late < kGrip ? late * late / (2.0 * kGrip) : late - kGrip / 2.0;
    return std::exp(-6.91 / damper60 * held);
}

/// Power of the fall at an instant, not smoothed by any frame.
double plainPower(const Fall& fall, double late) {
    const double direct = damped(late, fall.damper60);
    const double slow = damped(late, std::max(fall.room60, fall.damper60));
    return (1.0 - fall.share) * direct * direct + fall.share * slow * slow;
}

void smooth(Fall& fall, double frameSeconds) {
    const auto half = static_cast<int>(std::ceil(frameSeconds / 2.0 / 0.001));
    const std::vector<double> window = hann(static_cast<std::size_t>(2 * half + 1));
    double squares = 0.0;
    for (const double w : window) {
        squares += w * w;
    }
    const auto count = static_cast<std::size_t>((kBefore + kShapeFor) / kHop);
    fall.power.assign(count, 0.0);
    for (std::size_t i = 0; i < count; ++i) {
        const double late = static_cast<double>(i) * kHop - kBefore;
        double amplitude = 0.0;
        double power = 0.0;
        for (int k = -half; k <= half; ++k) {
            const double w = window[static_cast<std::size_t>(k + half)];
            const double at = late + 0.001 * k;
            amplitude += w * damped(at, fall.damper60);
            const double slow = damped(at, std::max(fall.room60, fall.damper60));
            power += w * w / squares * slow * slow;
        }
        fall.power[i] = (1.0 - fall.share) * amplitude * amplitude + fall.share * power;
    }
}

std::vector<Fall> allFalls(double frameSeconds) {
    std::vector<Fall> falls;
    for (const double damper :
         {0.03, 0.045, 0.065, 0.09, 0.12, 0.16, 0.21, 0.27, 0.35, 0.45, 0.6, 0.8, 1.1, 1.6}) {
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

/// Robust quadratic through the ring before the release, in decibels over frames.
struct RingLine {
    double at0 = 0.0; ///< at the last frame
    double slope = 0.0;
    double cost = 0.0;

    [[nodiscard]] double value(double framesLater) const { return at0 + slope * framesLater; }
};

double capped(double miss) {
    const double size = std::abs(miss);
    return size < kCapDb ? size : kCapDb;
}

/// Weighted line through db[from … to), recent frames counting more; cost over all of them.
RingLine ringLine(const std::vector<double>& db, std::size_t from, std::size_t to, double memory) {
    RingLine line;
    std::vector<double> weight(to - from);
    for (std::size_t i = from; i < to; ++i) {
        weight[i - from] = std::exp(-static_cast<double>(to - i) / memory);
    }
    for (int pass = 0; pass < 3; ++pass) {
        double w0 = 1e-9;
        double w1 = 0.0;
        double w2 = 1e-6;
        double y0 = 0.0;
        double y1 = 0.0;
        for (std::size_t i = from; i < to; ++i) {
            const double x = static_cast<double>(i) - static_cast<double>(to - 1);
            double w = weight[i - from];
            if (pass > 0) {
                w /= 1.0 + std::pow((db[i] - line.value(x)) / 1.5, 2.0);
            }
            w0 += w;
            w1 += w * x;
            w2 += w * x * x;
            y0 += w * db[i];
            y1 += w * x * db[i];
        }
        const double determinant = w0 * w2 - w1 * w1;
        line.slope = (w0 * y1 - w1 * y0) / determinant;
        line.at0 = (y0 - line.slope * w1) / w0;
        if (line.slope > 0.0) {
            line.slope = 0.0;
            line.at0 = y0 / w0;
        }
    }
    return line;
}

struct Candidate {
    double cost = std::numeric_limits<double>::infinity();
    double release = 0.0; ///< frames, may be fractional
    std::size_t fall = 0;
    RingLine line;
};

class ReleaseSearch {
public:
    ReleaseSearch(const CombPower& power, std::size_t first)
        : power_(power),
          first_(first),
          falls_(allFalls(power.frameSeconds)) {}

    /// Cost of ring, release at `frame` and this fall over all frames from the first.
    [[nodiscard]] double
    cost(const RingLine& line, double frame, std::size_t lineEnd, const Fall& fall) const {
        double sum = 0.0;
        const double floor = fromDb(power_.floorDb);
        const double before = kBefore / kHop;
        for (std::size_t i = first_; i < power_.db.size(); ++i) {
            const double late = static_cast<double>(i) - frame;
            const double x = static_cast<double>(i) - static_cast<double>(lineEnd - 1);
            double model = line.value(x);
            if (late > -before) {
                const double place =
                    std::min(late + before, static_cast<double>(fall.power.size() - 2));
                const auto at = static_cast<std::size_t>(place);
                const double part = place - static_cast<double>(at);
                const double fallen = fall.power[at] * (1.0 - part) + fall.power[at + 1] * part;
                model = toDb(fromDb(model) * fallen + floor);
            } else if (x < -60.0) {
                // Further back the ring need not be a line.
                continue;
            }
            sum += capped(power_.db[i] - model);
        }
        return sum;
    }

    [[nodiscard]] Candidate find() const {
        Candidate best;
        const auto least = first_ + static_cast<std::size_t>(kLeastBefore / kHop);
        const auto margin = static_cast<std::size_t>(power_.frameSeconds / 2.0 / kHop);
        const auto last = power_.db.size() -
                          std::min(power_.db.size(), static_cast<std::size_t>(kLeastAfter / kHop));
        for (std::size_t at = least; at < last; at += 2) {
            const std::size_t end = std::max(first_ + 5, at - std::min(at, margin));
            const RingLine line = ringLine(power_.db, first_, end, 0.08 / kHop);
            for (std::size_t f = 0; f < falls_.size(); ++f) {
                const double now = costAll(line, static_cast<double>(at), end, falls_[f]);
                if (now < best.cost) {
                    best = {now, static_cast<double>(at), f, line};
                    bestEnd_ = end;
                }
            }
        }
        return best;
    }

    [[nodiscard]] double
    costAll(const RingLine& line, double frame, std::size_t end, const Fall& fall) const {
        // Ring that is left out of the comparison counts as fitting like the average.
        return cost(line, frame, end, fall) + 0.0;
    }

    [[nodiscard]] const std::vector<Fall>& falls() const { return falls_; }

    [[nodiscard]] std::size_t bestEnd() const { return bestEnd_; }

private:
    const CombPower& power_;
    std::size_t first_;
    std::vector<Fall> falls_;
    mutable std::size_t bestEnd_ = 0;
};

/// Time until plainPower has fallen by `db`.
double timeToFall(const Fall& fall, double db) {
    double late = 0.0;
    while (late < 20.0 && toDb(plainPower(fall, late)) > -db) {
        late += 0.0005;
    }
    return late;
}

/// 60 dB by the slope from −5 to −25 dB of the backward integral.
double integratedDecay(const Fall& fall) {
    const double step = 0.001;
    std::vector<double> energy;
    for (double late = kGrip; late < 12.0; late += step) {
        energy.push_back(plainPower(fall, late));
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

} // namespace

CombPower
combPower(std::span<const double> sound, double rateHz, double stringHz, double inharmonicity) {
    CombPower out;
    out.hopSeconds = kHop;
    out.frameSeconds = std::max(1.6 / stringHz, 0.012);
    const auto length = static_cast<std::size_t>(out.frameSeconds * rateHz);
    const auto hop = static_cast<std::size_t>(kHop * rateHz);
    if (sound.size() < length + hop) {
        return out;
    }
    const std::vector<double> window = hann(length);
    const std::size_t frames = (sound.size() - length) / hop;
    std::vector<std::vector<double>> powers;
    const double f0 = stringHz / std::sqrt(1.0 + inharmonicity);
    const int most = std::clamp(static_cast<int>(5000.0 / stringHz), 3, 30);
    for (int n = 1; n <= most; ++n) {
        const double hz = n * f0 * std::sqrt(1.0 + inharmonicity * n * n);
        if (hz > 0.45 * rateHz) {
            break;
        }
        std::vector<std::complex<double>> kernel(length);
        for (std::size_t i = 0; i < length; ++i) {
            kernel[i] =
                window[i] *
                std::polar(1.0, -2.0 * std::numbers::pi * hz / rateHz * static_cast<double>(i));
        }
        std::vector<double> power(frames);
        for (std::size_t k = 0; k < frames; ++k) {
            double re = 0.0;
            double im = 0.0;
            for (std::size_t i = 0; i < length; ++i) {
                re += sound[k * hop + i] * kernel[i].real();
                im += sound[k * hop + i] * kernel[i].imag();
            }
            power[k] = re * re + im * im;
        }
        powers.push_back(std::move(power));
    }
    std::vector<double> sum(frames, 0.0);
    double floor = 0.0;
    for (const std::vector<double>& power : powers) {
        std::vector<double> sorted(power);
        std::sort(sorted.begin(), sorted.end());
        const double noise = sorted[sorted.size() / 20];
        const double loud = sorted[sorted.size() * 3 / 4];
        if (loud > 8.0 * noise || powers.size() == 1) {
            for (std::size_t k = 0; k < frames; ++k) {
                sum[k] += power[k];
            }
            floor += noise;
        }
    }
    out.firstSeconds = static_cast<double>(length) / 2.0 / rateHz;
    for (const double power : sum) {
        out.db.push_back(toDb(power));
    }
    std::vector<double> sorted(out.db);
    std::sort(sorted.begin(), sorted.end());
    out.floorDb = sorted[sorted.size() / 40];
    return out;
}

ReleaseReading hearRelease(std::span<const float> samples, SampleRate rate, Hertz string) {
    EXPECTS(string.value() >= 15.0 && string.value() <= 4000.0);
    ReleaseReading reading;
    const std::vector<double> sound = resample(samples, rate.hz(), kRate);
    const StringPriors priors = stringPriors(string.value(), 0.0);
    const CombPower power = combPower(sound, kRate, string.value(), priors.inharmonicity);
    if (power.db.size() < 60) {
        return reading;
    }
    const auto loudest = static_cast<std::size_t>(
        std::max_element(power.db.begin(), power.db.end()) - power.db.begin());
    if (power.db[loudest] < -110.0) {
        return reading;
    }
    const auto first = loudest + static_cast<std::size_t>(kAfterPluck / kHop);
    if (first + static_cast<std::size_t>((kLeastBefore + kLeastAfter) / kHop) + 4 >=
        power.db.size()) {
        return reading;
    }
    const ReleaseSearch search(power, first);
    const Candidate best = search.find();
    if (!std::isfinite(best.cost)) {
        return reading;
    }
    const Fall& fall = search.falls()[best.fall];
    reading.found = true;
    reading.release = Seconds(power.firstSeconds + best.release * kHop);
    reading.releaseU = Seconds(0.005);
    reading.decay60 = Seconds(integratedDecay(fall));
    reading.decay60U = reading.decay60 * 0.1;
    reading.stop = Seconds(timeToFall(fall, 40.0));
    reading.residualDb = power.floorDb - best.line.at0;
    return reading;
}

} // namespace quillbench
