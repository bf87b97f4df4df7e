#pragma once

#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// How loud practice is, in decibels re the instrument as it is rendered.
inline constexpr double kQuietestDb = -42.0;
inline constexpr double kQuietStartDb = -24.0; ///< every sitting begins so
inline constexpr double kLoudestDb = 0.0;

/// No sample leaves above this, re full scale: 12 dB below it.
inline constexpr double kOutputCeiling = 0.25;

/// What is done to a sound before it is heard: its loudness, changed in 20 ms so that nothing clicks; held below
/// kOutputCeiling; and, as a hint, narrowed to the band where two partials meet. Below half the ceiling it only
/// multiplies. **Thread** one at a time; process() does not allocate.
/// **Source** second-order band-pass by the bilinear transform [Zoelzer2011].
class PracticeOutput {
public:
    /// **Range** 8 to 192 kHz.
    explicit PracticeOutput(SampleRate rate);

    /// **Range** kQuietestDb … kLoudestDb; held inside.
    void setLevel(double decibels);

    /// Only what lies about `centre`, from 9 % below to 9 % above (−3 dB of each of two filters), 6 dB louder; nothing:
    /// all of it. **Range** below a third of the rate.
    void hearOnly(std::optional<Hertz> centre);

    /// What sounded before goes on fading while the next sound begins: added to the output once, after the level.
    void addTail(std::span<const float> tail);

    /// A sound of its own is added from now on, before the level; what is left of an earlier one fades. Empty: none.
    void addSound(std::vector<float> sound);

    /// In place. **Range** any length.
    void process(std::span<float> samples) noexcept;

    /// How long a tail should be.
    [[nodiscard]] FrameCount fade() const { return fade_; }

private:
    struct Section {
        double x1 = 0.0;
        double x2 = 0.0;
        double y1 = 0.0;
        double y2 = 0.0;
    };

    [[nodiscard]] double narrowed(double sample) noexcept;

    SampleRate rate_;
    FrameCount fade_;
    double level_ = 0.0; ///< now
    double levelAim_ = 0.0;
    double narrow_ = 0.0; ///< share of the narrowed sound now
    double narrowAim_ = 0.0;
    double b0_ = 0.0;
    double a1_ = 0.0;
    double a2_ = 0.0;
    std::array<Section, 2> sections_{};
    std::vector<float> tail_;
    std::size_t tailDone_ = 0;
    std::size_t tailSize_ = 0;
    std::vector<float> sound_;
    std::size_t soundDone_ = 0;
};

} // namespace quillbench
