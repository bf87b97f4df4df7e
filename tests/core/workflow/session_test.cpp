#include "core/workflow/guidance.hpp"
#include "core/workflow/session.hpp"
#include "tests/core/workflow/scripted.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;
using quillbench::test::octavePlan;
using quillbench::test::pluck;

namespace {

Session after(Session session, std::initializer_list<SessionEvent> events) {
    for (const SessionEvent& event : events) {
        session = apply(session, event);
    }
    return session;
}

} // namespace

TEST_CASE("three plucks that agree inside the tolerance settle a string", "[unit]") {
    const Session two = after(begin(octavePlan()), {pluck(0, 0.4), pluck(0, 0.3)});
    CHECK(two.progress[0].state == StepState::Working);
    CHECK(guide(two).ask == Ask::PluckAgain);
    CHECK(guide(two).plucksWanted == 1);
    const Session three = apply(two, pluck(0, 0.5));
    CHECK(three.progress[0].state == StepState::Settled);
    REQUIRE(three.progress[0].kept);
    CHECK(three.progress[0].kept->deviation.value() == Approx(0.4)); // mean of the three
    CHECK(three.progress[0].kept->uncertainty.value() == Approx(0.1));
}

TEST_CASE("plucks inside the tolerance do not settle when they are unsure, moving or at its edge",
          "[unit]") {
    const auto states = {
        after(begin(octavePlan()), {pluck(0, 0.2, 0.9), pluck(0, 0.2, 0.9), pluck(0, 0.2, 0.9)}),
        after(begin(octavePlan()), {pluck(0, 0.9), pluck(0, 0.5), pluck(0, -0.1)}),
        after(begin(octavePlan()), {pluck(0, 0.95), pluck(0, 0.95), pluck(0, 0.95)}),
        after(begin(octavePlan()), {pluck(0, 0.2), pluck(0, 1.2), pluck(0, 0.2)})};
    for (const Session& session : states) {
        CHECK(session.progress[0].state == StepState::Working);
    }
}

TEST_CASE("the session follows the key that is played, also back to an earlier one", "[unit]") {
    const Session there = after(begin(octavePlan()), {pluck(0, -1.5), pluck(4, 8.0)});
    CHECK(there.current == 4);
    const Session back = apply(there, pluck(0, -1.4));
    CHECK(back.current == 0);
    CHECK(back.progress[0].marks.size() == 2);
    CHECK(back.progress[4].marks.size() == 1);
}

TEST_CASE("the next open key is asked for when a string has settled", "[unit]") {
    const Session session =
        after(begin(octavePlan()), {pluck(0, 0.0), pluck(0, 0.0), pluck(0, 0.0)});
    const Guidance guidance = guide(session);
    CHECK(guidance.ask == Ask::SettledNext);
    REQUIRE(guidance.next);
    CHECK(*guidance.next == 1);
    CHECK(*listenFor(session, {}).asked == StringId{0, 1});
}

TEST_CASE("the last open key leads back round to one left open before it", "[unit]") {
    Session session = begin(octavePlan());
    for (std::size_t key = 1; key < 13; ++key) {
        session = after(session, {pluck(key, 0.0), pluck(key, 0.0), pluck(key, 0.0)});
    }
    CHECK(session.asked() == std::optional<std::size_t>(0));
    session = after(session, {pluck(0, 0.0), pluck(0, 0.0), pluck(0, 0.0)});
    CHECK(guide(session).ask == Ask::AllDone);
    CHECK_FALSE(listenFor(session, {}).asked);
}

TEST_CASE("accepting keeps the string as it is, with its last reading", "[unit]") {
    const Session session = after(begin(octavePlan()), {pluck(2, 3.5), Accept{}});
    CHECK(session.progress[2].state == StepState::Kept);
    CHECK(session.progress[2].kept->deviation.value() == Approx(3.5));
    CHECK(guide(session).ask == Ask::KeptNext);
    CHECK(apply(begin(octavePlan()), Accept{}).countOf(StepState::Kept) == 0);
}

TEST_CASE("a skipped string is left and the next asked for; playing it takes it up again",
          "[unit]") {
    const Session skipped = apply(begin(octavePlan()), Skip{});
    CHECK(skipped.progress[0].state == StepState::Skipped);
    CHECK(skipped.current == 1);
    CHECK(apply(skipped, pluck(0, 4.0)).progress[0].state == StepState::Working);
}

TEST_CASE("what is skipped after a string settled is the next one, which is asked for", "[unit]") {
    const Session settled =
        after(begin(octavePlan()), {pluck(0, 0.0), pluck(0, 0.1), pluck(0, 0.0)});
    REQUIRE(settled.current == 0);
    const Session skipped = apply(settled, Skip{});
    CHECK(skipped.progress[0].state == StepState::Settled);
    CHECK(skipped.progress[1].state == StepState::Skipped);
    CHECK(skipped.asked() == 2);
    const Session chosen = after(settled, {GoTo{0, {}}, Skip{}});
    CHECK(chosen.progress[0].state == StepState::Skipped);
}

TEST_CASE("undo brings back the session before the last decision", "[unit]") {
    SessionHistory history(begin(octavePlan()));
    history.apply(pluck(0, 2.0));
    CHECK_FALSE(history.canUndo());
    history.apply(Accept{});
    history.apply(pluck(1, 2.0));
    history.apply(Skip{});
    history.undo();
    CHECK(history.now().progress[1].state == StepState::Working);
    CHECK(history.now().progress[0].state == StepState::Kept);
    history.undo();
    CHECK(history.now().progress[0].state == StepState::Working);
    CHECK(history.now().progress[0].marks.size() == 1);
    history.undo();
    CHECK_FALSE(history.canUndo());
}

TEST_CASE("nothing is recorded while the session is paused", "[unit]") {
    const Session paused = after(begin(octavePlan()), {Pause{}, pluck(0, 1.0)});
    CHECK(paused.progress[0].marks.empty());
    CHECK(guide(paused).ask == Ask::Paused);
    CHECK(after(paused, {Resume{}, pluck(0, 1.0)}).progress[0].marks.size() == 1);
}

TEST_CASE("a string that had settled and slips is opened again and says by how much", "[unit]") {
    const Session settled =
        after(begin(octavePlan()), {pluck(0, 0.0), pluck(0, 0.1), pluck(0, 0.0)});
    CHECK(apply(settled, pluck(0, 1.3)).progress[0].state == StepState::Settled);
    const Session slipped = after(settled, {pluck(1, 2.0), pluck(0, -4.2)});
    CHECK(slipped.progress[0].state == StepState::Working);
    CHECK(guide(slipped).ask == Ask::Slipped);
    CHECK(guide(slipped).amount.value() == Approx(-4.2).margin(0.1));
}

TEST_CASE("what cannot be trusted moves nothing and is named", "[unit]") {
    const Session session = after(begin(octavePlan()), {pluck(0, 5.0)});
    Heard two = pluck(3, 1.0);
    two.reading.warnings = static_cast<std::uint32_t>(Warning::TwoStrings);
    CHECK(apply(session, two).current == 0);
    CHECK(guide(apply(session, two)).hearing == Hearing::TwoStrings);
    Heard nothing;
    nothing.reading.used = Seconds(1.0);
    nothing.reading.warnings = static_cast<std::uint32_t>(Warning::Noisy);
    CHECK(guide(apply(session, nothing)).hearing == Hearing::Noisy);
    nothing.reading.warnings = static_cast<std::uint32_t>(Warning::TooShort);
    CHECK(guide(apply(session, nothing)).hearing == Hearing::Good);
    Heard other = pluck(0, 0.0);
    other.reading.string = StringId{0, 40};
    CHECK(guide(apply(session, other)).hearing == Hearing::OtherNote);
    CHECK(apply(session, other).progress[0].marks.size() == 1);
    CHECK(apply(session, pluck(0, 0.2, 2.0)).progress[0].marks.back().good == false);
}

TEST_CASE("a step chosen by hand may be far from its target", "[unit]") {
    const Session chosen = apply(begin(octavePlan()), GoTo{7, {}});
    CHECK(chosen.current == 7);
    CHECK(listenFor(chosen, {}).askedMayBeFar);
    CHECK_FALSE(listenFor(apply(chosen, pluck(7, 20.0)), {}).askedMayBeFar);
    CHECK(apply(chosen, GoTo{99, {}}).current == 7);
}

TEST_CASE("a string found nearer to its neighbour's place than to its own is looked for there",
          "[unit]") {
    CHECK_FALSE(listenFor(apply(begin(octavePlan()), pluck(7, 30.0)), {}).askedMayBeFar);
    const AnalysisTarget far = listenFor(apply(begin(octavePlan()), pluck(7, -62.0)), {});
    CHECK(far.askedMayBeFar);
    CHECK(far.askedLast == Cents(-62.0));
    CHECK_FALSE(listenFor(begin(octavePlan()), {}).askedLast);
}

TEST_CASE("where nothing moved only a little is asked for next", "[unit]") {
    const Session once = after(begin(octavePlan()), {pluck(0, 18.5)});
    CHECK(guide(once).amount.value() == Approx(18.5));
    const Session again = apply(once, pluck(0, 18.5));
    CHECK(guide(again).ask == Ask::LetDown);
    CHECK(guide(again).amount <= Cents(5.0));
    // The pin is known as soon as the string follows.
    CHECK(guide(apply(again, pluck(0, 15.5))).amount.value() == Approx(15.5));
}

TEST_CASE("the end of an old pluck does not lead away from a step chosen since", "[unit]") {
    Session session = apply(begin(octavePlan()), GoTo{7, FrameIndex(96000)});
    Heard old = pluck(2, 5.0);
    old.reading.pluck = FrameIndex(48000);
    CHECK(apply(session, old).current == 7);
    old.reading.pluck = FrameIndex(100000);
    CHECK(apply(session, old).current == 2);
}

TEST_CASE("a string that stands inside its tolerance but never settles is moved a hair or accepted",
          "[unit]") {
    const Session edge = after(begin(octavePlan()),
                               {pluck(0, 0.95), pluck(0, 0.95), pluck(0, 0.95), pluck(0, 0.95)});
    CHECK(guide(edge).ask == Ask::SettleDown);
    CHECK(guide(edge).amount.value() == Approx(0.95));
    const Session unsure =
        after(begin(octavePlan()),
              {pluck(0, 0.1, 1.2), pluck(0, 0.1, 1.2), pluck(0, 0.1, 1.2), pluck(0, 0.1, 1.2)});
    CHECK(guide(unsure).ask == Ask::AsNear);
}

TEST_CASE(
    "a string unsure of its own pitch is led while it is far off and accepted when it is near",
    "[unit]") {
    const auto weak = [](double deviation, double uncertainty) {
        Heard heard = pluck(0, deviation, uncertainty);
        heard.reading.standing = Standing::Weak;
        return heard;
    };
    const Session far = apply(begin(octavePlan()), weak(23.8, 1.0));
    CHECK(guide(far).ask == Ask::LetDown);
    CHECK(guide(far).hearing == Hearing::Good);
    Session near = after(far, {weak(-2.8, 1.9), weak(-2.9, 1.9)});
    CHECK(guide(near).hearing == Hearing::Weak);
    CHECK(guide(near).ask != Ask::AsNear);
    near = apply(near, weak(-2.8, 1.9));
    CHECK(guide(near).ask == Ask::AsNear);
    const Session kept = apply(near, Accept{});
    CHECK(kept.progress[0].state == StepState::Kept);
    CHECK(kept.progress[0].kept->deviation.value() == Approx(-2.8));
    // Nor does an unsure reading lead to another key, however far off.
    CHECK(apply(near,
                [&] {
                    Heard other = weak(23.8, 1.0);
                    other.reading.string = StringId{0, 5};
                    return other;
                }())
              .current == 0);
}

TEST_CASE("a string that goes round and round its target is accepted where it is nearest",
          "[unit]") {
    Session session = begin(octavePlan());
    for (int i = 0; i < 13; ++i) {
        session = apply(session, pluck(0, i % 2 == 0 ? 1.3 : -1.2));
        CHECK(guide(session).ask != Ask::AsNear);
    }
    session = apply(session, pluck(0, 0.4));
    CHECK(session.progress[0].state == StepState::Working);
    CHECK(guide(session).ask == Ask::AsNear);
    // From further away there is a way to go.
    Session far = begin(octavePlan());
    for (int i = 0; i < 13; ++i) {
        far = apply(far, pluck(0, i % 2 == 0 ? 4.0 : -1.2));
    }
    CHECK(guide(apply(far, pluck(0, 0.4))).ask != Ask::AsNear);
}
