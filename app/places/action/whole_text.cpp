#include "app/places/action/action_text.hpp"
#include "app/text/format.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <QStringList>
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

std::vector<KeyEvidence> evidenceOf(const ActionModel& model, std::size_t key) {
    std::vector<KeyEvidence> found;
    const EvennessReport evenness = model.evenness();
    const auto add = [&](VoiceQuality quality, FaultMeasure measure, const QString& form) {
        for (const VoicePoint& point : evenness.curve(quality).points) {
            if (point.key == key) {
                found.push_back(
                    {measure, form.arg(signedTenths(point.away), decimal(point.uncertainty))});
            }
        }
    };
    add(VoiceQuality::Strength,
        FaultMeasure::Strength,
        WholeText::tr("%1 dB (± %2) in strength against its neighbours"));
    add(VoiceQuality::Level,
        FaultMeasure::Strength,
        WholeText::tr("%1 dB (± %2) in loudness (A) against its neighbours"));
    add(VoiceQuality::Displacement,
        FaultMeasure::Displacement,
        WholeText::tr("the string is displaced by %1 dB (± %2) against its neighbours"));
    add(VoiceQuality::Sustain,
        FaultMeasure::Sustain,
        WholeText::tr("%1 dB (± %2) in length of tone against its neighbours (−3 dB: half)"));
    for (const DampingKey& one : model.damping().keys) {
        if (one.key == key) {
            found.push_back({FaultMeasure::Damping,
                             one.undamped == one.count
                                 ? WholeText::tr("no damper heard in %1 plucks").arg(one.count)
                                 : WholeText::tr("stops in %1 ms, its neighbours in %2 ms")
                                       .arg(inMilliseconds(one.stopSeconds),
                                            inMilliseconds(one.usualSeconds))});
        }
    }
    const auto repeats = model.repetition();
    if (const auto one = repeats.find(key); one != repeats.end()) {
        found.push_back({FaultMeasure::Repetition,
                         WholeText::tr("%1 of %2 strokes plucked, at %3 a second")
                             .arg(one->second.plucks.size())
                             .arg(one->second.asked)
                             .arg(decimal(one->second.usualRate))});
    }
    for (const StaggerKey& one : model.stagger().keys) {
        if (one.key != key) {
            continue;
        }
        QStringList order;
        for (const std::size_t reg : one.order) {
            order << registerName(model, reg);
        }
        found.push_back(
            {FaultMeasure::Stagger,
             WholeText::tr("plucks in the order %1").arg(order.join(WholeText::tr(", ")))});
    }
    return found;
}

} // namespace quillbench
