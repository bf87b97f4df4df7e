#include "app/places/action/worksheet_store.hpp"

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QSaveFile>
#include <QUrl>
#include <algorithm>

namespace quillbench {

namespace {

constexpr int kWorksheetSchema = 1;
constexpr qint64 kLargestSheet = qint64{4} << 20;
constexpr int kMostLines = 2000;

QString word(const char* latin) {
    return QString::fromLatin1(latin);
}

struct StoreText {
    Q_DECLARE_TR_FUNCTIONS(StoreText)
};

/// `why` has the file as %1.
Unexpected<Error> unreadable(const QString& file, const QString& why) {
    return failure(ErrorCode::UnreadableInput,
                   StoreText::tr("%1; it is left as it is, and this worksheet is not kept until it "
                                 "is moved away")
                       .arg(why.arg(file))
                       .toStdString());
}

} // namespace

QString WorksheetStore::fileOf(const QString& instrument) const {
    return QDir(folder_).filePath(
        QString::fromLatin1(QUrl::toPercentEncoding(instrument).replace('.', "%2E")) +
        word(".json"));
}

Result<std::vector<WorksheetLine>> WorksheetStore::read(const QString& instrument) {
    unreadable_.clear();
    std::vector<WorksheetLine> lines;
    if (folder_.isEmpty() || instrument.isEmpty()) {
        return lines;
    }
    QFile file(fileOf(instrument));
    if (!file.exists()) {
        return lines;
    }
    unreadable_ = instrument;
    if (!file.open(QIODevice::ReadOnly) || file.size() > kLargestSheet) {
        return unreadable(file.fileName(), StoreText::tr("%1 cannot be read"));
    }
    QJsonParseError error;
    const QJsonObject sheet = QJsonDocument::fromJson(file.readAll(), &error).object();
    const QJsonArray kept = sheet.value(word("lines")).toArray();
    if (error.error != QJsonParseError::NoError || sheet.value(word("kind")) != word("worksheet") ||
        kept.size() > kMostLines) {
        return unreadable(file.fileName(), StoreText::tr("%1 is no worksheet"));
    }
    if (sheet.value(word("schema")).toInt() != kWorksheetSchema) {
        return unreadable(file.fileName(), StoreText::tr("%1 was written by a newer version"));
    }
    for (const auto& value : kept) {
        const QJsonObject one = value.toObject();
        WorksheetLine line;
        line.job.id = one.value(word("id")).toString();
        line.job.what = one.value(word("what")).toString();
        line.job.key = static_cast<std::size_t>(std::max(0, one.value(word("key")).toInt()));
        line.job.symptom = one.value(word("symptom")).toString();
        line.job.confidence = one.value(word("confidence")).toDouble();
        line.done = one.value(word("done")).toBool();
        line.remark = one.value(word("remark")).toString();
        line.earlier = true;
        lines.push_back(line);
    }
    unreadable_.clear();
    return lines;
}

Result<void> WorksheetStore::keep(const QString& instrument,
                                  const std::vector<WorksheetLine>& lines) {
    if (folder_.isEmpty() || instrument.isEmpty() || unreadable_ == instrument) {
        return {};
    }
    QJsonArray kept;
    for (const WorksheetLine& line : lines) {
        kept.append(QJsonObject{{word("id"), line.job.id},
                                {word("what"), line.job.what},
                                {word("key"), static_cast<int>(line.job.key)},
                                {word("symptom"), line.job.symptom},
                                {word("confidence"), line.job.confidence},
                                {word("done"), line.done},
                                {word("remark"), line.remark}});
    }
    const QJsonObject sheet{{word("schema"), kWorksheetSchema},
                            {word("kind"), word("worksheet")},
                            {word("instrument"), instrument},
                            {word("lines"), kept}};
    QSaveFile out(fileOf(instrument));
    if (!QDir().mkpath(folder_) || !out.open(QIODevice::WriteOnly) ||
        out.write(QJsonDocument(sheet).toJson()) < 0 || !out.commit()) {
        return failure(ErrorCode::Environment,
                       StoreText::tr("%1 cannot be written (%2); make room or the folder "
                                     "writable, else the worksheet is lost")
                           .arg(out.fileName(), out.errorString())
                           .toStdString());
    }
    return {};
}

} // namespace quillbench
