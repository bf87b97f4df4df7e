#include "app/models/reading_log.hpp"

#include "app/formats/reading_names.hpp"
#include "app/text/format.hpp"

#include <QDateTime>
#include <QJsonArray>
#include <QJsonDocument>

namespace quillbench {

namespace {

constexpr int kSchema = 1;

QString standingName(Standing standing) {
    switch (standing) {
    case Standing::Ok:
        return QStringLiteral("ok");
    case Standing::Weak:
        return QStringLiteral("weak");
    case Standing::Nothing:
        return QStringLiteral("nothing");
    }
    return {};
}

QString phaseName(EnginePhase phase) {
    switch (phase) {
    case EnginePhase::Idle:
        return QStringLiteral("idle");
    case EnginePhase::Starting:
        return QStringLiteral("starting");
    case EnginePhase::Running:
        return QStringLiteral("running");
    case EnginePhase::Silent:
        return QStringLiteral("silent");
    case EnginePhase::Lost:
        return QStringLiteral("lost");
    case EnginePhase::Recovering:
        return QStringLiteral("recovering");
    case EnginePhase::Ended:
        return QStringLiteral("ended");
    case EnginePhase::Failed:
        return QStringLiteral("failed");
    }
    return {};
}

} // namespace

ReadingLog::ReadingLog(const TuningModel& tuning, LiveModel& live, QObject* parent)
    : QObject(parent),
      tuning_(tuning),
      live_(live) {
    connect(&live_, &LiveModel::readingFinished, this, &ReadingLog::writeReading);
    connect(&live_, &LiveModel::stateChanged, this, &ReadingLog::writeSource);
    connect(&live_, &LiveModel::gapHeard, this, [this] {
        write({{QStringLiteral("kind"), QStringLiteral("gap")}});
    });
    connect(&tuning_, &TuningModel::stepChanged, this, &ReadingLog::writeStep);
}

ReadingLog::~ReadingLog() {
    const LiveModel::Frames frames = live_.frames();
    write({{QStringLiteral("kind"), QStringLiteral("frames")},
           {QStringLiteral("shown"), static_cast<qint64>(frames.shown)},
           {QStringLiteral("late"), static_cast<qint64>(frames.late)},
           {QStringLiteral("busiest_ms"), static_cast<qint64>(frames.busiest.count())}});
}

Result<void> ReadingLog::open(const QString& path) {
    file_.setFileName(path);
    if (!file_.open(QIODevice::WriteOnly | QIODevice::Truncate)) {
        return failure(ErrorCode::Environment,
                       path.toStdString() + " cannot be written: " +
                           file_.errorString().toStdString() + "; choose another place");
    }
    return {};
}

void ReadingLog::write(QJsonObject line) {
    if (!file_.isOpen()) {
        return;
    }
    line[QStringLiteral("schema")] = kSchema;
    line[QStringLiteral("line")] = ++lines_;
    line[QStringLiteral("time")] = QDateTime::currentDateTimeUtc().toString(Qt::ISODateWithMs);
    file_.write(QJsonDocument(line).toJson(QJsonDocument::Compact) + '\n');
    file_.flush();
}

void ReadingLog::writeReading(const StringReading& reading) {
    QJsonObject line;
    line[QStringLiteral("kind")] = QStringLiteral("reading");
    line[QStringLiteral("status")] = standingName(reading.standing);
    line[QStringLiteral("pluck_s")] = rate_.duration(reading.pluck - FrameIndex(0)).count();
    line[QStringLiteral("pluck_frame")] = static_cast<qint64>(reading.pluck.value());
    line[QStringLiteral("used_s")] = reading.used.count();
    if (reading.standing != Standing::Nothing && tuning_.ready()) {
        const Instrument& instrument = tuning_.instrument();
        line[QStringLiteral("choir")] = toQString(instrument.choirs[reading.string.choir].id);
        line[QStringLiteral("note")] =
            toQString(toAscii(keyNote(instrument, reading.string, tuning_.position())));
        line[QStringLiteral("target_hz")] = reading.target.value();
        line[QStringLiteral("pitch_hz")] = reading.pitch.value();
        line[QStringLiteral("pitch_hz_u")] = reading.pitchUncertainty;
        line[QStringLiteral("deviation_cents")] = reading.deviation.value();
        line[QStringLiteral("deviation_cents_u")] =
            tuning_.withClock(reading.deviationUncertainty).value();
        line[QStringLiteral("start_cents")] = reading.startSharpness.value();
        line[QStringLiteral("inharmonicity")] = reading.inharmonicity;
    }
    QJsonArray warnings;
    for (const std::string& name : warningNames(reading)) {
        warnings.append(toQString(name));
    }
    line[QStringLiteral("warnings")] = warnings;
    write(line);
}

void ReadingLog::writeStep(std::size_t step, StepState state) {
    const TuningStep& one = tuning_.session().plan->steps[step];
    QJsonObject line;
    line[QStringLiteral("kind")] = QStringLiteral("step");
    line[QStringLiteral("state")] = toQString(stepStateName(state));
    line[QStringLiteral("choir")] = toQString(tuning_.instrument().choirs[one.string.choir].id);
    line[QStringLiteral("note")] = toQString(toAscii(one.note));
    if (const auto& kept = tuning_.session().progress[step].kept) {
        line[QStringLiteral("deviation_cents")] = kept->deviation.value();
        line[QStringLiteral("deviation_cents_u")] = kept->uncertainty.value();
    }
    write(line);
}

void ReadingLog::writeKept(std::size_t changes) {
    write({{QStringLiteral("kind"), QStringLiteral("kept")},
           {QStringLiteral("changes"), static_cast<qint64>(changes)}});
}

void ReadingLog::writeTakenUp(std::size_t done) {
    write({{QStringLiteral("kind"), QStringLiteral("taken-up")},
           {QStringLiteral("done"), static_cast<qint64>(done)}});
}

void ReadingLog::writePractise(const QString& phase,
                               const QString& lower,
                               const QString& upper,
                               int multiple) {
    write({{QStringLiteral("kind"), QStringLiteral("practise")},
           {QStringLiteral("phase"), phase},
           {QStringLiteral("lower"), lower},
           {QStringLiteral("upper"), upper},
           {QStringLiteral("multiple"), multiple}});
}

void ReadingLog::writeRecheck(std::size_t heard,
                              double wholeCents,
                              const QStringList& worthTheHammer,
                              const QStringList& withPitchMoved,
                              double movedCents) {
    write({{QStringLiteral("kind"), QStringLiteral("recheck")},
           {QStringLiteral("heard"), static_cast<qint64>(heard)},
           {QStringLiteral("whole_cents"), wholeCents},
           {QStringLiteral("short_list"), QJsonArray::fromStringList(worthTheHammer)},
           {QStringLiteral("with_pitch_moved"), QJsonArray::fromStringList(withPitchMoved)},
           {QStringLiteral("moved_cents"), movedCents}});
}

void ReadingLog::writeSource() {
    const EngineState& state = live_.state();
    QJsonObject line;
    line[QStringLiteral("kind")] = QStringLiteral("source");
    line[QStringLiteral("phase")] = phaseName(state.phase);
    if (state.error) {
        line[QStringLiteral("error")] = toQString(state.error->text);
    }
    write(line);
}

} // namespace quillbench
