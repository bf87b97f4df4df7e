#pragma once

#include "core/units/beat_rate.hpp"
#include "core/units/cents.hpp"
#include "core/units/decibel.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>

namespace quillbench {

/// Two strings that sound together, and what is known of the lower one.
struct FollowedPair {
    int lowerPartial = 1; ///< the lowest partials that meet
    int upperPartial = 1;
    Hertz lower;               ///< partial 1 of the lower string: as it was heard, else its target
    double inharmonicity = 0;  ///< of the lower string; 0 where unknown
    Cents lowerDeviation{0.0}; ///< standard deviation of `lower`
    bool lowerKnown = false;   ///< false: the two lines cannot be told apart
    Cents range{60.0};         ///< how far from pure the upper string is looked for
    Seconds lowerAgo{
        0.0}; ///< how long before the other one each of the two was plucked: its glide is
    Seconds upperAgo{0.0}; ///< over by so much
};

/// What a stretch of sound says of the beat.
struct FollowedBeat {
    BeatRate beat; ///< at the lowest pair, mean over the stretch; its sign is the likelier one
    double uncertainty = 0; ///< per second, one standard deviation
    BeatRate sustain;       ///< foretold mean over 0.1 to 2.5 s after the pluck: both strings glide
    double sustainUncertainty = 0;
    double wide = 0.5;           ///< probability that the upper string is wide
    double meanHz = 0;           ///< middle of the two lines at the lowest pair
    double meanUncertainty = 0;  ///< Hz, one standard deviation
    std::array<double, 4> fit{}; ///< where the fit ended: the next one starts from there
};

/// Follows the beat of a pair while it sounds, from the complex envelopes of its meeting partials alone: cheap enough
/// for fifteen looks a second. Two lines in every band, equally damped, their distance a multiple of one beat; shared
/// by the bands are beat, place and the glides of both strings (Gauss–Newton on the projected residual).
/// **Accuracy** beat_follower_test. What lasts is read by hearPair(); this is what the eye sees meanwhile.
/// **Thread** one at a time; allocates in begin() and in the constructor only.
/// **Source** [Golub1973] for the projection, [Portnoff1980] for the bands.
class BeatFollower {
public:
    /// Meeting pairs that are followed, and envelope points kept.
    static constexpr std::size_t kMostPairs = 6;
    static constexpr std::size_t kMostPoints = 720;

    /// Partials above this are not followed: they are weak and split widely.
    static constexpr double kTopHz = 4000.0;

    /// **Range** rate 8 to 192 kHz, the calibrated one.
    explicit BeatFollower(SampleRate rate);
    ~BeatFollower();
    BeatFollower(BeatFollower&&) noexcept;
    BeatFollower& operator=(BeatFollower&&) noexcept;
    BeatFollower(const BeatFollower&) = delete;
    BeatFollower& operator=(const BeatFollower&) = delete;

    /// A new pair; the sound follows from the later of its plucks on.
    /// **Range** lower 15 to 4000 Hz, partials 1 to 12.
    void begin(const FollowedPair& pair);

    /// The lower string was placed meanwhile, a few cents from where it was taken to be: now the two lines can be
    /// told apart.
    void place(Hertz lower, Cents deviation);

    /// The next samples, full scale ±1. The points made do not depend on how they are cut.
    void push(std::span<const float> samples);

    /// Time from one envelope point to the next: about 1/60 s.
    [[nodiscard]] Seconds hop() const;

    /// Points made since begin(); the last kMostPoints of them can be asked for.
    [[nodiscard]] std::size_t points() const;

    /// Instant a point stands for, after the pluck.
    [[nodiscard]] Seconds timeOf(std::size_t point) const;

    [[nodiscard]] std::size_t pairs() const;

    /// Partial of the lower string in pair `pair`. **Range** pair < pairs().
    [[nodiscard]] Hertz frequency(std::size_t pair) const;

    /// Amplitude of a pair's two lines together at a point. **Range** as above.
    [[nodiscard]] Decibel level(std::size_t pair, std::size_t point) const;

    /// The beat over the points of [from, to] after the pluck; nothing where there are fewer than twelve, or no tone.
    /// Starts from `seed` where that is given, else searches the whole range.
    [[nodiscard]] std::optional<FollowedBeat>
    beatOver(Seconds from, Seconds to, const std::optional<FollowedBeat>& seed = {});

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace quillbench
