#include "app/places/recheck/drift_pictures.hpp"
#include "app/places/recheck/drift_text.hpp"
#include "app/text/format.hpp"
#include "tests/app/places/recheck/recheck_at_hand.hpp"

#include <algorithm>

using namespace quillbench;
using namespace quillbench::test;

TEST_CASE("the 4′ is asked for first, alone, and the registers are as before afterwards", "[ui]") {
    RecheckDesk desk;
    const Registration before = desk.tuning.registration();
    desk.enter();
    CHECK(desk.recheck.instrument().choirs[desk.recheck.choir()].footage == Footage::Four);
    const auto four = soloRegister(desk.recheck.instrument(), desk.recheck.choir());
    REQUIRE(four);
    CHECK(desk.tuning.registration().on.count() == 1);
    CHECK(desk.tuning.registration().on[*four]);
    REQUIRE(desk.recheck.target());
    CHECK(desk.recheck.target()->strings.size() == 61); // the whole compass of that choir
    CHECK_FALSE(desk.recheck.target()->asked);
    CHECK(desk.recheck.nextKey() == 0U);
    desk.recheck.leave();
    CHECK(desk.tuning.registration() == before);
}

TEST_CASE("going up, the next key is asked for; one that was missed comes last", "[ui]") {
    RecheckDesk desk;
    desk.enter();
    desk.pluck(0, 0.2);
    CHECK(desk.recheck.nextKey() == 1U);
    desk.pluck(2, 0.2); // one was left out
    CHECK(desk.recheck.nextKey() == 3U);
    for (std::size_t key = 3; key < 61; ++key) {
        desk.pluck(key, 0.2);
    }
    CHECK(desk.recheck.nextKey() == 1U);
    CHECK(desk.recheck.heardOfChoir() == 60);
}

TEST_CASE("strings are compared with how Tune left them, and the pitch then is the target",
          "[ui]") {
    RecheckDesk desk;
    settle(desk.tuning, 0); // C3 of the first 8′, left 0.1 cent sharp
    desk.enter();
    desk.recheck.chooseChoir(0);
    const StringId c3 = desk.tuning.session().plan->steps[0].string;
    const auto& references = desk.recheck.recheck().references();
    CHECK(references.at(c3).settled);
    CHECK(interval(desk.tuning.targetOf(c3), references.at(c3).pitch).value() ==
          Approx(0.1).margin(1e-6));
    CHECK(std::count_if(references.begin(), references.end(), [](const auto& one) {
              return one.second.settled;
          }) == 1);
    // Tuned again in Tune: what was heard of it does not hold any more.
    const auto key = keyAt(desk.recheck.instrument(), c3.course);
    REQUIRE(key);
    desk.pluck(*key, -4.0);
    CHECK(desk.recheck.recheck().heard().size() == 1);
    desk.recheck.leave();
    desk.tuning.hear(readingOf(desk.tuning, 0, -4.0), Seconds(19)); // open again
    for (int i = 0; i < 3; ++i) {
        desk.tuning.hear(readingOf(desk.tuning, 0, -0.4), Seconds(20 + i));
    }
    desk.enter();
    CHECK(desk.recheck.recheck().heard().empty());
}

TEST_CASE("every pluck of a recheck is kept, and the next one shows it as a ghost", "[ui]") {
    RecheckDesk desk;
    for (std::size_t step = 0; step < 13; ++step) {
        settle(desk.tuning, step);
    }
    desk.enter();
    desk.recheck.chooseChoir(0);
    const auto& steps = desk.tuning.session().plan->steps;
    for (std::size_t step = 0; step < 13; ++step) {
        desk.pluck(steps[step].key, step == 5 ? -9.0 : -2.0);
    }
    desk.recheck.finish();
    REQUIRE(desk.recheck.fit());
    CHECK(desk.recheck.fit()->whole.value == Approx(-2.0).margin(0.5));
    // One octave of one choir: what the case did is not told from what warmth did, and no such number is shown.
    REQUIRE(desk.recheck.fit()->whole.uncertainty > 2.0);
    const QString findings = driftFindings(desk.recheck).join(QLatin1Char(' '));
    CHECK(findings.contains(
        QStringLiteral("moved by %1 cents on average").arg(signedCents(Cents(-2.0)))));
    CHECK_FALSE(findings.contains(QStringLiteral("whole instrument")));
    REQUIRE(desk.recheck.advice());
    const auto& listed = desk.recheck.advice()->moved.value_or(desk.recheck.advice()->here).strings;
    REQUIRE(listed.size() == 1);
    CHECK(listed[0].string == steps[5].string);
    CHECK(driftPicture(desk.recheck, nullptr).ghost.empty()); // its own plucks are no ghost
    desk.recheck.beginAgain();
    desk.recheck.finish();
    CHECK(driftPicture(desk.recheck, nullptr).ghost.size() == 13);
    CHECK(desk.recheck.recheck().heard().empty());

    const LogbookContents contents = desk.contents();
    const auto session =
        std::find_if(contents.sessions.begin(),
                     contents.sessions.end(),
                     [](const SessionRecord& one) { return one.kind == kRecheckKind; });
    REQUIRE(session != contents.sessions.end());
    CHECK(std::count_if(
              contents.readings.begin(), contents.readings.end(), [&](const ReadingRecord& one) {
                  return one.session == session->seq;
              }) == 13);
    CHECK(std::any_of(contents.sessionEnds.begin(),
                      contents.sessionEnds.end(),
                      [&](const SessionEndRecord& one) { return one.session == session->seq; }));
    CHECK(contents.readings.back().deviationCents == Approx(-2.0));
    CHECK(parseCompared(contents.readings.back().settings));
}

TEST_CASE("a pluck that is not sure, or of another choir, counts nothing and is said", "[ui]") {
    RecheckDesk desk;
    desk.enter();
    StringReading weak;
    weak.standing = Standing::Weak;
    weak.string = {desk.recheck.choir(), 4};
    desk.recheck.hear(weak, Seconds(1));
    CHECK(desk.recheck.hearing() == Hearing::Weak);
    StringReading other;
    other.standing = Standing::Ok;
    other.string = {0, 4};
    other.deviationUncertainty = Cents(0.1);
    desk.recheck.hear(other, Seconds(2));
    CHECK(desk.recheck.recheck().heard().empty());
    CHECK(desk.contents().sessions.empty());
}

TEST_CASE("another instrument begins a new recheck", "[ui]") {
    RecheckDesk desk;
    desk.enter();
    desk.pluck(0, 1.0);
    TuningChoice spinet = firstOctave();
    spinet.instrument = QStringLiteral("spinet");
    REQUIRE(desk.tuning.choose(spinet));
    desk.recheck.finish();
    CHECK(desk.recheck.entered());
    CHECK(desk.recheck.choir() == 0);
    CHECK(desk.recheck.recheck().heard().empty());
    CHECK(desk.recheck.target()->strings.size() ==
          desk.recheck.instrument().choirs[0].strings.size());
}

TEST_CASE("strings that were never settled are told in a line, not listed beside those that were",
          "[ui]") {
    RecheckDesk desk;
    for (std::size_t step = 0; step < 13; ++step) {
        settle(desk.tuning, step); // C3 to C4 of the first 8'
    }
    desk.enter();
    desk.recheck.chooseChoir(0);
    for (std::size_t key = 0; key < 61; ++key) {
        const StringId string{0, courseOf(desk.recheck.instrument(), key)};
        const bool settled = desk.recheck.recheck().references().at(string).settled;
        desk.pluck(key, !settled ? 20.0 : string.course == 20 ? 6.0 : 0.0);
    }
    desk.recheck.finish();
    CHECK(desk.recheck.leftOut() == 48);
    CHECK(desk.recheck.judged() == 13);
    REQUIRE(desk.recheck.advice());
    CHECK(desk.recheck.advice()->here.strings.size() == 1);
    const QString said = adviceText(desk.recheck);
    CHECK(said.contains(QStringLiteral("1 string")));
    CHECK(said.contains(QStringLiteral("never settled")));
    CHECK(said.contains(QStringLiteral("48")));
}

TEST_CASE("where nothing was settled every string is judged as it stands", "[ui]") {
    RecheckDesk desk;
    desk.enter();
    desk.recheck.chooseChoir(0);
    for (std::size_t key = 0; key < 13; ++key) {
        desk.pluck(key, key % 2 == 0 ? 20.0 : 0.0);
    }
    desk.recheck.finish();
    CHECK(desk.recheck.leftOut() == 0);
    CHECK(desk.recheck.judged() == 13);
    CHECK_FALSE(adviceText(desk.recheck).contains(QStringLiteral("never settled")));
}
