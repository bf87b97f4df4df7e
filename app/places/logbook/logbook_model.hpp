#pragma once

#include "app/models/background_work.hpp"
#include "app/places/logbook/logbook_pictures.hpp"
#include "app/places/logbook/logbook_reader.hpp"

#include <QObject>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>

namespace quillbench {

/// The logbook as the window shows it, and what can be done with the file. Reading and writing happen on a thread of
/// their own. **Thread** GUI.
class LogbookModel : public QObject {
    Q_OBJECT

public:
    explicit LogbookModel(QObject* parent = nullptr);

    /// Which file; it is read when refresh() asks for it.
    void setFile(const std::filesystem::path& file);

    [[nodiscard]] const std::filesystem::path& file() const { return file_; }

    /// Reads what is there now, the opened session too.
    void refresh();

    /// Opens a session of the list.
    void open(RowNumber session);

    [[nodiscard]] const LogbookPicture& picture() const { return picture_; }

    [[nodiscard]] const std::optional<OpenedSession>& opened() const { return opened_; }

    [[nodiscard]] const TendencyPicture& tendencies() const { return tendencies_; }

    [[nodiscard]] bool busy() const { return work_.busy(); }

    /// Writes something down for the instrument and the session that are opened. **Range** opened().
    void remark(const std::optional<StringName>& string, const QString& text);
    void climate(std::optional<double> temperatureC, std::optional<double> humidityPercent);
    void stringReplaced(const StringName& string,
                        std::optional<double> diameterMm,
                        const QString& material,
                        const QString& reason);

    void exportJson(const std::filesystem::path& to);
    void exportCsv(const std::filesystem::path& folder);
    void importFrom(const std::filesystem::path& from);
    void backUp(const std::filesystem::path& to);
    void verify();

    /// Puts a backup in the logbook's place. Whoever else has the file open lets it go when restoring() comes.
    void restore(const std::filesystem::path& backup);

    /// Gives everything but the events to `take`, on this thread, when it was read; null where it cannot be read.
    void withContents(std::function<void(std::shared_ptr<const LogbookContents>)> take);

    /// Gives the strings of an instrument that were replaced to `take`, on this thread, when the logbook was read.
    void withNewStrings(const Instrument& instrument,
                        bool virtualStrings,
                        std::function<void(std::vector<NewString>)> take);

    /// Waits for all of it: for tests and for the end of the program.
    void finish() { work_.finish(); }

Q_SIGNALS:
    void changed();
    void openedChanged();
    void busyChanged(bool busy);
    /// What came of something that was asked for.
    void told(const QString& text);
    /// The file is about to be replaced.
    void restoring();
    /// It was replaced, or that failed.
    void restored();

private:
    using Change = std::function<Result<void>(Logbook&)>;

    void write(Change change, const QString& done);
    void tellOf(std::function<QString(LogbookReader&)> work, bool readAgain);

    BackgroundWork work_;
    std::filesystem::path file_;
    std::shared_ptr<LogbookReader> reader_; ///< touched by the work's thread alone
    LogbookPicture picture_;
    std::optional<OpenedSession> opened_;
    TendencyPicture tendencies_;
};

} // namespace quillbench
