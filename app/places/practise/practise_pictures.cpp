#include "app/places/practise/practise_pictures.hpp"

#include "app/places/practise/practise_text.hpp"
#include "app/text/beat_text.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/step_text.hpp"

#include <QCoreApplication>
#include <QDate>
#include <QLocale>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct PractisePictureText {
    Q_DECLARE_TR_FUNCTIONS(PractisePictureText)
};

/// Loudness grows with this power of the sound pressure. **Source** Stevens' law for loudness, value from memory.
constexpr double kStevens = 0.6;
constexpr std::size_t kWeeksShown = 26;
constexpr double kComparedTo = 0.05;       // beats a second: to one place
constexpr double kRoomForDate = 0.18;      // of the width
constexpr std::int64_t kDayZero = 2440588; // Julian day number of 1970-01-01

struct AxisOf {
    double easy;
    double hard;
    std::vector<double> ticks;
    int places;
};

AxisOf axisOf(ExerciseKind kind) {
    switch (kind) {
    case ExerciseKind::Count:
        return {0.3, 16.0, {0.5, 1.0, 2.0, 4.0, 8.0}, 1};
    case ExerciseKind::WhichWay:
        return {45.0, 0.3, {30.0, 10.0, 3.0, 1.0}, 1};
    case ExerciseKind::Compare:
        return {100.0, 1.0, {50.0, 20.0, 10.0, 5.0, 2.0}, 0};
    case ExerciseKind::BringTogether:
    case ExerciseKind::LeaveALittle:
        break;
    }
    return {8.0, 0.02, {3.0, 1.0, 0.3, 0.1, 0.03}, 2};
}

double placeOn(const AxisOf& axis, double value) {
    const double share = std::log(value / axis.easy) / std::log(axis.hard / axis.easy);
    return std::clamp(share, 0.0, 1.0);
}

QString numberOn(const AxisOf& axis, double value) {
    return QLocale().toString(value, 'f', value >= 10.0 ? 0 : axis.places);
}

StandingShown standingShown(const AxisOf& axis, const EarStanding& standing) {
    const Threshold& threshold = standing.threshold;
    StandingShown shown;
    shown.name = PractisePictureText::tr("%1, %2").arg(intervalName(standing.interval),
                                                       registerName(standing.earRegister));
    shown.tells = threshold.tells();
    if (!shown.tells) {
        shown.words = threshold.answers == 1
                          ? PractisePictureText::tr("done once: not clear yet")
                          : PractisePictureText::tr("done %1 times: not clear yet")
                                .arg(QLocale().toString(threshold.answers));
        return shown;
    }
    const auto [low, high] = std::minmax(threshold.low, threshold.high);
    shown.words =
        PractisePictureText::tr("%1 (%2 to %3)")
            .arg(numberOn(axis, threshold.level), numberOn(axis, low), numberOn(axis, high));
    shown.at = placeOn(axis, threshold.level);
    shown.low = placeOn(axis, threshold.low);
    shown.high = placeOn(axis, threshold.high);
    shown.small = standing.small;
    return shown;
}

std::vector<WeekStanding> weeksThatTell(std::vector<WeekStanding> weeks) {
    std::erase_if(weeks, [](const WeekStanding& week) { return !week.threshold.tells(); });
    return weeks;
}

/// The weeks from the first to the last that was practised in, with as many dates as there is room for.
std::vector<WeekShown> weeksShown(const AxisOf& axis, const std::vector<WeekStanding>& every) {
    const std::vector<WeekStanding> all = weeksThatTell(every);
    const std::size_t count = std::min(all.size(), kWeeksShown);
    std::vector<WeekShown> weeks;
    if (count < 2) {
        return weeks;
    }
    const auto first = all.end() - static_cast<std::ptrdiff_t>(count);
    const auto span = static_cast<double>(all.back().monday - first->monday);
    double lastDate = -1.0;
    for (auto week = first; week != all.end(); ++week) {
        WeekShown shown;
        shown.day = static_cast<double>(week->monday - first->monday) / span;
        shown.at = placeOn(axis, week->threshold.level);
        shown.low = placeOn(axis, week->threshold.low);
        shown.high = placeOn(axis, week->threshold.high);
        shown.small = week->small;
        const bool last = week + 1 == all.end();
        if (last || lastDate < 0.0 ||
            (shown.day - lastDate > kRoomForDate && 1.0 - shown.day > kRoomForDate)) {
            shown.date = QLocale().toString(QDate::fromJulianDay(week->monday + kDayZero),
                                            PractisePictureText::tr("d MMM"));
            lastDate = shown.day;
        }
        weeks.push_back(shown);
    }
    return weeks;
}

/// "your 4′ to 8′ lies 0.6 cents (0.3 to 0.9) flat of still: 24 settings in 5 sittings".
QString habitLine(const EarHabit& habit, const PractiseModel& model) {
    const PracticeInterval interval = model.wished().interval;
    const bool still = model.wished().kind == ExerciseKind::BringTogether;
    const bool wide = habit.mean > Cents(0.0);
    const Cents near = wide ? habit.low : -habit.high;
    const Cents far = wide ? habit.high : -habit.low;
    const QString count = PractisePictureText::tr("%1 settings in %2 sittings")
                              .arg(habit.settings)
                              .arg(habit.sittings);
    if (!habit.clear()) {
        return PractisePictureText::tr("none to be seen; within %1 cents of right (%2)")
            .arg(sizeInCents(std::max(abs(habit.low), abs(habit.high))), count);
    }
    const QString from = still  ? wide ? PractisePictureText::tr("sharp of still")
                                       : PractisePictureText::tr("flat of still")
                          : wide ? PractisePictureText::tr("wider than wanted")
                                : PractisePictureText::tr("narrower than wanted");
    return PractisePictureText::tr("your %1 lies %2 cents (%3 to %4) %5 (%6)")
        .arg(intervalName(interval),
             sizeInCents(habit.mean),
             sizeInCents(near),
             sizeInCents(far),
             from,
             count);
}

QString habitText(const PractiseModel& model) {
    QStringList lines;
    if (const auto& habit = model.habitAtPractice()) {
        lines << PractisePictureText::tr("Habit at practice: %1.").arg(habitLine(*habit, model));
    }
    if (const auto& habit = model.habitInSessions()) {
        lines << PractisePictureText::tr("Habit in sessions by ear: %1.")
                     .arg(habitLine(*habit, model));
    }
    return lines.join(QLatin1Char('\n'));
}

QString axisText(ExerciseKind kind) {
    switch (kind) {
    case ExerciseKind::Count:
        return PractisePictureText::tr("beats a second that are counted right three times of four");
    case ExerciseKind::WhichWay:
        return PractisePictureText::tr("cents from pure told right three times of four");
    case ExerciseKind::Compare:
        return PractisePictureText::tr("by how many percent a beat must be faster to be told "
                                       "three times of four");
    case ExerciseKind::BringTogether:
    case ExerciseKind::LeaveALittle:
        break;
    }
    return PractisePictureText::tr("beats a second within which three of four settings lie");
}

void drawLevels(const Breath& breath, BreathPicture& picture, double until) {
    const float loudest = *std::max_element(breath.level.begin(), breath.level.end());
    for (std::size_t i = 0; i < breath.level.size(); ++i) {
        const double at = breath.firstTime.count() + breath.hop.count() * static_cast<double>(i);
        if (at > until) {
            break;
        }
        const double down = static_cast<double>(breath.level[i]) - static_cast<double>(loudest);
        picture.curve.push_back({at, std::pow(10.0, kStevens * down / 20.0)});
    }
    for (const float crest : breath.crests) {
        if (static_cast<double>(crest) <= until) {
            picture.crests.push_back(static_cast<double>(crest));
        }
    }
}

} // namespace

FiguresPicture practiseFigures(const PractiseModel& model) {
    FiguresPicture figures;
    if (!model.exercise()) {
        return figures;
    }
    const Exercise& exercise = *model.exercise();
    figures.note = keysOf(exercise);
    figures.choir = PractisePictureText::tr("%1, %2").arg(
        intervalName(exercise.interval), registerName(registerOf(exercise.lowerKey)));
    figures.ringing = model.own() ? model.own()->sounding() : model.sounding().has_value();
    if (model.phase() != PractisePhase::Uncovered || !model.measured()) {
        figures.deviation = QStringLiteral("?");
        figures.words = exercise.kind == ExerciseKind::Count && model.beatsPerTap() > 1
                            ? PractisePictureText::tr("beats a second; a tap is %1 of them")
                                  .arg(model.beatsPerTap())
                            : PractisePictureText::tr("beats a second");
        return figures;
    }
    const PractiseModel::Judged judged = model.judgedBy();
    const bool still = abs(judged.beat) < kStillBeat;
    if (exercise.kind == ExerciseKind::Compare) {
        figures.deviation = PractisePictureText::tr("%1, %2").arg(
            rateText(exercise.beat * exercise.multiple, kComparedTo),
            rateText(exercise.second * exercise.multiple, kComparedTo));
        figures.words = PractisePictureText::tr("beats a second, the first, then the second");
        return figures;
    }
    figures.deviation = still ? PractisePictureText::tr("still")
                              : rateText(judged.beat, judged.byMotion ? 0.0 : judged.uncertainty);
    const QString way = still                         ? PractisePictureText::tr("measured")
                        : judged.beat > BeatRate(0.0) ? directionText(BeatDirection::Wide)
                                                      : directionText(BeatDirection::Narrow);
    figures.words = judged.byMotion ? PractisePictureText::tr("beats a second, %1").arg(way)
                                    : PractisePictureText::tr("%1 beats a second, %2")
                                          .arg(rateUncertainty(judged.uncertainty), way);
    return figures;
}

BreathPicture practiseBreath(const PractiseModel& model) {
    BreathPicture picture;
    picture.span = model.length().count();
    if (model.exercise()) {
        picture.hint = PractisePictureText::tr("Covered until you have answered.");
    }
    picture.description = picture.hint;
    const bool uncovered = model.phase() == PractisePhase::Uncovered;
    if (!model.measured() || !(uncovered || model.shownSlowly()) ||
        model.measured()->breath.breath.level.empty()) {
        return picture;
    }
    const PairHeard& heard = model.measured()->breath;
    const auto at = model.sounding();
    picture.sounding = at.has_value();
    const double until =
        model.shownSlowly() && at ? kSlowBreath * std::max(0.0, at->count()) : picture.span;
    drawLevels(heard.breath, picture, until);
    if (!uncovered) {
        picture.crests.clear();
        picture.description = PractisePictureText::tr("The breath at a third of its speed.");
        return picture;
    }
    // Taps on the learner's own instrument count from no pluck.
    if (!model.own()) {
        for (const Seconds tap : model.taps()) {
            picture.wantedCrests.push_back(tap.count());
        }
    }
    if (heard.followed < heard.pairs.size()) {
        const EarPair& ear = heard.pairs[heard.followed];
        picture.ear =
            PractisePictureText::tr("partials %1 : %2").arg(ear.lowerPartial).arg(ear.upperPartial);
        if (!picture.wantedCrests.empty()) {
            picture.ear += PractisePictureText::tr("; your taps above");
        } else if (model.wished().kind == ExerciseKind::Compare) {
            picture.ear += PractisePictureText::tr("; the first sound");
        }
    }
    picture.description = PractisePictureText::tr("%1 crests in %2 seconds")
                              .arg(picture.crests.size())
                              .arg(QLocale().toString(picture.span, 'f', 0));
    return picture;
}

std::vector<BearingRow> bearingRows(const PractiseModel& model) {
    std::vector<BearingRow> rows;
    if (!model.bearings() || !model.bearings()->done()) {
        return rows;
    }
    const auto signedText = [](double value, int places) {
        const QString size = QLocale().toString(std::abs(value), 'f', places);
        const bool none = std::abs(value) < 0.5 * std::pow(10.0, -places);
        return (none          ? QString()
                : value > 0.0 ? QStringLiteral("+")
                              : QStringLiteral("\u2212")) +
               size;
    };
    for (const BearingLeft& left : model.bearings()->left()) {
        const BearingStep& step = model.bearings()->steps()[left.step];
        const int multiple = model.bearings()->question(left.step).multiple;
        const bool sets = model.bearings()->sets(left.step);
        BearingRow row;
        row.step =
            PractisePictureText::tr("%1 %2–%3, %4")
                .arg(sets ? PractisePictureText::tr("set") : PractisePictureText::tr("check"),
                     noteText(step.tune),
                     noteText(step.against),
                     intervalText(step.interval));
        row.wanted = signedText(step.beat.perSecond() * multiple, 1);
        row.left = signedText(left.left.perSecond() * multiple, 2);
        row.interval = signedText(left.interval.value(), 1);
        row.note = sets ? signedText(left.note.value(), 1) : QString();
        rows.push_back(row);
    }
    return rows;
}

ProgressPicture practiseProgress(const PractiseModel& model) {
    const ExerciseKind kind = model.wished().kind;
    const AxisOf axis = axisOf(kind);
    ProgressPicture picture;
    picture.title = PractisePictureText::tr("Where your ear stands");
    picture.axis = axisText(kind);
    for (const double tick : axis.ticks) {
        const double place = placeOn(axis, tick);
        picture.ticks.push_back({place, place, QLocale().toString(tick, 'g', 3)});
    }
    for (const PublishedThreshold& known : publishedFor(kind)) {
        picture.published.push_back(
            {placeOn(axis, known.low),
             placeOn(axis, known.high),
             PractisePictureText::tr("%1: %2 (%3)")
                 .arg(known.high > known.low
                          ? PractisePictureText::tr("%1–%2").arg(QLocale().toString(known.low),
                                                                 QLocale().toString(known.high))
                          : QLocale().toString(known.low),
                      coreText(known.what),
                      coreText(known.source))});
    }
    QStringList told;
    for (const EarStanding& standing : model.standings()) {
        if (standing.interval != model.wished().interval) {
            continue;
        }
        picture.standings.push_back(standingShown(axis, standing));
        told << picture.standings.back().name + QLatin1Char(' ') + picture.standings.back().words;
    }
    picture.weeksTitle =
        PractisePictureText::tr("Week by week: %1").arg(intervalName(model.wished().interval));
    picture.weeks = weeksShown(axis, model.weeks());
    picture.habit = habitText(model);
    if (picture.standings.empty()) {
        picture.hint = PractisePictureText::tr("After the first answers a bar stands here for each "
                                               "interval and register.");
    }
    picture.description =
        told.isEmpty()
            ? picture.hint
            : PractisePictureText::tr("%1. %2").arg(told.join(QStringLiteral("; ")), picture.axis);
    if (!picture.weeks.empty()) {
        const std::vector<WeekStanding> weeks = weeksThatTell(model.weeks());
        const WeekStanding& before = weeks[weeks.size() - 2];
        picture.description +=
            QLatin1Char(' ') + PractisePictureText::tr("%1: the week before %2, the last %3.")
                                   .arg(picture.weeksTitle,
                                        numberOn(axis, before.threshold.level),
                                        numberOn(axis, weeks.back().threshold.level));
    }
    picture.description += QLatin1Char(' ') + picture.habit;
    return picture;
}

} // namespace quillbench
