#pragma once

#include <complex>
#include <cstddef>
#include <span>
#include <vector>

namespace quillbench {

/// Complex amplitudes of partials frame by frame: each frame is the sound, Hann-weighted over a whole number of
/// periods, shifted to zero frequency by the partial's reference frequency. Phases are relative to the
/// reference at the origin of time, so a partial exactly at its reference keeps its phase.
/// Frames overlap by three quarters; over a whole number of periods the other partials fall on the zeros
/// of the window. A frame is computed once, when its last sample is there.
/// **Real-time** allocates only in the constructor.
/// **Source** the heterodyne filter [Moorer1973]; Hann's window [Harris1978].
class HeterodyneBank {
public:
    static constexpr std::size_t kMostPartials = 40;

    /// **Range** longestFrame in samples ≥ 16; mostFrames ≥ 8.
    HeterodyneBank(double rateHz, std::size_t longestFrame, std::size_t mostFrames);

    /// Frames from sample `start` on (relative to the origin of time), `length` samples each, a quarter
    /// apart; every reference in hertz below half the rate. Forgets all frames.
    void begin(std::size_t start, std::size_t length, std::span<const double> referencesHz);

    /// Computes the frames that `samples` (from the origin of time on) completes.
    void extend(std::span<const double> samples);

    [[nodiscard]] std::size_t partials() const { return references_.size(); }

    [[nodiscard]] std::size_t frames() const { return frames_; }

    [[nodiscard]] double reference(std::size_t partial) const { return references_[partial]; }

    [[nodiscard]] std::span<const std::complex<double>> track(std::size_t partial) const {
        return {tracks_.data() + partial * mostFrames_, frames_};
    }

    /// Middle of a frame, in seconds after the origin.
    [[nodiscard]] double time(std::size_t frame) const;

    [[nodiscard]] double hopSeconds() const { return static_cast<double>(hop_) / rateHz_; }

    /// Samples that are needed before the first frame stands.
    [[nodiscard]] std::size_t firstComplete() const { return start_ + length_; }

private:
    double rateHz_;
    std::size_t longestFrame_;
    std::size_t mostFrames_;
    std::size_t start_ = 0;
    std::size_t length_ = 0;
    std::size_t hop_ = 1;
    std::size_t frames_ = 0;
    std::vector<double> references_;
    std::vector<double> hann_;
    std::vector<double> cosines_; // [partial][sample], Hann-weighted
    std::vector<double> sines_;
    std::vector<std::complex<double>> tracks_; // [partial][frame]
};

} // namespace quillbench
