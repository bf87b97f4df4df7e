#include "core/dsp/damper/release_fit.hpp"

#include "core/dsp/damper/damper_shape.hpp"
#include "core/dsp/damper/release_instant.hpp"
#include "core/dsp/stagger/resample.hpp"
#include "core/dsp/string_priors.hpp"
#include "core/support/contract.hpp"
#include "core/support/median.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <limits>
#include <numbers>
#include <numeric>
#include <optional>

namespace quillbench {

namespace {

constexpr double kRate = 16000.0;
constexpr double kHop = 0.002;
constexpr double kAfterPluck = 0.05;  // s left out
constexpr double kLeastBefore = 0.06; // s of ring before the release
constexpr double kLeastAfter = 0.03;
constexpr double kShapeFor = 0.5; // s, more than is ever compared
constexpr double kCapDb = 6.0;    // a frame further off counts no more
constexpr double kDepthCapDb =
    20.0; // likewise, where two falls are compared: a damper's is the deepest
constexpr double kSameFall = 0.2;    // s before what is deepest, which is in the middle of a fall
constexpr double kSameFallOn = 0.04; // and after it
constexpr double kNoFloor = -1e9;
constexpr double kDepthFloor =
    70.0; // dB below the loudest ring; further down nobody hears a damper
constexpr double kLeastGain = 120.0; // decibels over frames: 6 dB for 40 ms
// How sure an instant is: set so that 95 % of the releases of the set `damping` lie within two.
constexpr double kWider = 2.0;         // than the envelopes' posterior
constexpr double kLeastU = 0.003;      // s; a damper does not take hold all at once
constexpr double kDoubt = 0.3;         // of how far power alone says otherwise
constexpr double kPowerAloneU = 0.015; // s
constexpr double kLeastDecayU = 0.12;  // relative
constexpr Seconds kWeakFrom{0.025};
constexpr double kNear = 0.04;   // s around a first guess
constexpr double kSlowest = 1.0; // a damper stops at least this much faster than the steepest ring
constexpr double kMemory = 0.12; // s of ring that speak for its line
constexpr double kSteeper = 3.0; // than expected a ring may fall
constexpr double kBeforeFor = 0.12; // s around the release that are compared
constexpr double kAfterFor = 0.35;

double toDb(double power) {
    return 10.0 * std::log10(power + 1e-20);
}

double fromDb(double db) {
    return std::pow(10.0, db / 10.0);
}

/// A fall after the release: decibels against just before it, on a grid of kHop starting kBefore earlier.
struct Fall {
    double damper60 = 0.2; ///< s, of the damped string
    double share = 0.0;    ///< power that does not follow the damper at once
    double room60 = 0.5;   ///< s, of that share
    std::vector<double> db;
};

constexpr double kBefore = 0.06;

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
    const auto count = static_cast<std::size_t>((kBefore + kShapeFor) / kHop);
    fall.db.assign(count, 0.0);
    for (std::size_t i = 0; i < count; ++i) {
        const double late = static_cast<double>(i) * kHop - kBefore;
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

/// Robust line through the ring before the release, in decibels over frames.
struct RingLine {
    double at0 = 0.0; ///< at the last frame
    double slope = 0.0;

    [[nodiscard]] double value(double framesLater) const { return at0 + slope * framesLater; }
};

double capped(double miss) {
    const double size = std::abs(miss);
    return size < kCapDb ? size : kCapDb;
}

/// Weighted line through db[from … to), recent frames counting more; its slope between `steepest` and level.
RingLine ringLine(const std::vector<double>& db,
                  std::size_t from,
                  std::size_t to,
                  double memory,
                  double steepest) {
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
        if (line.slope > 0.0 || line.slope < steepest) {
            line.slope = std::clamp(line.slope, steepest, 0.0);
            line.at0 = (y0 - line.slope * w1) / w0;
        }
    }
    return line;
}

struct Candidate {
    double cost = 0.0;
    double release = 0.0; ///< frames, may be halves
    std::size_t fall = 0;
};

/// Tries releases and falls against the power of the comb.
class ReleaseSearch {
public:
    ReleaseSearch(const CombPower& power,
                  const std::vector<double>& db,
                  double floorDb,
                  std::size_t first,
                  double steepest,
                  const std::vector<Fall>& falls)
        : db_(db),
          floorDb_(floorDb),
          first_(first),
          steepest_(steepest),
          falls_(falls),
          depthFloorDb_(std::max(
              floorDb,
              *std::max_element(db.begin() + static_cast<std::ptrdiff_t>(first), db.end()) -
                  kDepthFloor)),
          margin_(static_cast<std::size_t>(power.frameSeconds / 2.0 / kHop)) {}

    /// Where a fall explains most that a ring going on would not; nothing where none does. Of several falls the deepest
    /// counts: what lingers under a damper falls too, into the noise.
    [[nodiscard]] std::optional<Candidate> find() const {
        const auto least = first_ + frames(kLeastBefore);
        const auto last = db_.size() - std::min(db_.size(), frames(kLeastAfter));
        std::vector<Explained> all;
        for (std::size_t at = least; at < last; at += 2) {
            const Explained one = explainedAt(at);
            if (one.gain > kLeastGain) {
                all.push_back(one);
            }
        }
        if (all.empty()) {
            return std::nullopt;
        }
        const Explained& deepest =
            *std::max_element(all.begin(), all.end(), [](const Explained& a, const Explained& b) {
                return a.depth < b.depth;
            });
        const Explained* best = &deepest;
        for (const Explained& one : all) {
            const double later = (one.candidate.release - deepest.candidate.release) * kHop;
            const bool same = later > -kSameFall && later < kSameFallOn;
            best = same && one.gain > best->gain ? &one : best;
        }
        return best->candidate;
    }

    /// All releases near `rough` with all falls, over the same frames.
    [[nodiscard]] std::vector<Candidate> near(double rough, double reachSeconds) const {
        std::vector<Candidate> all;
        const auto centre = static_cast<std::size_t>(rough);
        const std::size_t reach = std::max<std::size_t>(1, frames(reachSeconds));
        const std::size_t from =
            std::max(first_ + frames(kLeastBefore), centre - std::min(centre, reach));
        for (std::size_t at = from; at < std::min(centre + reach, db_.size()); ++at) {
            const RingLine line = lineBefore(at);
            for (const double part : {0.0, 0.5}) {
                for (std::size_t f = 0; f < falls_.size(); ++f) {
                    const double release = static_cast<double>(at) + part;
                    all.push_back({cost(line, at, release, falls_[f], centre), release, f});
                }
            }
        }
        return all;
    }

    [[nodiscard]] const std::vector<Fall>& falls() const { return falls_; }

    /// Level just before the release, in decibels.
    [[nodiscard]] double levelAt(double release) const {
        const auto at = static_cast<std::size_t>(release);
        return lineBefore(at).value(release - static_cast<double>(lineEnd(at) - 1));
    }

    /// What the ring loses by itself, in decibels a second.
    [[nodiscard]] double ownDecay(double release) const {
        return -lineBefore(static_cast<std::size_t>(release)).slope / kHop;
    }

    /// What still sounds, in the middle of the half second after the stop, against just before the release, in decibels.
    [[nodiscard]] double remaining(double release, double stopSeconds) const {
        const auto from =
            std::min(db_.size() - 10, static_cast<std::size_t>(release) + frames(stopSeconds));
        const auto end = std::min(db_.size(), from + frames(0.5));
        std::vector<double> tail(db_.begin() + static_cast<std::ptrdiff_t>(from),
                                 db_.begin() + static_cast<std::ptrdiff_t>(end));
        std::sort(tail.begin(), tail.end());
        return tail[tail.size() / 2] - levelAt(release);
    }

    /// Frames in the comparison around a release.
    [[nodiscard]] std::size_t compared(std::size_t centre) const {
        return std::min(db_.size(), centre + frames(kAfterFor)) -
               std::max(first_, centre - std::min(centre, frames(kBeforeFor)));
    }

private:
    /// What the best fall at one release explains.
    struct Explained {
        Candidate candidate;
        double gain = 0.0; ///< decibels over frames
        double depth =
            0.0; ///< decibels over frames that the string falls below a ring, deep ones in full
    };

    [[nodiscard]] Explained explainedAt(std::size_t at) const {
        const RingLine line = lineBefore(at);
        Explained out;
        out.candidate = {std::numeric_limits<double>::infinity(), static_cast<double>(at), 0};
        for (std::size_t f = 0; f < falls_.size(); ++f) {
            if (falls_[f].share > 0.0) {
                continue;
            }
            const double now = cost(line, at, static_cast<double>(at), falls_[f], at);
            if (now < out.candidate.cost) {
                out.candidate.cost = now;
                out.candidate.fall = f;
            }
        }
        out.gain = rest(line, at, kCapDb, floorDb_, kNoFloor) - out.candidate.cost;
        out.depth = rest(line, at, kDepthCapDb, depthFloorDb_, depthFloorDb_) - out.candidate.cost;
        return out;
    }

    static std::size_t frames(double seconds) {
        return static_cast<std::size_t>(std::lround(seconds / kHop));
    }

    [[nodiscard]] std::size_t lineEnd(std::size_t at) const {
        return std::max(first_ + 5, at - std::min(at, margin_));
    }

    [[nodiscard]] RingLine lineBefore(std::size_t at) const {
        const std::size_t end = lineEnd(at);
        const std::size_t from = std::max(first_, end - std::min(end, frames(0.4)));
        return ringLine(db_, from, end, kMemory / kHop, steepest_);
    }

    /// How far the sound after `at` lies below a ring that goes on, no frame by more than `cap` decibels; neither the
    /// ring nor the sound sinks below its floor.
    [[nodiscard]] double rest(const RingLine& line,
                              std::size_t at,
                              double cap,
                              double ringFloor,
                              double soundFloor) const {
        double sum = 0.0;
        const auto origin = static_cast<double>(lineEnd(at) - 1);
        const std::size_t end = std::min(db_.size(), at + frames(kAfterFor));
        for (std::size_t i = at; i < end; ++i) {
            const double model = line.value(static_cast<double>(i) - origin);
            sum += std::clamp(std::max(model, ringFloor) - std::max(db_[i], soundFloor), 0.0, cap);
        }
        return sum;
    }

    /// Misfit of ring, release and fall over the frames around `centre`.
    [[nodiscard]] double cost(const RingLine& line,
                              std::size_t at,
                              double release,
                              const Fall& fall,
                              std::size_t centre) const {
        double sum = 0.0;
        const auto origin = static_cast<double>(lineEnd(at) - 1);
        const double before = kBefore / kHop;
        const std::size_t from = std::max(first_, centre - std::min(centre, frames(kBeforeFor)));
        const std::size_t end = std::min(db_.size(), centre + frames(kAfterFor));
        for (std::size_t i = from; i < end; ++i) {
            double model = line.value(static_cast<double>(i) - origin);
            const double place = static_cast<double>(i) - release + before;
            if (place > 0.0) {
                const auto step = static_cast<std::size_t>(place);
                const double part = place - static_cast<double>(step);
                model += fall.db[step] * (1.0 - part) + fall.db[step + 1] * part;
            }
            sum += capped(db_[i] - withFloor(model));
        }
        return sum;
    }

    [[nodiscard]] double withFloor(double db) const {
        const double over = db - floorDb_;
        if (over > 25.0) {
            return db;
        }
        return over < -25.0 ? floorDb_ : floorDb_ + toDb(1.0 + fromDb(over));
    }

    const std::vector<double>& db_;
    double floorDb_;
    std::size_t first_;
    double steepest_; ///< that a ring may fall, decibels a frame
    const std::vector<Fall>& falls_;
    double depthFloorDb_;
    std::size_t margin_;
};

/// Mean and spread of what the candidates say, each weighted by how well it fits.
struct Consensus {
    double release = 0.0;
    double releaseDeviation = 0.0;
    double lnDecay = 0.0;
    double lnDecayDeviation = 0.0;
    double stop = 0.0;
};

/// Time until the string has fallen by `db`: damper, room and what it would have lost by itself, `ownDb` a second.
double timeToFall(const Fall& fall, double ownDb, double db) {
    double late = 0.0;
    while (late < 20.0 && toDb(plainPower(fall, late)) - ownDb * late > -db) {
        late += 0.0005;
    }
    return late;
}

/// 60 dB by the slope from −5 to −25 dB of the backward integral.
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

/// Weighs the candidates by their misfit; neighbouring frames overlap, so that few of them are independent.
Consensus
agree(const ReleaseSearch& search, const std::vector<Candidate>& all, const CombPower& power) {
    Consensus said;
    double least = std::numeric_limits<double>::infinity();
    for (const Candidate& candidate : all) {
        least = std::min(least, candidate.cost);
    }
    const auto frames =
        static_cast<double>(search.compared(static_cast<std::size_t>(all.front().release)));
    const double alike = std::max(1.0, power.frameSeconds / 2.0 / kHop);
    const double scale = std::max(0.15, least / frames) * alike;
    double whole = 0.0;
    double lnDecay2 = 0.0;
    double release2 = 0.0;
    const std::vector<Fall>& falls = search.falls();
    const double ownDb = search.ownDecay(all.front().release);
    std::vector<double> decays(falls.size(), 0.0);
    std::vector<double> stops(falls.size(), 0.0);
    for (const Candidate& candidate : all) {
        const double weight = std::exp(-(candidate.cost - least) / scale);
        if (weight < 1e-4) {
            continue;
        }
        if (stops[candidate.fall] <= 0.0) {
            decays[candidate.fall] = std::log(integratedDecay(falls[candidate.fall], ownDb));
            stops[candidate.fall] = timeToFall(falls[candidate.fall], ownDb, 40.0);
        }
        whole += weight;
        said.release += weight * candidate.release;
        release2 += weight * candidate.release * candidate.release;
        said.lnDecay += weight * decays[candidate.fall];
        lnDecay2 += weight * decays[candidate.fall] * decays[candidate.fall];
        said.stop += weight * stops[candidate.fall];
    }
    said.release /= whole;
    said.lnDecay /= whole;
    said.stop /= whole;
    said.releaseDeviation =
        std::sqrt(std::max(0.0, release2 / whole - said.release * said.release));
    said.lnDecayDeviation =
        std::sqrt(std::max(0.0, lnDecay2 / whole - said.lnDecay * said.lnDecay));
    return said;
}

} // namespace

namespace {

constexpr double kClearDb = 12.0; // a partial stands above its noise
constexpr std::size_t kFewPartials = 3;

/// Mean level of the quietest 80 ms.
double quietest(const std::vector<double>& db) {
    const auto run = std::min(db.size(), static_cast<std::size_t>(0.08 / kHop));
    double sum = std::accumulate(db.begin(), db.begin() + static_cast<std::ptrdiff_t>(run), 0.0);
    double least = sum;
    for (std::size_t i = run; i < db.size(); ++i) {
        sum += db[i] - db[i - run];
        least = std::min(least, sum);
    }
    return least / static_cast<double>(run);
}

/// Mean of the middle half: a knock in some partials does not move it.
double middleMean(std::vector<double>& values) {
    std::sort(values.begin(), values.end());
    const std::size_t skip = values.size() / 4;
    double sum = 0.0;
    for (std::size_t i = skip; i < values.size() - skip; ++i) {
        sum += values[i];
    }
    return sum / static_cast<double>(values.size() - 2 * skip);
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
    const std::vector<double> window = hannOfUnitSum(length);
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
    std::vector<double> references; // decibels that each partial stands at
    std::vector<std::size_t> clear;
    for (std::size_t n = 0; n < powers.size(); ++n) {
        std::vector<double> sorted(powers[n]);
        std::sort(sorted.begin(), sorted.end());
        references.push_back(toDb(sorted[sorted.size() * 3 / 5]));
        if (references[n] - toDb(sorted[sorted.size() / 20]) > kClearDb) {
            clear.push_back(n);
        }
        for (std::size_t k = 0; k < frames; ++k) {
            sum[k] += powers[n][k];
        }
    }
    out.firstSeconds = static_cast<double>(length) / 2.0 / rateHz;
    out.loudest = static_cast<std::size_t>(std::max_element(sum.begin(), sum.end()) - sum.begin());
    out.loudestDb = toDb(sum[out.loudest]);
    for (std::size_t k = 0; k < frames; ++k) {
        std::vector<double> each;
        each.reserve(clear.size());
        for (const std::size_t n : clear) {
            each.push_back(toDb(powers[n][k]) - references[n]);
        }
        out.sumDb.push_back(toDb(sum[k]) - out.loudestDb);
        out.db.push_back(each.size() < kFewPartials ? out.sumDb[k] : middleMean(each));
    }
    out.floorDb = quietest(out.db);
    out.partials = std::move(powers);
    return out;
}

namespace {

constexpr double kStandsFor = 0.06; // s before the release that tell each partial's level

/// Level against just before the release, frame by frame: the partials' median, each weighing what its power was then.
/// The blow of jack or key, in some partials as loud as a string that has rung for a while, hardly moves it.
std::vector<double> levelSince(const CombPower& power, double releaseFrame) {
    const auto end = static_cast<std::size_t>(std::max(1.0, releaseFrame));
    const std::size_t from = end - std::min(end, static_cast<std::size_t>(kStandsFor / kHop));
    std::vector<double> before;
    double whole = 0.0;
    for (const std::vector<double>& partial : power.partials) {
        double sum = 0.0;
        for (std::size_t k = from; k < end; ++k) {
            sum += partial[k];
        }
        before.push_back(sum / static_cast<double>(end - from) + 1e-20);
        whole += before.back();
    }
    std::vector<double> level;
    level.reserve(power.db.size());
    std::vector<std::pair<double, double>> each(before.size()); // level, weight
    for (std::size_t k = 0; k < power.db.size(); ++k) {
        for (std::size_t n = 0; n < before.size(); ++n) {
            each[n] = {toDb(power.partials[n][k] / before[n]), before[n]};
        }
        std::sort(each.begin(), each.end());
        double sum = 0.0;
        std::size_t n = 0;
        while (n + 1 < each.size() && sum + each[n].second < 0.5 * whole) {
            sum += each[n].second;
            ++n;
        }
        level.push_back(each[n].first);
    }
    return level;
}

constexpr double kLingersFrom = 0.5; // s after the release: knocks and the fall itself are over
constexpr double kLingersTo = 0.8;
constexpr double kLeastLingering = 0.1;

double medianDb(const std::vector<double>& db, std::size_t from, std::size_t to) {
    return medianOf({db.begin() + static_cast<std::ptrdiff_t>(from),
                     db.begin() + static_cast<std::ptrdiff_t>(to)});
}

/// What ReleaseReading::lingeringDb says, the release being at a frame.
std::optional<double> lingering(const CombPower& power, double releaseFrame) {
    const auto at = static_cast<std::size_t>(std::max(1.0, releaseFrame));
    const auto frames = [](double seconds) {
        return static_cast<std::size_t>(std::lround(seconds / kHop));
    };
    const std::size_t from = at + frames(kLingersFrom);
    const std::size_t to = std::min(power.sumDb.size(), at + frames(kLingersTo));
    if (to < from + frames(kLeastLingering)) {
        return std::nullopt;
    }
    return medianDb(power.sumDb, from, to) -
           medianDb(power.sumDb, at - std::min(at, frames(kStandsFor)), at);
}

} // namespace

ReleaseReading hearRelease(std::span<const float> samples, SampleRate rate, Hertz string) {
    EXPECTS(string.value() >= 15.0 && string.value() <= 4000.0);
    ReleaseReading reading;
    const std::vector<double> sound = resample(samples, rate.hz(), kRate);
    const StringPriors priors = stringPriors(string.value(), 0.0);
    const CombPower power = combPower(sound, kRate, string.value(), priors.inharmonicity);
    if (power.db.size() < 60) {
        return reading;
    }
    if (power.loudestDb < -110.0) {
        return reading;
    }
    const auto first = power.loudest + static_cast<std::size_t>(kAfterPluck / kHop);
    if (first + static_cast<std::size_t>((kLeastBefore + kLeastAfter) / kHop) + 4 >=
        power.db.size()) {
        return reading;
    }
    const double natural = -8.686 * priors.decayRate * kHop; // decibels a frame
    const double steepest = kSteeper * natural;
    const std::vector<Fall> falls =
        allFalls(power.frameSeconds, kSlowest * -60.0 * kHop / steepest);
    const ReleaseSearch search(power, power.db, power.floorDb, first, steepest, falls);
    const auto rough = search.find();
    if (!rough) {
        return reading;
    }
    Consensus said = agree(search, search.near(rough->release, kNear), power);
    const double byPower = power.firstSeconds + said.release * kHop;
    reading.release = Seconds(byPower);
    reading.releaseU = Seconds(std::hypot(said.releaseDeviation * kHop, kPowerAloneU));
    const auto settled = settleRelease(sound, kRate, string.value(), priors.inharmonicity, byPower);
    const double earliest = power.firstSeconds + static_cast<double>(first) * kHop;
    if (settled && settled->seconds > earliest) {
        reading.release = Seconds(settled->seconds);
        const double apart = kDoubt * (settled->seconds - byPower);
        reading.releaseU =
            Seconds(std::hypot(std::hypot(kWider * settled->deviation, kLeastU), apart));
        said.release = std::max((settled->seconds - power.firstSeconds) / kHop,
                                static_cast<double>(first) + kLeastBefore / kHop + 1.0);
    }
    const std::vector<double> level = levelSince(power, said.release);
    const ReleaseSearch falling(power, level, quietest(level), first, steepest, falls);
    const Consensus fell = agree(falling, falling.near(said.release, 0.003), power);
    reading.found = true;
    reading.decay60 = Seconds(std::exp(fell.lnDecay));
    reading.decay60U = reading.decay60 * std::hypot(fell.lnDecayDeviation, kLeastDecayU);
    reading.stop = Seconds(fell.stop);
    reading.weak = reading.releaseU > kWeakFrom;
    reading.residualDb = falling.remaining(said.release, fell.stop);
    reading.lingeringDb = lingering(power, said.release);
    return reading;
}

} // namespace quillbench
