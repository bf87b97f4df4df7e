#include "app/models/tuning_model.hpp"
#include "app/text/guidance_text.hpp"
#include "tests/app/tuning_at_hand.hpp"

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
