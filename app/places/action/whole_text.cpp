#include "app/places/action/action_text.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct WholeText {
    Q_DECLARE_TR_FUNCTIONS(WholeText)
};

constexpr double kUnevenScatterDb = 2.0; // a register that is uneven everywhere

QString decimal(double value) {
    return QLocale().toString(value, 'f', 1);
}

QString inMilliseconds(double seconds) {
    return QLocale().toString(std::round(1000.0 * seconds), 'f', 0);
}

QString travelFirst() {
    return WholeText::tr(
        "So many keys at once are no fault of single jacks: think of the weather, then of how far "
        "the register travels, then of the keyboard's height, before any jack.");
}

QString rowsText(const ActionModel& model, const StaggerMap& map) {
    QStringList lines;
    for (const RowPair& pair : map.pairs) {
        const QString first = registerName(model, pair.first);
        const QString second = registerName(model, pair.second);
        const QString gap = inMilliseconds(std::abs(pair.usualSeconds));
        switch (pair.what) {
        case RowsDo::AsIntended:
            lines << WholeText::tr("%1 then %2, %3 ms apart").arg(first, second, gap);
            break;
        case RowsDo::OtherWayRound:
            lines << WholeText::tr("%2 before %1 over the whole keyboard").arg(first, second);
            break;
        case RowsDo::Together:
            lines << WholeText::tr("%1 with %2 over the whole keyboard").arg(first, second);
            break;
        case RowsDo::TooNarrow:
            lines << WholeText::tr("%1 close to %2 over the whole keyboard (%3 ms)")
                         .arg(first, second, gap);
            break;
        case RowsDo::TooWide:
            lines << WholeText::tr("%1 far from %2 over the whole keyboard (%3 ms)")
                         .arg(first, second, gap);
            break;
        }
    }
    const QString what = lines.join(WholeText::tr("; ")) + QLatin1Char('.');
    return map.wholeIsOff() ? what + QLatin1Char(' ') + travelFirst() : what;
}

QString evennessText(const EvennessReport& report) {
    const double scatter = report.curve(VoiceQuality::Strength).scatter;
    if (scatter > kUnevenScatterDb) {
        return WholeText::tr("The whole register is uneven: keys scatter by %1 dB. Move the "
                             "microphone and hear it again before any plectrum is touched.")
            .arg(decimal(scatter));
    }
    return WholeText::tr("The register is even to %1 dB; one pluck repeats to %2 dB.")
        .arg(decimal(scatter), decimal(report.curve(VoiceQuality::Strength).repeat));
}

QString dampersText(const DampingMap& map) {
    std::vector<double> stops;
    std::size_t undamped = 0;
    for (const DampingKey& key : map.keys) {
        if (key.undamped < key.count) {
            stops.push_back(key.stopSeconds);
        } else {
            ++undamped;
        }
    }
    if (2 * undamped > map.keys.size()) {
        return WholeText::tr("Most dampers do not reach their strings. ") + travelFirst();
    }
    std::sort(stops.begin(), stops.end());
    return WholeText::tr("Strings stop in %1 to %2 ms (half of the keys).")
        .arg(inMilliseconds(stops[stops.size() / 4]), inMilliseconds(stops[3 * stops.size() / 4]));
}

} // namespace

QString wholeText(const ActionModel& model, const ActionFindings& findings) {
    switch (model.task()) {
    case ActionTask::Stagger:
        return findings.stagger.enough ? rowsText(model, findings.stagger) : QString();
    case ActionTask::Evenness:
        return findings.evenness.enough ? evennessText(findings.evenness) : QString();
    case ActionTask::Dampers:
        return findings.damping.enough ? dampersText(findings.damping) : QString();
    case ActionTask::Repetition:
        break;
    }
    return {};
}

QStringList evidenceOf(const ActionModel& model, std::size_t key) {
    QStringList lines;
    const EvennessReport evenness = model.evenness();
    for (const VoicePoint& point : evenness.curve(VoiceQuality::Strength).points) {
        if (point.key == key) {
            lines << WholeText::tr("Strength %1 dB against its neighbours (± %2, %3 plucks)")
                         .arg(decimal(point.away), decimal(point.uncertainty))
                         .arg(point.count);
        }
    }
    for (const VoicePoint& point : evenness.curve(VoiceQuality::Level).points) {
        if (point.key == key) {
            lines << WholeText::tr("Loudness (A) %1 dB against its neighbours")
                         .arg(decimal(point.away));
        }
    }
    for (const VoicePoint& point : evenness.curve(VoiceQuality::Displacement).points) {
        if (point.key == key) {
            lines << WholeText::tr("The string is displaced %1 dB against its neighbours (± %2)")
                         .arg(decimal(point.away), decimal(point.uncertainty));
        }
    }
    for (const DampingKey& one : model.damping().keys) {
        if (one.key == key) {
            lines << (one.undamped == one.count
                          ? WholeText::tr("No damper heard in %1 plucks").arg(one.count)
                          : WholeText::tr("Stops in %1 ms; its neighbours in %2 ms")
                                .arg(inMilliseconds(one.stopSeconds),
                                     inMilliseconds(one.usualSeconds)));
        }
    }
    const auto repeats = model.repetition();
    if (const auto one = repeats.find(key); one != repeats.end()) {
        lines << WholeText::tr("%1 of %2 strokes plucked, at %3 a second")
                     .arg(one->second.plucks.size())
                     .arg(one->second.asked)
                     .arg(decimal(one->second.usualRate));
    }
    for (const StaggerKey& one : model.stagger().keys) {
        if (one.key == key) {
            QStringList order;
            for (const std::size_t reg : one.order) {
                order << registerName(model, reg);
            }
            lines << WholeText::tr("Plucks in the order %1").arg(order.join(WholeText::tr(", ")));
        }
    }
    return lines;
}

} // namespace quillbench
