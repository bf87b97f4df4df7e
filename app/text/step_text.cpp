#include "app/text/step_text.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <QStringList>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct StepText {
    Q_DECLARE_TR_FUNCTIONS(StepText)
};

QString joined(const QStringList& parts) {
    if (parts.size() < 2) {
        return parts.join(QString());
    }
    return StepText::tr("%1 and %2")
        .arg(parts.mid(0, parts.size() - 1).join(StepText::tr(", ")), parts.last());
}

/// The rows of the choirs that shall sound, by the names on the instrument.
QStringList rowsOn(const Instrument& instrument, const Drawing& drawing) {
    QStringList names;
    for (std::size_t row = 0; row < instrument.registers.size(); ++row) {
        const std::size_t choir = instrument.registers[row].choir;
        const auto& wanted = drawing.choirs;
        if (drawing.registration.on[row] &&
            std::find(wanted.begin(), wanted.end(), choir) != wanted.end()) {
            names << coreText(instrument.registers[row].name);
        }
    }
    return names;
}

/// To a half below three beats, whole ones above: finer is not heard.
QString rateText(double perSecond) {
    const double shown =
        perSecond < 3.0 ? std::round(perSecond * 2.0) / 2.0 : std::round(perSecond);
    return QLocale().toString(shown, 'g', 3);
}

} // namespace

QString drawingText(const Instrument& instrument, const Drawing& drawing) {
    QStringList names = rowsOn(instrument, drawing);
    if (names.isEmpty()) {
        for (const std::size_t choir : drawing.choirs) {
            names << choirText(instrument.choirs[choir]);
        }
    }
    QString text = joined(names);
    if (!text.isEmpty()) {
        text[0] = text[0].toUpper();
    }
    text = instrument.registers.size() > static_cast<std::size_t>(names.size())
               ? StepText::tr("%1 on, everything else off").arg(text)
               : StepText::tr("%1 on").arg(text);
    if (drawing.registration.coupled) {
        text = StepText::tr("%1, manuals coupled").arg(text);
    }
    if (drawing.registration.position != 0 && instrument.positions.size() > 1) {
        text = StepText::tr("%1, the keyboard moved by %2")
                   .arg(text)
                   .arg(drawing.registration.position);
    }
    QStringList along;
    for (const std::size_t choir : drawing.felt) {
        along << choirText(instrument.choirs[choir]);
    }
    if (!along.isEmpty()) {
        text = StepText::tr("%1; felt between the strings of %2").arg(text, joined(along));
    }
    return text;
}

QString intervalText(IntervalKind kind) {
    switch (kind) {
    case IntervalKind::Unison:
        return StepText::tr("unison");
    case IntervalKind::MinorThird:
        return StepText::tr("minor third");
    case IntervalKind::MajorThird:
        return StepText::tr("major third");
    case IntervalKind::Fourth:
        return StepText::tr("fourth");
    case IntervalKind::Fifth:
        return StepText::tr("fifth");
    case IntervalKind::MinorSixth:
        return StepText::tr("minor sixth");
    case IntervalKind::MajorSixth:
        return StepText::tr("major sixth");
    case IntervalKind::Octave:
        return StepText::tr("octave");
    case IntervalKind::MinorTenth:
        return StepText::tr("minor tenth");
    case IntervalKind::Tenth:
        return StepText::tr("tenth");
    case IntervalKind::Twelfth:
        return StepText::tr("twelfth");
    case IntervalKind::Fifteenth:
        return StepText::tr("double octave");
    case IntervalKind::Seventeenth:
        return StepText::tr("seventeenth");
    case IntervalKind::Nineteenth:
        return StepText::tr("nineteenth");
    }
    return {};
}

QString beatText(BeatRate beat) {
    const double rate = std::abs(beat.perSecond());
    const bool wide = beat > BeatRate(0.0);
    if (rate < 0.05) {
        return StepText::tr("no beat");
    }
    if (rate < 0.75) {
        return wide ? StepText::tr("slightly wide, a beat in %1 seconds").arg(rateText(1.0 / rate))
                    : StepText::tr("slightly narrow, a beat in %1 seconds")
                          .arg(rateText(1.0 / rate));
    }
    return wide ? StepText::tr("wide, about %1 beats a second").arg(rateText(rate))
                : StepText::tr("narrow, about %1 beats a second").arg(rateText(rate));
}

QString pairText(const Instrument& instrument, const TuningStep& step) {
    if (!step.pair) {
        return noteText(step.note);
    }
    const PairAim& pair = *step.pair;
    if (pair.against.choir != step.string.choir) {
        return StepText::tr("%1, %2 with %3: %4")
            .arg(noteText(step.note),
                 choirText(instrument.choirs[step.string.choir]),
                 choirText(instrument.choirs[pair.against.choir]),
                 beatText(pair.beat));
    }
    return StepText::tr("%1 with %2: %3, %4")
        .arg(noteText(step.note),
             noteText(pair.note),
             intervalText(pair.interval),
             beatText(pair.beat));
}

QString sweepText(const Instrument& instrument, const Session& session, std::size_t step) {
    const TuningStep& one = session.plan->steps[step];
    const StringId string = session.stringToPlay(step);
    const int position = one.alone.registration.position;
    const QString note = noteText(keyNote(instrument, string, position));
    const QString choir = choirText(instrument.choirs[string.choir]);
    switch (one.phase) {
    case Phase::RunThrough:
        return StepText::tr("Run-through of the %1: every key once. Play %2.").arg(choir, note);
    case Phase::WarmUp:
        return StepText::tr("Sentinel notes, to hear whether the ground moves. Play %1 on the %2.")
            .arg(note, choir);
    case Phase::FirstLook:
        return StepText::tr("Where does the %1 stand? Play %2.").arg(choir, note);
    case Phase::RoughPass:
    case Phase::Bearings:
    case Phase::Outward:
    case Phase::Unison:
    case Phase::FourFoot:
    case Phase::SixteenFoot:
    case Phase::Recheck:
        break;
    }
    return StepText::tr("Recheck of the %1, a second a note. Play %2.").arg(choir, note);
}

QString phaseText(Phase phase) {
    switch (phase) {
    case Phase::RunThrough:
        return StepText::tr("run-through");
    case Phase::WarmUp:
        return StepText::tr("sentinel notes");
    case Phase::FirstLook:
        return StepText::tr("first look");
    case Phase::RoughPass:
        return StepText::tr("rough pass");
    case Phase::Bearings:
        return StepText::tr("bearings");
    case Phase::Outward:
        return StepText::tr("octaves");
    case Phase::Unison:
        return StepText::tr("unisons");
    case Phase::FourFoot:
        return StepText::tr("4\u2032");
    case Phase::SixteenFoot:
        return StepText::tr("16\u2032");
    case Phase::Recheck:
        return StepText::tr("recheck");
    }
    return {};
}

} // namespace quillbench
