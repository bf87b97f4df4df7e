#include "app/places/recheck/drift_text.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/guidance_text.hpp"
#include "app/text/step_text.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct DriftText {
    Q_DECLARE_TR_FUNCTIONS(DriftText)
};

constexpr double kMillisecondsAnHour = 3600000.0;
constexpr double kHoursADay = 24.0;
/// A part is told when it is so many standard deviations long.
constexpr double kTold = 2.0;
/// What all strings did alike is told when it is known to so much.
constexpr double kApartCents = 1.5;
constexpr std::size_t kMostNamed = 6;

QString keyName(const RecheckModel& model, std::size_t key) {
    return noteText(model.instrument().compass.keys[key].note);
}

QString namesOf(const RecheckModel& model, const std::vector<std::size_t>& keys) {
    QStringList names;
    for (std::size_t i = 0; i < std::min(keys.size(), kMostNamed); ++i) {
        names << keyName(model, keys[i]);
    }
    if (keys.size() > kMostNamed) {
        names << DriftText::tr("and %1 more").arg(keys.size() - kMostNamed);
    }
    return names.join(QStringLiteral(", "));
}

QString part(const QString& name, const DriftPart& value, const QString& unit) {
    return DriftText::tr("%1 %2 %3 %4")
        .arg(name, signedCents(Cents(value.value)), plusMinus(Cents(value.uncertainty)), unit);
}

bool isTold(const DriftPart& value) {
    return std::abs(value.value) > kTold * value.uncertainty;
}

/// What all did alike; from an octave of one choir that cannot be told from what warmth did, and the average says more.
QString wholeText(const DriftFit& fit) {
    if (fit.whole.uncertainty <= kApartCents) {
        return part(DriftText::tr("The whole instrument:"), fit.whole, DriftText::tr("cents"));
    }
    Cents sum;
    for (const StringVerdict& verdict : fit.strings) {
        sum += verdict.expected;
    }
    return DriftText::tr("Those heard moved by %1 cents on average; too few to tell case, choir "
                         "and warmth apart.")
        .arg(signedCents(sum / static_cast<double>(fit.strings.size())));
}

QString sinceText(double hours) {
    return hours < 1.0    ? DriftText::tr("less than an hour ago")
           : hours < 36.0 ? DriftText::tr("%1 hours ago").arg(std::lround(hours))
                          : DriftText::tr("%1 days ago").arg(std::lround(hours / kHoursADay));
}

/// When the strings of the choir were left, in the middle of them.
QString comparedWith(const RecheckModel& model) {
    std::vector<std::int64_t> at;
    std::size_t unknown = 0;
    for (const auto& [string, reference] : model.recheck().references()) {
        if (string.choir != model.choir()) {
            continue;
        }
        const auto left = model.history().settled.find(string);
        if (reference.settled && left != model.history().settled.end()) {
            at.push_back(left->second.at.milliseconds);
        } else {
            ++unknown;
        }
    }
    if (at.empty()) {
        return DriftText::tr("The logbook knows no string of this choir that was settled at this "
                             "pitch: each is compared with what the temperament wants.");
    }
    std::sort(at.begin(), at.end());
    const auto age = static_cast<double>(instantNow().milliseconds - at[at.size() / 2]);
    QString text = DriftText::tr("Compared with how it was left %1.")
                       .arg(sinceText(age / kMillisecondsAnHour + model.daysPassed() * kHoursADay));
    if (unknown > 0) {
        text += QLatin1Char(' ') +
                DriftText::tr("%1 of its strings were not settled before (crosses).").arg(unknown);
    }
    return text;
}

} // namespace

QString recheckSentence(const RecheckModel& model) {
    const QString drawing = drawingText(model.instrument(), model.drawing());
    const QString choir = choirText(model.instrument().choirs[model.choir()]);
    if (model.hearing() != Hearing::Good) {
        const auto next = model.nextKey();
        return hearingText(model.hearing()) +
               (next ? QLatin1Char(' ') + DriftText::tr("Play %1 again.").arg(keyName(model, *next))
                     : QString());
    }
    const auto next = model.nextKey();
    if (model.heardOfChoir() == 0) {
        return next ? DriftText::tr("%1. Play the %2 upwards from %3, about a second a note.")
                          .arg(drawing, choir, keyName(model, *next))
                    : drawing;
    }
    if (model.heardOfChoir() < model.strings() && next) {
        return DriftText::tr("%1 of %2 heard. Next: %3.")
            .arg(model.heardOfChoir())
            .arg(model.strings())
            .arg(keyName(model, *next));
    }
    const std::vector<std::size_t> again = model.playAgain();
    return again.empty()
               ? DriftText::tr("The %1 is heard. Choose another choir, or see what is worth the "
                               "hammer.")
                     .arg(choir)
               : DriftText::tr("All heard. To be sure, play again: %1.").arg(namesOf(model, again));
}

QStringList driftFindings(const RecheckModel& model) {
    QStringList lines{comparedWith(model)};
    if (!model.fit()) {
        return lines;
    }
    const DriftFit& fit = *model.fit();
    lines << wholeText(fit);
    for (std::size_t choir = 0; choir < fit.choir.size(); ++choir) {
        if (isTold(fit.choir[choir])) {
            lines << part(
                DriftText::tr("The %1 beside it:").arg(choirText(model.instrument().choirs[choir])),
                fit.choir[choir],
                DriftText::tr("cents"));
        }
    }
    if (isTold(fit.kelvin)) {
        lines << part(fit.kelvin.value > 0.0
                          ? DriftText::tr("Brass and iron moved as if it were warmer by:")
                          : DriftText::tr("Brass and iron moved as if it were colder by:"),
                      {std::abs(fit.kelvin.value), fit.kelvin.uncertainty},
                      DriftText::tr("degrees"));
    }
    if (isTold(fit.perOctave)) {
        lines << part(
            DriftText::tr("From octave to octave upwards:"), fit.perOctave, DriftText::tr("cents"));
    }
    std::vector<std::size_t> moved;
    for (const StringVerdict& verdict : fit.strings) {
        const auto key =
            keyAt(model.instrument(), verdict.string.course, model.tuning().position());
        if (verdict.drift == StringDrift::Moved && verdict.string.choir == model.choir() && key) {
            moved.push_back(*key);
        }
    }
    lines << (moved.empty() ? DriftText::tr("No string moved by itself.")
                            : DriftText::tr("Moved by themselves: %1.").arg(namesOf(model, moved)));
    return lines;
}

namespace {

QString shortListText(const RecheckModel& model, const RecheckAdvice& advice) {
    const QString tolerance = sizeInCents(model.tolerance());
    if (advice.here.strings.empty()) {
        return DriftText::tr("Leave it: of what was heard no interval is more than %1 cents out.")
            .arg(tolerance);
    }
    const ShortList& fewest = advice.moved.value_or(advice.here);
    if (2 * fewest.strings.size() > model.judged()) {
        return DriftText::tr("More than half of what was heard is out: tune it again in Tune.");
    }
    const QString here = advice.here.strings.size() == 1
                             ? DriftText::tr("1 string")
                             : DriftText::tr("%1 strings").arg(advice.here.strings.size());
    if (!advice.moved) {
        return DriftText::tr("Worth the hammer: %1, in this order.").arg(here);
    }
    const double a4 = transpose(Hertz(model.tuning().choice().a4Hz), advice.moved->shift).value();
    const QString where =
        DriftText::tr("%1 cents (a′ %2 Hz)")
            .arg(signedCents(advice.moved->shift), QLocale().toString(a4, 'f', 2));
    if (advice.moved->strings.empty()) {
        return DriftText::tr("Leave it all and let the pitch move by %1. At the old pitch: %2.")
            .arg(where, here);
    }
    return DriftText::tr("Move the pitch by %1 and touch only these %2. At the old pitch: %3.")
        .arg(where)
        .arg(advice.moved->strings.size())
        .arg(here);
}

/// What the minutes there are do, and how much less sounds wrong then.
QString minutesText(const RecheckModel& model, const UseOfMinutes& use) {
    if (use.before <= 0.0) {
        return DriftText::tr("Leave it: nothing of what was heard sounds wrong.");
    }
    if (use.strings.empty()) {
        return DriftText::tr("Too little time for any string that is worth it.");
    }
    const double took = use.strings.back().until.count() / 60.0;
    return DriftText::tr("In %1 minutes these, in this order: about %2 minutes at your speed. You "
                         "may stop after any of them. Of what sounds wrong %3 % is left.")
        .arg(model.minutes())
        .arg(QLocale().toString(took, 'f', took < 10.0 ? 1 : 0))
        .arg(std::lround(100.0 * use.after / use.before));
}

} // namespace

QString adviceText(const RecheckModel& model) {
    QStringList lines;
    if (model.bestUse()) {
        lines << minutesText(model, *model.bestUse());
    } else if (model.advice()) {
        lines << shortListText(model, *model.advice());
    }
    if (model.leftOut() > 0) {
        lines << DriftText::tr(
                     "Not judged here, because never settled: %1 (crosses). Set them in Tune.")
                     .arg(model.leftOut());
    }
    return lines.join(QLatin1Char('\n'));
}

QString describeDrift(const RecheckModel& model) {
    QString text = DriftText::tr("%1 of %2 strings of the %3 heard")
                       .arg(model.heardOfChoir())
                       .arg(model.strings())
                       .arg(choirText(model.instrument().choirs[model.choir()]));
    if (const auto next = model.nextKey()) {
        text += DriftText::tr("; %1 is asked for").arg(keyName(model, *next));
    }
    return text;
}

} // namespace quillbench
