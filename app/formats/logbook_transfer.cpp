#include "app/formats/logbook_transfer.hpp"

#include "app/formats/logbook_file.hpp"
#include "app/formats/text_file.hpp"

#include <cstdint>
#include <system_error>
#include <utility>

namespace quillbench {

namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kLargestExport = std::uintmax_t{2} << 30U; // bytes

Result<LogbookContents> namedAfter(const fs::path& from, Result<LogbookContents> contents) {
    return contents
               ? std::move(contents)
               : failure(ErrorCode::UnreadableInput, from.string() + ": " + contents.error().text);
}

} // namespace

Result<void> writeLogbookJson(const LogbookContents& contents, const fs::path& file) {
    return writeTextFile(file, formatLogbook(contents));
}

Result<void> writeLogbookCsv(const LogbookContents& contents, const fs::path& folder) {
    std::error_code code;
    fs::create_directories(folder, code); // what it could not make, writing names
    for (const auto& [name, text] : formatLogbookCsv(contents)) {
        if (Result<void> written = writeTextFile(folder / name, text); !written) {
            return written;
        }
    }
    return {};
}

Result<LogbookContents> readLogbookExport(const fs::path& from) {
    std::error_code code;
    if (!fs::is_directory(from, code)) {
        const auto text = readTextFile(from, kLargestExport);
        if (!text) {
            return Unexpected<Error>(text.error());
        }
        return namedAfter(from, parseLogbook(*text));
    }
    std::vector<NamedText> files;
    for (const fs::directory_entry& entry : fs::directory_iterator(from, code)) {
        if (entry.path().extension() == ".csv") {
            auto text = readTextFile(entry.path(), kLargestExport);
            if (!text) {
                return Unexpected<Error>(text.error());
            }
            files.emplace_back(entry.path().filename().string(), std::move(text).value());
        }
    }
    if (files.empty()) {
        return failure(ErrorCode::UnreadableInput,
                       from.string() + ": no CSV file in it; give the folder of an export");
    }
    return namedAfter(from, parseLogbookCsv(files));
}

} // namespace quillbench
