#pragma once

#include "app/formats/logbook_settling.hpp"
#include "app/places/logbook/logbook_pictures.hpp"
#include "core/logbook/summary.hpp"

#include <filesystem>
#include <memory>
#include <optional>

namespace quillbench {

/// Reads a logbook and makes pictures of it. **Thread** one at a time, any: it is slow with a large file.
class LogbookReader {
public:
    explicit LogbookReader(std::filesystem::path file) : file_(std::move(file)) {}

    [[nodiscard]] const std::filesystem::path& file() const { return file_; }

    /// Reads what is there now.
    [[nodiscard]] LogbookPicture read();

    /// Null before the first read(), or when that failed.
    [[nodiscard]] const std::shared_ptr<const LogbookContents>& contents() const {
        return contents_;
    }

    /// A session of the list; nothing where it is not there. After read().
    [[nodiscard]] std::optional<OpenedSession> open(RowNumber session) const;

    /// What the strings of the instrument of a session tend to do. After read().
    [[nodiscard]] TendencyPicture tendencies(RowNumber session) const;

    /// The strings of an instrument that were replaced, the events of the sessions after that read for it.
    /// After read().
    [[nodiscard]] std::vector<NewString> newStrings(const Instrument& instrument,
                                                    bool virtualStrings) const;

    /// The logbook itself, opened where it is not yet. **Errors** as Logbook::open; also: there is none yet.
    [[nodiscard]] Result<Logbook*> logbook();

    /// As logbook(), for a change. **Errors** also: it cannot be written.
    [[nodiscard]] Result<Logbook*> toWrite();

    /// Lets the file go, so that another can be put in its place.
    void letGo();

private:
    [[nodiscard]] const SessionSummary* summaryOf(RowNumber session) const;

    std::filesystem::path file_;
    std::optional<Logbook> logbook_;
    std::shared_ptr<const LogbookContents> contents_;
    std::vector<SessionSummary> summaries_;
};

} // namespace quillbench
