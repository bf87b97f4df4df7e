#include "core/dsp/damper/release_search.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace quillbench::detail {

namespace {

constexpr double kCapDb = 6.0; // a frame further off counts no more
constexpr double kDepthCapDb =
    20.0; // likewise, where two falls are compared: a damper's is the deepest
constexpr double kSameFall = 0.2;    // s before what is deepest, which is in the middle of a fall
constexpr double kSameFallOn = 0.04; // and after it
constexpr double kNoFloor = -1e9;
constexpr double kDepthFloor =
    70.0; // dB below the loudest ring; further down nobody hears a damper
constexpr double kLeastGain = 120.0; // decibels over frames: 6 dB for 40 ms
constexpr double kMemory = 0.12;     // s of ring that speak for its line
constexpr double kBeforeFor = 0.12;  // s around the release that are compared
constexpr double kAfterFor = 0.35;

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

} // namespace

ReleaseSearch::ReleaseSearch(const CombPower& power,
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
      depthFloorDb_(
          std::max(floorDb,
                   *std::max_element(db.begin() + static_cast<std::ptrdiff_t>(first), db.end()) -
                       kDepthFloor)),
      margin_(static_cast<std::size_t>(power.frameSeconds / 2.0 / kReleaseHop)) {
}

std::optional<ReleaseCandidate> ReleaseSearch::find() const {
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
        const double later = (one.candidate.release - deepest.candidate.release) * kReleaseHop;
        const bool same = later > -kSameFall && later < kSameFallOn;
        best = same && one.gain > best->gain ? &one : best;
    }
    return best->candidate;
}

std::vector<ReleaseCandidate> ReleaseSearch::near(double rough, double reachSeconds) const {
    std::vector<ReleaseCandidate> all;
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

double ReleaseSearch::levelAt(double release) const {
    const auto at = static_cast<std::size_t>(release);
    return lineBefore(at).value(release - static_cast<double>(lineEnd(at) - 1));
}

double ReleaseSearch::ownDecay(double release) const {
    return -lineBefore(static_cast<std::size_t>(release)).slope / kReleaseHop;
}

double ReleaseSearch::remaining(double release, double stopSeconds) const {
    const auto from =
        std::min(db_.size() - 10, static_cast<std::size_t>(release) + frames(stopSeconds));
    const auto end = std::min(db_.size(), from + frames(0.5));
    std::vector<double> tail(db_.begin() + static_cast<std::ptrdiff_t>(from),
                             db_.begin() + static_cast<std::ptrdiff_t>(end));
    std::sort(tail.begin(), tail.end());
    return tail[tail.size() / 2] - levelAt(release);
}

std::size_t ReleaseSearch::compared(std::size_t centre) const {
    return std::min(db_.size(), centre + frames(kAfterFor)) -
           std::max(first_, centre - std::min(centre, frames(kBeforeFor)));
}

ReleaseSearch::Explained ReleaseSearch::explainedAt(std::size_t at) const {
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

std::size_t ReleaseSearch::frames(double seconds) {
    return static_cast<std::size_t>(std::lround(seconds / kReleaseHop));
}

std::size_t ReleaseSearch::lineEnd(std::size_t at) const {
    return std::max(first_ + 5, at - std::min(at, margin_));
}

RingLine ReleaseSearch::lineBefore(std::size_t at) const {
    const std::size_t end = lineEnd(at);
    const std::size_t from = std::max(first_, end - std::min(end, frames(0.4)));
    return ringLine(db_, from, end, kMemory / kReleaseHop, steepest_);
}

double ReleaseSearch::rest(
    const RingLine& line, std::size_t at, double cap, double ringFloor, double soundFloor) const {
    double sum = 0.0;
    const auto origin = static_cast<double>(lineEnd(at) - 1);
    const std::size_t end = std::min(db_.size(), at + frames(kAfterFor));
    for (std::size_t i = at; i < end; ++i) {
        const double model = line.value(static_cast<double>(i) - origin);
        sum += std::clamp(std::max(model, ringFloor) - std::max(db_[i], soundFloor), 0.0, cap);
    }
    return sum;
}

double ReleaseSearch::cost(const RingLine& line,
                           std::size_t at,
                           double release,
                           const Fall& fall,
                           std::size_t centre) const {
    double sum = 0.0;
    const auto origin = static_cast<double>(lineEnd(at) - 1);
    const double before = kFallBefore / kReleaseHop;
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

double ReleaseSearch::withFloor(double db) const {
    const double over = db - floorDb_;
    if (over > 25.0) {
        return db;
    }
    return over < -25.0 ? floorDb_ : floorDb_ + toDb(1.0 + fromDb(over));
}

} // namespace quillbench::detail
