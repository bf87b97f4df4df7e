#include "app/formats/file_kind.hpp"

#include "app/formats/json_fields.hpp"
#include "app/formats/text_file.hpp"
#include "core/support/excerpt.hpp"

#include <algorithm>
#include <fstream>
#include <string>
#include <system_error>

namespace quillbench {

namespace {

constexpr std::size_t kBeginningBytes = 4096;
constexpr const char* kWhatOpens = "; give a recording, an instrument, a temperament or an export "
                                   "of the logbook";

/// Reads no further than the "kind" of the outermost object.
struct KindOfJson : nlohmann::json_sax<Json> {
    std::string kind;
    std::string key_;
    int depth = 0;

    bool null() override { return true; }

    bool boolean(bool) override { return true; }

    bool number_integer(number_integer_t) override { return true; }

    bool number_unsigned(number_unsigned_t) override { return true; }

    bool number_float(number_float_t, const string_t&) override { return true; }

    bool binary(binary_t&) override { return true; }

    bool string(string_t& value) override {
        const bool found = depth == 1 && key_ == "kind";
        kind = found ? value : kind;
        return !found;
    }

    bool key(string_t& name) override {
        key_ = depth == 1 ? name : key_;
        return true;
    }

    bool start_object(std::size_t) override { return ++depth <= kDeepestJson; }

    bool end_object() override { return --depth > 0; }

    bool start_array(std::size_t) override { return ++depth <= kDeepestJson; }

    bool end_array() override { return --depth > 0; }

    bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception&) override {
        return false;
    }
};

Unexpected<Error> notOpened(const std::filesystem::path& path, const std::string& what) {
    return failure(
        ErrorCode::UnreadableInput, path.string() + ": " + what + kWhatOpens, path.string());
}

Result<FileKind> kindOfJson(const std::filesystem::path& path) {
    const Result<std::string> text = readTextFile(path);
    if (!text) {
        return Unexpected<Error>(text.error());
    }
    KindOfJson reader;
    static_cast<void>(Json::sax_parse(*text, &reader, Json::input_format_t::json, false));
    if (reader.kind == "instrument") {
        return FileKind::Instrument;
    }
    if (reader.kind == "temperament") {
        return FileKind::Temperament;
    }
    if (reader.kind == "logbook") {
        return FileKind::LogbookExport;
    }
    return notOpened(path,
                     reader.kind.empty()
                         ? "JSON without a \"kind\" of ours"
                         : "JSON of the kind \"" + excerpt(reader.kind) + "\", not of ours");
}

bool namesStrings(std::string_view beginning) {
    const std::string_view line = beginning.substr(0, beginning.find_first_of("\r\n"));
    return line.find("choir") != std::string_view::npos &&
           line.find("key") != std::string_view::npos && line.find(',') != std::string_view::npos;
}

} // namespace

Result<FileKind> fileKind(const std::filesystem::path& path) {
    std::error_code code;
    if (std::filesystem::is_directory(path, code)) {
        if (std::filesystem::exists(path / "session.csv", code)) {
            return FileKind::LogbookExport;
        }
        return notOpened(path, "a folder");
    }
    // Says what is missing or no file at all.
    if (!std::filesystem::is_regular_file(path, code)) {
        return Unexpected<Error>(readTextFile(path).error());
    }
    std::ifstream in(path, std::ios::binary);
    std::string beginning(kBeginningBytes, '\0');
    in.read(beginning.data(), static_cast<std::streamsize>(beginning.size()));
    beginning.resize(static_cast<std::size_t>(in.gcount()));
    if (beginning.empty()) {
        return notOpened(path, in.bad() || !in.eof() ? "cannot be read" : "empty");
    }
    if (beginning.starts_with("SQLite format 3")) {
        return FileKind::LogbookFile;
    }
    std::string_view text = beginning;
    text.remove_prefix(text.starts_with("\xEF\xBB\xBF") ? 3 : 0);
    text.remove_prefix(std::min(text.find_first_not_of(" \t\r\n"), text.size()));
    if (text.starts_with('{')) {
        return kindOfJson(path);
    }
    return namesStrings(text) ? FileKind::StringList : FileKind::Other;
}

} // namespace quillbench
