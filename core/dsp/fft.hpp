#pragma once

#include <complex>
#include <cstddef>
#include <memory>
#include <span>
#include <vector>

namespace quillbench {

/// Discrete Fourier transform of real samples, in double (KissFFT's header template; measured floor −289 dB).
/// The plan is made once; transform() does not allocate.
class RealFft {
public:
    /// **Range** size even, ≥ 4; powers of 2, 3 and 5 are fast.
    explicit RealFft(std::size_t size);
    ~RealFft();
    RealFft(RealFft&&) noexcept;
    RealFft& operator=(RealFft&&) noexcept;
    RealFft(const RealFft&) = delete;
    RealFft& operator=(const RealFft&) = delete;

    [[nodiscard]] std::size_t size() const;

    /// X_k = Σ x_i·exp(−2πi·k·i/size) for k = 0 … size/2. **Range** samples.size() == size,
    /// spectrum.size() == size/2 + 1.
    void transform(std::span<const double> samples, std::span<std::complex<double>> spectrum);

private:
    struct Plan;
    std::unique_ptr<Plan> plan_;
};

} // namespace quillbench
