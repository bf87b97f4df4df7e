#pragma once

#include "core/dsp/stagger/pluck_hypothesis.hpp"

#include <array>
#include <cstddef>

namespace quillbench {

/// Normal equations for the gains of a few overlapping plucks.
struct SmallSystem {
    std::size_t size = 0;
    std::array<std::array<double, kMostChoirsOfKey>, kMostChoirsOfKey> products{}; ///< lower half
    std::array<double, kMostChoirsOfKey> wanted{};

    /// Least-squares gains by Cholesky's factors; a diagonal loading of 1e-6 keeps equal waveforms calm.
    [[nodiscard]] std::array<double, kMostChoirsOfKey> solve() const;
};

} // namespace quillbench
