#pragma once

#include "core/instrument/instrument.hpp"
#include "core/support/result.hpp"

#include <filesystem>
#include <string>
#include <string_view>

namespace quillbench {

/// The only schema number written; newer ones are refused.
inline constexpr int kInstrumentSchema = 1;

/// An instrument with the text it was read from, so that fields which this version does not know survive when
/// it is written again.
struct InstrumentFile {
    Instrument instrument;
    std::string original; ///< empty for an instrument that was never read
};

/// Reads the JSON text of an instrument file: schema 1, at most 4 MiB.
/// **Errors** UnreadableInput; the line names the field, its value, what is allowed and how to mend it, and
/// `context` is the field, such as "choirs[1].strings[12].length_mm". Never throws.
[[nodiscard]] Result<InstrumentFile> parseInstrument(std::string_view text);

/// The JSON text: every field of ours, then what `original` held besides, at its place (choirs and registers
/// found again by id, keys by note, manuals by name, strings by course).
[[nodiscard]] std::string formatInstrument(const InstrumentFile& file);

/// **Errors** as parseInstrument and readTextFile; the line begins with the file.
[[nodiscard]] Result<InstrumentFile> readInstrumentFile(const std::filesystem::path& path);

/// **Errors** Environment.
[[nodiscard]] Result<void> writeInstrumentFile(const std::filesystem::path& path,
                                               const InstrumentFile& file);

/// What the command line calls an instrument: the id of an example, else a file.
/// **Errors** as readInstrumentFile; where there is no such file the ids are named.
[[nodiscard]] Result<Instrument> loadInstrument(const std::string& idOrFile);

} // namespace quillbench
