#include "app/places/logbook/logbook_text.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/settling_text.hpp"
#include "app/views/document.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <QStringList>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct LogbookText {
    Q_DECLARE_TR_FUNCTIONS(LogbookText)
};

constexpr double kDaysAWeek = 7.0;

QString stateWord(const std::string& state) {
    return state == "settled" ? LogbookText::tr("settled")
           : state == "kept"  ? LogbookText::tr("kept as it was")
           : state == "heard" ? LogbookText::tr("heard")
                              : toQString(state);
}

QString endWord(const std::optional<std::string>& ended) {
    return !ended             ? LogbookText::tr("open")
           : *ended == "done" ? LogbookText::tr("done")
                              : LogbookText::tr("left");
}

/// A text of a person on one line: what steers a display is left out.
QString tamed(const std::string& text) {
    return toQString(text).simplified();
}

QString fixed(double value, int decimals) {
    return QLocale().toString(value, 'f', decimals);
}

QString stringsText(const SessionSummary& summary, std::size_t heard) {
    QStringList parts;
    if (heard > 0) {
        parts << LogbookText::tr("%1 heard").arg(heard);
    }
    if (summary.settled > 0 || parts.isEmpty()) {
        parts << LogbookText::tr("%1 settled").arg(summary.settled);
    }
    if (summary.kept > 0) {
        parts << LogbookText::tr("%1 kept").arg(summary.kept);
    }
    if (summary.skipped > 0) {
        parts << LogbookText::tr("%1 skipped").arg(summary.skipped);
    }
    return parts.join(QStringLiteral(", "));
}

QString dateText(const Instant& at) {
    return toQString(wallClockText(at));
}

QString daysText(double days) {
    return days < 60.0 ? LogbookText::tr("%1 days").arg(std::lround(days))
                       : LogbookText::tr("%1 weeks").arg(std::lround(days / kDaysAWeek));
}

} // namespace

QString kindText(const std::string& kind) {
    return kind == "first-octave" ? LogbookText::tr("first octave")
           : kind == kRecheckKind ? LogbookText::tr("recheck")
           : kind == "whole"      ? LogbookText::tr("whole instrument")
                                  : toQString(kind);
}

SessionLine sessionLine(const SessionSummary& summary,
                        const SessionInputs& inputs,
                        const std::string& source,
                        std::size_t heard) {
    SessionLine line;
    line.session = summary.session.seq;
    line.date = dateText(summary.session.at);
    line.kind = kindText(summary.session.kind);
    line.instrument = coreText(summary.name).simplified();
    line.temperament = temperamentCalled(toQString(inputs.temperament)).simplified();
    line.pitch =
        inputs.a4Hz > 0.0 ? LogbookText::tr("%1 Hz").arg(fixed(inputs.a4Hz, 1)) : QString();
    // It was written down in the language of that day.
    line.source = inputs.virtualInstrument ? LogbookText::tr("Virtual instrument") : tamed(source);
    line.strings = stringsText(summary, heard);
    line.end = endWord(summary.ended);
    return line;
}

ReadingLine readingLine(const HoldingReading& one) {
    const ReadingRecord& reading = one.reading;
    ReadingLine line;
    line.choir = toQString(one.string.choir);
    line.key = toQString(reading.note);
    if (const Result<Note> note = parseNote(reading.note)) {
        line.key = noteText(*note);
    }
    line.state = stateWord(one.state);
    line.after = signedCents(Cents(reading.deviationCents));
    line.uncertainty = plusMinus(Cents(reading.deviationCentsU));
    line.hertz = hertzText(Hertz(reading.pitchHz));
    line.how = keptByEar(reading) ? LogbookText::tr("by ear") : LogbookText::tr("by meter");
    line.window = LogbookText::tr("%1 × %2 s").arg(reading.plucks).arg(fixed(reading.usedS, 1));
    QStringList remarks;
    for (const QString& warning :
         tamed(reading.warnings).split(QStringLiteral(", "), Qt::SkipEmptyParts)) {
        // In which order keys were played is the player's affair.
        if (warning != QLatin1String("not the string asked")) {
            remarks << coreText(warning.toStdString());
        }
    }
    if (reading.ownBeatHz) {
        remarks
            << LogbookText::tr("beats by itself, %1 a second").arg(fixed(*reading.ownBeatHz, 2));
    }
    line.remarks = remarks.join(QStringLiteral("; "));
    return line;
}

DiaryLine remarkLine(const RemarkRecord& remark, const QString& string) {
    return {dateText(remark.at), LogbookText::tr("Remark"), string, tamed(remark.text)};
}

QString airText(const ClimateRecord& climate) {
    QStringList parts;
    if (climate.temperatureC) {
        parts << LogbookText::tr("%1 °C").arg(fixed(*climate.temperatureC, 1));
    }
    if (climate.humidityPercent) {
        parts << LogbookText::tr("%1 % humidity").arg(fixed(*climate.humidityPercent, 0));
    }
    return parts.join(QStringLiteral(", "));
}

DiaryLine climateLine(const ClimateRecord& climate) {
    return {dateText(climate.at), LogbookText::tr("Air"), {}, airText(climate)};
}

DiaryLine changeLine(const StringChangeRecord& change, const QString& string) {
    QStringList parts;
    if (change.diameterMm) {
        parts << LogbookText::tr("%1 mm").arg(fixed(*change.diameterMm, 3));
    }
    if (change.material) {
        parts << coreText(*change.material).simplified();
    }
    if (!change.reason.empty()) {
        parts << tamed(change.reason);
    }
    return {dateText(change.at),
            LogbookText::tr("New string"),
            string,
            parts.join(QStringLiteral(", "))};
}

DiaryLine calibrationLine(const CalibrationRecord& calibration) {
    const QString device = calibration.device.empty() ? LogbookText::tr("default microphone")
                                                      : tamed(calibration.device);
    return {dateText(calibration.at),
            LogbookText::tr("Clock"),
            {},
            LogbookText::tr("%1: %2 ± %3 ppm, %4")
                .arg(device,
                     fixed(calibration.ppm, 1),
                     fixed(calibration.ppmU, 1),
                     coreText(calibration.how).simplified())};
}

QString dueText(const Tendencies& tendencies) {
    if (tendencies.looks == 0) {
        return LogbookText::tr("Nothing is known yet: recheck this instrument some days after it "
                               "was tuned, and what each string tends to do is learned.");
    }
    if (!tendencies.due) {
        return LogbookText::tr("After %1 rechecks: no retune is to be expected within a year.")
            .arg(tendencies.looks);
    }
    return LogbookText::tr(
               "After %1 rechecks: a tenth of the strings will be more than 2 cents off "
               "about %2 after a tuning (%3 to %4).")
        .arg(tendencies.looks)
        .arg(daysText(tendencies.due->days),
             daysText(tendencies.due->earliest),
             daysText(tendencies.due->latest));
}

QString choirDriftText(const Choir& choir, const DriftPart& centsPerDay) {
    return LogbookText::tr("%1: %2 %3 cents a week")
        .arg(choirText(choir),
             signedCents(Cents(centsPerDay.value * kDaysAWeek)),
             plusMinus(Cents(centsPerDay.uncertainty * kDaysAWeek)));
}

QString habitText(Habit habit) {
    switch (habit) {
    case Habit::Steady:
        return LogbookText::tr("as the rest");
    case Habit::PinSlips:
        return LogbookText::tr("slips again and again: does the pin hold?");
    case Habit::WireStretches:
        return LogbookText::tr("sinks less each time: new wire stretches, or its loop tightens");
    case Habit::Wanders:
        return LogbookText::tr("wanders up and down: bridge pin or jack?");
    }
    return {};
}

double dayNumberOf(const Instant& at) {
    constexpr double kMillisecondsOfDay = 86400000.0;
    return static_cast<double>(at.milliseconds) / kMillisecondsOfDay;
}

QStringList
newStringsText(const Instrument& instrument, const std::vector<NewString>& strings, double today) {
    if (strings.empty()) {
        return {};
    }
    QStringList lines{settlingLawText(settlingLaw(strings))};
    for (std::size_t i = 0; i < strings.size(); ++i) {
        const NewString& one = strings[i];
        const bool replacedAgain =
            std::any_of(strings.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                        strings.end(),
                        [&](const NewString& later) { return later.string == one.string; });
        const double age = today - dayNumberOf(one.putOn);
        if (replacedAgain || age < 0.0) {
            continue;
        }
        const SettlingLaw law = settlingLaw(strings, i).of(one.seen);
        if (age < planSettling(law, one.lastSet.value_or(0.0)).calm.middle) {
            lines << LogbookText::tr("%1, new for %2: %3 %4")
                         .arg(stringText(instrument, one.string),
                              ageText(age),
                              sunkText(law, one.lastSet.value_or(0.0), age),
                              settlingPlanText(law, one.lastSet.value_or(0.0), age));
        }
    }
    return lines;
}

TendencyLine tendencyLine(const Instrument& instrument, const StringTendency& tendency) {
    TendencyLine line;
    const DriftRate& rate = tendency.rate;
    line.string = stringText(instrument, rate.string);
    line.rate = signedCents(Cents(rate.centsPerDay * kDaysAWeek));
    line.uncertainty = plusMinus(Cents(rate.uncertainty * kDaysAWeek));
    line.looks = QLocale().toString(rate.sightings);
    line.habit = habitText(tendency.habit);
    line.size = std::abs(rate.centsPerDay);
    return line;
}

} // namespace quillbench
