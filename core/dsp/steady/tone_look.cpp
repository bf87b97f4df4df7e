#include "core/dsp/steady/tone_look.hpp"

#include "core/support/contract.hpp"
#include "core/support/median.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kLookSeconds = 0.34;
constexpr std::size_t kBriefInLook = 8; // a frame is so much of a look
constexpr std::size_t kHopInBrief = 8;  // and a step so much of a frame
constexpr double kLowestToneHz = 180.0; // below lies the hum of the mains with its first multiples
constexpr double kHighestToneHz = 2000.0;
constexpr double kHighestPartialHz = 5000.0;
constexpr double kHeardFromHz = 150.0;
constexpr double kGridCents = 8.0;
constexpr std::size_t kSummed = 6;    // partials of the coarse sum, and of the fine pitch
constexpr std::size_t kOfPurity = 24; // partials
constexpr double kNearlyAsHigh =
    0.9; // of the highest sum: below a half of it lies the octave under a tone
constexpr double kLeastSum = 3.0;    // noise gives 2.3 at most
constexpr double kStandsOut = 1.5;   // a partial that counts: 14 dB over the floor
constexpr double kLeastPurity = 0.3; // of noise a comb takes 0.15
constexpr double kLeastPower = 1e-9;
constexpr double kPartialWidth = 0.015; // 25 cents: a vibrato
constexpr std::size_t kFloorBins = 64;

std::size_t lookLength(SampleRate rate) {
    std::size_t size = 256;
    while (static_cast<double>(size) * std::numbers::sqrt2 < kLookSeconds * rate.hz()) {
        size *= 2;
    }
    return size;
}

std::vector<double> hann(std::size_t size) {
    std::vector<double> window(size);
    for (std::size_t i = 0; i < size; ++i) {
        window[i] = 0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * (static_cast<double>(i) + 0.5) /
                                         static_cast<double>(size));
    }
    return window;
}

/// Slope of a line by least squares through values one step apart.
double slopeOf(const std::vector<double>& values) {
    const double middle = (static_cast<double>(values.size()) - 1.0) / 2.0;
    double moment = 0.0;
    double squares = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double x = static_cast<double>(i) - middle;
        moment += x * values[i];
        squares += x * x;
    }
    return moment / squares;
}

} // namespace

ToneLook::ToneLook(SampleRate rate)
    : rateHz_(rate.hz()),
      fft_(lookLength(rate)),
      window_(hann(fft_.size())),
      brief_(hann(fft_.size() / kBriefInLook)),
      windowed_(fft_.size()),
      spectrum_(fft_.size() / 2 + 1),
      power_(spectrum_.size()),
      prominence_(spectrum_.size()) {
}

double ToneLook::binOf(double hz) const {
    return hz * static_cast<double>(fft_.size()) / rateHz_;
}

/// Power of each bin, and how far it stands over the floor around it.
void ToneLook::transform(std::span<const float> samples) {
    for (std::size_t i = 0; i < samples.size(); ++i) {
        windowed_[i] = window_[i] * static_cast<double>(samples[i]);
    }
    fft_.transform(windowed_, spectrum_);
    // Hann's mean square is 3/8; both halves of the spectrum.
    const double scale = 2.0 / (0.375 * static_cast<double>(fft_.size() * fft_.size()));
    std::transform(spectrum_.begin(), spectrum_.end(), power_.begin(), [scale](const auto& one) {
        return scale * std::norm(one);
    });
    for (std::size_t from = 0; from < power_.size(); from += kFloorBins) {
        const std::size_t to = std::min(from + kFloorBins, power_.size());
        const double floor = std::max(medianOf({power_.begin() + static_cast<std::ptrdiff_t>(from),
                                                power_.begin() + static_cast<std::ptrdiff_t>(to)}),
                                      1e-20);
        for (std::size_t bin = from; bin < to; ++bin) {
            prominence_[bin] = std::log(1.0 + power_[bin] / (8.0 * floor));
        }
    }
}

/// The lowest first partial whose comb stands nearly as high as the highest.
std::optional<double> ToneLook::coarse() const {
    const auto hertzAt = [](std::size_t place) {
        return kLowestToneHz * std::exp2(kGridCents / 1200.0 * static_cast<double>(place));
    };
    const auto places = static_cast<std::size_t>(
        std::ceil(1200.0 / kGridCents * std::log2(kHighestToneHz / kLowestToneHz)));
    std::vector<double> sums;
    sums.reserve(places);
    for (std::size_t place = 0; place < places; ++place) {
        const double hz = hertzAt(place);
        double sum = 0.0;
        for (std::size_t m = 1; m <= kSummed; ++m) {
            const double partial = static_cast<double>(m) * hz;
            if (partial < std::min(kHighestPartialHz, 0.45 * rateHz_)) {
                const auto bin = static_cast<std::size_t>(std::lround(binOf(partial)));
                sum += std::max({prominence_[bin - 1], prominence_[bin], prominence_[bin + 1]}) /
                       std::sqrt(static_cast<double>(m));
            }
        }
        sums.push_back(sum);
    }
    const double highest = *std::max_element(sums.begin(), sums.end());
    if (highest < kLeastSum) {
        return std::nullopt;
    }
    std::size_t at = 0;
    while (sums[at] < kNearlyAsHigh * highest) {
        ++at;
    }
    while (at + 1 < sums.size() && sums[at + 1] > sums[at]) {
        ++at;
    }
    return hertzAt(at);
}

double ToneLook::powerAround(double hz) const {
    const double reach = std::max(3.0, binOf(kPartialWidth * hz));
    const auto from = static_cast<std::size_t>(std::max(0.0, std::ceil(binOf(hz) - reach)));
    const auto to = std::min(static_cast<std::size_t>(binOf(hz) + reach), power_.size() - 1);
    double sum = 0.0;
    for (std::size_t bin = from; bin <= to; ++bin) {
        sum += power_[bin];
    }
    return sum;
}

/// The mean pitch over the look, by how the partials near multiples of `hz` turn from frame to frame.
ToneLook::Turned ToneLook::turned(std::span<const float> samples, double hz) const {
    const std::size_t hop = brief_.size() / kHopInBrief;
    const std::size_t frames = (samples.size() - brief_.size()) / hop + 1;
    std::vector<double> turn(frames, 0.0); // of the first partial, added up
    std::vector<double> weights(frames, 0.0);
    std::vector<std::complex<double>> beside(samples.size());
    for (std::size_t m = 1; m <= kSummed; ++m) {
        const double partial = static_cast<double>(m) * hz;
        const auto bin = static_cast<std::size_t>(std::lround(binOf(partial)));
        if (partial > std::min(kHighestPartialHz, 0.45 * rateHz_) ||
            std::max({prominence_[bin - 1], prominence_[bin], prominence_[bin + 1]}) < kStandsOut) {
            continue;
        }
        for (std::size_t i = 0; i < samples.size(); ++i) {
            beside[i] = std::polar(static_cast<double>(samples[i]),
                                   -2.0 * std::numbers::pi *
                                       std::fmod(partial * static_cast<double>(i) / rateHz_, 1.0));
        }
        std::complex<double> before;
        for (std::size_t frame = 0; frame < frames; ++frame) {
            std::complex<double> now;
            for (std::size_t i = 0; i < brief_.size(); ++i) {
                now += brief_[i] * beside[frame * hop + i];
            }
            if (frame > 0) {
                const double number = static_cast<double>(m);
                const double weight = number * number * std::abs(now) * std::abs(before);
                turn[frame] += weight * std::arg(now * std::conj(before)) / number;
                weights[frame] += weight;
            }
            before = now;
        }
    }
    for (std::size_t frame = 1; frame < frames; ++frame) {
        turn[frame] = turn[frame - 1] + (weights[frame] > 0.0 ? turn[frame] / weights[frame] : 0.0);
    }
    const double hzPerTurn = rateHz_ / (2.0 * std::numbers::pi * static_cast<double>(hop));
    const double slope = slopeOf(turn);
    // From frames that no longer overlap: their noise is their own.
    double squares = 0.0;
    for (std::size_t frame = kHopInBrief; frame < frames; ++frame) {
        const double here =
            (turn[frame] - turn[frame - kHopInBrief]) / static_cast<double>(kHopInBrief);
        squares += (here - slope) * (here - slope);
    }
    return {hz + slope * hzPerTurn,
            std::sqrt(squares / static_cast<double>(frames - kHopInBrief)) * hzPerTurn};
}

std::optional<ToneSeen> ToneLook::see(std::span<const float> samples) {
    EXPECTS(samples.size() == length());
    transform(samples);
    const std::optional<double> found = coarse();
    if (!found) {
        return std::nullopt;
    }
    // Again from there: what lies beside a partial pulls towards where it was looked for.
    const Turned fine = turned(samples, turned(samples, *found).hz);
    const double hz = fine.hz;
    if (!(hz > 0.5 * kLowestToneHz && hz < 2.0 * kHighestToneHz)) {
        return std::nullopt;
    }
    ToneSeen seen;
    seen.pitch = Hertz(hz);
    seen.waver = interval(Hertz(hz), Hertz(hz + fine.waverHz));
    for (std::size_t m = 1; m <= kOfPurity; ++m) {
        const double partial = static_cast<double>(m) * hz;
        if (partial < std::min(kHighestPartialHz, 0.45 * rateHz_)) {
            seen.power += powerAround(partial);
        }
    }
    double all = 0.0;
    const auto last =
        static_cast<std::size_t>(binOf(std::min(1.05 * kHighestPartialHz, 0.49 * rateHz_)));
    for (auto bin = static_cast<std::size_t>(binOf(kHeardFromHz)); bin <= last; ++bin) {
        all += power_[bin];
    }
    seen.purity = all > 0.0 ? std::min(1.0, seen.power / all) : 0.0;
    return seen.purity >= kLeastPurity && seen.power >= kLeastPower ? std::optional(seen)
                                                                    : std::nullopt;
}

} // namespace quillbench
