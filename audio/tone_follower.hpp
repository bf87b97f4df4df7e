#pragma once

#include "audio/clock_calibration.hpp"

#include <complex>
#include <span>
#include <vector>

namespace quillbench {

/// Follows the phase of a trusted tone through captured sound, as it comes. **Thread** one at a time; push() allocates.
class ToneFollower {
public:
    /// **Range** tone above 20 Hz and below 0.45 of the rate.
    ToneFollower(const TrustedTone& tone, SampleRate nominal);

    /// More sound, right after what was pushed before.
    void push(std::span<const float> samples);

    /// Forgets everything: sound was lost, or the tone begins anew.
    void restart();

    /// How much sound was pushed since the last restart.
    [[nodiscard]] Seconds length() const;

    /// Whether what was pushed so far is one steady tone. True before there is a second of it.
    [[nodiscard]] bool isSteady() const;

    /// The clock error that it shows; at least five seconds of sound. **Accuracy** and **errors** as calibrateClock().
    [[nodiscard]] Result<ClockCalibration> reading() const;

private:
    struct Fit;
    [[nodiscard]] Fit fit() const;

    TrustedTone tone_;
    SampleRate rate_;
    std::vector<std::complex<double>> weights_; ///< window and reference of one segment
    std::vector<float> waiting_;                ///< sound of which no segment is complete yet
    std::size_t consumed_ = 0;                  ///< frames before waiting_
    std::size_t pushed_ = 0;
    std::vector<std::complex<double>> values_; ///< the tone's amplitude and phase, one a step
};

} // namespace quillbench
