#include "core/dsp/stagger/pluck_likelihood.hpp"

#include "core/dsp/stagger/small_system.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace quillbench {

namespace {

constexpr double kBlock = 0.001;        // s
constexpr double kUnlike = 0.12;        // power left of a pluck by its solo, at least
constexpr double kFreedom = 3.0;        // of Student's t
constexpr double kGainDeviation = 0.55; // of ln gain: 4.8 dB
constexpr double kLeastGain = 0.1;      // 20 dB below its solo nothing was plucked
constexpr double kSilentPrior = -2.5; // ln of the chance that a register that is on does not pluck
// A supposed pluck may lie anywhere within about half a second and is placed to about a millisecond: ln(0.5 / 0.0012).
constexpr double kFreeInstant = 6.0;
constexpr double kIndependence = 0.5; // of what neighbouring samples and bands say
constexpr int kRefits = 3;

/// Local power of a wave: mean square over ± half a block.
std::vector<double> localPower(const std::vector<double>& wave, std::size_t block) {
    std::vector<double> sums(wave.size() + 1, 0.0);
    for (std::size_t i = 0; i < wave.size(); ++i) {
        sums[i + 1] = sums[i] + wave[i] * wave[i];
    }
    std::vector<double> out(wave.size());
    for (std::size_t i = 0; i < wave.size(); ++i) {
        const std::size_t low = i > block ? i - block : 0;
        const std::size_t high = std::min(wave.size(), i + block + 1);
        out[i] = (sums[high] - sums[low]) / static_cast<double>(high - low);
    }
    return out;
}

} // namespace

PluckLikelihood::PluckLikelihood(std::span<const std::vector<double>> sound,
                                 std::span<const Band> bands,
                                 std::span<const SoloTemplate> solos,
                                 double rateHz,
                                 std::size_t from,
                                 std::size_t to)
    : sound_(sound),
      bands_(bands),
      solos_(solos),
      from_(from),
      block_(std::max<std::size_t>(1, static_cast<std::size_t>(std::lround(kBlock * rateHz)))) {
    blocks_ = (to - from) / block_;
    for (const SoloTemplate& solo : solos) {
        std::vector<std::vector<double>> powers;
        for (std::size_t b = 0; b < solo.bands.size(); ++b) {
            std::vector<double> power = localPower(solo.bands[b], block_);
            for (std::size_t i = 0; i < power.size(); ++i) {
                power[i] *= kUnlike + solo.drift[b][i];
            }
            powers.push_back(std::move(power));
        }
        unlike_.push_back(std::move(powers));
    }
}

double PluckLikelihood::leftOver(const PluckHypothesis& hypothesis,
                                 std::vector<double>& weights) const {
    weights.assign(blocks_ * bands_.size(), 0.0);
    std::vector<double> residual(blocks_ * block_);
    std::vector<double> unlike(blocks_ * block_);
    double score = 0.0;
    for (std::size_t band = 0; band < bands_.size(); ++band) {
        std::copy_n(sound_[band].begin() + static_cast<std::ptrdiff_t>(from_),
                    residual.size(),
                    residual.begin());
        std::fill(unlike.begin(), unlike.end(), 0.0);
        for (const SupposedPluck& pluck : hypothesis.plucks) {
            const std::vector<double>& wave = solos_[pluck.choir].bands[band];
            const std::vector<double>& power = unlike_[pluck.choir][band];
            const auto start = static_cast<std::ptrdiff_t>(pluck.at) -
                               static_cast<std::ptrdiff_t>(solos_[pluck.choir].lead) -
                               static_cast<std::ptrdiff_t>(from_);
            const std::ptrdiff_t first = std::max<std::ptrdiff_t>(start, 0);
            const std::ptrdiff_t end = std::min(start + static_cast<std::ptrdiff_t>(wave.size()),
                                                static_cast<std::ptrdiff_t>(residual.size()));
            for (std::ptrdiff_t i = first; i < end; ++i) {
                const auto at = static_cast<std::size_t>(i);
                const auto in = static_cast<std::size_t>(i - start);
                residual[at] -= pluck.gain * wave[in];
                unlike[at] += pluck.gain * pluck.gain * power[in];
            }
        }
        const double freedom = 2.0 * bands_[band].widthHz * kBlock * kIndependence;
        for (std::size_t b = 0; b < blocks_; ++b) {
            double energy = 0.0;
            double expected = 0.0;
            for (std::size_t i = b * block_; i < (b + 1) * block_; ++i) {
                energy += residual[i] * residual[i];
                expected += unlike[i];
            }
            energy /= static_cast<double>(block_);
            const double scale =
                bands_[band].noisePower + expected / static_cast<double>(block_) + 1e-20;
            const double ratio = freedom * energy / (kFreedom * scale);
            score -=
                0.5 * freedom * std::log(scale) + 0.5 * (kFreedom + freedom) * std::log1p(ratio);
            weights[band * blocks_ + b] =
                (kFreedom + freedom) / (kFreedom * scale + freedom * energy);
        }
    }
    return score;
}

void PluckLikelihood::refit(PluckHypothesis& hypothesis, const std::vector<double>& weights) const {
    SmallSystem system;
    system.size = hypothesis.plucks.size();
    const auto length = static_cast<std::ptrdiff_t>(blocks_ * block_);
    std::vector<double> weighted(blocks_ * block_);
    for (std::size_t band = 0; band < bands_.size(); ++band) {
        for (std::size_t a = 0; a < system.size; ++a) {
            const SupposedPluck& one = hypothesis.plucks[a];
            const std::vector<double>& wave = solos_[one.choir].bands[band];
            const auto start = static_cast<std::ptrdiff_t>(one.at) -
                               static_cast<std::ptrdiff_t>(solos_[one.choir].lead) -
                               static_cast<std::ptrdiff_t>(from_);
            const std::ptrdiff_t first = std::max<std::ptrdiff_t>(start, 0);
            const std::ptrdiff_t end =
                std::min(start + static_cast<std::ptrdiff_t>(wave.size()), length);
            std::fill(weighted.begin(), weighted.end(), 0.0);
            for (std::ptrdiff_t i = first; i < end; ++i) {
                const auto at = static_cast<std::size_t>(i);
                weighted[at] = weights[band * blocks_ + at / block_] *
                               wave[static_cast<std::size_t>(i - start)];
                system.wanted[a] += weighted[at] * sound_[band][from_ + at];
            }
            for (std::size_t b = 0; b <= a; ++b) {
                const SupposedPluck& other = hypothesis.plucks[b];
                const std::vector<double>& second = solos_[other.choir].bands[band];
                const auto begin = static_cast<std::ptrdiff_t>(other.at) -
                                   static_cast<std::ptrdiff_t>(solos_[other.choir].lead) -
                                   static_cast<std::ptrdiff_t>(from_);
                const std::ptrdiff_t low = std::max(first, begin);
                const std::ptrdiff_t high =
                    std::min(end, begin + static_cast<std::ptrdiff_t>(second.size()));
                for (std::ptrdiff_t i = low; i < high; ++i) {
                    system.products[a][b] += weighted[static_cast<std::size_t>(i)] *
                                             second[static_cast<std::size_t>(i - begin)];
                }
            }
        }
    }
    const auto gains = system.solve();
    for (std::size_t a = 0; a < system.size; ++a) {
        SupposedPluck& pluck = hypothesis.plucks[a];
        pluck.gain = std::clamp(gains[a], 0.02, 20.0);
    }
}

double PluckLikelihood::prior(const PluckHypothesis& hypothesis, std::size_t choirs) {
    double sum = kSilentPrior * static_cast<double>(choirs - hypothesis.plucks.size());
    for (const SupposedPluck& pluck : hypothesis.plucks) {
        if (pluck.gain < kLeastGain) {
            return -std::numeric_limits<double>::infinity();
        }
        const double off = std::log(pluck.gain) / kGainDeviation;
        sum -= 0.5 * off * off + kFreeInstant;
    }
    return sum;
}

void PluckLikelihood::judge(PluckHypothesis& hypothesis) const {
    std::vector<double> weights;
    double left = leftOver(hypothesis, weights);
    for (int i = 0; i < kRefits; ++i) {
        refit(hypothesis, weights);
        left = leftOver(hypothesis, weights);
    }
    hypothesis.score = left + prior(hypothesis, solos_.size());
}

} // namespace quillbench
