#include "app/places/action/action_text.hpp"
#include "app/text/format.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <QStringList>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct MapText {
    Q_DECLARE_TR_FUNCTIONS(MapText)
};

constexpr double kLevelReachDb = 12.0;
constexpr int kFewestPlucks = 2;

ActionColumn columnOf(const Key& key) {
    ActionColumn column;
    column.key.name = noteText(key.note);
    column.key.column = key.column;
    column.key.sharp = key.shape.rfind("sharp", 0) == 0;
    column.key.front = key.shape == "sharp-front";
    column.key.back = key.shape == "sharp-back";
    return column;
}

void stand(ActionColumn& column, int count) {
    column.standing = count >= kFewestPlucks ? ActionStanding::Fine : ActionStanding::HeardOnce;
}

void look(ActionColumn& column, const QString& word) {
    if (column.standing != ActionStanding::Look) {
        column.word = word;
    }
    column.standing = ActionStanding::Look;
}

QString voiceWord(const VoiceFinding& finding) {
    if (finding.cause == VoiceCause::Place || finding.contradicted) {
        return MapText::tr("place");
    }
    switch (finding.fault) {
    case VoiceFault::Weak:
        return MapText::tr("weak");
    case VoiceFault::Loud:
        return MapText::tr("loud");
    case VoiceFault::Dull:
        return MapText::tr("dull");
    case VoiceFault::Bright:
        return MapText::tr("bright");
    case VoiceFault::NoisyAttack:
        return MapText::tr("noisy");
    case VoiceFault::ShortSustain:
        break;
    }
    return MapText::tr("short");
}

QString staggerWord(StaggerFault fault) {
    switch (fault) {
    case StaggerFault::Together:
        return MapText::tr("together");
    case StaggerFault::WrongOrder:
        return MapText::tr("order");
    case StaggerFault::LastTooLate:
        return MapText::tr("late");
    case StaggerFault::PluckNotHeard:
        break;
    }
    return MapText::tr("silent");
}

QString damperWord(DampingFault fault) {
    switch (fault) {
    case DampingFault::NotAtAll:
        return MapText::tr("rings on");
    case DampingFault::Slow:
        return MapText::tr("slow");
    case DampingFault::Partial:
        return MapText::tr("partial");
    case DampingFault::Early:
        return MapText::tr("early");
    case DampingFault::Late:
        break;
    }
    return MapText::tr("late");
}

void ticksEvery(ActionMapPicture& picture, double step, const QString& form) {
    for (int i = 0; picture.low + i * step <= picture.high + 1e-9; ++i) {
        const double value = picture.low + i * step;
        QString figure = QLocale().toString(std::round(value));
        figure.replace(QLatin1Char('-'), QChar(0x2212));
        picture.ticks.push_back({value, form.arg(figure)});
    }
}

void drawEvenness(ActionMapPicture& picture, const EvennessReport& report) {
    picture.title =
        report.keys > 0 && !report.enough
            ? MapText::tr("Strength against the neighbours, dB: shown once more keys were heard")
            : MapText::tr("Strength against the neighbours, dB; the band is what nobody minds");
    picture.low = -kLevelReachDb;
    picture.high = kLevelReachDb;
    picture.bandLow = -kUnequalDb;
    picture.bandHigh = kUnequalDb;
    ticksEvery(picture, 6.0, QStringLiteral("%1"));
    for (const VoicePoint& point : report.curve(VoiceQuality::Strength).points) {
        ActionColumn& column = picture.columns[point.key];
        stand(column, point.count);
        column.marks.push_back({std::clamp(point.away, -kLevelReachDb, kLevelReachDb), 0});
        column.words = MapText::tr("%1 dB in strength, %2 plucks")
                           .arg(signedTenths(point.away))
                           .arg(point.count);
    }
    for (const VoiceFinding& finding : report.findings) {
        look(picture.columns[finding.key], voiceWord(finding));
    }
}

void drawDamping(ActionMapPicture& picture, const DampingMap& map) {
    picture.title = MapText::tr("Time until the string has stopped, ms");
    picture.low = 0.0;
    picture.high = 200.0;
    for (const DampingKey& key : map.keys) {
        picture.high = std::max(picture.high, 200.0 * std::ceil(key.stopSeconds * 5.0));
    }
    picture.high = std::min(picture.high, 3000.0);
    ticksEvery(picture, picture.high / 4.0, QStringLiteral("%1"));
    for (const DampingKey& key : map.keys) {
        ActionColumn& column = picture.columns[key.key];
        stand(column, key.count);
        if (key.undamped < key.count) {
            column.marks.push_back({std::min(1000.0 * key.stopSeconds, picture.high), 0});
            column.words = MapText::tr("%1 ms; usual %2 ms")
                               .arg(QLocale().toString(std::round(1000.0 * key.stopSeconds)),
                                    QLocale().toString(std::round(1000.0 * key.usualSeconds)));
        } else {
            column.marks.push_back({picture.high, 3});
            column.words = MapText::tr("no damper heard");
        }
    }
    for (const DampingFinding& finding : map.findings) {
        look(picture.columns[finding.key], damperWord(finding.fault));
    }
}

void drawStagger(ActionMapPicture& picture, const ActionModel& model, const StaggerMap& map) {
    picture.title = MapText::tr("Plucks as the key goes down slowly, ms after the first");
    double longest = 40.0;
    for (const StaggerKey& key : map.keys) {
        for (const auto& at : key.at) {
            longest = std::max(longest, at ? 1000.0 * *at : 0.0);
        }
    }
    // The first pluck stands at the top: the key goes down.
    picture.high = 0.0;
    picture.low = std::min(20.0 * std::ceil(longest / 20.0), 400.0);
    picture.zero = 0.0;
    for (int i = 0; i <= 4; ++i) {
        const double value = picture.low * i / 4.0;
        picture.ticks.push_back({value, QLocale().toString(std::round(value))});
    }
    for (const StaggerRow& row : map.rows) {
        picture.legend.push_back(registerName(model, row.reg));
    }
    for (const StaggerKey& key : map.keys) {
        ActionColumn& column = picture.columns[key.key];
        stand(column, key.presses);
        QStringList order;
        for (std::size_t row = 0; row < key.at.size(); ++row) {
            if (key.at[row]) {
                column.marks.push_back(
                    {std::min(1000.0 * *key.at[row], picture.low), static_cast<int>(row)});
            }
        }
        for (const std::size_t reg : key.order) {
            order << registerName(model, reg);
        }
        column.words = order.join(MapText::tr(", then "));
    }
    for (const StaggerFinding& finding : map.findings) {
        look(picture.columns[finding.key], staggerWord(finding.fault));
    }
}

void drawRepetition(ActionMapPicture& picture,
                    const std::map<std::size_t, RepetitionReading>& repeats) {
    picture.title = MapText::tr("Strokes that plucked, of ten");
    picture.low = 0.0;
    picture.high = 10.0;
    ticksEvery(picture, 5.0, QStringLiteral("%1"));
    for (const auto& [key, reading] : repeats) {
        ActionColumn& column = picture.columns[key];
        column.standing = ActionStanding::Fine;
        column.marks.push_back({std::min(10.0, static_cast<double>(reading.plucks.size())), 0});
        column.words = MapText::tr("%1 of %2, %3 a second")
                           .arg(reading.plucks.size())
                           .arg(reading.asked)
                           .arg(QLocale().toString(reading.usualRate, 'f', 1));
        if (reading.missed > 0) {
            look(column, reading.hangs ? MapText::tr("hangs") : MapText::tr("misses"));
        }
    }
}

} // namespace

ActionMapPicture actionMap(const ActionModel& model,
                           const ActionFindings& findings,
                           std::optional<std::size_t> chosen) {
    ActionMapPicture picture;
    if (!model.tuning().ready()) {
        return picture;
    }
    for (const Key& key : model.tuning().instrument().compass.keys) {
        picture.columns.push_back(columnOf(key));
    }
    switch (model.task()) {
    case ActionTask::Stagger:
        drawStagger(picture, model, findings.stagger);
        break;
    case ActionTask::Evenness:
        drawEvenness(picture, findings.evenness);
        break;
    case ActionTask::Dampers:
        drawDamping(picture, findings.damping);
        break;
    case ActionTask::Repetition:
        drawRepetition(picture, findings.repetition);
        break;
    }
    picture.heard = model.heardKey();
    picture.chosen = chosen;
    std::size_t heard = 0;
    QStringList toLookAt;
    for (const ActionColumn& column : picture.columns) {
        heard += column.standing != ActionStanding::NotHeard ? 1U : 0U;
        if (column.standing == ActionStanding::Look) {
            toLookAt << MapText::tr("%1 %2").arg(column.key.name, column.word);
        }
    }
    picture.description = MapText::tr("%1 of %2 keys heard. %3")
                              .arg(heard)
                              .arg(picture.columns.size())
                              .arg(toLookAt.isEmpty() ? MapText::tr("Nothing to look at.")
                                                      : toLookAt.join(MapText::tr(", ")));
    return picture;
}

} // namespace quillbench
