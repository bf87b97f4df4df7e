#include "app/places/practise/practise_memory.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;

namespace {

PracticeTrial remembered(std::size_t kind, std::size_t interval, std::size_t source) {
    PracticeTrial trial;
    trial.kind = static_cast<ExerciseKind>(kind);
    trial.interval = static_cast<PracticeInterval>(interval);
    trial.source = static_cast<PracticeSource>(source);
    trial.earRegister = EarRegister::Bass;
    trial.level = 1.5;
    trial.right = isAnswered(trial.kind);
    trial.leftBeats = trial.right ? 0.0 : -0.25;
    trial.leftCents = trial.right ? 0.0 : -0.75;
    trial.fromAbove = !trial.right;
    trial.settled = !trial.right && interval % 2 == 0;
    trial.beat = -1.5;
    trial.beatUncertainty = 0.125;
    return trial;
}

} // namespace

TEST_CASE("what was practised comes back from its row, whatever the kind", "[ui]") {
    for (std::size_t kind = 0; kind < kExerciseKinds; ++kind) {
        for (std::size_t interval = 0; interval < kPracticeIntervals; ++interval) {
            const PracticeTrial trial = remembered(kind, interval, interval % kPracticeSources);
            // Half past eleven in the evening of 1970-01-11 by the clock of a place an hour ahead of universal time.
            const Instant at{10 * std::int64_t{86400000} + 81000000, 60};
            const auto back = trialOf(recordOf(trial, Note{PitchClass{Letter::A, 0}, 2}, at));
            REQUIRE(back);
            CHECK(back->day == 10);
            CHECK(back->source == trial.source);
            CHECK(back->kind == trial.kind);
            CHECK(back->interval == trial.interval);
            CHECK(back->earRegister == trial.earRegister);
            CHECK(back->level == trial.level);
            CHECK(back->right == trial.right);
            CHECK(back->leftBeats == trial.leftBeats);
            CHECK(back->leftCents == trial.leftCents);
            CHECK(back->fromAbove == trial.fromAbove);
            CHECK(back->settled == trial.settled);
            CHECK(back->beat == trial.beat);
            CHECK(back->beatUncertainty == trial.beatUncertainty);
        }
    }
}

TEST_CASE("rows of a later program are left out, the rest comes in order of time", "[ui]") {
    const Note lowerKey{PitchClass{Letter::C, 0}, 4};
    const PractiseRecord sound = recordOf(remembered(0, 0, 0), lowerKey, Instant{2000, 0});
    std::vector<PractiseRecord> rows(7, sound);
    rows[1].kind = "sing";
    rows[2].interval = "tritone";
    rows[3].source = "radio";
    rows[4].note = "H4";
    rows[5].answer = "perhaps";
    rows[6].level = 0.25;
    rows[6].at.milliseconds = 1000;
    const auto trials = trialsOf(rows);
    REQUIRE(trials.size() == 2);
    CHECK(trials.front().level == 0.25);
    CHECK(trials.back().level == sound.level);
}
