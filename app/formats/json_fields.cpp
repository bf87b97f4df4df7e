#include "app/formats/json_fields.hpp"

#include "core/support/excerpt.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace quillbench {

namespace {

constexpr std::size_t kLongestText = 200; // bytes

std::string plain(double value) {
    std::array<char, 32> buffer{};
    std::snprintf(buffer.data(), buffer.size(), "%.10g", value);
    return buffer.data();
}

std::string allowed(Limits limits, const char* unit, const char* mend) {
    std::string text = "give " + plain(limits.low) + " to " + plain(limits.high);
    if (*unit != '\0') {
        text += std::string(" ") + unit;
    }
    return text + ", " + mend;
}

std::string joined(Choices choices) {
    std::string text;
    for (const std::string_view choice : choices) {
        text += text.empty() ? "" : ", ";
        text += '"' + excerpt(choice) + '"';
    }
    return text;
}

std::string dumped(const Json& value) {
    if (value.is_array()) {
        return "a list of " + std::to_string(value.size());
    }
    if (value.is_object()) {
        return "an object";
    }
    return excerpt(value.dump(-1, ' ', false, Json::error_handler_t::replace));
}

/// Finds where a text stops being JSON.
struct ErrorPlace : nlohmann::json_sax<Json> {
    std::size_t position = 0; ///< bytes read

    bool null() override { return true; }

    bool boolean(bool) override { return true; }

    bool number_integer(number_integer_t) override { return true; }

    bool number_unsigned(number_unsigned_t) override { return true; }

    bool number_float(number_float_t, const string_t&) override { return true; }

    bool string(string_t&) override { return true; }

    bool binary(binary_t&) override { return true; }

    bool start_object(std::size_t) override { return true; }

    bool key(string_t&) override { return true; }

    bool end_object() override { return true; }

    bool start_array(std::size_t) override { return true; }

    bool end_array() override { return true; }

    bool
    parse_error(std::size_t at, const std::string&, const nlohmann::detail::exception&) override {
        position = at;
        return false;
    }
};

const Json& emptyList() {
    static const Json kEmpty = Json::array();
    return kEmpty;
}

const Json& nullValue() {
    static const Json kNull;
    return kNull;
}

} // namespace

Result<Json> parseJson(std::string_view text, std::size_t mostBytes) {
    if (text.size() > mostBytes) {
        return failure(ErrorCode::UnreadableInput,
                       "larger than " + std::to_string(mostBytes >> 20U) +
                           " MiB, which no such file is");
    }
    bool tooDeep = false;
    std::size_t fields = 0;
    const auto watch = [&](int depth, Json::parse_event_t event, Json&) {
        tooDeep = tooDeep || depth > kDeepestJson;
        fields += event == Json::parse_event_t::key ? 1 : 0;
        return !tooDeep && fields <= kMostJsonFields;
    };
    Json value = Json::parse(text, watch, false);
    if (tooDeep || fields > kMostJsonFields) {
        return failure(ErrorCode::UnreadableInput,
                       "nested deeper than " + std::to_string(kDeepestJson) +
                           " levels or of more than " + std::to_string(kMostJsonFields) +
                           " fields, which no such file is");
    }
    if (value.is_discarded()) {
        ErrorPlace place;
        Json::sax_parse(text, &place);
        const auto end =
            text.begin() + static_cast<std::ptrdiff_t>(std::min(place.position, text.size()));
        return failure(ErrorCode::UnreadableInput,
                       "not JSON at line " +
                           std::to_string(1 + std::count(text.begin(), end, '\n')) +
                           ": look there for a missing comma, quote or bracket");
    }
    return value;
}

void FieldReport::complain(const std::string& field,
                           const std::string& value,
                           const std::string& mend) {
    if (!error_) {
        error_ = Error{ErrorCode::UnreadableInput, field + " is " + value + ": " + mend, field};
    }
}

JsonObject::JsonObject(const Json& value, std::string path, FieldReport& report)
    : value_(value),
      path_(std::move(path)),
      report_(report) {
    if (!value_.is_object()) {
        report_.complain(path_.empty() ? "the file" : path_,
                         value_.is_null() ? "missing" : dumped(value_),
                         "write an object, { ... }");
    }
}

const Json* JsonObject::find(const char* name) const {
    if (!value_.is_object()) {
        return nullptr;
    }
    const auto found = value_.find(name);
    return found == value_.end() || found->is_null() ? nullptr : &*found;
}

std::string JsonObject::pathOf(const std::string& name) const {
    return path_.empty() ? name : path_ + "." + name;
}

std::string JsonObject::shown(const char* name) const {
    const Json* found = find(name);
    return found == nullptr ? "missing" : dumped(*found);
}

void JsonObject::complain(const char* name, const std::string& mend) const {
    report_.complain(pathOf(name), shown(name), mend);
}

double
JsonObject::number(const char* name, Limits limits, const char* unit, const char* mend) const {
    const Json* found = find(name);
    if (found == nullptr || !found->is_number() || !limits.holds(found->get<double>())) {
        complain(name, allowed(limits, unit, mend));
        return limits.low;
    }
    return found->get<double>();
}

std::optional<double> JsonObject::optionalNumber(const char* name,
                                                 Limits limits,
                                                 const char* unit,
                                                 const char* mend) const {
    if (find(name) == nullptr) {
        return std::nullopt;
    }
    return number(name, limits, unit, mend);
}

int JsonObject::whole(const char* name, Limits limits, const char* mend) const {
    const Json* found = find(name);
    if (found == nullptr || !found->is_number() || !limits.holds(found->get<double>()) ||
        std::floor(found->get<double>()) < found->get<double>()) {
        complain(name, allowed(limits, "", mend) + " (a whole number)");
        return static_cast<int>(limits.low);
    }
    return static_cast<int>(found->get<double>());
}

int JsonObject::wholeOr(const char* name, int otherwise, Limits limits, const char* mend) const {
    return find(name) == nullptr ? otherwise : whole(name, limits, mend);
}

bool JsonObject::flagOr(const char* name, bool otherwise) const {
    const Json* found = find(name);
    if (found == nullptr) {
        return otherwise;
    }
    if (!found->is_boolean()) {
        complain(name, "give true or false");
        return otherwise;
    }
    return found->get<bool>();
}

std::string JsonObject::text(const char* name, const char* mend) const {
    const Json* found = find(name);
    if (found == nullptr || !found->is_string() || found->get_ref<const std::string&>().empty() ||
        found->get_ref<const std::string&>().size() > kLongestText) {
        complain(name,
                 std::string("give a text of 1 to ") + std::to_string(kLongestText) + " bytes, " +
                     mend);
        return "?";
    }
    return found->get_ref<const std::string&>();
}

std::string JsonObject::textOr(const char* name, const char* otherwise) const {
    const Json* found = find(name);
    if (found == nullptr) {
        return otherwise;
    }
    if (!found->is_string() || found->get_ref<const std::string&>().size() > kLongestText) {
        complain(name, "give a text of up to " + std::to_string(kLongestText) + " bytes");
        return otherwise;
    }
    return found->get_ref<const std::string&>();
}

std::size_t JsonObject::choice(const char* name, Choices choices) const {
    const Json* found = find(name);
    if (found != nullptr && found->is_string()) {
        const auto& text = found->get_ref<const std::string&>();
        const auto at = std::find(choices.begin(), choices.end(), text);
        if (at != choices.end()) {
            return static_cast<std::size_t>(at - choices.begin());
        }
    }
    complain(name, "give one of " + joined(choices));
    return 0;
}

std::optional<std::size_t> JsonObject::optionalChoice(const char* name, Choices choices) const {
    if (find(name) == nullptr) {
        return std::nullopt;
    }
    return choice(name, choices);
}

const Json&
JsonObject::list(const char* name, std::size_t least, std::size_t most, const char* mend) const {
    const Json* found = find(name);
    if (found == nullptr || !found->is_array() || found->size() < least || found->size() > most) {
        complain(name,
                 "give a list of " + std::to_string(least) +
                     (least == most ? "" : " to " + std::to_string(most)) + ", " + mend);
        return emptyList();
    }
    return *found;
}

JsonObject JsonObject::object(const char* name) const {
    const Json* found = find(name);
    return {found == nullptr ? nullValue() : *found, pathOf(name), report_};
}

void keepUnknown(Json& out, const Json& original, Choices known) {
    if (!original.is_object()) {
        return;
    }
    for (const auto& [name, value] : original.items()) {
        if (std::find(known.begin(), known.end(), name) == known.end()) {
            out[name] = value;
        }
    }
}

std::string formatJson(const Json& value) {
    return value.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string formatJsonLine(const Json& value) {
    return value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace quillbench
