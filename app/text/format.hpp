#pragma once

#include "app/text/note_names.hpp"
#include "core/units/cents.hpp"
#include "core/units/hertz.hpp"

#include <QString>
#include <string_view>

namespace quillbench {

/// UTF-8 of the core as Qt's text.
[[nodiscard]] QString toQString(std::string_view text);

/// "−2.4", "+0.3", "0.0": to a tenth of a cent, never finer; whole cents from 100 on.
[[nodiscard]] QString signedCents(Cents cents);

/// "−2.4", "+0.3", "0.0": a difference to a tenth of whatever it is counted in.
[[nodiscard]] QString signedTenths(double difference);

/// "2.4": as signedCents without the sign.
[[nodiscard]] QString sizeInCents(Cents cents);

/// "± 0.1": rounded up to a tenth, so that it is never understated.
[[nodiscard]] QString plusMinus(Cents uncertainty);

/// "sharp", "flat", or "in tune" where the deviation shows as 0.0.
[[nodiscard]] QString sharpOrFlat(Cents deviation);

/// "207.50 Hz".
[[nodiscard]] QString hertzText(Hertz frequency);

/// "0.3°"; below a tenth "less than 0.1°".
[[nodiscard]] QString degreesText(double degrees);

} // namespace quillbench
