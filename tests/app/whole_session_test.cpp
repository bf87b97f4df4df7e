#include "app/models/breath_maker.hpp"
#include "app/models/picture_maker.hpp"
#include "app/text/format.hpp"
#include "app/text/guidance_text.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <algorithm>

using namespace quillbench;
using namespace quillbench::test;

namespace {

TuningChoice wholeInstrument() {
    TuningChoice choice = firstOctave();
    choice.extent = Extent::Whole;
    choice.parts = SessionParts{false, false, false, false};
    return choice;
}

std::size_t firstStepOfChoir(const TuningModel& model, std::size_t choir) {
    const auto& steps = model.session().plan->steps;
    const auto found = std::find_if(steps.begin(), steps.end(), [choir](const TuningStep& step) {
        return step.work == StepWork::Set && step.string.choir == choir && step.pair;
    });
    REQUIRE(found != steps.end());
    return static_cast<std::size_t>(found - steps.begin());
}

PairReading togetherAt(const TuningModel& model, std::size_t index, double beatsPerSecond) {
    const TuningStep& step = model.session().plan->steps[index];
    PairReading reading;
    reading.lower = step.pair->tunedIsUpper ? step.pair->against : step.string;
    reading.upper = step.pair->tunedIsUpper ? step.string : step.pair->against;
    reading.interval = step.pair->interval;
    reading.beat = BeatRate(beatsPerSecond);
    reading.uncertainty = 0.01;
    reading.direction = BeatDirection::Wide;
    reading.joint = true;
    return reading;
}

} // namespace

TEST_CASE("a whole session sets every string of every choir once", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(wholeInstrument()));
    std::size_t strings = 0;
    for (const Choir& choir : model.instrument().choirs) {
        strings += choir.strings.size();
    }
    const auto& steps = model.session().plan->steps;
    CHECK(static_cast<std::size_t>(
              std::count_if(steps.begin(), steps.end(), [](const TuningStep& step) {
                  return step.work == StepWork::Set;
              })) == strings);
}

TEST_CASE("the registers follow the step, and what is listened for with them", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(wholeInstrument()));
    for (std::size_t choir = 0; choir < model.instrument().choirs.size(); ++choir) {
        const std::size_t step = firstStepOfChoir(model, choir);
        model.act(GoTo{step, FrameIndex(0)});
        CHECK(model.registration().on == model.session().drawingOf(step).registration.on);
        REQUIRE(model.target()->asked);
        CHECK(*model.target()->asked == model.session().plan->steps[step].string);
        const auto& listened = model.target()->strings;
        CHECK(std::any_of(listened.begin(), listened.end(), [choir](const ExpectedString& one) {
            return one.id.choir == choir;
        }));
    }
}

TEST_CASE("in a first look the next key is no second string, whatever still rings", "[ui]") {
    TuningChoice choice = wholeInstrument();
    choice.parts.firstLook = true;
    TuningModel model;
    REQUIRE(model.choose(choice));
    REQUIRE(model.session().step().work == StepWork::Sweep);
    CHECK_FALSE(model.target()->pairs);
    model.act(GoTo{firstStepOfChoir(model, 0), FrameIndex(0)});
    CHECK(model.target()->pairs);
}

TEST_CASE("every choir has its lane filled", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(wholeInstrument()));
    const KeyboardPicture picture = keyboardPicture(model, model.session(), nullptr);
    REQUIRE(picture.lanes.size() == 3);
    for (const LaneShown& lane : picture.lanes) {
        CHECK(std::all_of(lane.states.begin(), lane.states.end(), [](const auto& state) {
            return state == StepState::Untouched;
        }));
    }
    const std::size_t four = firstStepOfChoir(model, 2);
    model.act(GoTo{four, FrameIndex(0)});
    model.hear(readingOf(model, four, 5.0), Seconds(1));
    const KeyboardPicture worked = keyboardPicture(model, model.session(), nullptr);
    CHECK(worked.lanes[2].states[model.session().plan->steps[four].key] == StepState::Working);
    CHECK(worked.lanes[0].states[model.session().plan->steps[four].key] == StepState::Untouched);
}

TEST_CASE("by ear the number is covered until the string is accepted", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(wholeInstrument()));
    const std::size_t step = firstStepOfChoir(model, 1);
    model.act(GoBy{Way::ByEar});
    model.act(GoTo{step, FrameIndex(0)});
    model.hear(togetherAt(model, step, 0.4), Seconds(1));
    REQUIRE(model.session().progress[step].marks.size() == 1);
    CHECK(figuresPicture(model, model.session(), nullptr).deviation.isEmpty());
    CHECK_FALSE(wiresPicture(model, model.session(), nullptr).sounding.has_value());
    model.act(Accept{});
    CHECK(model.session().progress[step].state == StepState::Kept);
    CHECK_FALSE(figuresPicture(model, model.session(), nullptr).deviation.isEmpty());
}

TEST_CASE("two strings that the plan does not bring together change nothing", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(firstOctave()));
    PairReading reading;
    reading.lower = StringId{0, 0};
    reading.upper = StringId{1, 0};
    reading.joint = true;
    model.hear(reading, Seconds(1));
    CHECK(model.session().hearing == Hearing::Good);
    CHECK(model.session().countOf(StepState::Untouched) == model.session().progress.size());
}

TEST_CASE("a beat heard while the pin turned is no reading to keep", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(wholeInstrument()));
    const std::size_t step = firstStepOfChoir(model, 1);
    model.act(GoTo{step, FrameIndex(0)});
    PairReading turning = togetherAt(model, step, 0.4);
    turning.moving = true;
    model.hear(turning, Seconds(1));
    CHECK(model.session().progress[step].marks.empty());
}

TEST_CASE("the part of the session is named above its target", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(wholeInstrument()));
    CHECK(figuresPicture(model, model.session(), nullptr)
              .choir.startsWith(QStringLiteral("bearings: ")));
    model.act(GoTo{firstStepOfChoir(model, 1), FrameIndex(0)});
    CHECK(figuresPicture(model, model.session(), nullptr)
              .choir.startsWith(QStringLiteral("unisons: ")));
}

TEST_CASE("a choir that moved far is said to want a second pass", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(firstOctave()));
    const std::size_t strings = model.session().progress.size();
    for (std::size_t step = 0; step < strings; ++step) {
        for (const double cents : {-15.0, 0.0, 0.0, 0.0}) {
            model.hear(readingOf(model, step, cents), Seconds(1));
        }
    }
    CHECK(model.session().countOf(StepState::Settled) == strings);
    const QString sentence =
        sentenceFor(guide(model.session()), model.session(), model.instrument(), false);
    INFO(sentence.toStdString());
    CHECK(sentence.contains(sizeInCents(Cents(15.0)) + QStringLiteral(" cents on average")));
    CHECK(sentence.contains(QStringLiteral("F12")));
    model.act(SecondPass{});
    CHECK(model.session().countOf(StepState::Untouched) == strings);
    CHECK(model.canUndo());
}

TEST_CASE("by ear what is played first is said first", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(wholeInstrument()));
    const auto& steps = model.session().plan->steps;
    const auto octave = std::find_if(steps.begin(), steps.end(), [](const TuningStep& step) {
        return step.pair && step.pair->key != step.key && step.work == StepWork::Set;
    });
    REQUIRE(octave != steps.end());
    model.act(GoBy{Way::ByEar});
    model.act(GoTo{static_cast<std::size_t>(octave - steps.begin()), FrameIndex(0)});
    const auto said = [&](const Guidance& guidance, bool registers) {
        return sentenceFor(guidance, model.session(), model.instrument(), registers);
    };
    Guidance guidance = guide(model.session());
    REQUIRE(guidance.referenceFirst);
    const QString other = noteText(octave->pair->note);
    CHECK(said(guidance, false).startsWith(QStringLiteral("First play %1 once alone").arg(other)));
    CHECK(said(guidance, true).indexOf(QStringLiteral("First play")) <
          said(guidance, true).indexOf(QStringLiteral("Then tune")));
    guidance.referenceBeats = true;
    CHECK(said(guidance, false).startsWith(QStringLiteral("Play %1 alone once more").arg(other)));
}

TEST_CASE("the pin to turn is that of the string which is set by the other, above it or below",
          "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(wholeInstrument()));
    const bool upwards = GENERATE(true, false);
    const auto& steps = model.session().plan->steps;
    const auto octave = std::find_if(steps.begin(), steps.end(), [&](const TuningStep& step) {
        return step.pair && step.work == StepWork::Set && step.pair->key != step.key &&
               step.pair->tunedIsUpper == upwards;
    });
    REQUIRE(octave != steps.end());
    const auto index = static_cast<std::size_t>(octave - steps.begin());
    AnalysisSnapshot snapshot;
    snapshot.pair.emplace();
    snapshot.pair->reading = togetherAt(model, index, 1.8);
    snapshot.pair->lower = snapshot.pair->reading->lower;
    snapshot.pair->upper = snapshot.pair->reading->upper;
    snapshot.pair->interval = snapshot.pair->reading->interval;
    BreathMaker maker;
    (void)maker.make(model, &snapshot);
    const QString said = maker.sentence();
    INFO(said.toStdString());
    CHECK(said.contains(stringText(model.instrument(), octave->string, model.position())));
    CHECK(said.contains(upwards ? QStringLiteral("too sharp") : QStringLiteral("too flat")));
    REQUIRE(maker.wire());
    CHECK((maker.wire()->deviation > Cents(0.0)) == upwards);
}
