#include "core/dsp/fft.hpp"

#include "core/support/contract.hpp"

#include <kissfft.hh>

#include <algorithm>

namespace quillbench {

struct RealFft::Plan {
    explicit Plan(std::size_t size) : count(size), fft(size / 2, false), packed(size / 2 + 1) {}

    std::size_t count;
    kissfft<double> fft;
    std::vector<std::complex<double>> packed;
};

RealFft::RealFft(std::size_t size) {
    EXPECTS(size >= 4 && size % 2 == 0);
    plan_ = std::make_unique<Plan>(size);
}

RealFft::~RealFft() = default;
RealFft::RealFft(RealFft&&) noexcept = default;
RealFft& RealFft::operator=(RealFft&&) noexcept = default;

std::size_t RealFft::size() const {
    return plan_->count;
}

void RealFft::transform(std::span<const double> samples, std::span<std::complex<double>> spectrum) {
    EXPECTS(samples.size() == plan_->count);
    EXPECTS(spectrum.size() == plan_->count / 2 + 1);
    // kissfft's own real transform: size/2 bins, the last one (Nyquist) packed into the first's imaginary part.
    plan_->fft.transform_real(samples.data(), plan_->packed.data());
    const std::size_t half = plan_->count / 2;
    std::copy_n(plan_->packed.begin(), half, spectrum.begin());
    spectrum[half] = plan_->packed[0].imag();
    spectrum[0] = plan_->packed[0].real();
}

} // namespace quillbench
