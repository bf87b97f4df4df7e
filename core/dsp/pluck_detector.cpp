#include "core/dsp/pluck_detector.hpp"

#include "core/dsp/decimator.hpp"
#include "core/dsp/fft.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

namespace quillbench {

namespace {

constexpr double kFrame = 0.016;        // seconds of one spectrum
constexpr double kHop = 0.004;          // seconds between spectra
constexpr std::size_t kLookedAfter = 5; // spectra averaged after an instant
constexpr std::size_t kGap = 4;         // spectra between, which see both sides
constexpr std::size_t kBeforeHops = 14; // spectra before, whose loudest counts
constexpr std::size_t kKept = kLookedAfter + kGap + kBeforeHops;
constexpr double kHighestLookedAt = 6000.0;
constexpr double kMostPluckRise = 20.0; // decibels that one band may add
constexpr double kThreshold = 2.0;      // decibels, weighted mean over the bands
constexpr double kRest = 0.08;          // seconds between onsets
constexpr double kFloorPower = 1e-10;   // −100 dB in a band: silence of a file
constexpr double kSearchBack = 0.020;   // seconds about the coarse instant
constexpr double kSearchOn = 0.045;
constexpr double kCompare = 0.008; // seconds either side of the instant

} // namespace

struct PluckDetector::State {
    explicit State(SampleRate sampleRate)
        : rate(sampleRate),
          decimator(sampleRate),
          rateHz(decimator.outputRateHz()),
          frame(static_cast<std::size_t>(kFrame * rateHz / 2.0) * 2),
          hop(static_cast<std::size_t>(kHop * rateHz)),
          fft(frame) {
        bands = std::min(
            frame / 2,
            static_cast<std::size_t>(kHighestLookedAt / rateHz * static_cast<double>(frame)));
        window.resize(frame);
        for (std::size_t i = 0; i < frame; ++i) {
            const double place = (static_cast<double>(i) + 0.5) / static_cast<double>(frame);
            window[i] =
                2.0 / static_cast<double>(frame) * (1.0 - std::cos(2.0 * std::numbers::pi * place));
        }
        weights.resize(bands + 1);
        double sum = 0.0;
        for (std::size_t k = 1; k <= bands; ++k) {
            weights[k] = 1.0 / (static_cast<double>(k) + 6.0); // bands about as wide as hearing's
            sum += weights[k];
        }
        for (double& weight : weights) {
            weight /= sum;
        }
        weighted.resize(frame);
        spectrum.resize(frame / 2 + 1);
        powers.assign(kKept * (bands + 1), 0.0);
        keep = static_cast<std::size_t>(0.3 * rateHz);
        sound.reserve(4 * keep + 8192);
    }

    void restart(FrameIndex first) {
        decimator.begin(first.value(), first.value());
        sound.clear();
        soundStart = 0;
        spectra = 0;
        pending = false;
        lastOnset = -1e9;
        next = first;
        origin = first;
        std::fill(powers.begin(), powers.end(), 0.0);
    }

    double* row(std::int64_t index) {
        return powers.data() +
               static_cast<std::size_t>(index % static_cast<std::int64_t>(kKept)) * (bands + 1);
    }

    void addSpectrum();
    double riseAt();
    std::optional<Onset> step();
    Onset refined(double rise);

    SampleRate rate;
    Decimator decimator;
    double rateHz;
    std::size_t frame;
    std::size_t hop;
    RealFft fft;
    std::size_t bands = 0;
    std::size_t keep = 0;
    std::vector<double> window;
    std::vector<double> weights;
    std::vector<double> weighted;
    std::vector<std::complex<double>> spectrum;
    std::vector<double> powers; // ring of spectra
    std::vector<double> sound;  // decimated; sound[0] is output sample soundStart
    std::int64_t soundStart = 0;
    std::int64_t spectra = 0; // spectrum i begins at output sample i·hop
    bool started = false;
    bool pending = false;
    double pendingRise = 0;
    std::int64_t pendingAt = 0; // output sample of the coarse instant
    double lastOnset = -1e9;    // seconds
    FrameIndex next;
    FrameIndex origin;
};

PluckDetector::PluckDetector(SampleRate rate) : state_(std::make_unique<State>(rate)) {
}

PluckDetector::~PluckDetector() = default;
PluckDetector::PluckDetector(PluckDetector&&) noexcept = default;
PluckDetector& PluckDetector::operator=(PluckDetector&&) noexcept = default;

void PluckDetector::State::addSpectrum() {
    const auto from =
        static_cast<std::size_t>(spectra * static_cast<std::int64_t>(hop) - soundStart);
    for (std::size_t i = 0; i < frame; ++i) {
        weighted[i] = window[i] * sound[from + i];
    }
    fft.transform(weighted, spectrum);
    double* power = row(spectra);
    for (std::size_t k = 0; k <= bands; ++k) {
        power[k] = std::norm(spectrum[k]);
    }
    ++spectra;
}

/// Weighted mean rise in decibels between the spectra before and after the newest instant.
double PluckDetector::State::riseAt() {
    const std::int64_t newest = spectra - 1;
    if (newest + 1 < static_cast<std::int64_t>(kLookedAfter)) {
        return 0.0;
    }
    double sum = 0.0;
    for (std::size_t k = 1; k <= bands; ++k) {
        double after = 0.0;
        for (std::size_t i = 0; i < kLookedAfter; ++i) {
            const std::int64_t index = newest - static_cast<std::int64_t>(i);
            after += index >= 0 ? row(index)[k] : 0.0;
        }
        after /= static_cast<double>(kLookedAfter);
        double before = kFloorPower;
        for (std::size_t i = kLookedAfter + kGap; i < kKept; ++i) {
            const std::int64_t index = newest - static_cast<std::int64_t>(i);
            before = std::max(before, index >= 0 ? row(index)[k] : 0.0);
        }
        const double rise = 10.0 * std::log10(std::max(after / before, 1e-3));
        sum += weights[k] * std::clamp(rise, 0.0, kMostPluckRise);
    }
    return sum;
}

/// The instant of the steepest rise of the differenced sound near the coarse one.
Onset PluckDetector::State::refined(double rise) {
    const auto compare = static_cast<std::int64_t>(kCompare * rateHz);
    const std::int64_t low = std::max(pendingAt - static_cast<std::int64_t>(kSearchBack * rateHz),
                                      soundStart + 1 - compare);
    const std::int64_t high = pendingAt + static_cast<std::int64_t>(kSearchOn * rateHz);
    const auto power = [&](std::int64_t index) {
        const std::int64_t i = index - soundStart;
        if (i < 1 || i >= static_cast<std::int64_t>(sound.size())) {
            return i == 0 ? sound[0] * sound[0] : 0.0;
        }
        const double difference =
            sound[static_cast<std::size_t>(i)] - sound[static_cast<std::size_t>(i - 1)];
        return difference * difference;
    };
    double before = 0.0;
    double after = 0.0;
    for (std::int64_t i = 0; i < compare; ++i) {
        before += power(low - compare + i);
        after += power(low + i);
    }
    double best = -1e300;
    std::int64_t at = low;
    for (std::int64_t i = low; i <= high; ++i) {
        const double steep = after - 2.0 * before;
        if (steep > best) {
            best = steep;
            at = i;
        }
        before += power(i) - power(i - compare);
        after += power(i + compare) - power(i);
    }
    const std::int64_t factor = decimator.factor();
    return {origin + FrameCount(at * factor), next, rise};
}

std::optional<Onset> PluckDetector::State::step() {
    const auto ready = [&](std::int64_t sample) {
        return sample < soundStart + static_cast<std::int64_t>(sound.size());
    };
    std::optional<Onset> onset;
    while (ready(spectra * static_cast<std::int64_t>(hop) + static_cast<std::int64_t>(frame))) {
        addSpectrum();
        const double rise = riseAt();
        // The spectra after begin here: the sound before is still in the gap.
        const std::int64_t here =
            (spectra - static_cast<std::int64_t>(kLookedAfter)) * static_cast<std::int64_t>(hop);
        const double seconds = static_cast<double>(here) / rateHz;
        if (pending && (rise > pendingRise)) {
            pendingRise = rise;
            pendingAt = here;
        } else if (!pending && rise > kThreshold && seconds > lastOnset + kRest) {
            pending = true;
            pendingRise = rise;
            pendingAt = here;
        }
        const auto wait = static_cast<std::int64_t>((kSearchOn + kCompare) * rateHz) + 2;
        if (pending && here > pendingAt + static_cast<std::int64_t>(2 * hop) &&
            ready(pendingAt + wait)) {
            pending = false;
            lastOnset = static_cast<double>(pendingAt) / rateHz;
            onset = refined(pendingRise);
        }
    }
    if (sound.size() > 3 * keep) {
        const std::size_t drop = sound.size() - keep;
        sound.erase(sound.begin(), sound.begin() + static_cast<std::ptrdiff_t>(drop));
        soundStart += static_cast<std::int64_t>(drop);
    }
    return onset;
}

std::optional<Onset> PluckDetector::push(const SoundBlock& block) {
    State& s = *state_;
    if (!s.started || block.first != s.next || block.discontinuity) {
        s.restart(block.first);
        s.started = true;
    }
    std::optional<Onset> onset;
    std::span<const float> left = block.samples;
    while (!left.empty()) {
        const std::size_t count = std::min<std::size_t>(left.size(), 256);
        s.next = s.next + FrameCount(static_cast<std::int64_t>(count));
        s.decimator.push(left.first(count), s.sound);
        left = left.subspan(count);
        if (const auto found = s.step()) {
            onset = onset ? onset : found;
        }
    }
    return onset;
}

} // namespace quillbench
