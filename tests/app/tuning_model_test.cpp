#include "app/formats/temperament_file.hpp"
#include "app/models/tuning_model.hpp"
#include "app/text/guidance_text.hpp"
#include "tests/app/tuning_at_hand.hpp"
#include "tests/support/temporary_folder.hpp"

#include <cmath>

using namespace quillbench;
using namespace quillbench::test;

TEST_CASE("the model knows the targets of a whole choir and asks for the first key", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    REQUIRE(model.target());
    CHECK(model.target()->strings.size() == model.instrument().choirs[0].strings.size());
    CHECK(*model.target()->asked == model.session().plan->steps[0].string);
    // A3 is an octave below the standard in every temperament anchored on A.
    const auto a3 = stringOf(model.instrument(), 0, *parseNote("A3"));
    REQUIRE(a3);
    CHECK(model.targetOf(*a3).value() == Approx(207.5).epsilon(1e-9));
}

TEST_CASE("a choice that cannot be leaves the session as it is", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    settle(model, 0);
    TuningChoice wrong = firstOctave();
    wrong.temperament = QStringLiteral("none-such");
    const auto refused = model.choose(wrong);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().text.find("none-such") != std::string::npos);
    CHECK(model.session().countOf(StepState::Settled) == 1);
    wrong = firstOctave();
    wrong.a4Hz = 200.0;
    CHECK_FALSE(model.choose(wrong));
    wrong = firstOctave();
    wrong.choir = QStringLiteral("16");
    CHECK_FALSE(model.choose(wrong));
}

TEST_CASE("a settled string moves what is listened for to the next", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    int targets = 0;
    std::vector<StepState> states;
    QObject::connect(&model, &TuningModel::targetChanged, &model, [&] { ++targets; });
    QObject::connect(&model, &TuningModel::stepChanged, &model, [&](std::size_t, StepState state) {
        states.push_back(state);
    });
    settle(model, 0);
    CHECK(targets == 1);
    CHECK(states == std::vector<StepState>{StepState::Working, StepState::Settled});
    CHECK(*model.target()->asked == model.session().plan->steps[1].string);
    model.undo();
    CHECK(*model.target()->asked == model.session().plan->steps[0].string);
}

TEST_CASE("the clock is part of every uncertainty", "[ui]") {
    TuningModel model;
    // 50 ppm are 0.0866 cent (closed form).
    model.setClock(ClockCalibration{0.0, 50.0});
    CHECK(model.withClock(Cents(0.0)).value() == Approx(0.0866).margin(1e-4));
    CHECK(model.withClock(Cents(0.2)).value() == Approx(std::hypot(0.2, 0.0866)).margin(1e-4));
}

TEST_CASE("the first sentence says which registers are on and which key to play", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    const QString sentence =
        sentenceFor(guide(model.session()), model.session(), model.instrument(), true);
    CHECK(sentence.contains(QStringLiteral("everything else off")));
    CHECK(sentence.endsWith(QStringLiteral("Play C3.")));
}

TEST_CASE("a flat string is asked down first, in words", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    model.hear(readingOf(model, 0, -18.0), Seconds(1));
    const QString sentence =
        sentenceFor(guide(model.session()), model.session(), model.instrument(), false);
    CHECK(sentence.contains(QStringLiteral("down by 2 to 5 cents")));
    CHECK_FALSE(sentence.contains(QStringLiteral("up")));
}

TEST_CASE("a pluck counts while it sounds, and once only when it has ended", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    AnalysisSnapshot snapshot;
    snapshot.sounding = true;
    snapshot.reading = readingOf(model, 3, -6.0);
    snapshot.reading->pluck = FrameIndex(4800);
    CHECK(model.provisional(&snapshot).current == 3);
    CHECK(model.provisional(&snapshot).progress[3].marks.size() == 1);
    CHECK(model.session().progress[3].marks.empty());
    model.hear(*snapshot.reading, Seconds(0.1));
    CHECK(model.provisional(&snapshot).progress[3].marks.size() == 1);
    snapshot.reading->standing = Standing::Weak;
    snapshot.reading->pluck = FrameIndex(96000);
    CHECK(model.provisional(&snapshot).progress[3].marks.size() == 1);
}

TEST_CASE("a keyboard that slides: A holds where it stands, strings keep their identity", "[ui]") {
    TuningModel model;
    TuningChoice choice = firstOctave();
    choice.instrument = QStringLiteral("single-8-8");
    REQUIRE(model.choose(choice));
    const auto a4 = [&] {
        return *stringOf(model.instrument(), 0, *parseNote("A4"), model.position());
    };
    const StringId asBuilt = a4();
    const StringId below = *stringOf(model.instrument(), 0, *parseNote("G#4"), 0);
    CHECK(model.targetOf(asBuilt).value() == Approx(415.0));
    // Vallotti tuned at 415 and moved up a semitone: reference table of pitches, a' = 441.17 Hz.
    REQUIRE(model.positions().size() == 2);
    CHECK(model.positions()[1].a4.value() == Approx(441.17).margin(0.005));

    choice.position = 1;
    choice.a4Hz = standardAfterSliding(415.0, 1);
    CHECK(choice.a4Hz == Approx(440.0));
    REQUIRE(model.choose(choice));
    CHECK(model.position() == 1);
    CHECK(a4().course == asBuilt.course + 1);
    CHECK(model.targetOf(a4()).value() == Approx(440.0));
    // The string that was A is now the string of G sharp, and stays within a comma of where it was.
    const double moved = interval(Hertz(415.0), model.targetOf(asBuilt)).value();
    CHECK(std::abs(moved) < 12.0);
    CHECK(below.course + 1 == asBuilt.course);
}

TEST_CASE("a position that an instrument does not have gives way to the one as built", "[ui]") {
    TuningModel model;
    TuningChoice choice = firstOctave();
    choice.position = 1;
    REQUIRE(model.choose(choice));
    CHECK(model.position() == 0);
    CHECK(model.choice().position == 0);
}

TEST_CASE("the standard of a sliding keyboard is one in use, or the exact semitone", "[ui]") {
    CHECK(standardAfterSliding(415.0, -1) == Approx(392.0));
    CHECK(standardAfterSliding(440.0, -1) == Approx(415.0));
    CHECK(standardAfterSliding(421.0, 1) == Approx(421.0 * std::exp2(1.0 / 12.0)));
}

TEST_CASE("what is listened for follows a string that is brought from far away", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    model.hear(readingOf(model, 3, 40.0), Seconds(0));
    CHECK(model.target()->askedLast == Cents(40.0));
    model.hear(readingOf(model, 3, 12.0), Seconds(1));
    CHECK_FALSE(model.target()->askedLast);
    CHECK_FALSE(model.target()->askedMayBeFar);
}

TEST_CASE("keys are named as the temperament spells them, and as built where it has no wolf",
          "[ui]") {
    const TemporaryFolder folder;
    const std::string file = (folder.path() / "sharp.json").string();
    const std::vector<Tempering> quarters(11, *parseTempering("-1/4S"));
    TemperamentDescription about;
    about.id = about.name = "sharp";
    const auto made = Temperament::fromFifths(about, PitchClass{Letter::B, -1}, quarters);
    REQUIRE(made);
    REQUIRE(writeTemperamentFile(file, TemperamentFile{*made, {}}));
    TuningModel model;
    TuningChoice choice = firstOctave();
    const auto nameOfThird = [&model] { return toAscii(model.session().plan->steps[3].note); };
    REQUIRE(model.choose(choice));
    CHECK(nameOfThird() == "Eb3");
    choice.temperament = QString::fromStdString(file);
    REQUIRE(model.choose(choice));
    CHECK(nameOfThird() == "D#3");
    CHECK(toAscii(keyNote(model.instrument(), model.session().plan->steps[3].string)) == "D#3");
    CHECK(toAscii(keyNote(model.instrumentAsBuilt(), model.session().plan->steps[3].string)) ==
          "Eb3");
    choice.temperament = QStringLiteral("vallotti");
    REQUIRE(model.choose(choice, model.instrumentAsBuilt()));
    CHECK(nameOfThird() == "Eb3");
}

TEST_CASE("the string that is kept is the one that is shown, also while it sounds", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    AnalysisSnapshot snapshot;
    snapshot.sounding = true;
    snapshot.reading = readingOf(model, 3, -6.0);
    snapshot.reading->pluck = FrameIndex(4800);
    REQUIRE(model.session().current == 0);
    model.keepShown(&snapshot);
    CHECK(model.session().progress[3].state == StepState::Kept);
    CHECK(model.session().progress[0].state == StepState::Untouched);
    // Its last word changes nothing.
    model.hear(*snapshot.reading, Seconds(0.1));
    CHECK(model.session().progress[3].state == StepState::Kept);
    CHECK(model.session().progress[3].kept->deviation.value() == Approx(-6.0));
    // With nothing sounding it is the session's own string.
    model.hear(readingOf(model, 5, 2.0), Seconds(1));
    model.keepShown(nullptr);
    CHECK(model.session().progress[5].state == StepState::Kept);
}
