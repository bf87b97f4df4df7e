#include "core/dsp/single_string.hpp"

#include "core/dsp/comb_onset.hpp"
#include "core/dsp/pluck_detector.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <numeric>

namespace quillbench {

namespace {

constexpr std::size_t kBlock = 256; // frames, as sound comes in live
// How long an onset is listened to before it is given up; noise needs the longer one.
constexpr std::array<double, 2> kVerifying{0.31, 1.0};
constexpr Seconds kStartOfFile{0.030};
constexpr Seconds kTolerance{0.010}; // an onset this little before `from` still counts

/// Gives the listener everything before frame `end`; returns the frame it stands at.
std::int64_t
give(StringListener& listener, std::span<const float> samples, std::int64_t at, std::int64_t end) {
    end = std::min(end, static_cast<std::int64_t>(samples.size()));
    while (at < end && !listener.finished()) {
        const std::int64_t count = std::min(end - at, static_cast<std::int64_t>(kBlock));
        listener.push(
            {FrameIndex(at),
             samples.subspan(static_cast<std::size_t>(at), static_cast<std::size_t>(count)),
             false});
        at += count;
    }
    return at;
}

std::int64_t beginningFor(FrameIndex pluck, SampleRate rate) {
    return std::max<std::int64_t>((pluck - rate.frames(StringListener::kBefore)).value(), 0);
}

} // namespace

std::vector<FrameIndex> onsetsIn(std::span<const float> samples, SampleRate rate) {
    PluckDetector detector(rate);
    std::vector<FrameIndex> onsets;
    const auto take = [&](std::int64_t first, std::span<const float> block) {
        if (const auto onset = detector.push({FrameIndex(first), block, false})) {
            onsets.push_back(std::max(onset->at, FrameIndex(0)));
        }
    };
    for (std::size_t at = 0; at < samples.size(); at += kBlock) {
        take(static_cast<std::int64_t>(at),
             samples.subspan(at, std::min(kBlock, samples.size() - at)));
    }
    // Silence behind the end lets an onset just before it be told.
    const std::vector<float> silence(static_cast<std::size_t>(rate.hz() * 0.1), 0.0F);
    for (std::size_t at = 0; at < silence.size(); at += kBlock) {
        take(static_cast<std::int64_t>(samples.size() + at),
             std::span<const float>(silence).subspan(at, std::min(kBlock, silence.size() - at)));
    }
    return onsets;
}

std::optional<FrameIndex> firstPluckOf(const ListeningFor& what,
                                       std::span<const float> samples,
                                       SampleRate rate,
                                       std::span<const FrameIndex> onsets,
                                       FrameIndex from) {
    StringListener listener(rate);
    const auto isHeard = [&](FrameIndex onset, double seconds) {
        listener.begin(what, onset);
        const FrameIndex end = onset + rate.frames(Seconds(seconds));
        give(listener, samples, beginningFor(onset, rate), end.value());
        return listener.reading().standing != Standing::Nothing;
    };
    const FrameIndex earliest(rate.frames(kStartOfFile).value());
    const auto firstHeard = [&](bool atStart, double seconds) -> std::optional<FrameIndex> {
        for (const FrameIndex onset : onsets) {
            if (onset + rate.frames(kTolerance) >= from && (onset < earliest) == atStart &&
                isHeard(onset, seconds)) {
                return onset;
            }
        }
        return std::nullopt;
    };
    // Sound that is there when the recording begins looks like an onset: any later pluck goes first.
    for (const double seconds : kVerifying) {
        if (const auto onset = firstHeard(false, seconds)) {
            return onset;
        }
    }
    const auto rise = loudestRise(what, samples, rate, std::max(from, earliest));
    for (const double seconds : kVerifying) {
        if (rise && isHeard(*rise, seconds)) {
            return rise;
        }
    }
    for (const double seconds : kVerifying) {
        if (const auto onset = firstHeard(true, seconds)) {
            return onset;
        }
    }
    return std::nullopt;
}

StringListener listenAfter(FrameIndex pluck,
                           const ListeningFor& what,
                           std::span<const float> samples,
                           SampleRate rate,
                           double window) {
    EXPECTS(window > 0.0);
    StringListener listener(rate);
    listener.begin(what, pluck);
    const FrameIndex end = pluck + rate.frames(Seconds(window));
    give(listener, samples, beginningFor(pluck, rate), end.value());
    return listener;
}

std::vector<StringReading> readingsAfter(FrameIndex pluck,
                                         const ListeningFor& what,
                                         std::span<const float> samples,
                                         SampleRate rate,
                                         std::span<const double> windows) {
    std::vector<std::size_t> order(windows.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return windows[a] < windows[b];
    });
    StringListener listener(rate);
    listener.begin(what, pluck);
    std::int64_t at = beginningFor(pluck, rate);
    std::vector<StringReading> readings(windows.size());
    for (const std::size_t i : order) {
        EXPECTS(windows[i] > 0.0);
        at = give(listener, samples, at, (pluck + rate.frames(Seconds(windows[i]))).value());
        readings[i] = listener.reading();
    }
    return readings;
}

} // namespace quillbench
