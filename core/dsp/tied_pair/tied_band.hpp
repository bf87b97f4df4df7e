#pragma once

#include "core/dsp/tied_pair/tied_string.hpp"
#include "core/units/frames.hpp"

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <span>
#include <vector>

namespace quillbench {

/// A partial that sounds in a band: string and partial, both from 0.
struct TiedPart {
    std::size_t string = 0;
    int partial = 0;
};

/// What a band held over a stretch of sound: a complex envelope, and the noise of its thirds in time.
struct TiedSegment {
    static constexpr std::size_t kThirds = 3;

    double centre = 0.0; ///< Hz
    std::vector<double> times;
    Eigen::VectorXcd envelope;
    double correlation = 1.0; ///< so many overlapping frames count as one
    double level = 0.0;       ///< root of the mean power
    double top = 0.0;         ///< loudest frame
    std::array<Eigen::Index, kThirds + 1> bounds{};
    std::array<double, kThirds> floor{}; ///< least noise, power
    std::array<double, kThirds> noise{};
    std::vector<TiedPart> parts;
};

/// A stretch of sound and where it is looked at, in s on the sound's own axis.
struct TiedSound {
    std::span<const double> samples; ///< full scale ±1
    SampleRate rate;
    double start = 0.0;
    double stop = 0.0;
};

/// Kaiser frames (β 8) about `centre`, five times as long as the nearest other line, `apart` Hz away, asks for.
/// **Source** [Portnoff1980]; window [Kaiser1980]. **Range** apart > 0.
[[nodiscard]] TiedSegment
cutSegment(const TiedSound& sound, double centre, double apart, std::vector<TiedPart> parts);

/// Whether frames that part lines `apart` Hz from each other are short enough to follow a string.
[[nodiscard]] bool canBeParted(double apart);

/// Partials below the top that one band holds: those of two strings that frames cannot part share one.
/// `spacing[i]`: Hz from group i to the nearest line of any string outside it.
struct TiedGroups {
    std::vector<std::vector<TiedPart>> parts;
    std::vector<double> centre; ///< Hz
    std::vector<double> spacing;
};

[[nodiscard]] TiedGroups groupsOf(std::span<const TiedString* const> strings, double topHz);

} // namespace quillbench
