#pragma once

#include <cstdint>

namespace quillbench {

/// Seeded pseudo-random numbers that are the same on every platform (the std:: distributions are not).
/// xoshiro256** seeded by splitmix64. **Source** [Blackman2021].
class Random {
public:
    explicit Random(std::uint64_t seed);

    /// 64 uniform bits.
    std::uint64_t bits();

    /// Uniform in [0, 1).
    double uniform();

    /// Uniform in [low, high).
    double uniform(double low, double high);

    /// Normal, mean 0, standard deviation 1 (polar method).
    double normal();

private:
    std::uint64_t state_[4]{};
    double spare_ = 0.0;
    bool hasSpare_ = false;
};

} // namespace quillbench
