#include "app/formats/logbook_file.hpp"
#include "app/formats/session_events.hpp"
#include "app/storage/logbook.hpp"
#include "core/support/contract.hpp"
#include "tests/fuzz/complaint.hpp"
#include "tests/fuzz/splice.hpp"
#include "tests/support/awkward_logbook.hpp"
#include "tests/support/temporary_folder.hpp"

#include <cstddef>
#include <cstdint>
#include <string>

using namespace quillbench;

namespace {

/// What was read is taken into a new logbook whole or not at all; a second time it brings nothing.
void takeOver(const LogbookContents& contents) {
    const std::string text = formatLogbook(contents);
    const auto again = parseLogbook(text);
    EXPECTS(again && formatLogbook(*again) == text);
    const auto fromCsv = parseLogbookCsv(formatLogbookCsv(contents));
    EXPECTS(fromCsv && formatLogbook(*fromCsv) == text);
    const test::TemporaryFolder folder;
    auto logbook = Logbook::open({folder.path() / "l.sqlite", true, {}});
    EXPECTS(logbook && logbook->writable());
    const auto merged = logbook->merge(contents);
    if (!test::heldOrComplained(merged)) {
        const auto nothing = logbook->contents();
        EXPECTS(nothing && nothing->instruments.empty() && nothing->calibrations.empty());
        return;
    }
    const auto second = logbook->merge(contents);
    EXPECTS(second && second->rows == 0);
    EXPECTS(logbook->inspect().empty());
}

void readJson(const std::string& text) {
    const auto contents = parseLogbook(text);
    if (test::heldOrComplained(contents) && !contents->instruments.empty()) {
        takeOver(*contents);
    }
}

void readTables(std::vector<NamedText> files, std::size_t which, const std::string& text) {
    files[which].second = text;
    const auto contents = parseLogbookCsv(files);
    if (test::heldOrComplained(contents) && !contents->instruments.empty()) {
        takeOver(*contents);
    }
}

} // namespace

/// Exports of the logbook, JSON and CSV, into a new logbook; and the events of a session.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const LogbookContents kContents = test::awkwardLogbook();
    static const std::string kJson = formatLogbook(kContents);
    static const std::vector<NamedText> kTables = formatLogbookCsv(kContents);
    static const std::string kEvent = formatSessionEvent(Heard{});
    if (size == 0) {
        return 0;
    }
    const std::size_t which = data[0] % (kTables.size() + 2);
    ++data;
    --size;
    if (which < kTables.size()) {
        for (const std::string& text : test::rawAndSpliced(kTables[which].second, data, size)) {
            readTables(kTables, which, text);
        }
    } else if (which == kTables.size()) {
        for (const std::string& text : test::rawAndSpliced(kJson, data, size)) {
            readJson(text);
        }
    } else {
        for (const std::string& text : test::rawAndSpliced(kEvent, data, size)) {
            const auto event = parseSessionEvent(kSessionEventSchema, text);
            if (test::heldOrComplained(event)) {
                const std::string written = formatSessionEvent(*event);
                const auto again = parseSessionEvent(kSessionEventSchema, written);
                EXPECTS(again && formatSessionEvent(*again) == written);
            }
        }
    }
    return 0;
}
