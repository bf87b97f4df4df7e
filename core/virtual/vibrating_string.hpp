#pragma once

#include "core/units/hertz.hpp"
#include "core/virtual/string_voice.hpp"

#include <array>
#include <complex>
#include <cstddef>
#include <span>

namespace quillbench {

/// The motion of one string: a decaying rotation for each mode. Between two instants (a *segment*, at most
/// kSegment frames) frequencies stay put and the modes run as real second-order recursions; at its end the
/// rotations are advanced exactly, so that no rounding grows. Nothing here allocates.
class VibratingString {
public:
    static constexpr std::size_t kSegment = 64;
    static constexpr std::size_t kLanes = 8;
    static constexpr std::size_t kMaxModes = StringVoice::kMaxModes;
    static_assert(kMaxModes % kLanes == 0);

    /// Modes that are computed side by side (a vector type of GCC and Clang, without which neither keeps
    /// the recursion in registers; each lane is an ordinary double).
    using Lanes [[gnu::vector_size(kLanes * sizeof(double))]] = double;

    /// One row of lanes for each frame of a segment; the sample is the sum of its row.
    using Rows = std::array<Lanes, kSegment>;

    VibratingString() = default;
    VibratingString(const StringVoice& voice, double rateHz);

    /// Sets rest pitch of partial 1 and stiffness; motion goes on without a step.
    void tune(Hertz rest, double inharmonicity);

    /// Adds to every mode's decay rate: the damper (a part 0 … 1 of it, times `alongPart` for motion along the
    /// soundboard) and an equal rate for all, 1/s.
    void damp(double damperPart, double extraRate, double alongPart = 1.0);

    /// Adds a pluck: `shape` from pluckShape(), `strength` re an ordinary one. All modes start at zero and
    /// rise, so that the sample before and the sample after do not differ by a step.
    void pluck(std::span<const double> shape, double strength);

    /// Starts a segment; `drift` is a relative change of all frequencies.
    void openSegment(double drift);

    /// Adds the next frames of the segment to rows. Together at most kSegment frames a segment.
    void addTo(std::span<Lanes> rows);

    /// Ends the segment after `frames` frames.
    void closeSegment(std::size_t frames);

    /// Σ n²·A_n² re an ordinary pluck: what stretches the string.
    [[nodiscard]] double stretch() const;

    /// Relative sharpness that the motion causes now.
    [[nodiscard]] double sharpness() const { return voice_.sharpness * stretch(); }

    /// Sum of squares of the heard amplitudes.
    [[nodiscard]] double power() const;

    /// Forgets modes that have died; false when none is left.
    bool prune();

    /// Complex heard amplitude of a mode at the last segment's end (or at the pluck).
    [[nodiscard]] std::complex<double> mode(std::size_t m) const {
        return {re_[m / kLanes][m % kLanes], im_[m / kLanes][m % kLanes]};
    }

    void setMode(std::size_t m, std::complex<double> z);

    void addToMode(std::size_t m, std::complex<double> z);

    [[nodiscard]] std::size_t modes() const { return voice_.modes; }

    /// Rest frequency of a mode in radians per frame.
    [[nodiscard]] double restAngle(std::size_t m) const { return angle_[m / kLanes][m % kLanes]; }

    [[nodiscard]] const StringVoice& voice() const { return voice_; }

private:
    static constexpr std::size_t kGroups = kMaxModes / kLanes;
    using Modes = std::array<double, kMaxModes>;
    using Groups = std::array<Lanes, kGroups>;

    StringVoice voice_;
    double rateHz_ = 48000.0;
    std::size_t groups_ = 0; ///< of kLanes modes that still move
    Groups re_{};
    Groups im_{};
    Groups turnRe_{}; ///< rotation a frame in this segment
    Groups turnIm_{};
    Groups restRe_{}; ///< rotation a frame at rest, with decay
    Groups restIm_{};
    Groups angle_{};
    Modes loss_{};  ///< amplitude kept a frame
    Groups last_{}; ///< y[k−1] of the recursion
    Groups lastButOne_{};
    Groups feed_{}; ///< 2·Re(turn)
    Groups back_{}; ///< |turn|²
    Groups stretchWeight_{};

    void setRotations();
};

} // namespace quillbench
