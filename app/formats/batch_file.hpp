#pragma once

#include "core/support/result.hpp"

#include <filesystem>
#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace quillbench {

/// One object of a batch list: fields by name, read with their types checked.
class BatchRow {
public:
    using Value = std::variant<std::string,
                               double,
                               bool,
                               std::vector<double>,
                               std::vector<std::string>,
                               std::map<std::string, std::string>>;

    BatchRow(std::size_t place, std::map<std::string, Value> fields)
        : place_(place),
          fields_(std::move(fields)) {}

    /// The row's own name, if it has one; a number is written out.
    [[nodiscard]] std::optional<std::string> id() const;

    /// Empty where the row has no such field. **Errors** UnreadableInput: another type than asked, naming row
    /// and field.
    [[nodiscard]] Result<std::optional<std::string>> text(std::string_view field) const;
    [[nodiscard]] Result<std::optional<double>> number(std::string_view field) const;

    /// A single number counts as a list of one.
    [[nodiscard]] Result<std::vector<double>> numbers(std::string_view field) const;

    /// A single text counts as a list of one; numbers are written out (a choir may be 8 or "8").
    [[nodiscard]] Result<std::vector<std::string>> textList(std::string_view field) const;

    /// Texts by name, such as one file for each choir.
    [[nodiscard]] Result<std::map<std::string, std::string>> texts(std::string_view field) const;

    /// Names of fields that are not among `known`.
    [[nodiscard]] std::vector<std::string>
    unknownFields(std::initializer_list<std::string_view> known) const;

    /// "row 3 (id)" for messages.
    [[nodiscard]] std::string place() const;

private:
    [[nodiscard]] Unexpected<Error> wrong(std::string_view field,
                                          const std::string& expected) const;
    [[nodiscard]] const Value* find(std::string_view field) const;

    std::size_t place_;
    std::map<std::string, Value> fields_;
};

/// A list of jobs for the command line: a JSON array of objects. **Errors** UnreadableInput, naming the file
/// and what is wrong with it.
[[nodiscard]] Result<std::vector<BatchRow>> readBatch(const std::filesystem::path& path);

/// The same from text; `source` stands for the file in messages.
[[nodiscard]] Result<std::vector<BatchRow>> parseBatch(std::string_view text,
                                                       const std::string& source);

} // namespace quillbench
