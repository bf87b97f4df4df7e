#include "app/places/action/history_text.hpp"

#include "app/places/action/action_text.hpp"
#include "app/text/format.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <QStringList>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct HistoryText {
    Q_DECLARE_TR_FUNCTIONS(HistoryText)
};

constexpr std::size_t kNamedChanges = 4;
constexpr double kMonthDays = 30.44;
constexpr double kFarMonths = 60.0;

QString plainNumber(double value) {
    return QLocale().toString(value, 'f', 1);
}

QString againstRegisters(const ActionModel& model, std::size_t reg, const KeptPass& now) {
    QStringList lines;
    for (const auto& [other, report] : model.otherRegisters(reg)) {
        const PassComparison both = comparePasses(passOf(report, now.day), now);
        if (both.level.keys == 0) {
            continue;
        }
        lines << HistoryText::tr("Against %1: %2 dB (± %3) in loudness, %4 octaves (± %5) in "
                                 "brightness.")
                     .arg(registerName(model, other),
                          signedTenths(both.level.amount),
                          plainNumber(both.level.uncertainty),
                          signedTenths(both.brightness.amount),
                          plainNumber(both.brightness.uncertainty));
    }
    return lines.join(QLatin1Char(' '));
}

QString sinceThen(const ActionModel& model, const StoredPass& last, const KeptPass& now) {
    const PassComparison both = comparePasses(last.pass, now);
    if (both.level.keys == 0) {
        return {};
    }
    const QString day = QLocale().toString(last.at, QLocale::ShortFormat);
    QStringList parts;
    if (both.displacement.keys > 0) {
        parts << HistoryText::tr("strings displaced by %1 dB (± %2)")
                     .arg(signedTenths(both.displacement.amount),
                          plainNumber(both.displacement.uncertainty));
    }
    parts << HistoryText::tr("brightness %1 octaves (± %2)")
                 .arg(signedTenths(both.brightness.amount),
                      plainNumber(both.brightness.uncertainty));
    QStringList keys;
    for (const KeyChange& change : both.changed) {
        if (keys.size() < static_cast<qsizetype>(kNamedChanges)) {
            keys << HistoryText::tr("%1 (%2 dB)")
                        .arg(keyName(model, change.key), signedTenths(change.amount));
        }
    }
    parts << (keys.isEmpty() ? HistoryText::tr("no key has left its neighbours")
                             : HistoryText::tr("left their neighbours: %1")
                                   .arg(keys.join(HistoryText::tr(", "))));
    return HistoryText::tr("Since %1: %2.").arg(day, parts.join(HistoryText::tr("; ")));
}

QString months(double days) {
    return QLocale().toString(std::round(days / kMonthDays), 'f', 0);
}

QString wearText(const std::vector<KeptPass>& passes) {
    const WearOutlook outlook = wearOf(passes);
    if (!outlook.known) {
        return HistoryText::tr("Wear is not yet known: it takes three kept passes over two "
                               "months.");
    }
    const QString loss = HistoryText::tr("In a year the displacement changes by %1 dB (%2 to %3).")
                             .arg(signedTenths(outlook.perYear),
                                  signedTenths(outlook.lowest),
                                  signedTenths(outlook.highest));
    if (!outlook.soonestDays || !outlook.latestDays) {
        return loss + QLatin1Char(' ') +
               HistoryText::tr("When it will want new plectra is not yet known.");
    }
    const QString want =
        *outlook.latestDays / kMonthDays > kFarMonths
            ? HistoryText::tr("At this pace it will want new plectra in %1 months at the "
                              "earliest (3 dB less than at first).")
                  .arg(months(*outlook.soonestDays))
            : HistoryText::tr("At this pace it will want new plectra in %1 to %2 months (3 dB "
                              "less than at first).")
                  .arg(months(*outlook.soonestDays), months(*outlook.latestDays));
    return loss + QLatin1Char(' ') + want;
}

} // namespace

QString historyText(const ActionModel& model,
                    const EvennessReport& now,
                    const std::vector<StoredPass>& kept,
                    const QDate& today) {
    const auto reg = model.registerAlone();
    if (!reg || !now.enough) {
        return {};
    }
    const KeptPass pass = passOf(now, dayNumber(today));
    QStringList lines{againstRegisters(model, *reg, pass)};
    std::vector<KeptPass> passes;
    const StoredPass* last = nullptr;
    for (const StoredPass& one : kept) {
        if (one.reg == *reg && one.at < today) {
            passes.push_back(one.pass);
            last = &one;
        }
    }
    if (last != nullptr) {
        passes.push_back(pass);
        lines << sinceThen(model, *last, pass) << wearText(passes);
    }
    lines.removeAll(QString());
    return lines.join(QLatin1Char(' '));
}

} // namespace quillbench
