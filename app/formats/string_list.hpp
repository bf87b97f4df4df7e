#pragma once

#include "core/instrument/instrument.hpp"
#include "core/support/result.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quillbench {

/// One row of a string list: what somebody measured or has in a schedule. Anything but choir and key may be
/// missing.
struct StringListRow {
    std::size_t line = 0; ///< of the file, for messages
    std::string choir;    ///< id, such as "8b"
    Note key;
    std::optional<Millimetre> length;
    std::optional<Millimetre> diameter;
    std::optional<std::string> material;
    std::optional<Millimetre> pinDiameter;
    std::optional<int> pinRow;
    std::optional<int> pinPlace;
};

/// Which values were not in a list and were filled in.
struct FilledString {
    StringId string;
    bool length = false; ///< interpolated in log length between the nearest given ones
    bool wire = false;   ///< diameter or material taken from the nearest given string
};

struct AppliedStringList {
    Instrument instrument;
    std::vector<FilledString> filled;
};

/// Reads comma separated rows whose first line names the columns, in any order: choir, key, length_mm,
/// diameter_mm, material, pin_diameter_mm, pin_row, pin_place. Other columns are let alone. **Errors**
/// UnreadableInput, naming line, column, value, what is allowed and how to mend it. **Source** [RFC4180].
[[nodiscard]] Result<std::vector<StringListRow>> parseStringList(std::string_view text);

/// Every string of an instrument as such a list, choir by choir from the bass.
[[nodiscard]] std::string formatStringList(const Instrument& instrument);

/// Puts a list into an instrument and fills its gaps, choir by choir; choirs that the list does not name stay.
/// Lengths: straight in log length over semitones; the lowest and highest string must be given. Diameter,
/// material and pin: those of the nearest given string, of two equally near the lower. Pin rows and places:
/// only where given.
/// **Errors** UnreadableInput: unknown choir, key outside the compass, a string given twice, an end missing.
[[nodiscard]] Result<AppliedStringList> applyStringList(Instrument instrument,
                                                        const std::vector<StringListRow>& rows);

} // namespace quillbench
