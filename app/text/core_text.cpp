#include "app/text/core_text.hpp"

#include "app/text/core_phrases.hpp"
#include "app/text/format.hpp"
#include "app/text/translation.hpp"

#include <QCoreApplication>
#include <QHash>
#include <QRegularExpression>
#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace quillbench {

namespace {

constexpr QLatin1String kColon(": ");

struct CoreWords {
    Q_DECLARE_TR_FUNCTIONS(CoreWords)
};

/// A phrase as a pattern that takes out what was put in, and where each of it goes.
struct CorePattern {
    const char* phrase;
    QRegularExpression pattern;
    std::vector<int> places; ///< of the n-th that is taken out
};

CorePattern patternOf(const char* phrase) {
    CorePattern result{phrase, {}, {}};
    const QString text = QString::fromUtf8(phrase);
    QString pattern = QStringLiteral("\\A");
    qsizetype from = 0;
    for (qsizetype at = text.indexOf(QLatin1Char('%')); at >= 0 && at + 1 < text.size();
         at = text.indexOf(QLatin1Char('%'), at + 1)) {
        if (!text[at + 1].isDigit()) {
            continue;
        }
        pattern +=
            QRegularExpression::escape(text.sliced(from, at - from)) + QStringLiteral("(.*?)");
        result.places.push_back(text[at + 1].digitValue());
        from = at + 2;
    }
    pattern += QRegularExpression::escape(text.sliced(from)) + QStringLiteral("\\z");
    result.pattern.setPattern(pattern);
    result.pattern.setPatternOptions(QRegularExpression::DotMatchesEverythingOption);
    return result;
}

/// The engine's phrases: those said as they stand, and those into which something is put.
struct CorePhrases {
    QHash<QString, const char*> plain;
    std::vector<CorePattern> patterns;

    void add(std::span<const char* const> phrases) {
        for (const char* phrase : phrases) {
            CorePattern pattern = patternOf(phrase);
            if (pattern.places.empty()) {
                plain.insert(QString::fromUtf8(phrase), phrase);
            } else {
                patterns.push_back(std::move(pattern));
            }
        }
    }
};

const CorePhrases& allPhrases() {
    static const CorePhrases phrases = [] {
        CorePhrases all;
        all.add(errorPhrases());
        all.add(namePhrases());
        return all;
    }();
    return phrases;
}

/// "Eb, F#-C#" as notes are named here; nothing where that is no list of notes.
std::optional<QString> notesNamed(const QString& text) {
    static const QRegularExpression note(QStringLiteral("[A-G][#b\u266f\u266d]*"));
    static const QRegularExpression list(
        QStringLiteral("\\A[A-G][#b\u266f\u266d]*((, |-|\u2013)[A-G][#b\u266f\u266d]*)*\\z"));
    if (!list.match(text).hasMatch()) {
        return std::nullopt;
    }
    QString named;
    qsizetype from = 0;
    for (QRegularExpressionMatchIterator notes = note.globalMatch(text); notes.hasNext();) {
        const QRegularExpressionMatch one = notes.next();
        const Result<PitchClass> pitchClass = parsePitchClass(one.captured().toStdString());
        named += text.sliced(from, one.capturedStart() - from) +
                 (pitchClass ? noteText(*pitchClass) : one.captured());
        from = one.capturedEnd();
    }
    return named;
}

/// What was put into a phrase may be said by the engine too: a reason, a name, notes.
QString putIn(const QString& text) {
    const auto notes = notesNamed(text);
    return notes ? *notes : coreText(text.toStdString());
}

QString filled(const CorePattern& pattern, const QRegularExpressionMatch& match) {
    const QString said = QCoreApplication::translate(kCoreContext, pattern.phrase);
    QString result;
    for (qsizetype i = 0; i < said.size(); ++i) {
        const bool place =
            said[i] == QLatin1Char('%') && i + 1 < said.size() && said[i + 1].isDigit();
        if (!place) {
            result += said[i];
            continue;
        }
        ++i;
        for (std::size_t taken = 0; taken < pattern.places.size(); ++taken) {
            if (pattern.places[taken] == said[i].digitValue()) {
                result += putIn(match.captured(static_cast<int>(taken) + 1));
            }
        }
    }
    return result;
}

std::optional<QString> translatedWhole(const QString& text) {
    const CorePhrases& phrases = allPhrases();
    if (const auto plain = phrases.plain.constFind(text); plain != phrases.plain.constEnd()) {
        return QCoreApplication::translate(kCoreContext, *plain);
    }
    for (const CorePattern& one : phrases.patterns) {
        const QRegularExpressionMatch match = one.pattern.match(text);
        if (match.hasMatch()) {
            return filled(one, match);
        }
    }
    return std::nullopt;
}

} // namespace

QString coreText(std::string_view english) {
    QString text = toQString(english);
    if (text.isEmpty() || spokenLanguage() == Language::English) {
        return text;
    }
    if (const auto said = translatedWhole(text)) {
        return *said;
    }
    // A file, a field or a place in it comes first: "gamba.json: not JSON at line 3 …".
    for (qsizetype at = text.indexOf(kColon); at >= 0; at = text.indexOf(kColon, at + 1)) {
        const qsizetype from = at + kColon.size();
        if (const auto said = translatedWhole(text.sliced(from))) {
            return text.left(from) + *said;
        }
    }
    return text;
}

QString errorText(const Error& error) {
    return coreText(error.text);
}

QString choirText(const Choir& choir) {
    const std::string label = choirLabel(choir);
    constexpr std::string_view kSecond = "second ";
    return label.starts_with(kSecond)
               ? CoreWords::tr("second %1").arg(toQString(label.substr(kSecond.size())))
               : toQString(label);
}

QString stringText(const Instrument& instrument, StringId string, int position) {
    return CoreWords::tr("%1, %2").arg(choirText(instrument.choirs[string.choir]),
                                       noteText(keyNote(instrument, string, position)));
}

} // namespace quillbench
