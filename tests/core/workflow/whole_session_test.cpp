#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/workflow/guidance.hpp"
#include "core/workflow/session.hpp"
#include "core/workflow/whole_plan.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace quillbench;

namespace {

struct Bench {
    explicit Bench(const PlanOptions& options = listeningOff()) {
        const auto made = planSession(instrument, scale, options, factsFor(instrument, scale));
        REQUIRE(made);
        plan = std::make_shared<const TuningPlan>(*made);
        session = begin(plan);
    }

    static PlanOptions listeningOff() {
        PlanOptions options;
        options.runThrough = options.warmUp = options.firstLook = options.recheck = false;
        return options;
    }

    [[nodiscard]] StringId string(const char* choir, const char* note) const {
        return *stringOf(instrument, *choirOf(instrument, choir), *parseNote(note));
    }

    [[nodiscard]] std::size_t step(const char* choir, const char* note) const {
        return *plan->stepOf(string(choir, note));
    }

    /// A sure reading that many cents from the string's own target.
    [[nodiscard]] Heard pluck(StringId id, double cents, double uncertainty = 0.1) const {
        Heard heard;
        heard.reading.standing = Standing::Ok;
        heard.reading.string = id;
        heard.reading.target = plan->steps[*plan->stepOf(id)].facts.target;
        heard.reading.deviation = Cents(cents);
        heard.reading.deviationUncertainty = Cents(uncertainty);
        heard.uncertainty = Cents(uncertainty);
        return heard;
    }

    [[nodiscard]] Heard pluck(const char* choir, const char* note, double cents) const {
        return pluck(string(choir, note), cents);
    }

    void settle(const char* choir, const char* note, double cents) {
        for (int i = 0; i < 3; ++i) {
            session = apply(session, pluck(choir, note, cents));
        }
    }

    /// By ear at a string whose other one has settled.
    std::size_t byEarAt(const char* other, const char* note) {
        settle("8", other, 0.0);
        const std::size_t at = step("8", note);
        session = apply(apply(session, GoBy{Way::ByEar}), GoTo{at, {}});
        return at;
    }

    [[nodiscard]] HeardPair pair(std::size_t at, double beat, BeatDirection direction) const {
        const TuningStep& one = plan->steps[at];
        HeardPair heard;
        heard.lower = one.pair->tunedIsUpper ? one.pair->against : one.string;
        heard.upper = one.pair->tunedIsUpper ? one.string : one.pair->against;
        heard.beat = BeatRate(beat);
        heard.uncertainty = 0.02;
        heard.direction = direction;
        return heard;
    }

    Instrument instrument = *findExample("double-8-8-4");
    TunedScale scale{*findTemperament("vallotti"), {Hertz(415.0), {{Letter::A, 0}, 4}}};
    std::shared_ptr<const TuningPlan> plan;
    Session session = Session{};
};

} // namespace

TEST_CASE("an octave is aimed at where its other string was found, and what stiffness adds",
          "[unit]") {
    Bench bench;
    bench.settle("8", "A3", 0.6);
    const std::size_t below = bench.step("8", "A2");
    const PairAim& pair = *bench.plan->steps[below].pair;
    CHECK(bench.session.aimOf(below).value() == Approx(0.6 + pair.offset.value()));
    bench.settle("8", "A2", 0.6 + pair.offset.value());
    CHECK(bench.session.progress[below].state == StepState::Settled);
    CHECK(bench.session.progress[below].kept->deviation.value() == Approx(0.0).margin(1e-9));
    const AnalysisTarget target =
        listenFor(bench.session, {{bench.string("8", "G#3"), Hertz(200.0), 0.0}});
    CHECK(target.strings.size() == 1);
}

TEST_CASE("by ear a string far off counts by itself, not by the beat it made in the same pluck",
          "[unit]") {
    for (const bool beatFirst : {false, true}) {
        Bench bench;
        bench.settle("8", "C4", 0.0);
        const std::size_t below = bench.step("8", "C3");
        bench.session = apply(apply(bench.session, GoBy{Way::ByEar}), GoTo{below, {}});
        const HeardPair beat = bench.pair(below, 3.0, BeatDirection::Wide);
        const Heard alone = bench.pluck("8", "C3", -24.0);
        for (int i = 0; i < 2; ++i) {
            const auto first = beatFirst ? SessionEvent(beat) : SessionEvent(alone);
            const auto second = beatFirst ? SessionEvent(alone) : SessionEvent(beat);
            bench.session = apply(apply(bench.session, first), second);
        }
        CAPTURE(beatFirst);
        REQUIRE(bench.session.current == below);
        REQUIRE(bench.session.here().marks.size() == 2);
        for (const Mark& mark : bench.session.here().marks) {
            CHECK(mark.deviation.value() == Approx(-24.0).margin(1.0));
        }
    }
}

TEST_CASE("by ear the upper string of an octave counts by itself too where it stands far off",
          "[unit]") {
    Bench bench;
    static_cast<void>(bench.byEarAt("A4", "A5"));
    Heard own = bench.pluck("8", "A5", -33.0);
    own.reading.warnings = static_cast<std::uint32_t>(Warning::TwoStrings);
    const Session far = apply(bench.session, own);
    REQUIRE_FALSE(far.here().marks.empty());
    CHECK(far.here().marks.back().good);
    CHECK(far.here().marks.back().deviation.value() == Approx(-33.0).margin(1.0));
    own.reading.deviation = Cents(-5.0); // this may be the other string's partial, or both
    CHECK(apply(bench.session, own).hearing == Hearing::Weak);
    // In the bass of a unison 13 cents are a third of a beat: the two are not told apart.
    bench.settle("8", "F1", 0.0);
    Heard low = bench.pluck("8b", "F1", -13.0);
    low.reading.warnings = own.reading.warnings;
    const Session unison = apply(bench.session, GoTo{bench.step("8b", "F1"), {}});
    CHECK(apply(unison, low).hearing == Hearing::Weak);
}

TEST_CASE("a unison is aimed at the first choir, wherever that stands", "[unit]") {
    Bench bench;
    bench.settle("8", "A3", -0.7);
    const std::size_t unison = bench.step("8b", "A3");
    CHECK(bench.session.aimOf(unison).value() == Approx(-0.7).margin(0.02));
    bench.session = apply(bench.session, GoTo{unison, {}});
    const ExpectedString expected{bench.string("8b", "A3"), Hertz(207.5), 0.0};
    const AnalysisTarget target =
        listenFor(bench.session, {expected, {bench.string("4", "A3"), Hertz(415.0), 0.0}});
    REQUIRE(target.strings.size() == 1); // the 4' is off
    CHECK(interval(Hertz(207.5), target.strings[0].target).value() == Approx(-0.7).margin(0.02));
    // A reading against the moved target and one against the string's own put the string in the same place.
    Heard moved = bench.pluck("8b", "A3", 1.0);
    moved.reading.target = transpose(moved.reading.target, Cents(-0.7));
    const Session one = apply(bench.session, moved);
    const Session other = apply(bench.session, bench.pluck("8b", "A3", 0.3));
    CHECK(one.here().marks.back().deviation.value() ==
          Approx(other.here().marks.back().deviation.value()).margin(1e-9));
}

TEST_CASE("a sweep is done when each of its strings was heard, and asks for the next", "[unit]") {
    PlanOptions options = Bench::listeningOff();
    options.warmUp = true;
    Bench bench(options);
    const TuningStep& sentinels = bench.plan->steps[0];
    REQUIRE(sentinels.work == StepWork::Sweep);
    CHECK(guide(bench.session).ask == Ask::PlayEach);
    for (const StringId string : sentinels.sweep) {
        CHECK(guide(bench.session).string == string);
        CHECK(bench.session.drawingOf(0).choirs == std::vector<std::size_t>{string.choir});
        bench.session = apply(bench.session, bench.pluck(string, -7.0));
    }
    CHECK(bench.session.progress[0].state == StepState::Settled);
    CHECK(bench.session.known.size() == 3);
    CHECK(guide(bench.session).next == std::optional<std::size_t>(1));
}

TEST_CASE(
    "the last string of a sweep plucked once more is looked at again, an earlier one is gone to",
    "[unit]") {
    PlanOptions options = Bench::listeningOff();
    options.firstLook = true;
    Bench bench(options);
    const std::vector<StringId> look = bench.plan->steps[0].sweep;
    REQUIRE(look.size() > 2);
    double at = 0.0;
    const auto pluck = [&](StringId string) {
        Heard heard = bench.pluck(string, 12.0);
        heard.at = Seconds(at += 1.0);
        bench.session = apply(bench.session, heard);
    };
    for (const StringId string : look) {
        pluck(string);
    }
    REQUIRE(bench.session.progress[0].state == StepState::Settled);
    const auto next = guide(bench.session).next;
    REQUIRE(next == std::optional<std::size_t>(1));
    pluck(look.back());
    CHECK(bench.session.current == 0);
    CHECK(guide(bench.session).next == next);
    pluck(look.front());
    CHECK(bench.session.current == *bench.plan->stepOf(look.front()));
}

TEST_CASE("by ear nothing settles by itself; what was kept is uncovered and marked if outside",
          "[unit]") {
    Bench bench;
    bench.settle("8", "A3", 0.0);
    bench.session = apply(bench.session, GoBy{Way::ByEar});
    const std::size_t octave = bench.step("8", "A2");
    for (int i = 0; i < 4; ++i) {
        bench.session = apply(bench.session, bench.pair(octave, 0.02, BeatDirection::Pure));
    }
    CHECK(bench.session.current == octave);
    CHECK(bench.session.progress[octave].state == StepState::Working);
    CHECK(bench.session.covered(octave));
    CHECK(guide(bench.session).ask == Ask::ListenPair);
    CHECK(guide(bench.session).covered);
    const Session kept = apply(bench.session, Accept{});
    CHECK(kept.progress[octave].state == StepState::Kept);
    CHECK_FALSE(kept.progress[octave].outside);
    CHECK_FALSE(kept.covered(octave));
    const Session wide =
        apply(apply(bench.session, bench.pair(octave, 1.5, BeatDirection::Wide)), Accept{});
    CHECK(wide.progress[octave].outside);
    CHECK(guide(wide).outside);
    // The lower string of a wide octave is flat: 1.5 beats at 207.5 Hz are 12.5 cents (closed form).
    CHECK(guide(wide).amount.value() == Approx(-12.5).margin(0.1));
}

TEST_CASE(
    "by ear a string far from its octave is asked down first, and one that stands still is said",
    "[unit]") {
    Bench bench;
    bench.settle("8", "A3", 0.0);
    bench.session = apply(bench.session, GoBy{Way::ByEar});
    const std::size_t octave = bench.step("8", "A2");
    // So far off no beat is heard: the ear and the program hear two notes.
    Heard two = bench.pluck("8", "A2", -24.0);
    two.reading.warnings = static_cast<std::uint32_t>(Warning::TwoStrings);
    Session session = apply(bench.session, two);
    CHECK(session.hearing == Hearing::Good);
    CHECK(session.current == octave);
    CHECK(guide(session).ask == Ask::LowerFirst);
    int plucks = 1;
    while (guide(session).ask != Ask::NotMoving && plucks < 24) {
        session = apply(session, two);
        ++plucks;
    }
    CHECK(plucks <= 8); // the guard's promise
    two.reading.deviation = Cents(-27.0);
    CHECK(guide(apply(session, two)).ask == Ask::ListenPair);
    // Near its place the beat says more; what is heard beside it counts for nothing, and nobody is blamed for it.
    two.reading.deviation = Cents(-4.0);
    const Session near = apply(bench.session, two);
    CHECK(near.hearing == Hearing::Weak);
    CHECK_FALSE(near.progress[octave].guard.last.has_value());
    // By meter a second string is one too many.
    CHECK(apply(apply(bench.session, GoBy{Way::ByMeter}), two).hearing == Hearing::TwoStrings);
}

TEST_CASE("a beat without direction that never changes its rate is a pin that is not worked",
          "[unit]") {
    Bench bench;
    bench.settle("8", "A3", 0.0);
    bench.session = apply(bench.session, GoBy{Way::ByEar});
    const std::size_t octave = bench.step("8", "A2");
    const auto after = [&](double change) {
        Session session = bench.session;
        for (int i = 0; i < 8; ++i) {
            session = apply(session, bench.pair(octave, 2.0 - change * i, BeatDirection::Unknown));
        }
        return guide(session).ask;
    };
    CHECK(after(0.0) == Ask::NotMoving);
    CHECK(after(0.2) == Ask::ListenPair);
}

TEST_CASE("an interval of a check that is not as it should be is marked", "[unit]") {
    PlanOptions options = Bench::listeningOff();
    options.bearingPlan = "computed";
    Bench bench(options);
    bench.session = apply(bench.session, GoBy{Way::ByEar});
    const auto& steps = bench.plan->steps;
    const auto found = std::find_if(steps.begin(), steps.end(), [](const TuningStep& step) {
        return step.work == StepWork::Check;
    });
    REQUIRE(found != steps.end());
    const auto check = static_cast<std::size_t>(found - steps.begin());
    bench.session = apply(bench.session, GoTo{check, FrameIndex(0)});
    const double wanted = found->pair->beat.perSecond();
    const double tolerance = found->pair->tolerance.perSecond();
    const auto heard = [&](double off) {
        HeardPair pair = bench.pair(check, wanted + off, BeatDirection::Wide);
        pair.uncertainty = 0.1 * tolerance;
        return apply(bench.session, pair);
    };
    CHECK(heard(0.0).progress[check].state == StepState::Settled);
    CHECK_FALSE(heard(0.0).progress[check].outside);
    CHECK_FALSE(heard(1.1 * tolerance).progress[check].outside); // within two standard deviations
    CHECK(heard(1.4 * tolerance).progress[check].outside);
}

TEST_CASE("by meter a pair that agrees three times settles, direction or none", "[unit]") {
    Bench bench;
    bench.settle("8", "A3", 0.0);
    const std::size_t unison = bench.step("8b", "A3");
    Session session = bench.session;
    for (int i = 0; i < 3; ++i) {
        session = apply(session, bench.pair(unison, 0.05, BeatDirection::Unknown));
    }
    CHECK(session.progress[unison].state == StepState::Settled);
    session = apply(bench.session, bench.pair(unison, 2.0, BeatDirection::Unknown));
    CHECK(guide(session).ask == Ask::EitherWay);
}

TEST_CASE("a tempered interval is judged by its own beat", "[unit]") {
    PlanOptions options = Bench::listeningOff();
    options.bearingPlan = "computed";
    Bench bench(options);
    for (std::size_t i = 0; i < bench.plan->steps.size(); ++i) {
        const TuningStep& step = bench.plan->steps[i];
        if (step.phase != Phase::Bearings || !step.pair || step.pair->beat < BeatRate(0.5)) {
            continue;
        }
        const double wanted = step.pair->beat.perSecond();
        const Session session =
            apply(apply(bench.session, GoTo{i, {}}), bench.pair(i, wanted, BeatDirection::Wide));
        CHECK(session.here().marks.back().deviation.value() == Approx(0.0).margin(0.02));
        return;
    }
    FAIL("no tempered interval in the plan");
}

TEST_CASE("another string that moves while this one stands still is the one under the hammer",
          "[unit]") {
    Bench bench;
    bench.settle("8", "A3", 0.0);
    bench.session = apply(bench.session, bench.pluck("8", "G#3", -20.0));
    bench.session = apply(bench.session, bench.pluck("8", "G#3", -20.1));
    const Session wrong = apply(bench.session, bench.pluck("8", "A3", -6.0));
    REQUIRE(guide(wrong).ask == Ask::OtherMoved);
    CHECK(guide(wrong).string == bench.string("8", "A3"));
    CHECK(guide(wrong).step == bench.step("8", "G#3"));
    CHECK(guide(wrong).amount.value() == Approx(-6.0));
    CHECK(wrong.progress[bench.step("8", "A3")].state == StepState::Working);
    // A string that is a little elsewhere, or found so without another being worked, is only reopened.
    CHECK_FALSE(apply(bench.session, bench.pluck("8", "A3", -1.5)).wrongPin);
    Bench fresh;
    fresh.settle("8", "A3", 0.0);
    CHECK_FALSE(apply(fresh.session, fresh.pluck("8", "A3", -6.0)).wrongPin);
}

TEST_CASE("the pressed string that sharpens is the one under the finger", "[unit]") {
    Bench bench;
    Session session = apply(bench.session, bench.pluck("8", "A3", -15.0));
    CHECK(guide(session).ask == Ask::LowerFirst);
    session = apply(session, PressTest{});
    CHECK(guide(session).ask == Ask::PressNow);
    const Session right = apply(session, bench.pluck("8", "A3", -11.0));
    CHECK(guide(right).ask == Ask::BringUp);
    CHECK(right.here().marks.size() == 1);
    const Session other = apply(session, bench.pluck("8", "A3", -15.1));
    CHECK(guide(other).ask == Ask::PressMissed);
}

TEST_CASE("how far strings sink back is learned and allowed for", "[unit]") {
    Bench bench;
    const char* keys[] = {"A3", "G#3", "Bb3", "G3", "B3"};
    for (const char* key : keys) {
        for (const double cents : {0.5, 0.2, 0.1}) {
            bench.session = apply(bench.session, bench.pluck("8", key, cents));
        }
    }
    CHECK(bench.session.sinkBack.strings == 5);
    CHECK(bench.session.sinkBack.mean.value() == Approx(0.4));
    const Session flat = apply(bench.session, bench.pluck("8", "F#3", -2.0));
    CHECK(guide(flat).amount.value() == Approx(4.4)); // 2 up, 2 above, 0.4 sinks back
}

TEST_CASE("from below a sharp string is slackened under its target first", "[unit]") {
    PlanOptions options = Bench::listeningOff();
    options.approach = Approach::FromBelow;
    Bench bench(options);
    const Session sharp = apply(bench.session, bench.pluck("8", "A3", 3.0));
    CHECK(guide(sharp).ask == Ask::LetDown);
    CHECK(guide(sharp).amount.value() == Approx(8.0));
    const Session flat = apply(bench.session, bench.pluck("8", "A3", -2.0));
    CHECK(guide(flat).amount.value() == Approx(2.0));
}

TEST_CASE("no string is asked to move by less than can be heard", "[unit]") {
    Bench bench; // its tolerance in the bearings is a cent
    Session unsure = bench.session;
    Session sure = bench.session;
    for (int pluck = 0; pluck < 4; ++pluck) {
        unsure = apply(unsure, bench.pluck(bench.string("8", "A3"), 1.2, 1.0));
        sure = apply(sure, bench.pluck(bench.string("8", "A3"), 1.2, 0.2));
        CHECK(guide(unsure).ask == (pluck < 3 ? Ask::PluckAgain : Ask::AsNear));
    }
    CHECK(guide(sure).ask == Ask::SettleDown);
    CHECK(guide(sure).amount.value() == Approx(1.2));
}

TEST_CASE("how far a choir moved is reckoned from where it was found", "[unit]") {
    Bench bench;
    for (const char* key : {"A3", "G#3"}) {
        bench.session = apply(bench.session, bench.pluck("8", key, -14.0));
        bench.settle("8", key, 0.0);
    }
    CHECK(averageMove(bench.session, 0).value() == Approx(14.0));
    CHECK(averageMove(bench.session, 1).value() == Approx(0.0));
}

TEST_CASE("a choir that moved far is set once more before the next is tuned to it", "[unit]") {
    Bench bench;
    const std::size_t first = *bench.session.asked();
    // 14 cents on average: common practice, no source, calls for a second pass from about 10.
    const auto setAll = [&bench](double from) {
        for (std::size_t i = 0; i < bench.plan->steps.size(); ++i) {
            const TuningStep& step = bench.plan->steps[i];
            if (step.work != StepWork::Set || step.string.choir != bench.plan->choir) {
                continue;
            }
            const double aim = bench.session.aimOf(i).value();
            bench.session = apply(bench.session, bench.pluck(step.string, aim + from));
            for (int pluck = 0; pluck < 3; ++pluck) {
                bench.session = apply(bench.session, bench.pluck(step.string, aim));
            }
        }
    };
    setAll(-14.0);
    const Guidance far = guide(bench.session);
    CHECK(far.ask == Ask::RepeatChoir);
    CHECK(far.string.choir == bench.plan->choir);
    CHECK(far.amount.value() == Approx(14.0));
    REQUIRE(far.next);
    CHECK(bench.plan->steps[*far.next].string.choir != bench.plan->choir);

    SessionHistory history(bench.session);
    history.apply(SecondPass{});
    CHECK(history.now().current == first);
    CHECK(guide(history.now()).ask == Ask::PlayKey);
    CHECK(choirsToRepeat(history.now()).empty());
    history.undo();
    CHECK(guide(history.now()).ask == Ask::RepeatChoir);

    bench.session = apply(bench.session, SecondPass{});
    CHECK(bench.session.countOf(StepState::Settled) == 0);
    setAll(-1.0);
    CHECK(guide(bench.session).ask == Ask::SettledNext);
    // Nothing is due: nothing happens.
    CHECK(apply(bench.session, SecondPass{}).decisions == bench.session.decisions);
}

TEST_CASE("the same events lead to the same state, undo and all", "[unit]") {
    Bench bench;
    SessionHistory history(begin(bench.plan));
    history.apply(bench.pluck("8", "A3", -9.0));
    history.apply(Accept{});
    history.apply(Undo{});
    for (int i = 0; i < 3; ++i) {
        history.apply(bench.pluck("8", "A3", 0.1));
    }
    history.apply(Skip{"pin loose"});
    history.apply(Remark{bench.string("8", "G#3"), "false beat"});
    history.apply(Pause{});
    history.apply(Resume{});
    history.apply(GoBy{Way::ByEar});
    history.apply(bench.pair(bench.step("8", "A2"), 0.4, BeatDirection::Narrow));
    const SessionHistory again = replay(begin(bench.plan), history.events());
    const Session& a = history.now();
    const Session& b = again.now();
    CHECK(a.current == b.current);
    CHECK(a.decisions == b.decisions);
    CHECK(a.way == b.way);
    CHECK(a.remarks.size() == b.remarks.size());
    CHECK(a.known.size() == b.known.size());
    CHECK(guide(a) == guide(b));
    for (std::size_t i = 0; i < a.progress.size(); ++i) {
        CHECK(a.progress[i].state == b.progress[i].state);
        CHECK(a.progress[i].marks.size() == b.progress[i].marks.size());
        CHECK(a.progress[i].reason == b.progress[i].reason);
    }
    CHECK(again.canUndo());
    CHECK(again.events().size() == history.events().size());
}

TEST_CASE("playing an earlier key goes back to it, also over choirs", "[unit]") {
    Bench bench;
    bench.settle("8", "A3", 0.0);
    bench.session = apply(bench.session, bench.pluck("8b", "A3", 5.0));
    CHECK(bench.session.current == bench.step("8b", "A3"));
    // The reference of a unison is only looked at.
    CHECK(apply(bench.session, bench.pluck("8", "A3", 0.1)).current == bench.session.current);
    CHECK(apply(bench.session, bench.pluck("8", "G3", 0.1)).current == bench.step("8", "G3"));
}

TEST_CASE("no step is asked for, nor any string aimed, before what it relies on is set", "[unit]") {
    Bench bench;
    const std::size_t d2 = bench.step("8", "D2");
    const std::size_t d3 = bench.step("8", "D3");
    REQUIRE(std::count(
                bench.plan->steps[d2].needs.begin(), bench.plan->steps[d2].needs.end(), d3) == 1);
    for (std::size_t i = 0; i < d2; ++i) {
        if (i != d3) {
            bench.session.progress[i].state = StepState::Settled;
        }
    }
    bench.session.current = d2 - 1;
    CHECK(bench.session.asked() == std::optional<std::size_t>(d3));
    // Whoever plays D2 all the same is led by the number it has alone, not by where D3 happens to stand.
    bench.session = apply(bench.session, bench.pluck("8", "D3", 18.0));
    bench.session = apply(bench.session, GoTo{d2, {}});
    CHECK(bench.session.aimOf(d2).value() == Approx(0.0).margin(1e-9));
    bench.session = apply(bench.session, GoTo{d3, {}});
    bench.settle("8", "D3", 0.5);
    CHECK(bench.session.aimOf(d2).value() ==
          Approx(0.5 + bench.plan->steps[d2].pair->offset.value()));
    CHECK(bench.session.asked() == std::optional<std::size_t>(d2));
}

namespace {

/// A long pluck whose partial `number` lies `aside` cents from where the pitch and the stiffness put it.
Heard pluckWithPartial(
    const Bench& bench, const char* choir, double cents, int number, double aside) {
    Heard one = bench.pluck(bench.string(choir, "A3"), cents, 0.3);
    one.reading.used = Seconds(2.0);
    one.reading.pitch = transpose(one.reading.target, Cents(cents));
    const StringFacts& facts = bench.plan->steps[bench.step(choir, "A3")].facts;
    PartialReading partial;
    partial.number = number;
    partial.frequency = transpose(Hertz(number * one.reading.pitch.value()),
                                  partialStretch(number, facts.inharmonicity) + Cents(aside));
    partial.frequencyUncertainty = 0.01;
    one.reading.partials.tryPush(partial);
    return one;
}

} // namespace

TEST_CASE("a weak beat far from the string's pitch in the same pluck is another line's", "[unit]") {
    Bench bench;
    bench.settle("8", "A3", 0.0);
    const std::size_t four = bench.step("4", "A3");
    bench.session = apply(apply(bench.session, GoBy{Way::ByEar}), GoTo{four, {}});
    Heard own = bench.pluck("4", "A3", -0.3);
    own.reading.warnings = static_cast<std::uint32_t>(Warning::TwoStrings);
    HeardPair wrong = bench.pair(four, -14.5, BeatDirection::Narrow);
    wrong.weak = true;
    bench.session = apply(apply(apply(bench.session, own), wrong), Accept{});
    REQUIRE(bench.session.progress[four].kept);
    CHECK(bench.session.progress[four].kept->deviation.value() == Approx(-0.3).margin(1.0));
}

TEST_CASE("a string let down by ear is not called too high for what it was heard at before",
          "[unit]") {
    Bench bench;
    const std::size_t above = bench.byEarAt("A4", "A5");
    bench.session = apply(bench.session, bench.pair(above, 0.0, BeatDirection::Pure));
    bench.session = apply(bench.session, bench.pair(above, 11.0, BeatDirection::Wide));
    REQUIRE(guide(bench.session).ask == Ask::TooHigh);
    HeardPair weak = bench.pair(above, -3.5, BeatDirection::Narrow);
    weak.weak = true;
    CHECK(guide(apply(bench.session, weak)).ask == Ask::ListenPair);
    weak = bench.pair(above, 10.5, BeatDirection::Wide);
    weak.weak = true;
    CHECK(guide(apply(bench.session, weak)).ask == Ask::TooHigh);
}

TEST_CASE("by ear nobody is asked down again for what was heard before the string rose", "[unit]") {
    Bench bench;
    const std::size_t above = bench.byEarAt("A4", "A5");
    bench.session = apply(bench.session, bench.pair(above, -11.0, BeatDirection::Narrow));
    REQUIRE(guide(bench.session).ask == Ask::LowerFirst);
    HeardPair weak = bench.pair(above, 0.5, BeatDirection::Wide);
    weak.weak = true;
    CHECK(guide(apply(bench.session, weak)).ask == Ask::ListenPair);
}

TEST_CASE("by meter no turn is asked for that an unsure pluck may have seen done", "[unit]") {
    Bench bench;
    bench.session = apply(bench.session, bench.pluck("8", "A3", -8.0));
    bench.session = apply(bench.session, bench.pluck("8", "A3", -11.0));
    REQUIRE(guide(bench.session).ask == Ask::LowerHeard);
    Heard unsure = bench.pluck("8", "A3", 0.0);
    unsure.reading.standing = Standing::Weak;
    unsure.uncertainty = Cents(2.0);
    const Session after = apply(bench.session, unsure);
    CHECK(guide(after).ask == Ask::HearAgain);
    CHECK_FALSE(guide(after).degrees.has_value());
    CHECK(guide(apply(after, bench.pluck("8", "A3", -6.0))).ask == Ask::BringUp);
}

TEST_CASE("by ear the other string is asked for alone again where nothing else is heard",
          "[unit]") {
    Bench bench;
    const std::size_t above = bench.byEarAt("A4", "A5");
    const auto alone = [&] { return listenFor(bench.session, {}).withAlone; };
    bench.session.partials[bench.string("8", "A4")].of[1] = PartialOffsets::Offset{};
    REQUIRE_FALSE(guide(bench.session).referenceFirst);
    CHECK_FALSE(alone());
    for (int i = 0; i < 3; ++i) {
        bench.session = apply(bench.session, bench.pluck("8", "A4", 0.0));
    }
    REQUIRE(bench.session.current == above);
    CHECK(guide(bench.session).referenceFirst);
    CHECK(alone());
    const Session pair = apply(bench.session, bench.pair(above, 0.3, BeatDirection::Wide));
    CHECK_FALSE(guide(pair).referenceFirst);
    // Once it was heard as it was asked for, it is not asked for again.
    CHECK_FALSE(guide(apply(bench.session, bench.pluck("8", "A4", 0.0))).referenceFirst);
}

TEST_CASE("by ear partials of the other string are taken only where it was asked for alone",
          "[unit]") {
    // Two keys pressed at once are sometimes heard as the lower string alone, and its partial is then the upper one's.
    Bench bench;
    const std::size_t above = bench.byEarAt("A3", "A4");
    const StringId other = bench.plan->steps[above].pair->against;
    REQUIRE(other == bench.string("8", "A3"));
    REQUIRE(guide(bench.session).referenceFirst);
    const Session slipped = apply(bench.session, pluckWithPartial(bench, "8", -4.0, 2, 0.3));
    CHECK(slipped.progress[bench.step("8", "A3")].state == StepState::Working);
    bench.session = apply(bench.session, pluckWithPartial(bench, "8", 0.0, 2, 0.3));
    REQUIRE(bench.session.partials.at(other).at(2).has_value());
    CHECK(bench.session.partials.at(other).at(2)->cents.value() == Approx(0.3).margin(0.05));
    bench.session = apply(bench.session, pluckWithPartial(bench, "8", 0.0, 2, -1.5));
    CHECK(bench.session.partials.at(other).at(2)->cents.value() == Approx(0.3).margin(0.05));
}

TEST_CASE("what is kept by ear is the last that was heard, not the last that was sure", "[unit]") {
    Bench bench;
    const std::size_t below = bench.byEarAt("A3", "A2");
    bench.session = apply(bench.session, bench.pair(below, 4.0, BeatDirection::Wide));
    HeardPair weak = bench.pair(below, 0.05, BeatDirection::Wide);
    weak.weak = true;
    const double far = bench.session.here().marks.back().deviation.value();
    bench.session = apply(apply(bench.session, weak), Accept{});
    REQUIRE(bench.session.progress[below].kept);
    CHECK(std::abs(bench.session.progress[below].kept->deviation.value()) < 0.1 * std::abs(far));
}

TEST_CASE(
    "by ear the other string of an octave is asked for alone once, which makes the beat surer",
    "[unit]") {
    Bench bench;
    bench.settle("8", "A3", 0.0);
    bench.session = apply(bench.session, GoBy{Way::ByEar});
    const std::size_t below = bench.step("8", "A2");
    bench.session = apply(bench.session, GoTo{below, {}});
    CHECK(guide(bench.session).ask == Ask::ListenPair);
    CHECK(guide(bench.session).referenceFirst); // how it sounds alone is not known to this plan
    HeardPair beat = bench.pair(below, 0.0, BeatDirection::Pure);
    const Session without = apply(apply(bench.session, beat), Accept{});
    beat.referenceHeard = true;
    const Session with = apply(apply(bench.session, beat), Accept{});
    CHECK(with.progress[below].kept->uncertainty < without.progress[below].kept->uncertainty);
    bench.session = apply(bench.session, pluckWithPartial(bench, "8", 0.0, 1, 0.0));
    CHECK(bench.session.current == below);
    CHECK_FALSE(guide(bench.session).referenceFirst);
    // Three plucks name a string that beats by itself.
    Heard beating = pluckWithPartial(bench, "8", 0.0, 1, 0.0);
    beating.reading.ownBeat = BeatRate(0.6);
    Session named = bench.session;
    for (int i = 0; i < 3; ++i) {
        named = apply(named, beating);
        CHECK(guide(named).referenceBeats == (i < 2)); // 1 of 2, 2 of 3, then 3 of 4
    }
    // A unison sounds from one key: its other string is not had alone without touching a register.
    bench.session = apply(bench.session, GoTo{bench.step("8b", "A3"), {}});
    CHECK_FALSE(guide(bench.session).referenceFirst);
}

TEST_CASE("two strings are still where their partials meet, not where their pitches are one",
          "[unit]") {
    // Two polarisations put single partials beside the comb, [Weinreich1977].
    Bench bench;
    const std::size_t step = bench.step("8b", "A3");
    const int number = bench.plan->steps[step].pair->pair.ofLower;
    for (int i = 0; i < 3; ++i) {
        bench.session = apply(bench.session, pluckWithPartial(bench, "8", 0.5, number, 0.8));
    }
    bench.session = apply(bench.session, GoTo{step, {}});
    bench.session = apply(bench.session, pluckWithPartial(bench, "8b", 2.0, number, -0.6));
    // 0.5 above its own target the first stands, its partial 1.3; that of the second has to come there.
    CHECK(bench.session.here().marks.back().deviation.value() ==
          Approx(2.0 - 0.6 - 1.3 - bench.plan->steps[step].pair->offset.value()).margin(1e-6));
    // A partial too unsure, or a pluck too short, says nothing.
    Heard brief = pluckWithPartial(bench, "8b", 2.0, number, -0.6);
    CHECK(offsetsOf(brief.reading, 1e-5).at(number));
    brief.reading.used = Seconds(0.5);
    CHECK_FALSE(offsetsOf(brief.reading, 1e-5).at(number));
    Heard unsure = pluckWithPartial(bench, "8b", 2.0, number, -0.6);
    unsure.reading.partials[0].frequencyUncertainty = 0.5;
    CHECK_FALSE(offsetsOf(unsure.reading, 1e-5).at(number));
}

TEST_CASE("what a pitch is in doubt about does not matter where two partials meet", "[unit]") {
    // The comb of one reading and its partials err together; where a partial lies is their sum.
    Bench bench;
    const std::size_t step = bench.step("8b", "A3");
    const int number = bench.plan->steps[step].pair->pair.ofLower;
    bench.settle("8", "A3", 0.0);
    bench.session = apply(bench.session, pluckWithPartial(bench, "8", 0.3, number, 0.2));
    bench.session = apply(bench.session, GoTo{step, {}});
    const double there = 0.5 + bench.plan->steps[step].pair->offset.value();
    for (const double comb : {0.35, -0.3, 0.25}) {
        bench.session =
            apply(bench.session, pluckWithPartial(bench, "8b", comb, number, there - comb));
        CHECK(bench.session.here().marks.back().deviation.value() == Approx(0.0).margin(1e-6));
        CHECK(bench.session.here().marks.back().uncertainty.value() < 0.15);
    }
    CHECK(bench.session.progress[step].state == StepState::Settled);
    // A pluck too short to tell its partials apart is put where they were last found.
    Heard brief = pluckWithPartial(bench, "8b", -0.3, number, 0.0);
    brief.reading.used = Seconds(0.5);
    bench.session = apply(bench.session, brief);
    CHECK(bench.session.here().marks.back().deviation.value() == Approx(-0.55).margin(1e-6));
}

TEST_CASE("a weak pluck of the string asked for next leads to it", "[unit]") {
    Bench bench;
    bench.settle("8", "A3", 0.0);
    const std::size_t next = *bench.session.asked();
    const StringId string = bench.plan->steps[next].string;
    Heard weak = bench.pluck(string, 3.0, 1.0);
    weak.reading.standing = Standing::Weak;
    CHECK(apply(bench.session, weak).current == next);
    weak.reading.string = bench.string("8", "C2");
    CHECK(apply(bench.session, weak).current == bench.session.current);
}

TEST_CASE("the ear is told which partials of each string meet those of others", "[unit]") {
    Bench bench;
    const std::size_t down = bench.step("8", "A2");
    const PairAim& pair = *bench.plan->steps[down].pair;
    const auto meeting = meetingPartials(*bench.plan);
    const std::vector<int>& own = meeting.at(bench.string("8", "A2"));
    const std::vector<int>& other = meeting.at(pair.against);
    CHECK(std::is_sorted(own.begin(), own.end()));
    CHECK(std::count(own.begin(), own.end(), pair.pair.ofLower) == 1);
    CHECK(std::count(other.begin(), other.end(), pair.pair.ofUpper) == 1);
    bench.session = apply(bench.session, GoTo{down, {}});
    bench.settle("8", "A3", 0.0);
    bench.session = apply(bench.session, GoTo{down, {}});
    const AnalysisTarget target = listenFor(bench.session, {});
    CHECK(target.closely.at(bench.string("8", "A2")) == own);
    // The other string is heard alone too, and what was found of its partials is what this one is aimed at.
    CHECK(target.closely.at(pair.against) == other);
}

TEST_CASE("where the partials that meet are told too coarsely a step by meter is done by ear",
          "[unit]") {
    Bench bench;
    const std::size_t step = bench.step("8b", "A3");
    const int number = bench.plan->steps[step].pair->pair.ofLower;
    const double hz = number * bench.plan->steps[step].facts.target.value();
    const auto play = [&](double uncertainCents) {
        bench.session = begin(bench.plan);
        bench.settle("8", "A3", 0.0);
        bench.session = apply(bench.session, pluckWithPartial(bench, "8", 0.0, number, 0.0));
        bench.session = apply(bench.session, GoTo{step, {}});
        Heard own = pluckWithPartial(bench, "8b", 3.0, number, 0.0);
        own.reading.partials[0].frequencyUncertainty = hz * (std::exp2(uncertainCents / 1200) - 1);
        bench.session = apply(bench.session, own);
    };
    // Half the tolerance of a unison, 1 cent in the bearings, is what the meter has to tell.
    play(0.1);
    CHECK_FALSE(bench.session.byEar(step));
    CHECK(guide(bench.session).ask == Ask::SettleDown);
    play(1.5); // no more than an offset somewhere about the comb is known of it: 0.4 cent
    CHECK_FALSE(bench.session.byEar(step));
    // Nor of the other: together too coarse.
    bench.session = begin(bench.plan);
    bench.settle("8", "A3", 0.0);
    bench.session = apply(bench.session, GoTo{step, {}});
    Heard own = pluckWithPartial(bench, "8b", 3.0, number + 1, 0.0);
    bench.session = apply(bench.session, own);
    CHECK(bench.session.byEar(step));
    CHECK(bench.session.covered(step));
    CHECK(bench.session.drawingOf(step) == bench.plan->steps[step].together);
    CHECK(guide(bench.session).ask == Ask::ListenPair);
    CHECK(guide(bench.session).meterUnsure);
    // What the ear left there is not taken for known to the hundredth by what is tuned to it.
    bench.session = apply(bench.session, bench.pair(step, 0.0, BeatDirection::Pure));
    bench.session = apply(bench.session, Accept{});
    CHECK(bench.session.progress[step].state == StepState::Kept);
    CHECK(bench.session.known.at(bench.string("8b", "A3")).uncertainty > Cents(0.5));
    CHECK(bench.session.partials.count(bench.string("8b", "A3")) == 0);
}

TEST_CASE("no step by meter is done by ear against a string that was not set yet", "[unit]") {
    Bench bench;
    const std::size_t step = bench.step("8b", "A3");
    const int number = bench.plan->steps[step].pair->pair.ofLower;
    bench.session = apply(bench.session, GoTo{step, {}});
    for (int i = 0; i < 3; ++i) {
        bench.session = apply(bench.session, pluckWithPartial(bench, "8b", 3.0, number + 1, 0.0));
    }
    CHECK_FALSE(bench.session.byEar(step));
    CHECK(guide(bench.session).ask == Ask::SettleDown);
    // Heard, but it will not stay there.
    bench.session = apply(bench.session, bench.pluck("8", "A3", 14.0));
    bench.session = apply(bench.session, GoTo{step, {}});
    bench.session = apply(bench.session, pluckWithPartial(bench, "8b", 3.0, number + 1, 0.0));
    CHECK_FALSE(bench.session.byEar(step));
}
