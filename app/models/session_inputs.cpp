#include "app/models/session_inputs.hpp"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

constexpr QLatin1String kA4("a4_hz");
constexpr QLatin1String kAfterLook("after_look");
constexpr QLatin1String kStandard("standard_hz");
constexpr QLatin1String kFound("found"); // each string: choir, course, cents, uncertainty in cents
constexpr QLatin1String kOptions("options");
constexpr QLatin1String kLeftAlone("left_alone");
constexpr QLatin1String kOutward("outward");
constexpr QLatin1String kApproach("approach");
constexpr QLatin1String kBearings("bearings_cents");
constexpr QLatin1String kExtremes("extremes_cents");
constexpr QLatin1String kUnisons("unisons_cents");
constexpr QLatin1String kFelt("felt");
constexpr QLatin1String kDownThenUp("down-then-up");
constexpr QLatin1String kUpThenDown("up-then-down");
constexpr QLatin1String kByTurns("by-turns");
constexpr QLatin1String kSettleDown("settle-down");
constexpr QLatin1String kFromBelow("from-below");

QJsonObject jsonOf(const SessionOptions& options) {
    return {{kLeftAlone, QJsonArray::fromStringList(options.leftAlone)},
            {kOutward,
             options.outward == Outward::UpThenDown ? kUpThenDown
             : options.outward == Outward::ByTurns  ? kByTurns
                                                    : kDownThenUp},
            {kApproach, options.approach == Approach::FromBelow ? kFromBelow : kSettleDown},
            {kBearings, options.tolerances.bearings.value()},
            {kExtremes, options.tolerances.extremes.value()},
            {kUnisons, options.tolerances.unisons.value()},
            {kFelt, options.felt}};
}

QJsonObject jsonOf(const AfterLook& look) {
    QJsonArray found;
    for (const FoundString& one : look.found) {
        found.append(QJsonArray{static_cast<qint64>(one.string.choir),
                                static_cast<qint64>(one.string.course),
                                one.deviation.value(),
                                one.uncertainty.value()});
    }
    return {{kStandard, look.standardHz}, {kFound, found}};
}

Cents toleranceIn(const QJsonObject& json, QLatin1String name, Cents usual) {
    return Cents(std::clamp(
        json.value(name).toDouble(usual.value()), kLeastToleranceCents, kMostToleranceCents));
}

constexpr double kSameHz = 1e-6;

} // namespace

std::string inputsOf(const TuningChoice& choice, bool virtualInstrument) {
    const SessionParts& parts = choice.parts;
    QJsonObject json{{QStringLiteral("run_through"), parts.runThrough},
                     {QStringLiteral("warm_up"), parts.warmUp},
                     {QStringLiteral("first_look"), parts.firstLook},
                     {QStringLiteral("recheck"), parts.recheck},
                     {QStringLiteral("position"), choice.position},
                     {QStringLiteral("instrument"), choice.instrument},
                     {QStringLiteral("choir"), choice.choir},
                     {QStringLiteral("temperament"), choice.temperament},
                     {kA4, choice.a4Hz},
                     {QStringLiteral("lowest"), choice.lowest},
                     {QStringLiteral("order"),
                      choice.order == StepOrder::Chromatic ? QStringLiteral("chromatic")
                                                           : QStringLiteral("from-a")},
                     {QStringLiteral("virtual"), virtualInstrument}};
    if (!(choice.options == SessionOptions{})) {
        json.insert(kOptions, jsonOf(choice.options));
    }
    if (choice.afterLook) {
        json.insert(kAfterLook, jsonOf(*choice.afterLook));
    }
    return QJsonDocument(json).toJson(QJsonDocument::Compact).toStdString();
}

SessionOptions optionsIn(const std::string& inputs) {
    SessionOptions options;
    const QJsonObject json = QJsonDocument::fromJson(QByteArray::fromStdString(inputs))
                                 .object()
                                 .value(kOptions)
                                 .toObject();
    const QJsonArray leftAlone = json.value(kLeftAlone).toArray();
    for (const auto& choir : leftAlone) {
        options.leftAlone << choir.toString();
    }
    const QString outward = json.value(kOutward).toString();
    options.outward = outward == kUpThenDown ? Outward::UpThenDown
                      : outward == kByTurns  ? Outward::ByTurns
                                             : Outward::DownThenUp;
    options.approach =
        json.value(kApproach).toString() == kFromBelow ? Approach::FromBelow : Approach::SettleDown;
    Tolerances& tolerances = options.tolerances;
    tolerances.bearings = toleranceIn(json, kBearings, tolerances.bearings);
    tolerances.extremes = toleranceIn(json, kExtremes, tolerances.extremes);
    tolerances.unisons = toleranceIn(json, kUnisons, tolerances.unisons);
    options.felt = json.value(kFelt).toBool(options.felt);
    return options;
}

TuningChoice withPitchIn(const std::string& inputs, TuningChoice choice) {
    const QJsonObject json = QJsonDocument::fromJson(QByteArray::fromStdString(inputs)).object();
    const QJsonObject after = json.value(kAfterLook).toObject();
    AfterLook look;
    look.standardHz = after.value(kStandard).toDouble();
    if (std::abs(look.standardHz - choice.a4Hz) > kSameHz) {
        return choice;
    }
    const QJsonArray found = after.value(kFound).toArray();
    look.found.reserve(static_cast<std::size_t>(found.size()));
    for (const auto& item : found) {
        const QJsonValue one = item;
        const auto whole = [&one](qsizetype at) {
            return static_cast<std::size_t>(std::max(one[at].toInt(), 0));
        };
        look.found.push_back(
            {{whole(0), whole(1)}, Cents(one[2].toDouble()), Cents(one[3].toDouble())});
    }
    choice.a4Hz = json.value(kA4).toDouble();
    choice.afterLook = std::move(look);
    return choice;
}

} // namespace quillbench
