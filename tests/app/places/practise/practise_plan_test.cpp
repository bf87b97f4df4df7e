#include "app/places/practise/practise_pictures.hpp"
#include "app/places/practise/practise_text.hpp"
#include "tests/app/places/practise/practise_at_hand.hpp"

using namespace quillbench;
using namespace quillbench::test;

TEST_CASE("a whole plan is gone through step by step and graded at its end", "[ui]") {
    PractiseAtHand bench;
    std::vector<PracticeTrial> kept;
    std::vector<Note> keys;
    QObject::connect(&bench.model,
                     &PractiseModel::practised,
                     [&](const PracticeTrial& trial, const Note& lowerKey) {
                         kept.push_back(trial);
                         keys.push_back(lowerKey);
                     });
    bench.wish(ExerciseKind::LeaveALittle, PracticeInterval::Fifth);
    bench.model.setPlan(true);
    REQUIRE(bench.model.bearings());
    const std::size_t steps = bench.model.bearings()->steps().size();
    CHECK(practiseSentence(bench.model).startsWith(QStringLiteral("Step 1 of %1. Set").arg(steps)));
    std::size_t set = 0;
    for (std::size_t step = 0; step < steps; ++step) {
        REQUIRE(bench.model.bearings()->at() == step);
        CHECK(bearingRows(bench.model).empty()); // covered until the end
        bench.model.play();
        if (bench.model.bearings()->sets(step)) {
            (void)bench.hear(0.1);
            bench.model.stepPin(PractiseStep::Well, 1);
            (void)bench.hear(0.1);
            bench.model.letGo();
            (void)bench.hear(0.1);
            ++set;
        }
        REQUIRE(bench.model.content());
    }
    CHECK(bench.model.phase() == PractisePhase::Uncovered);
    CHECK(bearingRows(bench.model).size() == steps);
    CHECK(practiseSentence(bench.model).startsWith(QStringLiteral("The bearings are laid.")));
    REQUIRE(kept.size() == set);
    CHECK(kept.front().source == PracticeSource::Bearings);
    CHECK(keys.front().midiNumber() > 40);
    // A pin that was turned up stands higher than one that was not.
    CHECK(bench.model.bearings()->left().front().note != Cents(0.0));
    bench.model.setPlan(false);
    CHECK_FALSE(bench.model.bearings());
    CHECK(bench.model.exercise());
}

TEST_CASE("in a plan one may go back to the step before, not past the first", "[ui]") {
    PractiseAtHand bench;
    bench.model.setPlan(true);
    bench.model.stepBack();
    CHECK(bench.model.bearings()->at() == 0);
    bench.model.play();
    REQUIRE(bench.model.content());
    CHECK(bench.model.bearings()->at() == 1);
    CHECK(bench.model.phase() == PractisePhase::Listening);
    bench.model.stepBack();
    CHECK(bench.model.bearings()->at() == 0);
    CHECK(bench.model.stepPaths().empty());
    // Another interval leaves the plan.
    bench.model.wish({ExerciseKind::Count, PracticeInterval::Fifth, std::nullopt});
    CHECK_FALSE(bench.model.bearings());
}

TEST_CASE("two fast beats are compared after both were heard", "[ui]") {
    PractiseAtHand bench;
    bench.wish(ExerciseKind::Compare, PracticeInterval::Fifth);
    const Exercise exercise = *bench.model.exercise();
    const bool secondFaster = abs(exercise.second) > abs(exercise.beat);
    const double slower =
        std::min(std::abs(exercise.second.perSecond()), std::abs(exercise.beat.perSecond())) *
        exercise.multiple;
    CHECK(slower >= 4.0);
    bench.model.play();
    bench.model.answerFaster(secondFaster); // the second was not heard yet
    CHECK(bench.model.phase() == PractisePhase::Listening);
    bench.model.playSecond();
    bench.model.answerFaster(secondFaster);
    CHECK(bench.model.phase() == PractisePhase::Uncovered);
    CHECK(bench.model.right() == true);
    REQUIRE(bench.model.trials().size() == 1);
    CHECK(bench.model.trials()[0].level == Approx(exercise.level));
    CHECK(practiseVerdict(bench.model).endsWith(QStringLiteral("right.")));
    bench.model.ask();
    CHECK(bench.model.exercise()->level < exercise.level);
}
