#include "app/models/picture_maker.hpp"
#include "tests/app/tuning_at_hand.hpp"

using namespace quillbench;
using namespace quillbench::test;

namespace {

AnalysisSnapshot ringing(const StringReading& reading) {
    AnalysisSnapshot snapshot;
    snapshot.sounding = true;
    snapshot.reading = reading;
    return snapshot;
}

} // namespace

TEST_CASE("a deviation is shown to a tenth of a cent with its uncertainty, sign and word", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    const AnalysisSnapshot snapshot = ringing(readingOf(model, 0, -2.44));
    const FiguresPicture picture = figuresPicture(model, model.provisional(&snapshot), &snapshot);
    CHECK(picture.note == QStringLiteral("C3"));
    CHECK(picture.deviation == QStringLiteral("\u22122.4"));
    CHECK(picture.words == QStringLiteral("\u00b1 0.1 cents, flat"));
}

TEST_CASE("nothing heard is said, not shown as zero", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    const FiguresPicture picture = figuresPicture(model, model.provisional(nullptr), nullptr);
    CHECK(picture.deviation.isEmpty());
    CHECK(picture.words == QStringLiteral("not heard yet"));
    CHECK_FALSE(wiresPicture(model, model.provisional(nullptr), nullptr).sounding);
}

TEST_CASE("the figures follow the key that sounds, not the one asked for", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    const AnalysisSnapshot snapshot = ringing(readingOf(model, 4, 7.0));
    CHECK(figuresPicture(model, model.provisional(&snapshot), &snapshot).note ==
          QStringLiteral("E3"));
    CHECK(heardKey(model, &snapshot) == model.session().plan->steps[4].key);
}

TEST_CASE("a knot closes the wires of a settled string, and opens when it is heard elsewhere",
          "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    settle(model, 0);
    const WiresPicture tied = wiresPicture(model, model.provisional(nullptr), nullptr);
    CHECK(tied.knotted);
    CHECK(tied.marks.size() == 3);
    CHECK(tied.description.contains(QStringLiteral("settled")));
    const AnalysisSnapshot away = ringing(readingOf(model, 0, 4.0));
    CHECK_FALSE(wiresPicture(model, model.provisional(&away), &away).knotted);
}

TEST_CASE("a string that is kept away from its target is not tied to it", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    model.hear(readingOf(model, 0, -20.0), Seconds(1));
    const std::size_t step = model.session().current;
    model.act(Accept{});
    REQUIRE(model.session().progress[step].state == StepState::Kept);
    model.act(GoTo{step, FrameIndex(0)});
    const WiresPicture kept = wiresPicture(model, model.provisional(nullptr), nullptr);
    REQUIRE(kept.sounding);
    CHECK(kept.sounding->deviation.value() == Approx(-20.0).margin(0.1));
    CHECK_FALSE(kept.knotted);
    CHECK_FALSE(kept.description.contains(QStringLiteral("settled")));
}

TEST_CASE("the keyboard has a lane for each choir and states only where the session is", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    settle(model, 0);
    const KeyboardPicture picture = keyboardPicture(model, model.provisional(nullptr), nullptr);
    REQUIRE(picture.lanes.size() == model.instrument().choirs.size());
    const std::size_t first = model.session().plan->steps[0].key;
    CHECK(picture.lanes[0].states[first] == StepState::Settled);
    CHECK(picture.lanes[0].states[first + 1] == StepState::Untouched);
    CHECK_FALSE(picture.lanes[0].states[first - 1].has_value());
    CHECK_FALSE(picture.lanes[1].states[first].has_value());
    CHECK(picture.asked == first + 1);
}

TEST_CASE("a string pulled above its ceiling is shown as danger", "[ui]") {
    TuningModel model;
    chooseFirstOctave(model);
    model.hear(readingOf(model, 0, -4.0), Seconds(1));
    model.hear(readingOf(model, 0, 14.0), Seconds(2));
    CHECK(wiresPicture(model, model.provisional(nullptr), nullptr).danger);
    CHECK(figuresPicture(model, model.provisional(nullptr), nullptr).danger);
}
