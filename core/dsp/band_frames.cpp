#include "core/dsp/band_frames.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace quillbench {

namespace {

std::vector<double> hannWindow(std::size_t length) {
    std::vector<double> window(length);
    double sum = 0.0;
    for (std::size_t i = 0; i < length; ++i) {
        const double phase =
            2.0 * std::numbers::pi * (static_cast<double>(i) + 0.5) / static_cast<double>(length);
        window[i] = 0.5 - 0.5 * std::cos(phase);
        sum += window[i];
    }
    for (double& weight : window) {
        weight *= 2.0 / sum;
    }
    return window;
}

} // namespace

BandFrames cutBandFrames(std::span<const double> samples,
                         SampleRate rate,
                         const BandFramesPlan& plan,
                         std::span<const double> centresHz) {
    EXPECTS(plan.frame.count() > 0.0 && plan.hop.count() > 0.0);
    const auto length =
        static_cast<std::size_t>(std::max<std::int64_t>(8, rate.frames(plan.frame).value()));
    const auto hop =
        static_cast<std::size_t>(std::max<std::int64_t>(1, rate.frames(plan.hop).value()));
    const auto first =
        static_cast<std::size_t>(std::max<std::int64_t>(0, rate.frames(plan.start).value()));
    const auto last = std::min(
        samples.size(),
        static_cast<std::size_t>(std::max<std::int64_t>(0, rate.frames(plan.stop).value())));
    BandFrames result;
    result.centres.assign(centresHz.begin(), centresHz.end());
    result.envelopes.resize(centresHz.size());
    if (first + length > last) {
        return result;
    }
    const std::size_t count = (last - first - length) / hop + 1;
    const double middle = (static_cast<double>(length) - 1.0) / 2.0;
    result.times.resize(count);
    for (std::size_t m = 0; m < count; ++m) {
        result.times[m] = (static_cast<double>(first + m * hop) + middle) / rate.hz();
    }
    const std::vector<double> window = hannWindow(length);
    std::vector<double> real(length);
    std::vector<double> imaginary(length);
    for (std::size_t band = 0; band < centresHz.size(); ++band) {
        const double step = 2.0 * std::numbers::pi * centresHz[band] / rate.hz();
        for (std::size_t i = 0; i < length; ++i) {
            const double phase = step * (static_cast<double>(i) - middle);
            real[i] = window[i] * std::cos(phase);
            imaginary[i] = -window[i] * std::sin(phase);
        }
        auto& envelope = result.envelopes[band];
        envelope.resize(count);
        for (std::size_t m = 0; m < count; ++m) {
            const double* x = samples.data() + first + m * hop;
            double re = 0.0;
            double im = 0.0;
            for (std::size_t i = 0; i < length; ++i) {
                re += x[i] * real[i];
                im += x[i] * imaginary[i];
            }
            const double turned =
                -2.0 * std::numbers::pi * std::remainder(centresHz[band] * result.times[m], 1.0);
            envelope[m] = std::complex<double>(re, im) * std::polar(1.0, turned);
        }
    }
    return result;
}

} // namespace quillbench
