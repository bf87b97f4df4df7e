#include "app/text/spoken_text.hpp"

#include "app/text/note_names.hpp"

#include <QCoreApplication>
#include <QRegularExpression>
#include <QStringList>

namespace quillbench {

namespace {

struct SpokenText {
    Q_DECLARE_TR_FUNCTIONS(SpokenText)
};

/// Names of notes that are words of a sentence as well, in English or German.
bool isWordToo(const QString& name) {
    static const QStringList words{QStringLiteral("a"),
                                   QStringLiteral("as"),
                                   QStringLiteral("des"),
                                   QStringLiteral("do"),
                                   QStringLiteral("es"),
                                   QStringLiteral("la"),
                                   QStringLiteral("re")};
    return words.contains(name, Qt::CaseInsensitive);
}

QString octaveInWords(const QString& name, const QString& signs) {
    switch (signs.isEmpty() ? 0 : signs[0].unicode()) {
    case 0x2032:
        return SpokenText::tr("%1 one-line").arg(name);
    case 0x2033:
        return SpokenText::tr("%1 two-line").arg(name);
    case 0x2034:
        return SpokenText::tr("%1 three-line").arg(name);
    case 0x2057:
        return SpokenText::tr("%1 four-line").arg(name);
    case 0x2081:
        return SpokenText::tr("contra %1").arg(name);
    case 0x2082:
        return SpokenText::tr("sub-contra %1").arg(name);
    default:
        break;
    }
    if (isWordToo(name)) {
        return name;
    }
    return name[0].isUpper() ? SpokenText::tr("great %1").arg(name)
                             : SpokenText::tr("small %1").arg(name);
}

QString octavesInWords(const QString& text) {
    static const QRegularExpression letters(
        QStringLiteral("(?<![\\w\u2032])([A-Ga-g][\u266f\u266d]{0,2})"
                       "([\u2032\u2033\u2034\u2057\u2081\u2082]?)(?![\\w\u266f\u266d])"));
    static const QRegularExpression german(
        QStringLiteral("(?<![\\w\u2032])([A-Ha-h](?:isis|is|eses|ses|es|s)?)"
                       "([\u2032\u2033\u2034\u2057\u2081\u2082]?)(?!\\w)"));
    static const QRegularExpression solfege(QStringLiteral(
        "(?<![\\w\u2032])((?:[Dd]o|[Rr]e|[Mm]i|[Ff]a|[Ss]ol|[Ll]a|[Ss]i)[\u266f\u266d]{0,2})"
        "([\u2032\u2033\u2034\u2057\u2081\u2082]?)(?![\\w\u266f\u266d])"));
    const NoteWords words = noteNaming().words;
    const QRegularExpression& name = words == NoteWords::German    ? german
                                     : words == NoteWords::Solfege ? solfege
                                                                   : letters;
    QString said;
    qsizetype from = 0;
    for (QRegularExpressionMatchIterator notes = name.globalMatch(text); notes.hasNext();) {
        const QRegularExpressionMatch note = notes.next();
        said += text.sliced(from, note.capturedStart() - from) +
                octaveInWords(note.captured(1), note.captured(2));
        from = note.capturedEnd();
    }
    return said + text.sliced(from);
}

} // namespace

QString spokenText(QString text) {
    static const QRegularExpression feet(QStringLiteral("(\\d)\u2032"));
    text.replace(feet, QStringLiteral("\\1") + SpokenText::tr(" foot"));
    if (noteNaming().octaves == OctaveSigns::Helmholtz) {
        text = octavesInWords(text);
    }
    text.replace(QStringLiteral("♯"), SpokenText::tr(" sharp "));
    text.replace(QStringLiteral("♭"), SpokenText::tr(" flat "));
    text.replace(QStringLiteral("−"), SpokenText::tr("minus "));
    text.replace(QStringLiteral("°"), SpokenText::tr(" degrees"));
    return text.simplified();
}

} // namespace quillbench
