#pragma once

#include "core/instrument/instrument.hpp"
#include "core/support/result.hpp"

#include <QString>
#include <string_view>

namespace quillbench {

/// What the engine says in English, in the language of the window: errors, names of its examples, of registers, wires
/// and temperaments. The engine knows no translations; what it says is found in a list of its phrases
/// (core_phrases.hpp), with what it puts into them. What is not in the list stays as it is: people's own words, sources,
/// and the rarest errors.
[[nodiscard]] QString coreText(std::string_view english);

/// coreText of what is wrong.
[[nodiscard]] QString errorText(const Error& error);

/// "8′", "second 8′", "4′".
[[nodiscard]] QString choirText(const Choir& choir);

/// "second 8′, F♯3": as stringLabel, with the note as it is named here.
[[nodiscard]] QString stringText(const Instrument& instrument, StringId string, int position = 0);

} // namespace quillbench
