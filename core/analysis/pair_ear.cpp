#include "core/analysis/pair_ear.hpp"

#include "core/dsp/constants.hpp"
#include "core/dsp/fft.hpp"
#include "core/dsp/string_priors.hpp"
#include "core/support/contract.hpp"
#include "core/support/fixed_vector.hpp"
#include "core/units/decibel.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <complex>
#include <vector>

namespace quillbench {

namespace {

constexpr Seconds kSkip{0.06}; ///< the attack
constexpr double kPairTopHz = 6000.0;
/// A partial of its own stands out from a gap beside it by this much, and is no whisper beside the loudest.
constexpr double kOwnStandsOutDb = 10.0;
constexpr double kWhisperDb = -35.0;
constexpr double kOwnShare = 0.6;
constexpr std::size_t kMostOwn = 6;
/// Shared partials louder than alone. **Source** real notes with real octaves of equal loudness mixed to them: a tenth of
/// them add less than 1.4 dB (median of the first six).
constexpr double kLouderDb = 1.2;
/// Shared partials louder than their neighbours, where the string was never heard alone: among 23 real notes a quarter
/// have so much by themselves, and of mixed pairs a tenth have less.
constexpr double kLouderThanOthersDb = 4.0;
/// The same where one string alone was asked for.
constexpr double kClearlyLouderDb = 9.0;

/// How loud a string's partials were, and half way down to the partial before, dB.
struct PartialLevels {
    static constexpr std::size_t kMost = 14;

    std::size_t count = 0; ///< partials 1 … count lie below 6 kHz
    std::array<double, kMost> line{};
    std::array<double, kMost> gap{};
};

double middleOf(FixedVector<double, PartialLevels::kMost> values) {
    auto* const middle = values.begin() + values.size() / 2;
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// How loud the shared partials are beside the ones next to them.
FixedVector<double, PartialLevels::kMost> excessOf(const PartialLevels& levels,
                                                   std::size_t multiple) {
    FixedVector<double, PartialLevels::kMost> excess;
    for (std::size_t n = multiple; n <= levels.count && excess.size() < kMostOwn; n += multiple) {
        const double below = levels.line[n - 2];
        const double beside = n < levels.count ? 0.5 * (below + levels.line[n]) : below;
        excess.tryPush(levels.line[n - 1] - beside);
    }
    return excess;
}

bool hasPartialsOfItsOwn(const PartialLevels& levels, std::size_t shared) {
    const double loudest =
        *std::max_element(levels.line.begin(), levels.line.begin() + levels.count);
    std::size_t looked = 0;
    std::size_t heard = 0;
    for (std::size_t n = 1; n < levels.count && looked < kMostOwn; ++n) {
        if (n % shared == 0) {
            continue;
        }
        const double level = levels.line[n - 1];
        // One of the gaps may be filled by the other string.
        const double beside = std::min(levels.gap[n - 1], levels.gap[n]);
        ++looked;
        heard += level - beside > kOwnStandsOutDb && level - loudest > kWhisperDb ? 1U : 0U;
    }
    return looked > 0 && static_cast<double>(heard) >= kOwnShare * static_cast<double>(looked);
}

/// The last times that a string was heard alone, at most kTimes. One of them may have been an octave that nobody asked for.
struct AloneLevels {
    static constexpr std::size_t kTimes = 3;

    StringId string;
    std::array<PartialLevels, kTimes> levels{};
    std::size_t count = 0; ///< ever

    [[nodiscard]] std::size_t kept() const { return std::min(count, kTimes); }
};

bool sharedOnesAreLouder(const PartialLevels& now,
                         std::size_t multiple,
                         const AloneLevels* alone,
                         double thanOthersDb) {
    const auto excess = excessOf(now, multiple);
    if (excess.empty()) {
        return false;
    }
    if (alone == nullptr) {
        return middleOf(excess) > thanOthersDb;
    }
    FixedVector<double, PartialLevels::kMost> louder; // than each time alone; of two the more
    for (std::size_t time = 0; time < alone->kept(); ++time) {
        const auto before = excessOf(alone->levels[time], multiple);
        auto more = excess;
        for (std::size_t i = 0; i < std::min(more.size(), before.size()); ++i) {
            more[i] -= before[i];
        }
        louder.tryPush(middleOf(more));
    }
    return middleOf(louder) > kLouderDb;
}

} // namespace

struct PairEar::Impl {
    explicit Impl(SampleRate rate)
        : rateHz(rate.hz()),
          skip(static_cast<std::size_t>(kSkip.count() * rateHz)),
          length(static_cast<std::size_t>((kAfter - kSkip).count() * rateHz)),
          fft(std::bit_ceil(length + length / 4)),
          binHz(rateHz / static_cast<double>(fft.size())),
          window(length),
          padded(fft.size()),
          spectrum(fft.size() / 2 + 1) {
        known.reserve(kMostKnown);
        for (std::size_t i = 0; i < length; ++i) {
            window[i] = 0.5 - 0.5 * std::cos(kTwoPi * (static_cast<double>(i) + 0.5) /
                                             static_cast<double>(length));
        }
    }

    [[nodiscard]] PartialLevels levels(const Place& place) const;

    [[nodiscard]] const AloneLevels* levelsAlone(StringId string) const {
        const auto found =
            std::find_if(known.begin(), known.end(), [string](const AloneLevels& one) {
                return one.string == string;
            });
        return found == known.end() ? nullptr : &*found;
    }

    /// The highest bin about `hz`, dB.
    [[nodiscard]] double levelAt(double hz, double reachHz) const {
        const auto from = static_cast<std::size_t>(std::max(0.0, (hz - reachHz) / binHz));
        const auto to =
            std::min(static_cast<std::size_t>((hz + reachHz) / binHz) + 1, spectrum.size() - 1);
        double power = 1e-20;
        for (std::size_t k = from; k <= to; ++k) {
            power = std::max(power, std::norm(spectrum[k]));
        }
        return Decibel::fromPower(power).value();
    }

    double rateHz;
    std::size_t skip;
    std::size_t length;
    RealFft fft;
    double binHz;
    std::vector<double> window;
    std::vector<double> padded;
    std::vector<std::complex<double>> spectrum;
    std::vector<AloneLevels> known;
};

PairEar::PairEar(SampleRate rate) {
    EXPECTS(rate.hz() >= 8000.0 && rate.hz() <= 192000.0);
    impl_ = std::make_unique<Impl>(rate);
}

PairEar::~PairEar() = default;
PairEar::PairEar(PairEar&&) noexcept = default;
PairEar& PairEar::operator=(PairEar&&) noexcept = default;

void PairEar::hear(std::span<const float> sound) {
    Impl& self = *impl_;
    EXPECTS(sound.size() >= self.skip + self.length);
    for (std::size_t i = 0; i < self.length; ++i) {
        self.padded[i] = self.window[i] * static_cast<double>(sound[self.skip + i]);
    }
    self.fft.transform(self.padded, self.spectrum);
}

PartialLevels PairEar::Impl::levels(const Place& place) const {
    const double b = stringPriors(place.pitch.value(), place.inharmonicity).inharmonicity;
    const double f0 = place.pitch.value() / std::sqrt(1.0 + b);
    const double highest = std::min(kPairTopHz, 0.45 * rateHz);
    PartialLevels out;
    for (std::size_t i = 0; i < PartialLevels::kMost; ++i) {
        const auto n = static_cast<double>(i + 1);
        const double hz = n * f0 * std::sqrt(1.0 + b * n * n);
        if (hz > highest) {
            break;
        }
        const double reach = std::min(hz * place.reach.value() * kCent, 0.2 * f0);
        out.line[i] = levelAt(hz, reach);
        out.gap[i] = levelAt(hz * (n - 0.5) / n, reach);
        out.count = i + 1;
    }
    return out;
}

void PairEar::learn(StringId string, const Place& place) {
    Impl& self = *impl_;
    auto found = std::find_if(self.known.begin(),
                              self.known.end(),
                              [string](const AloneLevels& one) { return one.string == string; });
    if (found == self.known.end()) {
        if (self.known.size() == kMostKnown) {
            return;
        }
        found = self.known.insert(self.known.end(), AloneLevels{string, {}, 0});
    }
    found->levels[found->count % AloneLevels::kTimes] = self.levels(place);
    ++found->count;
}

bool PairEar::knows(StringId string) const {
    return impl_->levelsAlone(string) != nullptr;
}

bool PairEar::bothSound(const Place& lower,
                        const Place& upper,
                        PartialPair meeting,
                        StringId lowerString,
                        bool lowerExpected) const {
    const PartialLevels below = impl_->levels(lower);
    const auto ofLower = static_cast<std::size_t>(meeting.ofLower);
    const auto ofUpper = static_cast<std::size_t>(meeting.ofUpper);
    if (ofLower < 2 || below.count < 2 || !hasPartialsOfItsOwn(below, ofLower)) {
        return false;
    }
    return ofUpper > 1
               ? hasPartialsOfItsOwn(impl_->levels(upper), ofUpper)
               : sharedOnesAreLouder(below,
                                     ofLower,
                                     impl_->levelsAlone(lowerString),
                                     lowerExpected ? kClearlyLouderDb : kLouderThanOthersDb);
}

} // namespace quillbench
