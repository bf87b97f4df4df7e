#pragma once

#include "core/dsp/stagger/pluck_hypothesis.hpp"

#include <span>

namespace quillbench {

/// Judges a hypothesis by what it leaves unexplained, millisecond by millisecond and band by band. Near a
/// supposed pluck more may be left (no two plucks are alike, and the plectrum and jack make noises of their
/// own); elsewhere only noise; outliers cost little (Student's t).
class PluckLikelihood {
public:
    struct Band {
        double widthHz = 0.0;
        double noisePower = 0.0; ///< of the band's sound where nothing is plucked
    };

    /// `sound` and the solos have the same bands. Judged are samples from … to − 1.
    PluckLikelihood(std::span<const std::vector<double>> sound,
                    std::span<const Band> bands,
                    std::span<const SoloTemplate> solos,
                    double rateHz,
                    std::size_t from,
                    std::size_t to);

    /// Sets the hypothesis's gains to what fits best, and its score.
    void judge(PluckHypothesis& hypothesis) const;

private:
    [[nodiscard]] double leftOver(const PluckHypothesis& hypothesis,
                                  std::vector<double>& weights) const;
    void refit(PluckHypothesis& hypothesis, const std::vector<double>& weights) const;
    [[nodiscard]] static double prior(const PluckHypothesis& hypothesis, std::size_t choirs);

    std::span<const std::vector<double>> sound_;
    std::span<const Band> bands_;
    std::span<const SoloTemplate> solos_;
    std::vector<std::vector<std::vector<double>>>
        unlike_; ///< [solo][band]: local power of what no solo foretells
    std::size_t from_;
    std::size_t blocks_;
    std::size_t block_;
};

} // namespace quillbench
