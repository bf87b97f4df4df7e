#pragma once

#include "core/support/fixed_vector.hpp"

#include <cstddef>
#include <vector>

namespace quillbench {

/// As many registers as one key may pluck at once.
inline constexpr std::size_t kMostChoirsOfKey = 4;

/// One register's pluck, supposed.
struct SupposedPluck {
    std::size_t choir = 0; ///< which solo
    std::size_t at = 0;    ///< sample of the pluck
    double gain = 1.0;     ///< against the solo
};

/// What may have happened while the key went down: each choir at most once.
struct PluckHypothesis {
    FixedVector<SupposedPluck, kMostChoirsOfKey> plucks;
    double score = 0.0; ///< logarithm of likelihood and prior, up to a constant
};

/// One choir's pluck as it was heard alone, after the same filters as the sound under test.
struct SoloTemplate {
    std::vector<std::vector<double>> bands; ///< from `lead` samples before its pluck on, one length
    /// What another pluck of the string has besides, as power against the local power of `bands`: its glide is another,
    /// so that the two drift apart, high bands first.
    std::vector<std::vector<double>> drift;
    std::vector<double> wave; ///< all bands together
    std::size_t lead = 0;
    std::size_t at = 0; ///< sample of the pluck in the solo
};

} // namespace quillbench
