#include "app/text/core_text.hpp"

#include "app/text/core_phrases.hpp"
#include "app/text/format.hpp"
#include "app/text/translation.hpp"

#include <QCoreApplication>
#include <QHash>
#include <QRegularExpression>
#include <initializer_list>
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

CorePhrases phrasesOf(std::initializer_list<std::span<const char* const>> lists) {
    CorePhrases all;
    for (const std::span<const char* const> list : lists) {
        all.add(list);
    }
    return all;
}

const CorePhrases& allPhrases() {
    static const CorePhrases phrases = phrasesOf({errorPhrases(), namePhrases()});
    return phrases;
}

/// With those about fields of files: so general that a name that somebody wrote could be one.
const CorePhrases& complaintPhrases() {
    static const CorePhrases phrases = phrasesOf({errorPhrases(), namePhrases(), fieldPhrases()});
    return phrases;
}

QString said(const QString& text, const CorePhrases& phrases);

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
QString putIn(const QString& text, const CorePhrases& phrases) {
    const auto notes = notesNamed(text);
    return notes ? *notes : said(text, phrases);
}

QString filled(const CorePattern& pattern,
               const QRegularExpressionMatch& match,
               const CorePhrases& phrases) {
    const QString form = QCoreApplication::translate(kCoreContext, pattern.phrase);
    QString result;
    for (qsizetype i = 0; i < form.size(); ++i) {
        const bool place =
            form[i] == QLatin1Char('%') && i + 1 < form.size() && form[i + 1].isDigit();
        if (!place) {
            result += form[i];
            continue;
        }
        ++i;
        for (std::size_t taken = 0; taken < pattern.places.size(); ++taken) {
            if (pattern.places[taken] == form[i].digitValue()) {
                result += putIn(match.captured(static_cast<int>(taken) + 1), phrases);
            }
        }
    }
    return result;
}

std::optional<QString> translatedWhole(const QString& text, const CorePhrases& phrases) {
    if (const auto plain = phrases.plain.constFind(text); plain != phrases.plain.constEnd()) {
        return QCoreApplication::translate(kCoreContext, *plain);
    }
    for (const CorePattern& one : phrases.patterns) {
        const QRegularExpressionMatch match = one.pattern.match(text);
        if (match.hasMatch()) {
            return filled(one, match, phrases);
        }
    }
    return std::nullopt;
}

QString said(const QString& text, const CorePhrases& phrases) {
    if (text.isEmpty() || spokenLanguage() == Language::English) {
        return text;
    }
    if (const auto whole = translatedWhole(text, phrases)) {
        return *whole;
    }
    // A file, a field or a place in it comes first: "gamba.json: not JSON at line 3 …".
    for (qsizetype at = text.indexOf(kColon); at >= 0; at = text.indexOf(kColon, at + 1)) {
        const qsizetype from = at + kColon.size();
        if (const auto rest = translatedWhole(text.sliced(from), phrases)) {
            return text.left(from) + *rest;
        }
    }
    return text;
}

} // namespace

QString coreText(std::string_view english) {
    return said(toQString(english), allPhrases());
}

QString errorText(const Error& error) {
    return said(toQString(error.text), complaintPhrases());
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
