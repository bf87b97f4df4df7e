#include "app/text/heard_pitch_text.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "core/pitch/note.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <QStringList>

namespace quillbench {

namespace {

struct HeardPitchText {
    Q_DECLARE_TR_FUNCTIONS(HeardPitchText)
};

constexpr Cents kRaisedFar(10.0);
constexpr Cents kOtherStandardFrom(50.0);
constexpr Cents kWaversFrom(2.0);

Cents fromStandardHz(const HeardStandard& heard, double standardHz) {
    return interval(Hertz(standardHz), heard.a4);
}

/// The names of the notes on the keys, from A.
QStringList namesOf(const HeardStandard& heard) {
    QStringList names;
    for (std::size_t step = 0; step < heard.notes.size(); ++step) {
        const std::size_t chroma = (step + 9) % heard.notes.size();
        for (int fifth = -3; fifth <= 8 && heard.notes[chroma]; ++fifth) { // E♭ to G♯
            if (pitchClassAtFifth(fifth).chroma() == static_cast<int>(chroma)) {
                names << noteText(pitchClassAtFifth(fifth));
            }
        }
    }
    return names;
}

} // namespace

QString hearingText(const PitchHearing& hearing, bool noA) {
    if (hearing.source.error) {
        return errorText(*hearing.source.error);
    }
    if (noA) {
        return HeardPitchText::tr("What was heard first is no A from 370 to 570 Hz: listen anew, A "
                                  "first.");
    }
    if (hearing.tone) {
        const QString seconds = QLocale().toString(hearing.tone->length.count(), 'f', 1);
        return hearing.tone->waver > kWaversFrom
                   ? HeardPitchText::tr("%1, heard for %2 s; it wavers by %3 cents.")
                         .arg(hertzText(hearing.tone->pitch),
                              seconds,
                              sizeInCents(hearing.tone->waver))
                   : HeardPitchText::tr("%1, heard for %2 s.")
                         .arg(hertzText(hearing.tone->pitch), seconds);
    }
    if (hearing.sounds) {
        return HeardPitchText::tr("A tone sounds: hold it for three seconds and more.");
    }
    return hearing.before.empty() ? HeardPitchText::tr("No held tone is heard.")
                                  : HeardPitchText::tr("The next note, or that is all.");
}

QString heardFigure(const HeardStandard& heard) {
    return HeardPitchText::tr("a\u2032 = %1 %2 cents")
        .arg(hertzText(heard.a4), plusMinus(heard.uncertainty));
}

QString heardNotes(const HeardStandard& heard) {
    if (heard.ofTwelve()) {
        return HeardPitchText::tr("The mean of all twelve notes against the temperament of the "
                                  "session, from which they scatter by %1 cents.")
            .arg(sizeInCents(heard.scatter));
    }
    const QStringList names = namesOf(heard);
    return names.size() == 1
               ? HeardPitchText::tr("From A alone.")
               : HeardPitchText::tr("From A alone, until all twelve are heard; so far %1.")
                     .arg(names.join(HeardPitchText::tr(", ")));
}

bool raisesFar(const HeardStandard& heard, double standardHz) {
    return fromStandardHz(heard, standardHz) > kRaisedFar;
}

QString heardAgainst(const HeardStandard& heard, double standardHz) {
    const Cents from = fromStandardHz(heard, standardHz);
    QString text = HeardPitchText::tr("%1 cents from the session's %2.")
                       .arg(signedCents(from), hertzText(Hertz(standardHz)));
    if (abs(from) >= kOtherStandardFrom) {
        text += QLatin1Char(' ') +
                HeardPitchText::tr("That is another standard: no first look offers it.");
    }
    if (raisesFar(heard, standardHz)) {
        text += QLatin1Char(' ') +
                HeardPitchText::tr("Before an old instrument is raised ask its maker or a "
                                   "conservator, and see Change of pitch under Instrument: strings "
                                   "may break.");
    }
    return text;
}

} // namespace quillbench
