#pragma once

#include "core/instrument/examples.hpp"
#include "core/instrument/string.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <span>
#include <vector>

namespace quillbench::test {

/// The settings of an instrument in equal temperament at its own standard: no room, no action noise.
inline VirtualSettings quiet(const Instrument& instrument, std::uint64_t seed = 1) {
    VirtualSettings settings;
    settings.seed = seed;
    settings.actionNoise = false;
    for (std::size_t c = 0; c < instrument.choirs.size(); ++c) {
        std::vector<Hertz> pitches;
        for (std::size_t s = 0; s < instrument.choirs[c].strings.size(); ++s) {
            pitches.push_back(nominalPitch(instrument, {c, s}));
        }
        settings.pitches.push_back(pitches);
    }
    return settings;
}

inline VirtualCommand command(VirtualCommand::Kind kind, std::int64_t frame) {
    VirtualCommand result;
    result.kind = kind;
    result.at = FrameIndex(frame);
    return result;
}

inline VirtualCommand
onKey(VirtualCommand::Kind kind, std::int64_t frame, std::size_t key, double amount = 0.0) {
    VirtualCommand result = command(kind, frame);
    result.key = key;
    result.amount = amount;
    return result;
}

inline VirtualCommand
onString(VirtualCommand::Kind kind, std::int64_t frame, StringId string, double amount = 0.0) {
    VirtualCommand result = command(kind, frame);
    result.string = string;
    result.amount = amount;
    return result;
}

inline std::vector<float> rendered(VirtualInstrument& instrument,
                                   std::size_t frames,
                                   const std::vector<std::size_t>& blocks = {256}) {
    std::vector<float> sound(frames);
    std::size_t done = 0;
    for (std::size_t i = 0; done < frames; ++i) {
        const std::size_t count = std::min(blocks[i % blocks.size()], frames - done);
        instrument.render(std::span(sound).subspan(done, count));
        done += count;
    }
    return sound;
}

inline std::vector<PluckRecord> plucks(VirtualInstrument& instrument) {
    std::vector<PluckRecord> records;
    while (const auto record = instrument.takePluck()) {
        records.push_back(*record);
    }
    return records;
}

inline double rms(std::span<const float> sound) {
    double sum = 0.0;
    for (const float x : sound) {
        sum += static_cast<double>(x) * static_cast<double>(x);
    }
    return std::sqrt(sum / static_cast<double>(sound.size()));
}

/// One partial taken out of a sound: complex amplitude every `hop` frames about `hz`, through a Blackman
/// window of `length` frames centred at each instant.
struct Demodulated {
    std::vector<double> seconds;
    std::vector<std::complex<double>> z;
};

inline Demodulated demodulate(std::span<const float> sound,
                              double rateHz,
                              double hz,
                              double fromSeconds,
                              double toSeconds,
                              double windowSeconds) {
    const auto length = static_cast<std::size_t>(windowSeconds * rateHz) | 1U;
    const double pi = std::numbers::pi;
    std::vector<double> window(length);
    double sum = 0.0;
    for (std::size_t i = 0; i < length; ++i) {
        const double x = 2.0 * pi * static_cast<double>(i + 1) / static_cast<double>(length + 1);
        window[i] = 0.42 - 0.5 * std::cos(x) + 0.08 * std::cos(2.0 * x);
        sum += window[i];
    }
    Demodulated result;
    const std::size_t half = length / 2;
    const auto instants = static_cast<std::size_t>((toSeconds - fromSeconds) / 0.01) + 1;
    for (std::size_t k = 0; k < instants; ++k) {
        const double t = fromSeconds + 0.01 * static_cast<double>(k);
        const auto centre = static_cast<std::size_t>(std::lround(t * rateHz));
        if (centre < half || centre + half >= sound.size()) {
            continue;
        }
        const double angle = 2.0 * pi * hz / rateHz;
        std::complex<double> turn = std::polar(1.0, -angle * static_cast<double>(centre - half));
        const std::complex<double> step = std::polar(1.0, -angle);
        std::complex<double> total;
        for (std::size_t i = 0; i < length; ++i) {
            total += turn * (window[i] * static_cast<double>(sound[centre - half + i]));
            turn *= step;
        }
        result.seconds.push_back(static_cast<double>(centre) / rateHz);
        result.z.push_back(2.0 * total / sum);
    }
    return result;
}

/// Slope of a straight line through points by least squares.
inline double slopeOf(const std::vector<double>& x, const std::vector<double>& y) {
    double mx = 0.0;
    double my = 0.0;
    const double n = static_cast<double>(x.size());
    for (std::size_t i = 0; i < x.size(); ++i) {
        mx += x[i] / n;
        my += y[i] / n;
    }
    double top = 0.0;
    double bottom = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        top += (x[i] - mx) * (y[i] - my);
        bottom += (x[i] - mx) * (x[i] - mx);
    }
    return top / bottom;
}

/// Mean frequency over a stretch of sound: slope of the unwrapped phase.
inline double meanHz(const Demodulated& partial, double aboutHz) {
    std::vector<double> phase;
    for (const auto& z : partial.z) {
        const double angle = std::arg(z);
        phase.push_back(phase.empty() ? angle
                                      : phase.back() + std::remainder(angle - phase.back(),
                                                                      2.0 * std::numbers::pi));
    }
    return aboutHz + slopeOf(partial.seconds, phase) / (2.0 * std::numbers::pi);
}

} // namespace quillbench::test
