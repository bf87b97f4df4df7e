#pragma once

#include "app/places/instrument/compass_pictures.hpp"
#include "app/places/instrument/instrument_model.hpp"

#include <QStringList>

namespace quillbench {

/// "by a lever", "by hand at the register", "not at all".
[[nodiscard]] QString silencingText(Silencing silencing);

/// "shove coupler".
[[nodiscard]] QString couplerText(Coupler coupler);

/// "yellow brass", of "yellow brass (CuZn30)"; "soft iron*" where a value of it is from memory.
[[nodiscard]] QString materialText(const StringMake& make);

/// "−0.4 to +3.1": semitones up to breaking, a range.
[[nodiscard]] QString marginText(const BreakingMargin& margin);

/// "red brass (CuZn15)*", the star as above.
[[nodiscard]] QString wholeMaterialText(const StringMake& make);

/// What the star behind a material means.
[[nodiscard]] QString memoryNote();

/// Length, tension, share of the strength and margin over the compass, `choir` being the one looked at.
[[nodiscard]] CompassPicture compassPicture(const InstrumentModel& model, std::size_t choir);

/// What the change thought about would do: the load, choir by choir, and what moves furthest.
[[nodiscard]] QStringList changeText(const InstrumentModel& model, const LoadChange& change);

/// The usual caution, told once beside the numbers.
[[nodiscard]] QString breakingCaution();

} // namespace quillbench
