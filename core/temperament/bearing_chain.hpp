#pragma once

#include "core/temperament/bearings.hpp"

#include <cstdint>
#include <vector>

namespace quillbench::detail {

inline constexpr int kFifthsAround = 12;
inline constexpr double kWidestTunedFifth =
    12.0;                             ///< cents; beyond, it is a wolf and nobody tunes by it
inline constexpr double kPure = 1e-6; ///< cents

/// The notes of a temperament as its chain of fifths, each where it lies in the lowest octave of the bearings. A place
/// counts the twelve that make the octave, 0 the flattest, and goes round: 12 is 0 again. Split sharps lie before and
/// after them. **Range** `scale` outlives the chain. **Thread** any.
class BearingChain {
public:
    BearingChain(const TunedScale& scale, BearingRange range);

    [[nodiscard]] static int wrapped(int place);
    /// A set of places has this bit for one of them.
    [[nodiscard]] static std::uint32_t bit(int place);
    [[nodiscard]] static Note up(Note note, int octaves);

    [[nodiscard]] const TunedScale& scale() const { return scale_; }

    /// Of the whole chain, split sharps too.
    [[nodiscard]] const std::vector<Note>& keys() const { return keys_; }

    /// Where in keys() place 0 is.
    [[nodiscard]] int first() const { return first_; }

    /// MIDI number of the lowest key of the bearings.
    [[nodiscard]] int lowest() const { return lowest_; }

    /// Whether the chain may be walked round.
    [[nodiscard]] bool circle() const { return circle_; }

    [[nodiscard]] const Note& key(int place) const { return keys_[indexAt(place)]; }

    /// Within an octave and a fifth from the lowest key.
    [[nodiscard]] bool inRange(const Note& note) const;
    /// Whether the chain goes so many fifths on from a place without a wolf or a gap.
    [[nodiscard]] bool reaches(int place, int fifths) const;
    /// Of the fifth above a place.
    [[nodiscard]] Cents tempering(int place) const;
    /// The place of the note that the pitch standard fixes.
    [[nodiscard]] int startingPlace() const;
    /// In keys(); its size where the note is none of them. The octave does not count.
    [[nodiscard]] std::size_t indexOf(const Note& note) const;

private:
    [[nodiscard]] std::size_t indexAt(int place) const;

    const TunedScale& scale_;
    int lowest_;
    int first_ = 0;
    bool circle_ = false;
    std::vector<Note> keys_;
};

} // namespace quillbench::detail
