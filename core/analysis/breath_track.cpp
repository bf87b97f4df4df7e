#include "core/analysis/breath_track.hpp"

#include "core/analysis/beat_listener.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quillbench {

namespace {

/// The ear chooses once a pluck, when the attack is over, and changes its mind only for what is clearly louder.
constexpr double kChooseAt = 0.4;
constexpr double kHysteresisDb = 6.0;
/// Beats deeper than this are no easier to hear.
constexpr double kDeepEnoughDb = 12.0;
/// The lowest pair is the one that tables count: another is followed only where it is louder by this.
constexpr double kLowestDb = 10.0;

/// The beat changes: by more than so many standard deviations and by more than this within 0.7 s, three looks in a row.
constexpr double kChange = 0.15;
constexpr double kSpread = 3.0;
/// An interval is followed by one pair of partials, whose polarisations beat among themselves: that is no pin.
constexpr double kIntervalSpread = 5.0;
constexpr double kApart = 0.7;
constexpr int kInARow = 3;
constexpr double kTurningFor = 0.6;

/// A crest stands out by this share of the depth, and by so much at least.
constexpr double kStandsOut = 0.3;
constexpr double kStandsOutDb = 0.8;
constexpr double kCrestsFrom = 0.1;

} // namespace

void BreathTrack::begin(std::optional<std::size_t> followedBefore) {
    *this = BreathTrack();
    followed_ = followedBefore;
}

void BreathTrack::weigh(const BeatFollower& follower,
                        const PartialPair& lowest,
                        double now,
                        PairHeard& heard) {
    heard.pairs.clear();
    const std::size_t points = follower.points();
    const double hop = follower.hop().count();
    const double beat = heard.breath.live ? std::abs(heard.breath.live->perSecond()) : 0.0;
    for (std::size_t k = 0; k < follower.pairs(); ++k) {
        // Over a beat and a bit, or a second; the decay between its two halves taken out.
        const double multiple = static_cast<double>(k + 1);
        const double span = std::clamp(beat > 0.0 ? 1.3 / (beat * multiple) : 1.0, 0.4, 2.0);
        const auto wanted = static_cast<std::size_t>(std::min(span, now) / hop);
        const std::size_t first = points > wanted ? points - wanted : 0;
        double loudest = -200.0;
        double sumT = 0.0;
        double sumL = 0.0;
        double sumTT = 0.0;
        double sumTL = 0.0;
        for (std::size_t i = first; i < points; ++i) {
            const double t = static_cast<double>(i - first) * hop;
            const double level = follower.level(k, i).value();
            loudest = std::max(loudest, level);
            sumT += t;
            sumL += level;
            sumTT += t * t;
            sumTL += t * level;
        }
        const auto n = static_cast<double>(points - first);
        const double spread = sumTT - sumT * sumT / std::max(n, 1.0);
        const double slope = spread > 0.0 ? std::min(0.0, (sumTL - sumT * sumL / n) / spread) : 0.0;
        double high = -1e9;
        double low = 1e9;
        for (std::size_t i = first; i < points; ++i) {
            const double t = static_cast<double>(i - first) * hop;
            const double level = follower.level(k, i).value() - slope * t;
            high = std::max(high, level);
            low = std::min(low, level);
        }
        EarPair pair;
        pair.lowerPartial = static_cast<int>(k + 1) * lowest.ofLower;
        pair.upperPartial = static_cast<int>(k + 1) * lowest.ofUpper;
        pair.frequency = follower.frequency(k);
        pair.level = Decibel::fromAmplitude(std::pow(10.0, loudest / 20.0));
        pair.ear = loudest + earWeight(pair.frequency);
        pair.depthDb = std::max(0.0, high - low);
        pair.beat = heard.breath.live.value_or(BeatRate()) * multiple;
        heard.pairs.tryPush(pair);
    }
    if (chosen_) {
        return;
    }
    const auto strength = [&](std::size_t k) {
        return heard.pairs[k].ear + std::min(heard.pairs[k].depthDb, kDeepEnoughDb) +
               (k == 0 ? kLowestDb : 0.0) + (followed_ == k ? kHysteresisDb : 0.0);
    };
    std::size_t best = 0;
    for (std::size_t k = 1; k < heard.pairs.size(); ++k) {
        best = strength(k) > strength(best) ? k : best;
    }
    if (followed_ && *followed_ >= heard.pairs.size()) {
        followed_.reset();
    }
    heard.followed = now < kChooseAt ? followed_.value_or(best) : best;
    chosen_ = now >= kChooseAt;
}

/// Loudness and crests of the pair that is followed.
void BreathTrack::draw(const BeatFollower& follower, PairHeard& heard) const {
    Breath& breath = heard.breath;
    breath.level.clear();
    breath.crests.clear();
    const std::size_t points = follower.points();
    constexpr std::size_t kCapacity = decltype(breath.level)::capacity();
    const std::size_t first = points > kCapacity ? points - kCapacity : 0;
    breath.hop = follower.hop();
    breath.firstTime = follower.timeOf(first);
    std::array<double, kCapacity> level{};
    double sumT = 0.0;
    double sumL = 0.0;
    double sumTT = 0.0;
    double sumTL = 0.0;
    double n = 0.0;
    for (std::size_t i = first; i < points; ++i) {
        const double t = follower.timeOf(i).count();
        const double db = follower.level(heard.followed, i).value();
        breath.level.tryPush(static_cast<float>(db));
        level[i - first] = db;
        if (t >= kCrestsFrom) {
            sumT += t;
            sumL += db;
            sumTT += t * t;
            sumTL += t * db;
            n += 1.0;
        }
    }
    const double spread = sumTT - sumT * sumT / std::max(n, 1.0);
    const double slope = spread > 0.0 ? (sumTL - sumT * sumL / n) / spread : 0.0;
    const double out = std::max(kStandsOutDb, kStandsOut * heard.pairs[heard.followed].depthDb);
    // Up and down with hysteresis, the decay taken out.
    bool rising = false;
    double peak = -1e9;
    double peakAt = 0.0;
    double trough = 1e9;
    for (std::size_t i = 1; i + first + 1 < points; ++i) {
        const double t = follower.timeOf(first + i).count();
        if (t < kCrestsFrom) {
            continue;
        }
        const double smooth =
            0.25 * level[i - 1] + 0.5 * level[i] + 0.25 * level[i + 1] - slope * t;
        if (rising && smooth > peak) {
            peak = smooth;
            peakAt = t;
        }
        if (!rising && smooth < trough) {
            trough = smooth;
        }
        if (rising && smooth < peak - out) {
            breath.crests.tryPush(static_cast<float>(peakAt));
            rising = false;
            trough = smooth;
        } else if (!rising && smooth > trough + out) {
            rising = true;
            peak = smooth;
            peakAt = t;
        }
    }
}

void BreathTrack::watchLive(double now,
                            const std::optional<FollowedBeat>& live,
                            double spread,
                            Breath& breath) {
    breath.live.reset();
    if (!live) {
        return;
    }
    breath.live = abs(live->beat);
    breath.liveUncertainty = live->uncertainty;
    if (lives_.full()) {
        FixedVector<Live, 16> rest;
        for (std::size_t i = 1; i < lives_.size(); ++i) {
            rest.tryPush(lives_[i]);
        }
        lives_ = rest;
    }
    const Live newest{now, std::abs(live->beat.perSecond()), live->uncertainty};
    lives_.tryPush(newest);
    bool changes = false;
    for (const Live& one : lives_) {
        // Stretches that do not overlap, the first one clear of the attack.
        const bool clear = one.at > 1.0 && now - one.at >= kApart;
        const double change = std::abs(newest.beat - one.beat);
        changes = changes || (clear && change > kChange &&
                              change > spread * std::hypot(newest.deviation, one.deviation));
    }
    changing_ = changes ? changing_ + 1 : 0;
    if (changing_ >= kInARow) {
        moved_ = true;
        turningUntil_ = now + kTurningFor;
    }
    breath.turning = now < turningUntil_;
}

void BreathTrack::look(const BeatFollower& follower,
                       const PartialPair& lowest,
                       double now,
                       const std::optional<FollowedBeat>& live,
                       PairHeard& heard) {
    const bool unison = lowest.ofLower == lowest.ofUpper;
    watchLive(now, live, unison ? kSpread : kIntervalSpread, heard.breath);
    weigh(follower, lowest, now, heard);
    draw(follower, heard);
}

} // namespace quillbench
