#include "app/models/look_offers.hpp"
#include "app/models/picture_maker.hpp"
#include "app/models/session_journal.hpp"
#include "app/text/format.hpp"
#include "app/views/main_window.hpp"
#include "app/views/tune_page.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <QDir>
#include <QLabel>
#include <QPushButton>
#include <QTemporaryDir>
#include <algorithm>
#include <map>
#include <vector>

using namespace quillbench;
using namespace quillbench::test;

namespace {

TuningChoice withFirstLook() {
    TuningChoice choice = firstOctave();
    choice.extent = Extent::Whole;
    choice.parts = SessionParts{true, true, true, false};
    return choice;
}

bool has(const TuningModel& model, Phase phase, std::size_t choir) {
    const auto& steps = model.session().plan->steps;
    return std::any_of(steps.begin(), steps.end(), [phase, choir](const TuningStep& step) {
        return step.phase == phase && step.string.choir == choir;
    });
}

std::vector<std::size_t> lookSteps(const TuningModel& model) {
    std::vector<std::size_t> look;
    const auto& steps = model.session().plan->steps;
    for (std::size_t step = 0; step < steps.size(); ++step) {
        if (steps[step].phase == Phase::FirstLook) {
            look.push_back(step);
        }
    }
    return look;
}

/// The first look, choir by choir: each of its strings stands there.
void lookAt(TuningModel& model, const std::vector<double>& centsOfChoir) {
    for (const std::size_t step : lookSteps(model)) {
        model.act(GoTo{step, FrameIndex()});
        for (const StringId string : model.session().plan->steps[step].sweep) {
            StringReading reading = readingOf(model, step, centsOfChoir[string.choir]);
            reading.string = string;
            reading.target = model.targetOf(string);
            reading.pitch = transpose(reading.target, reading.deviation);
            model.hear(reading, Seconds(1));
        }
    }
}

std::size_t firstToSet(const TuningModel& model) {
    const auto& steps = model.session().plan->steps;
    return static_cast<std::size_t>(
        std::find_if(
            steps.begin(), steps.end(), [](const TuningStep& step) { return step.setsString(); }) -
        steps.begin());
}

struct Kept {
    explicit Kept(const QTemporaryDir& folder) {
        REQUIRE(model.choose(withFirstLook()));
        REQUIRE(journal.open(
            QDir(folder.path()).filePath(QStringLiteral("logbook.sqlite")).toStdString()));
    }

    TuningModel model;
    SessionJournal journal{model};
};

} // namespace

TEST_CASE("a first look shows and plays the string that it asks for, not its first", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(withFirstLook()));
    const std::size_t step = lookSteps(model).front();
    model.act(GoTo{step, FrameIndex()});
    const std::vector<StringId> sweep = model.session().plan->steps[step].sweep;
    StringReading reading = readingOf(model, step, -3.0);
    reading.string = sweep[0];
    model.hear(reading, Seconds(1));
    REQUIRE(model.session().stringToPlay(step) == sweep[1]);
    const Note asked = keyNote(model.instrument(), sweep[1], model.position());
    CHECK(model.keyToPlay() == keyOf(model.instrument().compass, asked));
    CHECK(figuresPicture(model, model.session(), nullptr).note == noteText(asked));
    CHECK(keyboardPicture(model, model.session(), nullptr).description.contains(noteText(asked)));
}

TEST_CASE("a first look that is done shows its last string as it was heard, untied", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(withFirstLook()));
    lookAt(model, {-0.2, -0.2, -0.2});
    const std::size_t step = lookSteps(model).back();
    REQUIRE(model.session().current == step);
    const StringId last = model.session().plan->steps[step].sweep.back();
    const FiguresPicture figures = figuresPicture(model, model.session(), nullptr);
    CHECK(figures.note == noteText(keyNote(model.instrument(), last, model.position())));
    CHECK(figures.deviation == signedCents(Cents(-0.2)));
    const WiresPicture wires = wiresPicture(model, model.session(), nullptr);
    CHECK(wires.sounding.has_value());
    CHECK_FALSE(wires.knotted);
}

TEST_CASE("after a first look the costs of both pitches are told, until a string is set", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(withFirstLook()));
    REQUIRE(lookSteps(model).size() == 3);
    CHECK_FALSE(lookOffers(model));
    lookAt(model, {-8.0, -8.0, -8.0});
    const auto offers = lookOffers(model);
    REQUIRE(offers);
    // By hand: three choirs of a dozen strings heard, three of 61 to be tuned, all of them 8 cents flat. An ordinary
    // player tunes a string in 45 s and hears one in 3 s.
    CHECK(offers->heard == 36);
    CHECK(offers->strings == 183);
    CHECK(offers->standard.strings == Approx(183.0));
    CHECK(offers->standard.averageMove.value() == Approx(8.0));
    CHECK(offers->standard.furthestUp.value() == Approx(8.0));
    CHECK(offers->standard.time.count() == Approx(183 * 45.0));
    REQUIRE(offers->alone);
    CHECK(offers->alone->shift.value() == Approx(-8.0));
    CHECK(offers->alone->strings == Approx(0.0).margin(1e-9));
    CHECK(offers->alone->time.count() == Approx(183 * 3.0));
    model.act(GoTo{firstToSet(model), FrameIndex()});
    settle(model, firstToSet(model));
    REQUIRE(model.session().done(firstToSet(model)));
    CHECK_FALSE(lookOffers(model));
}

TEST_CASE("what another instrument was heard to give is a third offer with its cost", "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(withFirstLook()));
    lookAt(model, {-8.0, -8.0, -8.0});
    // 413.80 Hz is 1200 log2(413.8/415) = −5.013 cents: every string found at −8 has to rise by 2.987.
    const HeardPitch heard{413.80, Cents(0.7), false, {}};
    PlayerSpeed quick;
    quick.toTune = Seconds(20.0);
    const auto offers = lookOffers(model, quick, heard);
    REQUIRE(offers);
    REQUIRE(offers->asHeard);
    CHECK(offers->asHeard->shift.value() == Approx(-5.013).margin(1e-3));
    CHECK(offers->asHeard->shiftUncertainty.value() == Approx(0.7));
    CHECK(offers->asHeard->strings == Approx(183.0));
    CHECK(offers->asHeard->furthestUp.value() == Approx(2.987).margin(1e-3));
    CHECK(offers->asHeard->time.count() == Approx(183 * 20.0));
    CHECK(offers->standard.time.count() == Approx(183 * 20.0));
    CHECK_FALSE(lookOffers(model)->asHeard);
    // A semitone away is another standard.
    CHECK_FALSE(lookOffers(model, quick, HeardPitch{440.0, Cents(0.3), false, {}})->asHeard);
}

TEST_CASE("the pitch that was heard is taken by its key after a first look", "[ui]") {
    TuningModel tuning;
    LiveModel live;
    VirtualPlayer player{tuning};
    MainWindow window{tuning, live, player};
    REQUIRE(tuning.choose(withFirstLook()));
    auto* taken = window.findChild<QPushButton*>(QStringLiteral("goOnAsHeard"));
    REQUIRE(taken != nullptr);
    lookAt(tuning, {-8.0, -8.0, -8.0});
    CHECK(taken->isHidden());
    PlayerSpeed quick;
    quick.toTune = Seconds(20.0);
    window.tunePage().setLookFacts(quick, HeardPitch{413.80, Cents(0.7), false, {}});
    CHECK_FALSE(taken->isHidden());
    CHECK(taken->shortcut() == QKeySequence(Qt::CTRL | Qt::Key_F12));
    CHECK(taken->accessibleName() == QStringLiteral("As heard, 413.80 Hz"));
    // 183 strings at 20 s are 61 minutes.
    CHECK(taken->accessibleDescription() ==
          QStringLiteral("\u22125.0 \u00b1 0.7 cents: 183 of 183 strings, on average 3.0 cents, at "
                         "most 3.0 up; 61 min"));
    const auto words = [&window] {
        return window.findChild<QLabel*>(QStringLiteral("firstLookWords"))->text();
    };
    CHECK_FALSE(words().contains(QStringLiteral("conservator")));
    // 420 Hz lies 20.7 cents up: nothing for an old instrument without asking.
    window.tunePage().setLookFacts(quick, HeardPitch{420.0, Cents(0.7), false, {}});
    CHECK(words().contains(QStringLiteral("conservator")));
    window.tunePage().setLookFacts(quick, HeardPitch{413.80, Cents(0.7), false, {}});
    taken->click();
    CHECK(tuning.choice().a4Hz == Approx(413.80));
    CHECK(tuning.choice().afterLook);
}

TEST_CASE("the offers are the core's; an instrument at its standard is offered no other pitch",
          "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(withFirstLook()));
    lookAt(model, {-6.0, 3.0, -6.3});
    std::vector<FoundString> found;
    for (const std::size_t step : lookSteps(model)) {
        for (const auto& [string, mark] : model.session().progress[step].swept) {
            found.push_back({string, mark.deviation, mark.uncertainty});
        }
    }
    const auto core = pitchOffers(model.instrument(), found, Tolerances{}.bearings, {});
    const auto offers = lookOffers(model);
    REQUIRE(offers);
    REQUIRE(offers->alone);
    CHECK(offers->standard.strings == Approx(core[0].strings));
    CHECK(offers->alone->shift.value() == Approx(core[1].shift.value()));
    CHECK(offers->alone->averageMove.value() == Approx(core[1].averageMove.value()));
    CHECK(offers->alone->time.count() == Approx(core[1].time.count()));

    REQUIRE(model.choose(withFirstLook()));
    lookAt(model, {0.3, -0.2, 0.1});
    REQUIRE(lookOffers(model));
    CHECK_FALSE(lookOffers(model)->alone);
}

TEST_CASE("a choir that is left alone costs nothing", "[ui]") {
    TuningModel model;
    TuningChoice choice = withFirstLook();
    choice.options.leftAlone << QStringLiteral("4");
    REQUIRE(model.choose(choice));
    lookAt(model, {-8.0, -8.0, -8.0});
    REQUIRE(lookOffers(model));
    CHECK(lookOffers(model)->strings == 122);
    CHECK(lookOffers(model)->standard.strings == Approx(122.0));
}

TEST_CASE("the rest goes on at the other pitch, knowing what was heard; a choir far out gets a "
          "rough pass",
          "[ui]") {
    TuningModel model;
    REQUIRE(model.choose(withFirstLook()));
    model.act(GoBy{Way::ByEar});
    lookAt(model, {-5.0, -5.0, -25.0});
    REQUIRE(model.goOnAt(Cents(-5.0)));
    // 415 Hz lowered by 5 cents: 415 * 2^(-5/1200) = 413.8032, shown and tuned as 413.80.
    CHECK(model.choice().a4Hz == Approx(413.80).margin(1e-9));
    for (const std::size_t choir : {0U, 1U, 2U}) {
        CHECK_FALSE(has(model, Phase::RunThrough, choir));
        CHECK_FALSE(has(model, Phase::WarmUp, choir));
        CHECK_FALSE(has(model, Phase::FirstLook, choir));
        CHECK(has(model, Phase::RoughPass, choir) == (choir == 2));
    }
    const Session& session = model.session();
    CHECK(session.way == Way::ByEar);
    REQUIRE(session.known.size() == 36);
    for (const auto& [string, mark] : session.known) {
        // A hundredth of a hertz is 0.04 cents.
        CHECK(mark.deviation.value() == Approx(string.choir == 2 ? -20.0 : 0.0).margin(0.03));
        CHECK(mark.uncertainty.value() == Approx(0.1));
    }
    REQUIRE(session.remarks.size() == 1);
    CHECK(session.remarks[0].text == "goes on at 413.80 Hz after a first look at 415.00 Hz");
    CHECK_FALSE(lookOffers(model));
    // Begun again it is asked for anew, at the standard.
    REQUIRE(model.chooseAgain());
    CHECK(model.choice() == withFirstLook());
    CHECK(lookSteps(model).size() == 3);
}

TEST_CASE("the pitch chosen after a first look stands when the session is taken up", "[ui]") {
    const QTemporaryDir folder;
    TuningChoice choice;
    std::map<StringId, Mark> known;
    std::size_t first = 0;
    {
        Kept kept(folder);
        lookAt(kept.model, {-7.77, -7.77, -25.0});
        REQUIRE(kept.model.goOnAt(Cents(-7.77)));
        first = firstToSet(kept.model);
        settle(kept.model, first);
        choice = kept.model.choice();
        known = kept.model.session().known;
        kept.journal.settle();
    }
    Kept again(folder); // at the standard, as the settings have it
    REQUIRE(again.journal.takeUp());
    CHECK(again.model.choice() == choice);
    CHECK(again.model.choice().afterLook);
    CHECK(again.model.session().done(first));
    CHECK(has(again.model, Phase::RoughPass, 2));
    REQUIRE(again.model.session().known.size() == known.size());
    for (const auto& [string, mark] : again.model.session().known) {
        CHECK(mark.deviation.value() == Approx(known.at(string).deviation.value()).margin(1e-9));
    }
}

TEST_CASE("a session after a first look is not taken up where another standard is chosen", "[ui]") {
    const QTemporaryDir folder;
    {
        Kept kept(folder);
        lookAt(kept.model, {-8.0, -8.0, -8.0});
        REQUIRE(kept.model.goOnAt(Cents(-8.0)));
        kept.journal.settle();
    }
    Kept again(folder);
    TuningChoice other = withFirstLook();
    other.a4Hz = 392.0;
    REQUIRE(again.model.choose(other));
    CHECK_FALSE(again.journal.takeUp());
    CHECK(again.model.choice() == other);
}

TEST_CASE("Tune asks at which pitch to go on: by its keys, and not again", "[ui]") {
    TuningModel tuning;
    LiveModel live;
    VirtualPlayer player{tuning};
    MainWindow window{tuning, live, player};
    REQUIRE(tuning.choose(withFirstLook()));
    const auto part = [&window](const char* name) {
        auto* found = window.findChild<QWidget*>(QString::fromLatin1(name));
        REQUIRE(found != nullptr);
        return found;
    };
    auto* stay = qobject_cast<QPushButton*>(part("stayAtStandard"));
    auto* shift = qobject_cast<QPushButton*>(part("goOnAtPitch"));
    CHECK(part("firstLook")->isHidden());
    lookAt(tuning, {-8.0, -8.0, -8.0});
    CHECK_FALSE(part("firstLook")->isHidden());
    CHECK(stay->shortcut() == QKeySequence(Qt::CTRL | Qt::Key_F10));
    CHECK(shift->shortcut() == QKeySequence(Qt::CTRL | Qt::Key_F11));
    CHECK(stay->accessibleName() == QStringLiteral("Stay at 415.00 Hz"));
    CHECK(shift->accessibleName() == QStringLiteral("Tune at 413.09 Hz"));
    CHECK(stay->accessibleDescription() ==
          QStringLiteral("183 of 183 strings, on average 8.0 cents, at most 8.0 up; 137 min"));
    stay->click();
    CHECK(part("firstLook")->isHidden());
    CHECK(tuning.choice() == withFirstLook());
    CHECK(tuning.session().countOf(StepState::Settled) == 3);

    REQUIRE(tuning.choose(withFirstLook()));
    lookAt(tuning, {-8.0, -8.0, -8.0});
    REQUIRE_FALSE(part("firstLook")->isHidden());
    shift->click();
    CHECK(part("firstLook")->isHidden());
    CHECK(tuning.choice().a4Hz == Approx(413.09));
}
