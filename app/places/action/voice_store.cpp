#include "app/places/action/voice_store.hpp"

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QSaveFile>
#include <QUrl>
#include <algorithm>
#include <cmath>
#include <optional>

namespace quillbench {

namespace {

constexpr int kVoicesSchema = 1;
constexpr qint64 kLargestVoices = qint64{16} << 20;
constexpr int kMostPasses = 5000;
constexpr int kMostVoiceKeys = 200;

struct VoiceStoreText {
    Q_DECLARE_TR_FUNCTIONS(VoiceStoreText)
};

QString field(const char* latin) {
    return QString::fromLatin1(latin);
}

Unexpected<Error> voicesUnreadable(const QString& why, const QString& file) {
    return failure(ErrorCode::UnreadableInput,
                   VoiceStoreText::tr("%1; it is left as it is, and nothing is kept for "
                                      "comparison until it is moved away")
                       .arg(why.arg(file))
                       .toStdString());
}

std::optional<std::size_t> wholeOf(const QJsonValue& value, int most) {
    const int number = value.toInt(-1);
    return number < 0 || number >= most ? std::nullopt
                                        : std::optional(static_cast<std::size_t>(number));
}

QJsonObject toJson(const KeptVoice& voice) {
    QJsonObject out{{field("key"), static_cast<int>(voice.key)},
                    {field("level_db"), voice.level},
                    {field("brightness_octaves"), voice.brightness},
                    {field("sustain_db"), voice.sustain},
                    {field("strength_db"), voice.strength},
                    {field("strength_db_u"), voice.strengthU}};
    if (voice.displacement) {
        out.insert(field("displacement_db"), *voice.displacement);
    }
    return out;
}

std::optional<StoredPass> passFrom(const QJsonObject& json) {
    StoredPass out;
    const auto reg = wholeOf(json.value(field("register")), 64);
    out.at = QDate::fromString(json.value(field("day")).toString(), Qt::ISODate);
    const QJsonArray keys = json.value(field("keys")).toArray();
    if (!reg || !out.at.isValid() || keys.size() > kMostVoiceKeys) {
        return std::nullopt;
    }
    out.reg = *reg;
    out.pass.day = dayNumber(out.at);
    for (const auto& value : keys) {
        const QJsonObject one = value.toObject();
        const auto key = wholeOf(one.value(field("key")), kMostVoiceKeys);
        if (!key) {
            return std::nullopt;
        }
        KeptVoice voice;
        voice.key = *key;
        voice.level = one.value(field("level_db")).toDouble();
        voice.brightness = one.value(field("brightness_octaves")).toDouble();
        voice.sustain = one.value(field("sustain_db")).toDouble();
        voice.strength = one.value(field("strength_db")).toDouble();
        voice.strengthU = one.value(field("strength_db_u")).toDouble();
        if (one.contains(field("displacement_db"))) {
            voice.displacement = one.value(field("displacement_db")).toDouble();
        }
        out.pass.keys.push_back(voice);
    }
    return out;
}

} // namespace

double dayNumber(const QDate& date) {
    return static_cast<double>(QDate(1970, 1, 1).daysTo(date));
}

QString VoiceStore::fileOf(const QString& instrument) const {
    return QDir(folder_).filePath(
        QString::fromLatin1(QUrl::toPercentEncoding(instrument).replace('.', "%2E")) +
        field(".voices.json"));
}

Result<std::vector<StoredPass>> VoiceStore::read(const QString& instrument) const {
    std::vector<StoredPass> passes;
    if (folder_.isEmpty() || instrument.isEmpty()) {
        return passes;
    }
    QFile file(fileOf(instrument));
    if (!file.exists()) {
        return passes;
    }
    if (!file.open(QIODevice::ReadOnly) || file.size() > kLargestVoices) {
        return voicesUnreadable(VoiceStoreText::tr("%1 cannot be read"), file.fileName());
    }
    QJsonParseError error;
    const QJsonObject sheet = QJsonDocument::fromJson(file.readAll(), &error).object();
    const QString damaged = VoiceStoreText::tr("%1 holds no passes of a register");
    const QJsonArray kept = sheet.value(field("passes")).toArray();
    if (error.error != QJsonParseError::NoError || sheet.value(field("kind")) != field("voices") ||
        kept.size() > kMostPasses) {
        return voicesUnreadable(damaged, file.fileName());
    }
    if (sheet.value(field("schema")).toInt() != kVoicesSchema) {
        return voicesUnreadable(VoiceStoreText::tr("%1 was written by a newer version"),
                                file.fileName());
    }
    for (const auto& value : kept) {
        const auto pass = passFrom(value.toObject());
        if (!pass) {
            return voicesUnreadable(damaged, file.fileName());
        }
        passes.push_back(*pass);
    }
    std::stable_sort(passes.begin(), passes.end(), [](const StoredPass& a, const StoredPass& b) {
        return a.at < b.at;
    });
    return passes;
}

Result<void> VoiceStore::add(const QString& instrument, const StoredPass& pass) {
    auto passes = read(instrument);
    if (!passes) {
        return Unexpected<Error>(passes.error());
    }
    if (folder_.isEmpty() || instrument.isEmpty()) {
        return {};
    }
    std::erase_if(*passes, [&](const StoredPass& other) {
        return other.reg == pass.reg && other.at == pass.at;
    });
    passes->push_back(pass);
    QJsonArray kept;
    for (const StoredPass& one : *passes) {
        QJsonArray keys;
        for (const KeptVoice& voice : one.pass.keys) {
            keys.append(toJson(voice));
        }
        kept.append(QJsonObject{{field("register"), static_cast<int>(one.reg)},
                                {field("day"), one.at.toString(Qt::ISODate)},
                                {field("keys"), keys}});
    }
    const QJsonObject sheet{{field("schema"), kVoicesSchema},
                            {field("kind"), field("voices")},
                            {field("instrument"), instrument},
                            {field("passes"), kept}};
    QSaveFile out(fileOf(instrument));
    if (!QDir().mkpath(folder_) || !out.open(QIODevice::WriteOnly) ||
        out.write(QJsonDocument(sheet).toJson()) < 0 || !out.commit()) {
        return failure(ErrorCode::Environment,
                       VoiceStoreText::tr("%1 cannot be written (%2); make room or the folder "
                                          "writable, else this pass is lost")
                           .arg(out.fileName(), out.errorString())
                           .toStdString());
    }
    return {};
}

} // namespace quillbench
