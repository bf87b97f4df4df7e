#include "core/dsp/fft.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace quillbench;

TEST_CASE("the transform agrees with the sum that defines it", "[dsp]") {
    for (const std::size_t size : {std::size_t{16}, std::size_t{60}, std::size_t{128}}) {
        Random random(size);
        std::vector<double> samples(size);
        for (double& sample : samples) {
            sample = random.normal();
        }
        std::vector<std::complex<double>> spectrum(size / 2 + 1);
        RealFft fft(size);
        fft.transform(samples, spectrum);
        for (std::size_t k = 0; k <= size / 2; ++k) {
            std::complex<double> sum = 0.0;
            for (std::size_t i = 0; i < size; ++i) {
                sum +=
                    samples[i] * std::polar(1.0,
                                            -2.0 * std::numbers::pi * static_cast<double>(k * i) /
                                                static_cast<double>(size));
            }
            INFO("size " << size << " bin " << k);
            CHECK(std::abs(spectrum[k] - sum) < 1e-11 * static_cast<double>(size));
        }
    }
}
