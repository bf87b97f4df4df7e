#include "core/analysis/second_string.hpp"

#include "core/analysis/line_floor.hpp"
#include "core/dsp/fft.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

namespace quillbench {

namespace {

constexpr double kAttackSkipS = 0.06; ///< the attack
constexpr double kHighestHz = 9000.0;
constexpr std::size_t kMostPartials = 60;

/// A string's own line with its polarisations: the window's main lobe, and this much to both sides; above,
/// also what it started sharper.
constexpr double kOwnBins = 3.0; ///< of 1/T
constexpr double kOwnCents = 3.0;

/// Half the width of a line to its foot.
constexpr double kLineBins = 2.2; ///< of 1/T
constexpr double kLineCents = 2.5;

/// Offsets that are tried.
constexpr double kNearest = 4.0;
constexpr double kStep = 0.5;
constexpr int kSteps = 120; ///< to both sides: up to 60 cents

/// Evidence as in the key recogniser; a line must stand out from what surrounds it as well.
constexpr double kPowerSoftening = 5.0;
constexpr double kMostSlotEvidence = 6.0;
constexpr double kEmptySlotCost = 1.0;
constexpr double kFilledSlots = 1.5;
constexpr int kFewestFilled = 4;
constexpr double kFilledShare = 0.65;
constexpr double kEnough = 14.0;
constexpr double kLooksGivenUp = 8.0;
constexpr std::size_t kMostSlots = 25;

/// How much stiffer the other string may be than the law of a choir has it.
constexpr std::array<double, 5> kStiffer{0.62, 0.8, 1.0, 1.25, 1.6};

} // namespace

struct SecondStringFinder::Impl {
    struct Own {
        double hz = 0;
        double low = 0;
        double high = 0;
        double power = 0;
    };

    explicit Impl(SampleRate rate)
        : rateHz(rate.hz()),
          skip(static_cast<std::size_t>(kAttackSkipS * rateHz)),
          length(static_cast<std::size_t>((kAfter.count() - kAttackSkipS) * rateHz)),
          fft(std::bit_ceil(length + length / 4)),
          binHz(rateHz / static_cast<double>(fft.size())) {
        window.resize(length);
        for (std::size_t i = 0; i < length; ++i) {
            window[i] =
                0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * (static_cast<double>(i) + 0.5) /
                                     static_cast<double>(length));
        }
        padded.resize(fft.size());
        spectrum.resize(fft.size() / 2 + 1);
        const double highest = std::min(kHighestHz, 0.45 * rateHz);
        bins = static_cast<std::size_t>(highest / binHz);
        for (auto* list : {&power, &floor, &scratch}) {
            list->resize(bins);
        }
    }

    void transform(std::span<const float> sound);
    void markOwn(const StringReading& reading);
    [[nodiscard]] double evidenceAt(double hz, double& linePower) const;
    [[nodiscard]] SecondString
    tried(const StringReading& reading, int multiple, double cents, double stiffer) const;

    double rateHz;
    std::size_t skip;
    std::size_t length;
    RealFft fft;
    double binHz;
    std::size_t bins = 0;
    std::vector<double> window;
    std::vector<double> padded;
    std::vector<std::complex<double>> spectrum;
    std::vector<double> power;
    std::vector<double> floor;
    std::vector<double> scratch;
    std::array<Own, kMostPartials> own{};
    std::size_t ownCount = 0;
};

void SecondStringFinder::Impl::transform(std::span<const float> sound) {
    std::fill(padded.begin(), padded.end(), 0.0);
    for (std::size_t i = 0; i < length; ++i) {
        padded[i] = window[i] * static_cast<double>(sound[skip + i]);
    }
    fft.transform(padded, spectrum);
    for (std::size_t k = 0; k < bins; ++k) {
        power[k] = std::norm(spectrum[k]);
    }
    findLineFloor(power, binHz, floor, scratch);
}

/// The string's own lines, each at its highest bin within 12 cents of the comb.
void SecondStringFinder::Impl::markOwn(const StringReading& reading) {
    ownCount = 0;
    const double lobe = kOwnBins * rateHz / static_cast<double>(length);
    const double sharp = kOwnCents + std::max(0.0, reading.startSharpness.value());
    for (std::size_t n = 1; n <= kMostPartials; ++n) {
        const auto number = static_cast<double>(n);
        const double hz = number * reading.fundamental.value() *
                          std::sqrt(1.0 + reading.inharmonicity * number * number);
        const double reach = 12.0 * std::numbers::ln2 / 1200.0 * hz + binHz;
        const auto from = static_cast<std::size_t>((hz - reach) / binHz);
        const auto to = static_cast<std::size_t>((hz + reach) / binHz) + 1;
        if (to + 1 >= bins) {
            break;
        }
        std::size_t peak = from;
        for (std::size_t k = from; k <= to; ++k) {
            peak = power[k] > power[peak] ? k : peak;
        }
        const double at = static_cast<double>(peak) * binHz;
        const double cent = at * std::numbers::ln2 / 1200.0;
        own[ownCount++] = {at, at - lobe - kOwnCents * cent, at + lobe + sharp * cent, power[peak]};
    }
}

/// Evidence for a line at `hz`: it must be the highest bin about, and above the floor.
double SecondStringFinder::Impl::evidenceAt(double hz, double& linePower) const {
    const auto middle = static_cast<std::size_t>(std::lround(hz / binHz));
    const double lobe = kLineBins * rateHz / static_cast<double>(length) +
                        kLineCents * std::numbers::ln2 / 1200.0 * hz;
    const auto wing = static_cast<std::size_t>(std::lround(lobe / binHz));
    if (middle < wing + 2 || middle + wing + 2 >= bins) {
        return 0.0;
    }
    std::size_t peak = middle;
    for (std::size_t k = middle - 1; k <= middle + 1; ++k) {
        peak = power[k] > power[peak] ? k : peak;
    }
    linePower = power[peak];
    const double valley = std::max(power[peak - wing], power[peak + wing]);
    const double noise = floor[peak] + valley;
    return noise > 0.0
               ? std::min(kMostSlotEvidence, std::log1p(linePower / (kPowerSoftening * noise)))
               : 0.0;
}

SecondString SecondStringFinder::Impl::tried(const StringReading& reading,
                                             int multiple,
                                             double cents,
                                             double stiffer) const {
    SecondString second;
    second.multiple = multiple;
    second.offset = Cents(cents);
    const double flexible = multiple * reading.fundamental.value() * std::exp2(cents / 1200.0);
    // Along a choir inharmonicity grows with pitch to the power of 1.5 (DEVELOPERS.md, "Real strings").
    const double b = reading.inharmonicity * stiffer * std::pow(multiple, 1.5);
    std::array<double, kMostSlots> levels{};
    int slots = 0;
    int filled = 0;
    for (std::size_t m = 1; slots < static_cast<int>(kMostSlots); ++m) {
        const std::size_t beside = m * static_cast<std::size_t>(multiple) - 1;
        if (beside + 1 >= ownCount) {
            break;
        }
        const auto number = static_cast<double>(m);
        const double hz = number * flexible * std::sqrt(1.0 + b * number * number);
        const auto masks = [&](const Own& line) { return hz > line.low && hz < line.high; };
        if (masks(own[beside]) || masks(own[beside + 1]) ||
            (beside > 0 && masks(own[beside - 1]))) {
            continue;
        }
        double linePower = 0.0;
        const double evidence = evidenceAt(hz, linePower);
        ++slots;
        second.evidence += evidence - kEmptySlotCost;
        if (evidence > kFilledSlots) {
            levels[static_cast<std::size_t>(filled++)] =
                Decibel::fromPower(linePower) - Decibel::fromPower(own[beside].power);
        }
        if (second.evidence < -kLooksGivenUp) {
            break;
        }
    }
    if (filled < kFewestFilled || filled < kFilledShare * slots) {
        second.evidence = 0.0;
        return second;
    }
    const auto middle = levels.begin() + filled / 2;
    std::nth_element(levels.begin(), middle, levels.begin() + filled);
    second.levelDb = *middle;
    return second;
}

SecondStringFinder::SecondStringFinder(SampleRate rate) {
    EXPECTS(rate.hz() >= 8000.0 && rate.hz() <= 192000.0);
    impl_ = std::make_unique<Impl>(rate);
}

SecondStringFinder::~SecondStringFinder() = default;
SecondStringFinder::SecondStringFinder(SecondStringFinder&&) noexcept = default;
SecondStringFinder& SecondStringFinder::operator=(SecondStringFinder&&) noexcept = default;

std::optional<SecondString> SecondStringFinder::find(std::span<const float> sound,
                                                     const StringReading& reading) {
    Impl& self = *impl_;
    EXPECTS(sound.size() >= self.skip + self.length);
    EXPECTS(reading.fundamental.value() > 0.0);
    self.transform(sound);
    self.markOwn(reading);
    SecondString best;
    for (const int multiple : {1, 2}) {
        for (int step = -kSteps; step <= kSteps; ++step) {
            const double cents = kStep * step;
            if (std::abs(cents) < kNearest) {
                continue;
            }
            for (const double stiffer : kStiffer) {
                const SecondString second = self.tried(reading, multiple, cents, stiffer);
                best = second.evidence > best.evidence ? second : best;
            }
        }
    }
    if (best.evidence < kEnough) {
        return std::nullopt;
    }
    return best;
}

} // namespace quillbench
