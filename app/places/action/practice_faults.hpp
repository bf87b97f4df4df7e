#pragma once

#include "core/virtual/virtual_instrument.hpp"

#include <cstdint>
#include <vector>

namespace quillbench {

/// Faults for the virtual instrument, to be found by listening: in each choir a weak plectrum, a late damper and (where
/// several rows pluck) a jack that strays, and one hanging jack in the first. No string has two. Always the same from
/// a seed.
[[nodiscard]] std::vector<StringFault> faultsToFind(const Instrument& instrument,
                                                    std::uint64_t seed);

} // namespace quillbench
