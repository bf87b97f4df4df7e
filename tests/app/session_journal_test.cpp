#include "app/models/session_inputs.hpp"
#include "app/models/session_journal.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <QDir>
#include <QStringList>
#include <QTemporaryDir>
#include <fstream>
#include <memory>

using namespace quillbench;
using namespace quillbench::test;

namespace {

/// A model and its journal, as the program has them at its start.
struct Desk {
    explicit Desk(const QTemporaryDir& folder, const SoundFacts& sound = {}) {
        QObject::connect(
            &journal, &SessionJournal::told, [this](const QString& text) { told << text; });
        chooseFirstOctave(model);
        journal.setSound(sound);
        const auto opened = journal.open(fileIn(folder));
        if (!opened) {
            FAIL(opened.error().text);
        }
    }

    static std::filesystem::path fileIn(const QTemporaryDir& folder) {
        return QDir(folder.path()).filePath(QStringLiteral("logbook.sqlite")).toStdString();
    }

    TuningModel model;
    SessionJournal journal{model};
    QStringList told;
};

LogbookContents contentsIn(const QTemporaryDir& folder) {
    const auto logbook = Logbook::open({Desk::fileIn(folder), false, {}});
    REQUIRE(logbook);
    CHECK(logbook->damages().empty());
    return logbook->contents().value();
}

void checkSame(const Session& a, const Session& b) {
    CHECK(a.current == b.current);
    CHECK(a.decisions == b.decisions);
    REQUIRE(a.progress.size() == b.progress.size());
    for (std::size_t step = 0; step < a.progress.size(); ++step) {
        CHECK(a.progress[step].state == b.progress[step].state);
        CHECK(a.progress[step].marks.size() == b.progress[step].marks.size());
        REQUIRE(a.progress[step].kept.has_value() == b.progress[step].kept.has_value());
        if (a.progress[step].kept) {
            CHECK(a.progress[step].kept->deviation == b.progress[step].kept->deviation);
        }
    }
}

} // namespace

TEST_CASE("a session is taken up where it was, to the last mark", "[ui]") {
    const QTemporaryDir folder;
    auto first = std::make_unique<Desk>(folder);
    CHECK_FALSE(first->journal.takeUp());
    TuningModel& model = first->model;
    settle(model, 0);
    settle(model, 1);
    model.hear(readingOf(model, 2, 4.0), Seconds(9));
    model.act(Accept{});
    model.act(Skip{});
    model.hear(readingOf(model, 4, -0.3), Seconds(12));
    settle(model, 5);
    model.undo();
    model.hear(readingOf(model, 1, 6.0), Seconds(20)); // it slipped
    const Session before = model.session();
    first.reset();

    Desk again(folder);
    REQUIRE(again.journal.takeUp());
    checkSame(again.model.session(), before);
    REQUIRE(again.told.size() == 1);
    CHECK(again.told[0].contains(QStringLiteral("of 13 strings done")));
    // It goes on in the same session.
    settle(again.model, 1);
    again.journal.settle();
    const LogbookContents contents = contentsIn(folder);
    REQUIRE(contents.sessions.size() == 1);
    CHECK(contents.sessions[0].kind == "first-octave");
    CHECK(contents.sessionEnds.empty());
    CHECK(contents.readings.size() ==
          5); // two settled, one accepted, one undone, one settled again
    const ReadingRecord& accepted = contents.readings[2];
    CHECK(accepted.deviationCents == Approx(4.0));
    CHECK(accepted.plucks == 1);
    CHECK(accepted.pitchHz ==
          Approx(accepted.targetHz * std::pow(2.0, 4.0 / 1200.0)).epsilon(1e-12));
    CHECK(contents.readings[0].plucks == 3);
    CHECK(contents.strings[static_cast<std::size_t>(accepted.string) - 1].choir == "8");
}

TEST_CASE("a session that is done, or of another choice, is not taken up", "[ui]") {
    const QTemporaryDir folder;
    {
        Desk desk(folder);
        settle(desk.model, 0);
        TuningChoice other = firstOctave();
        other.a4Hz = 392.0;
        REQUIRE(desk.model.choose(other)); // leaves the first session
        settle(desk.model, 0);
    }
    CHECK(contentsIn(folder).sessionEnds.size() == 1);
    {
        Desk desk(folder); // at 415 again
        CHECK_FALSE(desk.journal.takeUp());
        for (std::size_t step = 0; step < 13; ++step) {
            settle(desk.model, step);
        }
        CHECK_FALSE(desk.model.session().asked());
    }
    Desk desk(folder);
    CHECK_FALSE(desk.journal.takeUp());
    CHECK(desk.model.session().countOf(StepState::Settled) == 0);
    desk.journal.settle();
    const LogbookContents contents = contentsIn(folder);
    CHECK(contents.sessions.size() == 3);
    REQUIRE(contents.sessionEnds.size() == 2);
    CHECK(contents.sessionEnds[0].how == "left");
    CHECK(contents.sessionEnds[1].how == "done");
}

TEST_CASE("what was tuned on the virtual instrument is not taken up on a real one", "[ui]") {
    const QTemporaryDir folder;
    SoundFacts virtualSound;
    virtualSound.virtualInstrument = true;
    {
        Desk desk(folder, virtualSound);
        settle(desk.model, 0);
        desk.journal.setSound({}); // the microphone: other strings
        CHECK(desk.model.session().countOf(StepState::Settled) == 0);
    }
    Desk desk(folder);
    CHECK_FALSE(desk.journal.takeUp());
}

TEST_CASE("keys that were looked at alone begin no session", "[ui]") {
    const QTemporaryDir folder;
    {
        Desk desk(folder);
        desk.model.act(GoTo{3, FrameIndex()});
        desk.model.act(Pause{});
        StringReading nothing;
        desk.model.hear(nothing, Seconds(1));
    }
    CHECK(contentsIn(folder).sessions.empty());
}

TEST_CASE("a damaged logbook is repaired at the start and that is told", "[ui]") {
    const QTemporaryDir folder;
    {
        Desk desk(folder);
        settle(desk.model, 0);
        settle(desk.model, 1);
    }
    const auto file = Desk::fileIn(folder);
    std::fstream bytes(file, std::ios::in | std::ios::out | std::ios::binary);
    std::string all((std::istreambuf_iterator<char>(bytes)), std::istreambuf_iterator<char>());
    const auto at = all.find("tolerance_cents");
    REQUIRE(at != std::string::npos);
    bytes.clear();
    bytes.seekp(static_cast<std::streamoff>(at));
    bytes << 'T';
    bytes.close();
    Desk desk(folder);
    REQUIRE(desk.told.size() == 1);
    CHECK(desk.told[0].contains(QStringLiteral("1 readings were saved")));
    REQUIRE(desk.journal.takeUp());
    CHECK(desk.model.session().countOf(StepState::Settled) == 2);
}

TEST_CASE("a logbook that cannot be opened is said, and tuning goes on", "[ui]") {
    const QTemporaryDir folder;
    std::ofstream(Desk::fileIn(folder)) << std::string(4096, 'x');
    TuningModel model;
    chooseFirstOctave(model);
    SessionJournal journal(model);
    const auto opened = journal.open(Desk::fileIn(folder));
    REQUIRE_FALSE(opened);
    CHECK(opened.error().text.find("logbook.sqlite") != std::string::npos);
    CHECK_FALSE(journal.takeUp());
    settle(model, 0);
    CHECK(model.session().countOf(StepState::Settled) == 1);
    CHECK(journal.state().asked == 0);
}

TEST_CASE("what happens while the logbook is being opened is kept", "[ui]") {
    const QTemporaryDir folder;
    {
        TuningModel model;
        SessionJournal journal{model};
        chooseFirstOctave(model);
        QStringList opened;
        QObject::connect(&journal, &SessionJournal::opened, [&opened](const QString& trouble) {
            opened << trouble;
        });
        journal.openInBackground(Desk::fileIn(folder));
        settle(model, 0);
        CHECK(journal.file().empty());
        journal.settle();
        CHECK(opened == QStringList{QString()});
        CHECK(journal.file() == Desk::fileIn(folder));
        CHECK_FALSE(journal.takeUp()); // a session was begun in the meantime
        settle(model, 1);
        journal.settle();
    }
    {
        TuningModel model;
        SessionJournal journal{model};
        chooseFirstOctave(model);
        journal.openInBackground(Desk::fileIn(folder));
        model.act(GoBy{Way::ByEar}); // no session yet
        journal.settle();
        REQUIRE(journal.takeUp());
        CHECK(model.session().countOf(StepState::Settled) == 2);
        CHECK(model.session().way == Way::ByMeter);
    }
    const LogbookContents contents = contentsIn(folder);
    CHECK(contents.sessions.size() == 1);
    CHECK(contents.readings.size() == 2);
}

TEST_CASE("a logbook that cannot be opened in the background says why", "[ui]") {
    const QTemporaryDir folder;
    TuningModel model;
    SessionJournal journal{model};
    chooseFirstOctave(model);
    QStringList opened;
    QObject::connect(&journal, &SessionJournal::opened, [&opened](const QString& trouble) {
        opened << trouble;
    });
    journal.openInBackground(std::filesystem::path(folder.path().toStdString()));
    settle(model, 0);
    journal.settle();
    REQUIRE(opened.size() == 1);
    CHECK_FALSE(opened.front().isEmpty());
    CHECK(journal.file().empty());
}

TEST_CASE("a session is taken up with the options it was begun with; the next has those wanted now",
          "[ui]") {
    const QTemporaryDir folder;
    const auto choiceWith = [](const SessionOptions& options) {
        TuningChoice choice = firstOctave();
        choice.extent = Extent::Whole;
        choice.parts = SessionParts{false, false, false, false};
        choice.options = options;
        return choice;
    };
    SessionOptions then;
    then.leftAlone = QStringList{QStringLiteral("4")};
    then.approach = Approach::FromBelow;
    then.outward = Outward::ByTurns;
    std::optional<Session> before;
    const auto deskWith = [&](const SessionOptions& options) {
        auto desk = std::make_unique<Desk>(folder);
        desk->journal.close();
        desk->model.setOptionsOfNext(options);
        REQUIRE(desk->model.choose(choiceWith(options)));
        REQUIRE(desk->journal.open(Desk::fileIn(folder)));
        return desk;
    };
    {
        const auto desk = deskWith(then);
        settle(desk->model, 0);
        before = desk->model.session();
    }
    const auto again = deskWith(SessionOptions{});
    REQUIRE(again->journal.takeUp());
    CHECK(again->model.choice().options == then);
    CHECK(again->model.session().plan->approach == Approach::FromBelow);
    checkSame(again->model.session(), *before);
    REQUIRE(again->told.size() == 1);
    REQUIRE(again->model.chooseAgain());
    CHECK(again->told.last().isEmpty()); // nothing is gone on with any more
    CHECK(again->model.choice().options == SessionOptions{});
    CHECK(again->model.session().progress.size() > before->progress.size());
}

TEST_CASE("options as usual leave the text of a session's inputs as it was before there were any",
          "[ui]") {
    TuningChoice choice = firstOctave();
    CHECK(inputsOf(choice, false).find("options") == std::string::npos);
    choice.options.felt = true;
    choice.options.leftAlone = QStringList{QStringLiteral("4")};
    choice.options.outward = Outward::UpThenDown;
    choice.options.tolerances.unisons = Cents(0.4);
    CHECK(optionsIn(inputsOf(choice, true)) == choice.options);
    // Whatever was written into a file from elsewhere: in the range that the window offers.
    CHECK(optionsIn(R"({"options":{"bearings_cents":90}})").tolerances.bearings == Cents(5.0));
    CHECK(optionsIn("no JSON") == SessionOptions{});
}
