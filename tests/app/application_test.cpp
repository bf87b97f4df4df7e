#include "app/application.hpp"
#include "audio/recorder.hpp"
#include "core/virtual/virtual_instrument.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <QApplication>
#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QLabel>
#include <QTemporaryDir>
#include <functional>

using namespace quillbench;
using namespace quillbench::test;

namespace {

constexpr double kRate = 16000.0; // little to hear, so that a slow build keeps up

/// Lets the window live until something is so, or for `seconds` at most.
bool comesTrue(const std::function<bool()>& what, double seconds) {
    QElapsedTimer timer;
    timer.start();
    while (!what() && timer.elapsed() < static_cast<qint64>(seconds * 1000.0)) {
        QApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents, 50);
    }
    return what();
}

/// A recording of one pluck of a key of the virtual instrument, that key `cents` off its target.
void recordPluck(const QString& path, const Note& note, Cents off) {
    TuningModel model;
    chooseFirstOctave(model);
    VirtualSettings settings = mistuned(model, SampleRate(kRate), 3, Cents(5.0));
    const auto string = stringOf(model.instrument(), 0, note);
    REQUIRE(string);
    settings.pitches[0][string->course] = transpose(model.targetOf(*string), off);
    const auto solo = soloRegister(model.instrument(), 0);
    REQUIRE(solo);
    settings.registersOn.assign(model.instrument().registers.size(), false);
    settings.registersOn[*solo] = true;
    VirtualInstrument instrument(model.instrument(), settings);
    VirtualCommand down;
    down.at = FrameIndex(static_cast<std::int64_t>(kRate / 2.0));
    down.manual = model.instrument().registers[*solo].manual;
    down.key = *keyOf(model.instrument().compass, note);
    REQUIRE(instrument.apply(down));
    std::vector<float> samples(static_cast<std::size_t>(kRate * 3.5));
    instrument.render(samples);
    auto recorder = Recorder::begin(path.toStdString(), SampleRate(kRate));
    REQUIRE(recorder);
    constexpr std::size_t kBlock = 4000;
    for (std::size_t at = 0; at < samples.size(); at += kBlock) {
        (*recorder)->push(SoundBlock{FrameIndex(static_cast<std::int64_t>(at)),
                                     std::span(samples).subspan(at, kBlock),
                                     false});
    }
    REQUIRE((*recorder)->finish());
}

LaunchOptions optionsIn(const QTemporaryDir& folder) {
    LaunchOptions options;
    options.settingsFolder = folder.path();
    options.instrument = QStringLiteral("double-8-8-4");
    options.choir = QStringLiteral("8");
    options.temperament = QStringLiteral("vallotti");
    return options;
}

} // namespace

TEST_CASE("a recording is heard through the engine: its key is followed and its pitch shown",
          "[ui]") {
    const QTemporaryDir folder;
    const QString file = QDir(folder.path()).filePath(QStringLiteral("g3.flac"));
    recordPluck(file, *parseNote("G3"), Cents(-6.0));
    LaunchOptions options = optionsIn(folder);
    options.source = SourceChoice{SourceKind::File, {}, file};
    options.readingsFile = QDir(folder.path()).filePath(QStringLiteral("heard.jsonl"));
    {
        Application application(options);
        REQUIRE(application.begin());
        REQUIRE(
            comesTrue([&] { return !application.tuning().session().here().marks.empty(); }, 120.0));
        const Session& session = application.tuning().session();
        CHECK(toAscii(session.step().note) == "G3");
        // The rest pitch is 6 cents flat; the sustain pitch lies within a cent above it.
        CHECK(session.here().marks.back().deviation.value() == Approx(-5.5).margin(1.0));
        const auto* note = application.window().findChild<QLabel*>(QStringLiteral("note"));
        REQUIRE(note != nullptr);
        CHECK(note->text().toStdString() == "G3");
        // The timer rests when the recording has been heard to its end.
        CHECK(comesTrue([&] { return !application.live().running(); }, 120.0));
    }
    QFile log(options.readingsFile);
    REQUIRE(log.open(QIODevice::ReadOnly));
    const QByteArray lines = log.readAll();
    CHECK(lines.contains("\"kind\":\"reading\""));
    CHECK(lines.contains("\"note\":\"G3\""));
    CHECK(lines.contains("\"phase\":\"ended\""));
}

TEST_CASE("the last word on a pluck belongs to the place where it was plucked", "[ui]") {
    const QTemporaryDir folder;
    LaunchOptions options = optionsIn(folder);
    options.source = SourceChoice{SourceKind::Virtual, {}, {}};
    Application application(options);
    REQUIRE(application.begin());
    LiveModel& live = application.live();
    REQUIRE(comesTrue([&] { return live.heardUpTo() > FrameIndex(2); }, 60.0));
    StringReading reading = readingOf(application.tuning(), 0, 3.0);
    reading.pluck = FrameIndex(1);
    application.window().goToPlace(Place::Recheck);
    application.recheck().chooseChoir(reading.string.choir);
    REQUIRE(comesTrue([&] { return application.recheck().historyRead(); }, 60.0));
    Q_EMIT live.readingFinished(reading);
    CHECK(application.recheck().heardOfChoir() == 0);
    CHECK(application.tuning().session().here().marks.size() == 1);
    reading.pluck = live.heardUpTo() + FrameCount(1);
    Q_EMIT live.readingFinished(reading);
    CHECK(application.recheck().heardOfChoir() == 1);
    REQUIRE(comesTrue([&] { return live.heardUpTo() > reading.pluck; }, 60.0));
    application.window().goToPlace(Place::Tune);
    Q_EMIT live.readingFinished(reading); // of before, and the recheck is left
    CHECK(application.tuning().session().here().marks.size() == 1);
}

TEST_CASE("a source that cannot be read is refused before the window opens", "[ui]") {
    const QTemporaryDir folder;
    LaunchOptions options = optionsIn(folder);
    options.source = SourceChoice{SourceKind::File, {}, QStringLiteral("no-such.wav")};
    Application application(options);
    const auto begun = application.begin();
    REQUIRE_FALSE(begun);
    CHECK(begun.error().text.find("no-such.wav") != std::string::npos);
    CHECK_FALSE(application.window().isVisible());
}

TEST_CASE("options of a session count at once where nothing was done, else from the next one on",
          "[ui]") {
    const QTemporaryDir folder;
    Application program(optionsIn(folder));
    REQUIRE(program.begin());
    TuningChoice whole = firstOctave();
    whole.extent = Extent::Whole;
    whole.order = StepOrder::FromA;
    program.chooseTuning(whole);
    SessionOptions options;
    options.approach = Approach::FromBelow;
    program.chooseOptions(options);
    CHECK(program.tuning().session().plan->approach == Approach::FromBelow);
    program.tuning().act(Accept{});
    program.tuning().act(Skip{});
    options.approach = Approach::SettleDown;
    options.felt = true;
    program.chooseOptions(options);
    CHECK(program.tuning().session().plan->approach == Approach::FromBelow); // keeps its plan
    CHECK(SettingsStore(folder.path()).tuning().options == options);
    REQUIRE(program.tuning().chooseAgain());
    CHECK(program.tuning().session().plan->approach == Approach::SettleDown);
    // Choirs of one instrument say nothing of another's.
    options.leftAlone = QStringList{QStringLiteral("4")};
    program.chooseOptions(options);
    whole.instrument = QStringLiteral("single-8-8");
    program.chooseTuning(whole);
    CHECK(program.tuning().choice().options.leftAlone.isEmpty());
    CHECK(program.tuning().choice().options.felt);
}
