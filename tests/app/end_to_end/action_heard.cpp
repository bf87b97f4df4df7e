// What the place Action names in recordings of a keyboard that is played, as the window would, without a screen and
// without waiting: one sitting at the built-in double, line by line as on its worksheet, each a JSON object.
//     action_heard TASK REGISTERS FILE [REGISTERS FILE]...
// TASK: stagger, evenness, dampers, repetition. REGISTERS: those that are on, "0,2"; with "moved:" before them the
// microphone stands half a metre aside. The first line is what is said of the whole register.
#include "app/places/action/action_model.hpp"
#include "app/places/action/action_text.hpp"
#include "audio/analysis_engine.hpp"
#include "audio/file_source.hpp"

#include <QCoreApplication>
#include <QJsonDocument>
#include <QJsonObject>
#include <QStringList>
#include <cstdio>
#include <memory>
#include <optional>
#include <utility>
#include <variant>

using namespace quillbench;

namespace {

constexpr double kLook = 0.033; // s: as often as the window's timer
constexpr char kMoved[] = "moved:";

std::optional<ActionTask> taskNamed(const QString& name) {
    const QStringList names{QStringLiteral("stagger"),
                            QStringLiteral("evenness"),
                            QStringLiteral("dampers"),
                            QStringLiteral("repetition")};
    const auto found = names.indexOf(name);
    return found < 0 ? std::nullopt : std::optional(static_cast<ActionTask>(found));
}

Registration drawn(const QString& numbers) {
    Registration registration;
    registration.coupled = true;
    for (const QString& number : numbers.split(QLatin1Char(','))) {
        registration.on.set(number.toUInt());
    }
    return registration;
}

void tell(ActionModel& model, AnalysisEngine& engine) {
    for (const EngineEvent& event : engine.drainEvents()) {
        if (const auto* reading = std::get_if<StringReading>(&event)) {
            model.hear(*reading);
        }
    }
    model.waitForPresses();
    if (const auto snapshot = engine.snapshot()) {
        model.advance(*snapshot);
    }
}

/// False where the file cannot be read.
bool hearFile(ActionModel& model, const QString& path) {
    auto file = FileSource::open(path.toStdString(), Pace::AsTaken);
    if (!file) {
        std::fprintf(stderr, "%s\n", file.error().text.c_str());
        return false;
    }
    const std::shared_ptr<FileSource> source = std::move(*file);
    AnalysisEngine engine(source);
    engine.setTarget(model.target());
    model.sourceChanged();
    model.setSound([&engine](FrameIndex from, FrameIndex to) { return engine.sound(from, to); });
    const FrameCount look = source->sampleRate().frames(Seconds(kLook));
    while (engine.advance(look).value() > 0) {
        tell(model, engine);
    }
    tell(model, engine);
    model.setSound({});
    return true;
}

void print(const QJsonObject& line) {
    std::puts(QJsonDocument(line).toJson(QJsonDocument::Compact).constData());
}

int hearAll(TuningModel& tuning, ActionTask task, const QStringList& words) {
    ActionModel model(tuning);
    model.choose(task);
    for (qsizetype i = 0; i + 1 < words.size(); i += 2) {
        const bool moved = words[i].startsWith(QLatin1String(kMoved));
        model.setMicrophoneMoved(moved);
        tuning.draw(drawn(moved ? words[i].mid(sizeof(kMoved) - 1) : words[i]));
        if (!hearFile(model, words[i + 1])) {
            return 3;
        }
    }
    const ActionFindings findings = findingsOf(model);
    print({{QStringLiteral("whole"), wholeText(model, findings)}});
    for (const ActionJob& job : jobsOf(model, findings)) {
        print({{QStringLiteral("key"), static_cast<int>(job.key)},
               {QStringLiteral("id"), job.id},
               {QStringLiteral("what"), job.what}});
    }
    return 0;
}

} // namespace

int main(int count, char** words) {
    const QCoreApplication application(count, words);
    const QStringList given = QCoreApplication::arguments().mid(1);
    const auto task = taskNamed(given.value(0));
    if (!task || given.size() < 3 || given.size() % 2 == 0) {
        std::fprintf(stderr,
                     "action_heard TASK REGISTERS FILE [REGISTERS FILE]...: see its source\n");
        return 2;
    }
    TuningModel tuning;
    TuningChoice choice;
    choice.instrument = QStringLiteral("double-8-8-4");
    choice.choir = QStringLiteral("8");
    choice.temperament = QStringLiteral("vallotti");
    choice.lowest = QStringLiteral("C3");
    if (const auto chosen = tuning.choose(choice); !chosen) {
        std::fprintf(stderr, "%s\n", chosen.error().text.c_str());
        return 3;
    }
    return hearAll(tuning, *task, given.mid(1));
}
