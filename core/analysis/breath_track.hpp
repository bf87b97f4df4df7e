#pragma once

#include "core/analysis/pair_heard.hpp"
#include "core/dsp/beat_follower.hpp"
#include "core/pitch/interval.hpp"

#include <cstddef>
#include <optional>

namespace quillbench {

/// The picture of a pair's sound: loudness of what the ear follows, crests, and whether the beat changes while it
/// sounds. **Thread** one at a time; never allocates.
class BreathTrack {
public:
    /// A new pluck of a pair. The ear stays with the partials it followed before, where it is the same pair.
    void begin(std::optional<std::size_t> followedBefore);

    /// From now on the pair that `heard` says is followed stays so, whatever is louder.
    void stayWithFollowed() { chosen_ = true; }

    /// Brings `heard` up to `now` seconds after the pluck; `live` is the beat over the last 0.7 s.
    void look(const BeatFollower& follower,
              const PartialPair& lowest,
              double now,
              const std::optional<FollowedBeat>& live,
              PairHeard& heard);

    /// The beat changed by more than its uncertainty while the pair sounded: the pin was turned.
    [[nodiscard]] bool moved() const { return moved_; }

private:
    void
    weigh(const BeatFollower& follower, const PartialPair& lowest, double now, PairHeard& heard);
    void draw(const BeatFollower& follower, PairHeard& heard) const;
    void
    watchLive(double now, const std::optional<FollowedBeat>& live, double spread, Breath& breath);

    struct Live {
        double at = 0;
        double beat = 0;
        double deviation = 0;
    };

    std::optional<std::size_t> followed_;
    bool chosen_ = false;
    bool moved_ = false;
    int changing_ = 0; ///< looks in a row in which the beat changed
    double turningUntil_ = 0;
    FixedVector<Live, 16> lives_; ///< the last second's, oldest first
};

} // namespace quillbench
