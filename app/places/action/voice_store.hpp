#pragma once

#include "core/action/voice_history.hpp"
#include "core/support/result.hpp"

#include <QDate>
#include <QString>
#include <cstddef>
#include <utility>
#include <vector>

namespace quillbench {

/// A register as it was played through on some day and kept.
struct StoredPass {
    std::size_t reg = 0; ///< of the instrument
    QDate at;
    KeptPass pass; ///< its day counted from the year 1970
};

/// `date` as KeptPass counts days.
[[nodiscard]] double dayNumber(const QDate& date);

/// Where the passes of evenness of each instrument lie from day to day: one JSON file (schema 1) an instrument, beside
/// its worksheet. **Thread** any, one at a time.
class VoiceStore {
public:
    /// Without a folder nothing is kept.
    explicit VoiceStore(QString folder = {}) : folder_(std::move(folder)) {}

    [[nodiscard]] bool keeps() const { return !folder_.isEmpty(); }

    /// In the order of their days. **Errors** UnreadableInput, naming the file: it is damaged or of a newer version.
    [[nodiscard]] Result<std::vector<StoredPass>> read(const QString& instrument) const;

    /// Adds a pass, in place of one of that register and day. **Errors** UnreadableInput as read(), nothing is written
    /// then; Environment, naming the file.
    [[nodiscard]] Result<void> add(const QString& instrument, const StoredPass& pass);

    /// The file of one instrument. **Range** instrument not empty.
    [[nodiscard]] QString fileOf(const QString& instrument) const;

private:
    QString folder_;
};

} // namespace quillbench
