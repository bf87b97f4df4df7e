#include "app/text/settling_text.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <QStringList>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct SettlingText {
    Q_DECLARE_TR_FUNCTIONS(SettlingText)
};

constexpr double kHoursADay = 24.0;
constexpr double kDaysInAWeek = 7.0;

QString rounded(double value) {
    // Nobody means 13.7 cents: two figures below ten, whole ones above.
    return QLocale().toString(value, 'f', value < 9.95 ? 1 : 0);
}

QString centsRange(const SettlingRange& cents) {
    return SettlingText::tr("%1 cents (%2 to %3)")
        .arg(rounded(cents.middle), rounded(cents.low), rounded(cents.high));
}

QString waitText(const SettlingRange& age, double now) {
    const auto left = [now](double then) { return ageText(std::max(0.0, then - now)); };
    return SettlingText::tr("in %1 (%2 to %3)")
        .arg(left(age.middle), left(age.low), left(age.high));
}

} // namespace

QString ageText(double days) {
    const double hours = days * kHoursADay;
    if (hours < 0.95) {
        return SettlingText::tr("%1 min").arg(5 * std::lround(hours * 12.0));
    }
    if (hours < 36.0) {
        return SettlingText::tr("%1 h").arg(std::lround(hours));
    }
    if (days < 21.0) {
        return SettlingText::tr("%1 days").arg(std::lround(days));
    }
    return days < SettlingLaw::kLongestSettling - 1.0
               ? SettlingText::tr("%1 weeks").arg(std::lround(days / kDaysInAWeek))
               : SettlingText::tr("a year or more");
}

QString settlingLawText(const SettlingLaw& law) {
    const QString sinks =
        SettlingText::tr("A new string here sinks by %1 in its first day, by %2 from then to its "
                         "tenth.")
            .arg(centsRange(law.sinks(0.0, 1.0)), centsRange(law.sinks(1.0, 10.0)));
    const QString from =
        law.strings() == 0
            ? SettlingText::tr("Nothing is learned yet: common practice, no source. Write new "
                               "strings into the logbook and recheck them.")
            : SettlingText::tr("Learned from %1 new strings of the logbook, looked at %2 times.")
                  .arg(law.strings())
                  .arg(law.sightings());
    return sinks + QLatin1Char(' ') + from;
}

QString settlingPlanText(const SettlingLaw& law, double lastSet, double now) {
    QStringList times;
    SettlingPlan plan = planSettling(law, lastSet);
    if (!plan.steps.empty() && plan.steps.front().age.middle <= now) {
        times << SettlingText::tr("now");
        plan = planSettling(law, now);
    }
    for (const SettlingStep& step : plan.steps) {
        times << waitText(step.age, now);
    }
    QString calm =
        plan.calm.middle <= now
            ? SettlingText::tr("It sinks by less than 2 cents in a fortnight: leave it to the "
                               "ordinary tunings.")
            : SettlingText::tr("From %1 after it was put on (%2 to %3) it sinks by less than 2 "
                               "cents in a fortnight.")
                  .arg(ageText(plan.calm.middle), ageText(plan.calm.low), ageText(plan.calm.high));
    if (times.isEmpty()) {
        return calm;
    }
    return SettlingText::tr("Bring it up again %1; each time it has sunk by about 5 cents.")
               .arg(times.join(SettlingText::tr(", then "))) +
           QLatin1Char(' ') + calm;
}

QString sunkText(const SettlingLaw& law, double lastSet, double now) {
    return SettlingText::tr("By now it is likely to stand %1 below where it was set.")
        .arg(centsRange(law.sinks(lastSet, std::max(lastSet, now))));
}

} // namespace quillbench
