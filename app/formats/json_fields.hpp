#pragma once

#include "core/instrument/limits.hpp"
#include "core/support/result.hpp"

#include <nlohmann/json.hpp>

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace quillbench {

using Json = nlohmann::ordered_json;

/// Names among which a file chooses, or that it may hold.
using Choices = std::span<const std::string_view>;

/// Deeper nesting than any file of ours; deeper texts are refused because writing them again would recurse.
inline constexpr int kDeepestJson = 32;

/// Fields in all, several times those of the largest instrument; looking one up takes time in proportion.
inline constexpr std::size_t kMostJsonFields = 20000;

/// Parses without throwing. **Errors** UnreadableInput: larger than `mostBytes`, not JSON (with the place),
/// nested too deep, too many fields.
[[nodiscard]] Result<Json> parseJson(std::string_view text, std::size_t mostBytes);

/// The first thing found wrong in a file.
class FieldReport {
public:
    /// Keeps the first complaint only: "FIELD is VALUE: MEND".
    void complain(const std::string& field, const std::string& value, const std::string& mend);

    [[nodiscard]] bool clean() const { return !error_; }

    /// Requires !clean().
    [[nodiscard]] const Error& error() const { return *error_; }

private:
    std::optional<Error> error_;
};

/// One JSON object while it is read. Each reader checks presence, type and range, complains to the report and
/// then gives a harmless value, so that reading goes on without branches; the caller asks the report at the
/// end. Never throws.
class JsonObject {
public:
    /// `value` need not be an object; then this complains. `path` is empty for the whole file.
    JsonObject(const Json& value, std::string path, FieldReport& report);

    /// A number within limits. `mend` completes "give 20 to 4000 mm: …".
    [[nodiscard]] double
    number(const char* name, Limits limits, const char* unit, const char* mend) const;
    [[nodiscard]] std::optional<double>
    optionalNumber(const char* name, Limits limits, const char* unit, const char* mend) const;
    [[nodiscard]] int whole(const char* name, Limits limits, const char* mend) const;
    [[nodiscard]] int
    wholeOr(const char* name, int otherwise, Limits limits, const char* mend) const;
    [[nodiscard]] bool flagOr(const char* name, bool otherwise) const;

    /// A text of 1 to 200 bytes.
    [[nodiscard]] std::string text(const char* name, const char* mend) const;
    [[nodiscard]] std::string textOr(const char* name, const char* otherwise) const;

    /// Index of the text among `choices`; 0 after a complaint.
    [[nodiscard]] std::size_t choice(const char* name, Choices choices) const;

    /// As choice; nothing where the field is missing or null.
    [[nodiscard]] std::optional<std::size_t> optionalChoice(const char* name,
                                                            Choices choices) const;

    /// An array of `least` to `most` elements; an empty one after a complaint.
    [[nodiscard]] const Json&
    list(const char* name, std::size_t least, std::size_t most, const char* mend) const;

    /// An object; complains where it is none.
    [[nodiscard]] JsonObject object(const char* name) const;

    /// "choirs[1].id" for a field of this object.
    [[nodiscard]] std::string pathOf(const std::string& name) const;

    /// The value as a complaint shows it: JSON, cut at 40 characters, "missing" where there is none.
    [[nodiscard]] std::string shown(const char* name) const;

private:
    [[nodiscard]] const Json* find(const char* name) const;
    void complain(const char* name, const std::string& mend) const;

    const Json& value_;
    std::string path_;
    FieldReport& report_;
};

/// Adds to `out` what `original` holds under names that are not in `known`.
void keepUnknown(Json& out, const Json& original, Choices known);

/// The JSON text with two spaces of indent and a final newline. Bytes that are no UTF-8, as names of files may have
/// them, become U+FFFD.
[[nodiscard]] std::string formatJson(const Json& value);

/// The same as one line without its newline.
[[nodiscard]] std::string formatJsonLine(const Json& value);

} // namespace quillbench
