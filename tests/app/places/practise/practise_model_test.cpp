#include "app/places/practise/practise_pictures.hpp"
#include "app/places/practise/practise_text.hpp"
#include "tests/app/places/practise/practise_at_hand.hpp"

#include <algorithm>
#include <complex>
#include <numbers>

using namespace quillbench;
using namespace quillbench::test;

namespace {

constexpr Seconds kNotPlayed{0.049}; // of the 50 ms before the pluck

} // namespace

TEST_CASE("what is played is what is measured, sample for sample", "[ui]") {
    PractiseAtHand bench;
    const SampleRate rate(GENERATE(44'100.0, 48'000.0, 96'000.0));
    bench.sound.setRate(rate); // as the loudspeaker has it
    bench.wish(ExerciseKind::Count, PracticeInterval::Fifth);
    bench.model.play();
    REQUIRE(bench.sound.source()->sampleRate() == rate);
    const std::ptrdiff_t notPlayed = rate.frames(kNotPlayed).value();
    const std::vector<float> played = bench.hear(3.0);
    const auto pitchOfKey = [&](const Note& note) { return bench.model.scale().pitchOf(note); };
    const PracticePair pair =
        pairOf(bench.model.instrument(), *bench.model.exercise(), pitchOfKey, rate);
    // All but the silence before the pluck, on which the learner does not wait.
    const std::vector<float> whole = soundOf(pair, Seconds(3.0));
    const std::vector<float> measured(whole.begin() + notPlayed, whole.end());
    const double gain = std::pow(10.0, kQuietStartDb / 20.0);
    double worst = 0.0;
    double loudest = 0.0;
    for (std::size_t i = 0; i < measured.size(); ++i) {
        const double wanted = gain * static_cast<double>(measured[i]);
        worst = std::max(worst, std::abs(static_cast<double>(played[i]) - wanted));
        loudest = std::max(loudest, std::abs(wanted));
    }
    CHECK(loudest > 1e-4);
    CHECK(worst < 1e-6);
    // The beat in what left for the loudspeaker, by the command line's own reading.
    PairQuestion question;
    question.lowerPartial = 3;
    question.upperPartial = 2;
    question.lowerTarget = pitchOfKey(bench.model.exercise()->lowerKey);
    question.upperTarget = question.lowerTarget * 1.5;
    std::vector<double> left(static_cast<std::size_t>(notPlayed), 0.0);
    left.insert(left.end(), played.begin(), played.end());
    const BeatReading reading =
        hearPair(left, rate, kPluckAfter, kPluckAfter, kPluckAfter + Seconds(2.5), question);
    REQUIRE(reading.found);
    CHECK(std::abs(std::abs(reading.beat.perSecond()) -
                   std::abs(bench.model.exercise()->beat.perSecond())) <=
          2.0 * reading.beatUncertainty);
}

TEST_CASE("nothing is shown before the answer", "[ui]") {
    PractiseAtHand bench;
    bench.wish(ExerciseKind::Count, PracticeInterval::Unison);
    bench.model.play();
    CHECK(practiseFigures(bench.model).deviation == QStringLiteral("?"));
    CHECK(practiseBreath(bench.model).curve.empty());
    CHECK(practiseVerdict(bench.model).isEmpty());
    bench.tapAt(bench.trueRate(), 6);
    REQUIRE(bench.model.content());
    CHECK(bench.model.phase() == PractisePhase::Uncovered);
    const FiguresPicture figures = practiseFigures(bench.model);
    CHECK(figures.deviation != QStringLiteral("?"));
    // With its uncertainty; or the strings' own motion, and what the analysis read.
    CHECK((figures.words + judgedByText(bench.model)).contains(QStringLiteral("±")));
    CHECK(practiseBreath(bench.model).curve.size() > 100);
    CHECK(practiseBreath(bench.model).wantedCrests.size() == 6);
}

TEST_CASE("a right count makes the next question faster, a wrong one slower", "[ui]") {
    PractiseAtHand bench;
    bench.wish(ExerciseKind::Count, PracticeInterval::Unison);
    bench.model.play();
    const double first = bench.trueRate();
    CHECK_FALSE(bench.model.content());
    bench.tapAt(first, 8);
    REQUIRE(bench.model.content());
    CHECK(bench.model.right() == true);
    REQUIRE(bench.model.trials().size() == 1);
    CHECK(bench.model.standings().size() == 1);
    bench.model.ask();
    const double second = bench.trueRate();
    CHECK(second > 1.1 * first);
    bench.model.play();
    bench.tapAt(0.6 * second, 8);
    REQUIRE(bench.model.content());
    CHECK(bench.model.right() == false);
    bench.model.ask();
    CHECK(bench.trueRate() < first);
}

TEST_CASE("a count that is far off is never right because the analysis was vague", "[ui]") {
    PractiseAtHand bench;
    bench.wish(ExerciseKind::Count, PracticeInterval::Unison, EarRegister::Bass);
    for (int i = 0; i < 12; ++i) {
        bench.model.play();
        const double counted = 1.4 * bench.trueRate();
        bench.tapAt(counted, 8);
        REQUIRE(bench.model.content());
        INFO("counted " << counted);
        CHECK(bench.model.right() != true);
        bench.model.ask();
    }
}

TEST_CASE("where the ear stands is not told from one answer", "[ui]") {
    PractiseAtHand bench;
    std::vector<PracticeTrial> before(1);
    before.front().level = 2.0;
    before.front().right = true;
    bench.model.remember({before, {}});
    bench.wish(ExerciseKind::Count, PracticeInterval::Unison);
    const ProgressPicture one = practiseProgress(bench.model);
    REQUIRE(one.standings.size() == 1);
    CHECK_FALSE(one.standings.front().tells);
    CHECK(one.standings.front().words == QStringLiteral("done once: not clear yet"));
    for (int i = 0; i < 30; ++i) {
        PracticeTrial trial;
        trial.level = i % 2 == 0 ? 1.5 : 4.0;
        trial.right = i % 2 == 0;
        before.push_back(trial);
    }
    bench.model.remember({before, {}});
    const ProgressPicture many = practiseProgress(bench.model);
    REQUIRE(many.standings.size() == 1);
    CHECK(many.standings.front().tells);
    CHECK(many.standings.front().low < many.standings.front().at);
    CHECK(many.standings.front().words.contains(QStringLiteral(" to ")));
}

TEST_CASE("the next question is made while this one is looked at", "[ui]") {
    int made = 0;
    PractiseSound sound;
    PractiseModel model(sound,
                        *findExample("double-8-8-4"),
                        TunedScale{*findTemperament("werckmeister-3"), ReferencePitch{}},
                        1,
                        [&made](const std::function<void()>& work) {
                            ++made;
                            work();
                        });
    model.enter();
    model.wish({ExerciseKind::BringTogether, PracticeInterval::Fifth, EarRegister::Tenor});
    CHECK(made == 1); // the first, counted, was measured
    model.play();
    REQUIRE(model.content());
    CHECK(model.phase() == PractisePhase::Uncovered);
    CHECK(made == 3); // what was left, and the next
    model.ask();
    const PracticePair next = *model.pair();
    const auto pitchOfKey = [&](const Note& note) { return model.scale().pitchOf(note); };
    const PracticePair fresh =
        pairOf(model.instrument(), *model.exercise(), pitchOfKey, sound.rate());
    CHECK(next.lower == fresh.lower);
    CHECK(next.settings.seed == fresh.settings.seed);
    CHECK(next.settings.pitches == fresh.settings.pitches);
    // Another wish is not met by it.
    model.play();
    REQUIRE(model.content());
    model.wish({ExerciseKind::BringTogether, PracticeInterval::Unison, EarRegister::Tenor});
    CHECK(model.pair()->interval == IntervalKind::Unison);
}

TEST_CASE("a tap may stand for four beats", "[ui]") {
    PractiseAtHand bench;
    bench.wish(ExerciseKind::Count, PracticeInterval::Fifth);
    bench.model.play();
    bench.model.setBeatsPerTap(4);
    bench.tapAt(bench.trueRate() / 4.0, 5);
    REQUIRE(bench.model.content());
    CHECK(bench.model.right() == true);
}

TEST_CASE("the breath is played at a third of its speed, and nobody taps along with it", "[ui]") {
    PractiseAtHand bench;
    bench.wish(ExerciseKind::Count, PracticeInterval::Unison);
    bench.model.look(); // measured
    bench.model.showSlowly(true);
    CHECK_FALSE(bench.model.sounding().has_value()); // nothing was played yet
    bench.model.play();
    CHECK_FALSE(bench.model.shownSlowly());
    (void)bench.hear(0.5);
    bench.model.showSlowly(true);
    CHECK(bench.model.shownSlowly());
    (void)bench.hear(0.5); // the strings fade
    const std::vector<float> slow = bench.hear(5.0);
    CHECK(*std::max_element(slow.begin(), slow.end()) > 1e-4F);
    // One tone: at the partials that meet, hardly at anything else.
    const auto& pair = *bench.model.pair();
    const double hz =
        pair.multiple * pair.settings.pitches[pair.lower.choir][pair.lower.course].value();
    const auto strengthAt = [&slow](double at) {
        std::complex<double> sum = 0.0;
        for (std::size_t i = 0; i < slow.size(); ++i) {
            sum += static_cast<double>(slow[i]) *
                   std::polar(1.0, -2.0 * std::numbers::pi * at * static_cast<double>(i) / 48000.0);
        }
        return std::abs(sum);
    };
    CHECK(strengthAt(hz) > 20.0 * strengthAt(1.5 * hz));
    CHECK(strengthAt(hz) > 20.0 * strengthAt(2.0 * hz));
    bench.model.tapAt(Seconds(1.0));
    CHECK(bench.model.taps().empty());
    bench.model.play();
    bench.tapAt(bench.trueRate(), 8);
    REQUIRE(bench.model.content());
    CHECK(bench.model.helped());
    CHECK(bench.model.trials().empty());
}

TEST_CASE("an answer with a hint is told and not counted", "[ui]") {
    PractiseAtHand bench;
    bench.wish(ExerciseKind::Count, PracticeInterval::Fifth);
    bench.model.play();
    bench.model.hearPartialAlone(true);
    bench.tapAt(bench.trueRate(), 8);
    REQUIRE(bench.model.content());
    CHECK(bench.model.helped());
    CHECK(bench.model.trials().empty());
    CHECK(practiseVerdict(bench.model).endsWith(QStringLiteral("not counted.")));
}

TEST_CASE("wide and narrow are answered and judged by the strings themselves", "[ui]") {
    PractiseAtHand bench;
    bench.wish(ExerciseKind::WhichWay, PracticeInterval::Fifth);
    bench.model.answer(BeatDirection::Wide);
    CHECK(bench.model.phase() == PractisePhase::Asked);
    bench.model.play();
    const bool wide = bench.model.exercise()->beat > BeatRate(0.0);
    bench.model.answer(wide ? BeatDirection::Wide : BeatDirection::Narrow);
    CHECK(bench.model.right() == true);
    bench.model.ask();
    bench.model.play();
    const bool wideNow = bench.model.exercise()->beat > BeatRate(0.0);
    bench.model.answer(wideNow ? BeatDirection::Narrow : BeatDirection::Wide);
    CHECK(bench.model.right() == false);
    CHECK(bench.model.trials().size() == 2);
}

namespace {

/// Turns the pin to where the string should rest, from above, as a hand with good ears would.
void setFromAbove(PractiseAtHand& bench, const PracticePair& pair, Cents place) {
    const Hertz began = pair.settings.pitches[pair.upper.choir][pair.upper.course];
    const auto stands = [&] { return interval(began, bench.sound.pinRests()) - place; };
    while (stands() < Cents(1.5)) {
        bench.model.stepPin(PractiseStep::Well, 1);
        (void)bench.hear(0.05);
        bench.model.look();
    }
    while (stands() > Cents(0.15)) {
        bench.model.stepPin(PractiseStep::Hair, -1);
        (void)bench.hear(0.05);
        bench.model.look();
    }
    bench.model.letGo();
    (void)bench.hear(0.05);
    bench.model.look();
}

} // namespace

TEST_CASE("a string is brought together by its pin, and its path is graded", "[ui]") {
    PractiseAtHand bench;
    bench.wish(ExerciseKind::BringTogether, PracticeInterval::Unison);
    bench.model.play();
    (void)bench.hear(0.1);
    const auto pitchOfKey = [&](const Note& note) { return bench.model.scale().pitchOf(note); };
    const PracticePair pair =
        pairOf(bench.model.instrument(), *bench.model.exercise(), pitchOfKey, bench.sound.rate());
    const double off = bench.model.exercise()->beat.perSecond();
    const Hertz lower = pair.settings.pitches[pair.lower.choir][pair.lower.course];
    setFromAbove(bench, pair, Cents(-off / hertzPerCent(lower)));
    REQUIRE(bench.model.content());
    CHECK(bench.model.path().fromAbove);
    REQUIRE(bench.model.measured()->reading.found);
    REQUIRE(bench.model.trials().size() == 1);
    const PracticeTrial& trial = bench.model.trials().front();
    CHECK(std::abs(trial.leftBeats) < 0.25 * bench.model.exercise()->multiple * std::abs(off));
    CHECK(trial.leftCents ==
          Approx(trial.leftBeats / bench.model.exercise()->multiple / hertzPerCent(lower))
              .epsilon(1e-6));
}

TEST_CASE("a fifth is left as the temperament wants it", "[ui]") {
    PractiseAtHand bench;
    bench.wish(ExerciseKind::LeaveALittle, PracticeInterval::Fifth);
    const Exercise exercise = *bench.model.exercise();
    // Tempered fifths of Werckmeister III are a quarter of a Pythagorean comma narrow (Werckmeister 1691, as in the
    // catalogue): 5.865 cents.
    const Hertz lower = bench.model.scale().pitchOf(exercise.lowerKey);
    CHECK(exercise.wanted.perSecond() ==
          Approx(-3.0 * lower.value() * (1.0 - std::exp2(-5.865 / 1200.0))).epsilon(0.01));
    CHECK(practiseSentence(bench.model).contains(QStringLiteral("narrow")));
}

TEST_CASE("a wish that cannot be met is said", "[ui]") {
    PractiseAtHand bench;
    bench.model.wish({ExerciseKind::LeaveALittle, PracticeInterval::Unison, std::nullopt});
    CHECK_FALSE(bench.model.exercise());
    CHECK(practiseSentence(bench.model).startsWith(QStringLiteral("Nothing to leave here")));
    bench.model.play();
    CHECK_FALSE(bench.model.content());
}

TEST_CASE("what was practised before makes the first question as hard as the ear is good", "[ui]") {
    PractiseAtHand bench;
    bench.wish(ExerciseKind::Count, PracticeInterval::Unison);
    const double unknown = bench.trueRate();
    // Counted right up to eight a second, wrong above, three weeks ago.
    std::vector<PracticeTrial> before;
    for (int i = 0; i < 40; ++i) {
        PracticeTrial trial;
        trial.level = 5.0 + 0.15 * i;
        trial.right = trial.level < 8.0;
        before.push_back(trial);
    }
    bench.model.remember({before, {}});
    CHECK(bench.trueRate() > 3.0 * unknown);
    REQUIRE(bench.model.standings().size() == 1);
    CHECK(bench.model.standings().front().threshold.level == Approx(8.0).margin(1.0));
    // Read again in the middle of an exercise: the exercise stays, and so does what was done in this sitting.
    bench.model.play();
    bench.tapAt(bench.trueRate() / 4.0, 8);
    bench.model.setBeatsPerTap(4);
    REQUIRE(bench.model.content());
    REQUIRE(bench.model.trials().size() == 41);
    const auto asked = bench.model.exercise()->seed;
    before.push_back(before.front());
    bench.model.remember({before, {}});
    CHECK(bench.model.trials().size() == 42);
    CHECK(bench.model.exercise()->seed == asked);
    CHECK(bench.model.phase() == PractisePhase::Uncovered);
}

TEST_CASE("weeks, published values and habits stand in the picture of progress", "[ui]") {
    PractiseAtHand bench;
    EarHistory history;
    for (int week = 0; week < 4; ++week) {
        for (int i = 0; i < 6; ++i) {
            PracticeTrial trial;
            trial.day = 20605 + 7 * week; // 2026-06-01, a Monday, and the Mondays after it
            trial.kind = ExerciseKind::BringTogether;
            trial.interval = PracticeInterval::FourFoot;
            trial.level = 8.0;
            trial.leftBeats = -0.5 + 0.05 * (i % 3);
            trial.leftCents = -0.6 + 0.06 * (i % 3);
            history.trials.push_back(trial);
        }
        history.byEar[PracticeInterval::FourFoot].push_back(
            {week, Cents(0.1 * (week - 1.5)), Cents(0.1)});
        history.byEar[PracticeInterval::FourFoot].push_back(
            {week, Cents(-0.1 * (week - 1.5)), Cents(0.1)});
    }
    bench.model.remember(history);
    bench.wish(ExerciseKind::BringTogether, PracticeInterval::FourFoot);
    const ProgressPicture picture = practiseProgress(bench.model);
    REQUIRE(picture.weeks.size() == 4);
    CHECK(picture.weeks.front().day == 0.0);
    CHECK(picture.weeks.back().day == 1.0);
    CHECK(picture.weeks.front().date.contains(QLatin1Char('1')));
    CHECK(picture.weeks.front().small);
    // Fewer beats left over are harder: the low end of the interval stands higher.
    CHECK(picture.weeks.front().low > picture.weeks.front().at);
    CHECK(picture.weeks.front().at > picture.weeks.front().high);
    CHECK(picture.habit.contains(QStringLiteral("flat of still (24 settings in 4 sittings)")));
    CHECK(picture.habit.contains(QStringLiteral("by ear: none to be seen")));
    CHECK(picture.description.contains(picture.habit));
    // Of what is answered there is no habit; what was published is named with its source.
    bench.wish(ExerciseKind::Count, PracticeInterval::FourFoot);
    const ProgressPicture count = practiseProgress(bench.model);
    CHECK(count.habit.isEmpty());
    CHECK(count.weeks.empty());
    REQUIRE_FALSE(count.published.empty());
    CHECK(count.published.front().text.contains(QStringLiteral("Houtsma")));
}

namespace {

/// The learner's own instrument at hand: what the analysis says of it is handed over.
struct OwnAtHand : PractiseAtHand {
    OwnAtHand() {
        model.setOwn(OwnStrings(*findExample("double-8-8-4"), [](StringId string) {
            return ExpectedString{string, nominalPitch(*findExample("double-8-8-4"), string), 0.0};
        }));
    }

    [[nodiscard]] PairReading reads(double beat, BeatDirection direction) const {
        PairReading reading;
        reading.lower = model.exercise()->lower;
        reading.upper = model.exercise()->upper;
        reading.interval = intervalOf(model.exercise()->interval);
        reading.beat = BeatRate(beat);
        reading.uncertainty = 0.02;
        reading.direction = direction;
        reading.joint = true;
        return reading;
    }
};

} // namespace

TEST_CASE("on the learner's instrument the judgement comes first, then what was measured", "[ui]") {
    OwnAtHand bench;
    bench.wish(ExerciseKind::Count, PracticeInterval::Fifth);
    const auto target = bench.model.own()->target();
    REQUIRE(target != nullptr);
    CHECK(target->pairs);
    CHECK(target->strings.size() == bench.model.instrument().choirs[0].strings.size());
    CHECK(practiseSentence(bench.model).startsWith(QStringLiteral("On your instrument")));
    bench.model.hearOwn(bench.reads(9.0, BeatDirection::Wide)); // before it was begun
    bench.model.play();
    CHECK(bench.sound.source() == nullptr); // the program does not sound
    const int multiple = bench.model.exercise()->multiple;
    bench.model.hearOwn(bench.reads(2.0 / multiple, BeatDirection::Unknown));
    CHECK(practiseFigures(bench.model).deviation == QStringLiteral("?"));
    bench.tapAt(2.0, 8);
    REQUIRE(bench.model.content());
    CHECK(bench.model.phase() == PractisePhase::Uncovered);
    CHECK(bench.model.right() == true);
    REQUIRE(bench.model.trials().size() == 1);
    CHECK(bench.model.trials()[0].source == PracticeSource::Own);
    CHECK(bench.model.trials()[0].level == Approx(2.0));
}

TEST_CASE("the learner may judge before the strings have rung out, or play the wrong keys",
          "[ui]") {
    OwnAtHand bench;
    bench.wish(ExerciseKind::WhichWay, PracticeInterval::Fifth);
    bench.model.play();
    PairHeard heard;
    heard.lower = bench.model.exercise()->lower;
    heard.upper = bench.model.exercise()->upper;
    heard.sounding = true;
    bench.model.followOwn(heard);
    bench.model.answer(BeatDirection::Narrow);
    CHECK(bench.model.phase() == PractisePhase::Measuring);
    PairReading other = bench.reads(1.0, BeatDirection::Wide);
    std::swap(other.lower, other.upper);
    bench.model.hearOwn(other);
    CHECK(bench.model.phase() == PractisePhase::Measuring);
    CHECK(practiseSentence(bench.model).startsWith(QStringLiteral("Heard two other strings")));
    bench.model.hearOwn(bench.reads(-1.0, BeatDirection::Narrow));
    CHECK(bench.model.phase() == PractisePhase::Uncovered);
    CHECK(bench.model.right() == true);
    REQUIRE(bench.model.trials().size() == 1);
}

TEST_CASE("what the analysis is not sure of is not judged on the learner's instrument", "[ui]") {
    OwnAtHand bench;
    const auto kind = GENERATE(ExerciseKind::WhichWay, ExerciseKind::BringTogether);
    bench.wish(kind, PracticeInterval::Unison);
    bench.model.play();
    bench.model.hearOwn(bench.reads(1.0, BeatDirection::Unknown));
    if (kind == ExerciseKind::WhichWay) {
        bench.model.answer(BeatDirection::Wide);
    } else {
        REQUIRE(bench.model.content());
    }
    CHECK(bench.model.phase() == PractisePhase::Uncovered);
    CHECK(bench.model.trials().empty());
    CHECK(practiseVerdict(bench.model).contains(QStringLiteral("not judged")));
}

TEST_CASE("a count is not judged by a beat that is hardly better known", "[ui]") {
    OwnAtHand bench;
    bench.wish(ExerciseKind::Count, PracticeInterval::Unison, EarRegister::Bass);
    bench.model.play();
    const int multiple = bench.model.exercise()->multiple;
    PairReading reading = bench.reads(0.9 / multiple, BeatDirection::Wide);
    reading.uncertainty = 0.3 / multiple;
    bench.model.hearOwn(reading);
    bench.tapAt(1.36, 8);
    REQUIRE(bench.model.content());
    CHECK(bench.model.phase() == PractisePhase::Uncovered);
    CHECK(bench.model.trials().empty());
    CHECK(practiseVerdict(bench.model).contains(QStringLiteral("not judged")));
}

TEST_CASE("a string brought together by hand on the learner's instrument leaves its width",
          "[ui]") {
    OwnAtHand bench;
    bench.wish(ExerciseKind::BringTogether, PracticeInterval::Octave);
    bench.model.play();
    PairReading turning = bench.reads(3.0, BeatDirection::Wide);
    turning.moving = true;
    bench.model.hearOwn(turning);
    bench.model.hearOwn(bench.reads(-0.25, BeatDirection::Narrow));
    REQUIRE(bench.model.content());
    REQUIRE(bench.model.trials().size() == 1);
    const PracticeTrial& trial = bench.model.trials()[0];
    const double times = bench.model.exercise()->multiple;
    CHECK(trial.leftBeats == Approx(-0.25 * times));
    const double lower = bench.model.scale().pitchOf(bench.model.exercise()->lowerKey).value();
    // The octave's partials 2 and 1: cents of the upper string from its octave.
    CHECK(trial.leftCents ==
          Approx(1200.0 * std::log2((2.0 * lower - 0.25) / (2.0 * lower))).epsilon(0.01));
}

TEST_CASE("a 4′ and its 8′ from one key are not asked for on the learner's instrument", "[ui]") {
    OwnAtHand bench;
    bench.model.wish({ExerciseKind::Count, PracticeInterval::FourFoot, std::nullopt});
    CHECK_FALSE(bench.model.exercise());
    CHECK(practiseSentence(bench.model).startsWith(QStringLiteral("A 4′")));
}
