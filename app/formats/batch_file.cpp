#include "app/formats/batch_file.hpp"

#include "app/formats/text_file.hpp"
#include "core/support/excerpt.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <iterator>

namespace quillbench {

namespace {

using nlohmann::json;

std::string written(double number) {
    std::array<char, 40> text{};
    const auto end = std::to_chars(
        text.data(), text.data() + text.size(), number, std::chars_format::general, 17);
    return {text.data(), end.ptr};
}

std::optional<BatchRow::Value> listOf(const json& value) {
    const auto all = [&](auto test) { return std::all_of(value.begin(), value.end(), test); };
    if (all([](const json& item) { return item.is_number(); })) {
        return value.get<std::vector<double>>();
    }
    if (all([](const json& item) { return item.is_string(); })) {
        return value.get<std::vector<std::string>>();
    }
    if (all([](const json& item) { return item.is_number() || item.is_string(); })) {
        std::vector<std::string> texts;
        for (const json& item : value) {
            texts.push_back(item.is_string() ? item.get<std::string>()
                                             : written(item.get<double>()));
        }
        return texts;
    }
    return std::nullopt;
}

std::optional<BatchRow::Value> valueOf(const json& value) {
    if (value.is_string()) {
        return value.get<std::string>();
    }
    if (value.is_boolean()) {
        return value.get<bool>();
    }
    if (value.is_number()) {
        return value.get<double>();
    }
    if (value.is_array()) {
        return listOf(value);
    }
    if (value.is_object() && std::all_of(value.begin(), value.end(), [](const json& item) {
            return item.is_string();
        })) {
        return value.get<std::map<std::string, std::string>>();
    }
    return std::nullopt;
}

} // namespace

std::string BatchRow::place() const {
    const auto name = id();
    return "row " + std::to_string(place_ + 1) + (name ? " (" + excerpt(*name) + ")" : "");
}

const BatchRow::Value* BatchRow::find(std::string_view field) const {
    const auto at = fields_.find(std::string(field));
    return at == fields_.end() ? nullptr : &at->second;
}

Unexpected<Error> BatchRow::wrong(std::string_view field, const std::string& expected) const {
    return failure(ErrorCode::UnreadableInput,
                   place() + ": " + std::string(field) + " has to be " + expected,
                   std::string(field));
}

std::optional<std::string> BatchRow::id() const {
    const Value* value = find("id");
    if (value == nullptr) {
        return std::nullopt;
    }
    if (const auto* text = std::get_if<std::string>(value)) {
        return *text;
    }
    if (const auto* number = std::get_if<double>(value)) {
        return written(*number);
    }
    return std::nullopt;
}

Result<std::optional<std::string>> BatchRow::text(std::string_view field) const {
    const Value* value = find(field);
    if (value == nullptr) {
        return std::optional<std::string>();
    }
    if (const auto* text = std::get_if<std::string>(value)) {
        return std::optional<std::string>(*text);
    }
    if (const auto* number = std::get_if<double>(value)) {
        return std::optional<std::string>(written(*number)); // a choir may be written 8 or "8"
    }
    return wrong(field, "a text in quotes");
}

Result<std::optional<double>> BatchRow::number(std::string_view field) const {
    const Value* value = find(field);
    if (value == nullptr) {
        return std::optional<double>();
    }
    if (const auto* number = std::get_if<double>(value)) {
        return std::optional<double>(*number);
    }
    return wrong(field, "a number");
}

Result<std::vector<double>> BatchRow::numbers(std::string_view field) const {
    const Value* value = find(field);
    if (value == nullptr) {
        return std::vector<double>();
    }
    if (const auto* number = std::get_if<double>(value)) {
        return std::vector<double>{*number};
    }
    if (const auto* list = std::get_if<std::vector<double>>(value)) {
        return *list;
    }
    return wrong(field, "a number or a list of numbers");
}

Result<std::vector<std::string>> BatchRow::textList(std::string_view field) const {
    const Value* value = find(field);
    if (value == nullptr) {
        return std::vector<std::string>();
    }
    if (const auto* list = std::get_if<std::vector<std::string>>(value)) {
        return *list;
    }
    if (const auto* numbers = std::get_if<std::vector<double>>(value)) {
        std::vector<std::string> texts;
        std::transform(numbers->begin(), numbers->end(), std::back_inserter(texts), written);
        return texts;
    }
    const auto single = text(field);
    return single && *single ? Result<std::vector<std::string>>(std::vector{**single})
                             : wrong(field, "a list of texts");
}

Result<std::map<std::string, std::string>> BatchRow::texts(std::string_view field) const {
    const Value* value = find(field);
    if (value == nullptr) {
        return std::map<std::string, std::string>();
    }
    if (const auto* named = std::get_if<std::map<std::string, std::string>>(value)) {
        return *named;
    }
    return wrong(field, "an object of texts");
}

std::vector<std::string>
BatchRow::unknownFields(std::initializer_list<std::string_view> known) const {
    std::vector<std::string> unknown;
    for (const auto& [name, value] : fields_) {
        if (std::find(known.begin(), known.end(), name) == known.end()) {
            unknown.push_back(name);
        }
    }
    return unknown;
}

Result<std::vector<BatchRow>> readBatch(const std::filesystem::path& path) {
    const auto text = readTextFile(path);
    if (!text) {
        return Unexpected<Error>(text.error());
    }
    return parseBatch(*text, path.string());
}

Result<std::vector<BatchRow>> parseBatch(std::string_view text, const std::string& source) {
    const json list = json::parse(text, nullptr, false);
    if (list.is_discarded() || !list.is_array()) {
        return failure(
            ErrorCode::UnreadableInput, source + ": has to be a JSON array of objects", source);
    }
    std::vector<BatchRow> rows;
    for (const json& item : list) {
        const std::string where = source + ": row " + std::to_string(rows.size() + 1);
        if (!item.is_object()) {
            return failure(ErrorCode::UnreadableInput, where + " has to be an object", source);
        }
        std::map<std::string, BatchRow::Value> fields;
        for (const auto& [name, value] : item.items()) {
            if (value.is_null()) {
                continue;
            }
            auto kept = valueOf(value);
            if (!kept) {
                return failure(ErrorCode::UnreadableInput,
                               std::string(where)
                                   .append(": ")
                                   .append(excerpt(name))
                                   .append(" has to be a text, a number, a list of one kind or an "
                                           "object of texts"),
                               source);
            }
            fields.emplace(name, *std::move(kept));
        }
        rows.emplace_back(rows.size(), std::move(fields));
    }
    return rows;
}

} // namespace quillbench
