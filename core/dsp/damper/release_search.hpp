#pragma once

#include "core/dsp/damper/damper_falls.hpp"
#include "core/dsp/damper/release_fit.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace quillbench::detail {

inline constexpr double kLeastBefore = 0.06; ///< s of ring before the release
inline constexpr double kLeastAfter = 0.03;  ///< s

/// Robust line through the ring before the release, in decibels over frames.
struct RingLine {
    double at0 = 0.0; ///< at the last frame
    double slope = 0.0;

    [[nodiscard]] double value(double framesLater) const { return at0 + slope * framesLater; }
};

/// A release and the fall that follows it.
struct ReleaseCandidate {
    double cost = 0.0;    ///< misfit, decibels over frames
    double release = 0.0; ///< frames, may be halves
    std::size_t fall = 0; ///< which of those tried
};

/// Tries releases and falls against the power of the comb.
class ReleaseSearch {
public:
    /// `db`: the level that is searched, frame by frame as `power` counts them; `first`: where the ring begins; `steepest`:
    /// that a ring may fall, decibels a frame. **Range** db and falls outlive it; first within db.
    ReleaseSearch(const CombPower& power,
                  const std::vector<double>& db,
                  double floorDb,
                  std::size_t first,
                  double steepest,
                  const std::vector<Fall>& falls);

    /// Where a fall explains most that a ring going on would not; nothing where none does. Of several falls the deepest
    /// counts: what lingers under a damper falls too, into the noise.
    [[nodiscard]] std::optional<ReleaseCandidate> find() const;

    /// All releases near `rough` with all falls, over the same frames.
    [[nodiscard]] std::vector<ReleaseCandidate> near(double rough, double reachSeconds) const;

    [[nodiscard]] const std::vector<Fall>& falls() const { return falls_; }

    /// Level just before the release, in decibels.
    [[nodiscard]] double levelAt(double release) const;

    /// What the ring loses by itself, in decibels a second.
    [[nodiscard]] double ownDecay(double release) const;

    /// What still sounds, in the middle of the half second after the stop, against just before the release, in decibels.
    [[nodiscard]] double remaining(double release, double stopSeconds) const;

    /// Frames in the comparison around a release.
    [[nodiscard]] std::size_t compared(std::size_t centre) const;

private:
    /// What the best fall at one release explains.
    struct Explained {
        ReleaseCandidate candidate;
        double gain = 0.0; ///< decibels over frames
        double depth =
            0.0; ///< decibels over frames that the string falls below a ring, deep ones in full
    };

    [[nodiscard]] Explained explainedAt(std::size_t at) const;

    static std::size_t frames(double seconds);

    [[nodiscard]] std::size_t lineEnd(std::size_t at) const;

    [[nodiscard]] RingLine lineBefore(std::size_t at) const;

    /// How far the sound after `at` lies below a ring that goes on, no frame by more than `cap` decibels; neither the
    /// ring nor the sound sinks below its floor.
    [[nodiscard]] double rest(const RingLine& line,
                              std::size_t at,
                              double cap,
                              double ringFloor,
                              double soundFloor) const;

    /// Misfit of ring, release and fall over the frames around `centre`.
    [[nodiscard]] double cost(const RingLine& line,
                              std::size_t at,
                              double release,
                              const Fall& fall,
                              std::size_t centre) const;

    [[nodiscard]] double withFloor(double db) const;

    const std::vector<double>& db_;
    double floorDb_;
    std::size_t first_;
    double steepest_; ///< that a ring may fall, decibels a frame
    const std::vector<Fall>& falls_;
    double depthFloorDb_;
    std::size_t margin_;
};

} // namespace quillbench::detail
