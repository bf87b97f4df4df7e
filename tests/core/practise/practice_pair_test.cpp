#include "core/practise/practice_pair.hpp"
#include "tests/core/practise/practised_strings.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace quillbench;
using namespace quillbench::test;

namespace {

constexpr SampleRate kPracticeRate{48000.0};

PracticePair drawn(ExerciseKind kind,
                   PracticeInterval interval,
                   EarRegister where,
                   double level,
                   std::uint64_t seed) {
    const auto exercise = drawExercise(practised(), {kind, interval, where}, level, tempered, seed);
    REQUIRE(exercise);
    // Partials that can be heard: from 350 Hz on, or the sixth.
    const double listened = tempered(exercise->lowerKey).value() * exercise->multiple *
                            intervalOf(intervalOf(interval)).pair.ofLower;
    CHECK((listened >= 350.0 || exercise->multiple == 6));
    return pairOf(practised(), *exercise, tempered, kPracticeRate);
}

} // namespace

TEST_CASE("a pair beats as the exercise says, and the analysis measures it in what is played",
          "[practise]") {
    struct Row {
        PracticeInterval interval;
        EarRegister where;
        double rate;
    };

    const std::vector<Row> rows = {{PracticeInterval::Unison, EarRegister::Tenor, 1.0},
                                   {PracticeInterval::Unison, EarRegister::Middle, 3.0},
                                   {PracticeInterval::FourFoot, EarRegister::Tenor, 0.6},
                                   {PracticeInterval::Octave, EarRegister::Tenor, 2.0},
                                   {PracticeInterval::Fifth, EarRegister::Tenor, 0.8},
                                   {PracticeInterval::Fourth, EarRegister::Tenor, 1.5},
                                   {PracticeInterval::MajorThird, EarRegister::Tenor, 6.0},
                                   {PracticeInterval::MajorSixth, EarRegister::Bass, 4.0}};
    int inside = 0;
    int asked = 0;
    for (const Row& row : rows) {
        for (const std::uint64_t seed : {11U, 12U}) {
            const PracticePair pair =
                drawn(ExerciseKind::Count, row.interval, row.where, row.rate, seed);
            const PracticeMeasured measured = measure(pair, Seconds(4.0));
            REQUIRE(measured.truth);
            CHECK(pair.multiple * std::abs(measured.truth->perSecond()) ==
                  Approx(row.rate).margin(0.01 * pair.multiple));
            REQUIRE(measured.reading.found);
            const double off =
                std::abs(measured.reading.beat.perSecond()) - row.rate / pair.multiple;
            INFO(static_cast<int>(row.interval)
                 << " at " << row.rate << ": measured " << measured.reading.beat.perSecond()
                 << " +- " << measured.reading.beatUncertainty << ", true "
                 << measured.truth->perSecond());
            inside += std::abs(off) <= 2.0 * measured.reading.beatUncertainty ? 1 : 0;
            ++asked;
            CHECK_FALSE(measured.breath.breath.level.empty());
        }
    }
    INFO(inside << " of " << asked);
    // 95 % are promised; 12 of 16 or fewer come by chance in 1 case of 100 (binomial).
    CHECK(inside >= 13);
}

TEST_CASE("the breath of a slow beat is drawn from its pluck to its end", "[practise]") {
    const PracticePair pair =
        drawn(ExerciseKind::Count, PracticeInterval::Unison, EarRegister::Tenor, 0.5, 11);
    const Breath breath = measure(pair, Seconds(9.0)).breath.breath;

    REQUIRE_FALSE(breath.level.empty());
    CHECK(breath.firstTime.count() < 0.2);
    const double last =
        breath.firstTime.count() + breath.hop.count() * static_cast<double>(breath.level.size());
    CHECK(last > 8.5);
}
