#pragma once

#include "core/support/result.hpp"
#include "core/temperament/temperament.hpp"

#include <filesystem>
#include <string>
#include <string_view>

namespace quillbench {

/// The only schema number written; newer ones are refused.
inline constexpr int kTemperamentSchema = 1;

/// A temperament of one's own with the text it was read from, so that fields which this version does not know
/// survive when it is written again.
struct TemperamentFile {
    Temperament temperament;
    std::string original; ///< empty for one that was never read
};

/// Reads the JSON text of a temperament file: schema 1, at most 1 MiB, with either
/// "first" and "fifths" (eleven or twelve temperings up the chain from that note, or more with "open": true; each
/// "-1/4S", "-1/6P", "392/393", "-5.38c" or a number of cents), or "cents" (note name to cents above C).
/// **Errors** UnreadableInput; the line names the field, its value, what is allowed and how to mend it; a circle
/// that does not close says by how much. Never throws.
[[nodiscard]] Result<TemperamentFile> parseTemperament(std::string_view text);

/// The JSON text: the fifths exactly, then what `original` held besides.
[[nodiscard]] std::string formatTemperament(const TemperamentFile& file);

/// **Errors** as parseTemperament and readTextFile; the line begins with the file.
[[nodiscard]] Result<TemperamentFile> readTemperamentFile(const std::filesystem::path& path);

/// **Errors** Environment.
[[nodiscard]] Result<void> writeTemperamentFile(const std::filesystem::path& path,
                                                const TemperamentFile& file);

/// What the command line calls a temperament: an id or short name of the catalogue, else a file.
/// **Errors** as readTemperamentFile; BadArgument where it is neither, naming near ids.
[[nodiscard]] Result<Temperament> loadTemperament(const std::string& idOrFile);

/// One line a key from `lowest` to `highest`: note, MIDI key, hertz, cents above C, cents from equal. Decimal points.
/// **Range** lowest ≤ highest. **Source** [RFC4180].
[[nodiscard]] std::string
formatScaleCsv(const TunedScale& scale, const Note& lowest, const Note& highest);

} // namespace quillbench
