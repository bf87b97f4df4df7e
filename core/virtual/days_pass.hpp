#pragma once

#include "core/instrument/instrument.hpp"
#include "core/units/cents.hpp"

#include <cstdint>
#include <map>

namespace quillbench {

/// How every string of an instrument drifts while nobody tunes it: the whole and each choir a little, brass and iron
/// unlike one another because it is warmer or colder, each string by itself, and about one in twenty because its pin
/// slips. The same seed gives the same days. **Range** days 0 to 365. **Source** own judgement from what players tell;
/// no source.
[[nodiscard]] std::map<StringId, Cents>
driftOfDays(const Instrument& instrument, double days, std::uint64_t seed);

} // namespace quillbench
