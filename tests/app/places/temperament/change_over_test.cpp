#include "app/paint/theme.hpp"
#include "app/places/temperament/change_over_offer.hpp"
#include "app/places/temperament/change_over_panel.hpp"
#include "app/places/temperament/temperament_page.hpp"
#include "core/temperament/catalogue.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <QApplication>
#include <QLabel>
#include <QPushButton>
#include <QStyle>
#include <QTableWidget>
#include <algorithm>
#include <cmath>
#include <vector>

using namespace quillbench;
using namespace quillbench::test;

namespace {

struct Desk {
    TuningModel tuning;
    TemperamentModel bench{tuning};

    explicit Desk(const char* temperament = "vallotti") {
        TuningChoice choice = firstOctave();
        choice.temperament = QString::fromLatin1(temperament);
        REQUIRE(tuning.choose(choice));
        bench.follow(choice);
    }

    [[nodiscard]] ChangeOverOffer offer() const {
        const auto found = changeOverOffer(tuning, bench);
        REQUIRE(found);
        return *found;
    }
};

const ChangeOver& there(const ChangeOverOffer& offer) {
    return offer.held.there;
}

/// Every string of the instrument was left there, so far from Vallotti at a pitch.
StringHistory leftAt(const TuningModel& tuning, double a4Hz, double cents) {
    StringHistory left;
    left.leftIn = LeftIn{"vallotti", a4Hz, 0};
    const TunedScale scale{*findTemperament("vallotti"),
                           ReferencePitch{Hertz(a4Hz), {{Letter::A, 0}, 4}}};
    const Instrument& instrument = tuning.instrument();
    std::int64_t at = 0;
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        for (std::size_t i = 0; i < instrument.choirs[choir].strings.size(); ++i) {
            const Hertz target = targetPitch(
                instrument, {choir, i}, [&scale](const Note& note) { return scale.pitchOf(note); });
            at += 90000; // a string in a minute and a half
            left.settled[{choir, i}] = {transpose(target, Cents(cents)), Cents(0.1), {at, 0}};
        }
    }
    return left;
}

} // namespace

TEST_CASE("where the bench has what the instrument stands in there is nothing to change over",
          "[ui]") {
    const Desk desk;
    CHECK_FALSE(changeOverOffer(desk.tuning, desk.bench));
}

TEST_CASE("from E flat to D sharp as the circle makes it: each goes down by the diesis", "[ui]") {
    Desk desk("meantone-quarter");
    // As with the keys in the circle: the fifth G♯–E♭ becomes one like the others, E♭–B♭ takes what is left.
    const auto fifths = desk.bench.fifths();
    REQUIRE(fifths.size() == 12);
    const auto noteAt = [&desk](std::size_t i) { return desk.bench.temperament().notes()[i]; };
    REQUIRE(noteAt(0) == PitchClass{Letter::E, -1});
    REQUIRE(desk.bench.setFifth(11, *parseTempering("-1/4S")));
    REQUIRE(desk.bench.closeAt(0));
    const ChangeOverOffer offer = desk.offer();
    // Three choirs of 61 strings from F1 to F6 hold five keys E♭ each. The diesis 128/125 is 41.06 cents by arithmetic.
    CHECK(offer.strings == 183);
    CHECK(offer.known == 0);
    REQUIRE(there(offer).strings.size() == 15);
    const double diesis = 1200.0 * std::log2(128.0 / 125.0);
    for (const StringMove& one : there(offer).strings) {
        CHECK(one.move.value() == Approx(-diesis).margin(0.01));
        CHECK(keyNote(desk.tuning.instrument(), one.string).midiNumber() % 12 == 3);
    }
    CHECK(there(offer).furthestUp.value() == Approx(0.0));
    CHECK(there(offer).averageMove.value() == Approx(diesis).margin(0.01));
    // 15 strings at the ordinary player's 45 s each.
    CHECK(there(offer).time.count() == Approx(675.0));
    CHECK_FALSE(offer.farUp);
    CHECK(offer.held.back.strings.size() == 15);
    CHECK(offer.held.back.furthestUp.value() == Approx(diesis).margin(0.01));
    CHECK_FALSE(offer.shifted);
    // The way back, laid on the bench, is a rise that is warned of.
    Desk back("vallotti");
    REQUIRE(back.bench.choose(QStringLiteral("meantone-quarter")));
    CHECK(back.offer().farUp);
}

TEST_CASE("where the logbook knows the strings their own pitches and the player's speed count",
          "[ui]") {
    Desk desk;
    desk.bench.setLeft(leftAt(desk.tuning, 413.0, 0.0));
    const ChangeOverOffer offer = desk.offer();
    CHECK(offer.known == 183);
    CHECK(offer.standsIn.reference.hz.value() == Approx(413.0));
    // 413 to 415 Hz is 1200 log2(415/413) = 8.364 cents up, all of it.
    REQUIRE(there(offer).strings.size() == 183);
    CHECK(there(offer).furthestUp.value() == Approx(8.364).margin(0.001));
    // 182 logged times of 90 s, drawn towards 45 s as by five strings: 45 * 2^(182/187) s each.
    CHECK(there(offer).time.count() == Approx(183 * 45.0 * std::exp2(182.0 / 187.0)).epsilon(1e-9));
    // The whole may be moved by 5 cents at most, and all lie 8.4 away.
    CHECK_FALSE(offer.shifted);
}

TEST_CASE("the shift that is offered is a pitch as it is shown, and holds what it promises",
          "[ui]") {
    Desk desk;
    // Young II has F♯, C♯, G♯, E♭, B♭, F a sixth of the comma, 3.9 cents, lower than Vallotti, the rest alike (by
    // arithmetic). Of strings left 2 cents low all have to move, by +2 or −1.9, and half of them not after a shift.
    StringHistory left = leftAt(desk.tuning, 415.0, -2.0);
    desk.bench.setLeft(std::move(left));
    REQUIRE(desk.bench.choose(QStringLiteral("young-2")));
    const ChangeOverOffer offer = desk.offer();
    REQUIRE(offer.shifted);
    CHECK(offer.shifted->a4Hz == Approx(std::round(offer.shifted->a4Hz * 100.0) / 100.0));
    CHECK(offer.shifted->there.strings.size() < there(offer).strings.size());
    const double promised = static_cast<double>(offer.shifted->there.strings.size());
    desk.bench.setA4(offer.shifted->a4Hz);
    CHECK(static_cast<double>(there(desk.offer()).strings.size()) == promised);
}

TEST_CASE("what was heard in this session counts more than the logbook", "[ui]") {
    Desk desk;
    desk.bench.setLeft(leftAt(desk.tuning, 415.0, 0.0));
    REQUIRE(desk.bench.setFifth(0, *parseTempering("-0.5c")));
    REQUIRE(desk.bench.closeAt(11));
    // Only E♭ moves, by half a cent: nothing for a tolerance of one.
    CHECK(there(desk.offer()).strings.empty());
    desk.tuning.hear(readingOf(desk.tuning, 0, 4.0), Seconds(1));
    const ChangeOverOffer offer = desk.offer();
    REQUIRE(there(offer).strings.size() == 1);
    CHECK(there(offer).strings[0].string == desk.tuning.session().plan->steps[0].string);
    CHECK(there(offer).strings[0].move.value() == Approx(-4.0).margin(0.01));
}

TEST_CASE("choirs that are left alone cost nothing in a change-over", "[ui]") {
    Desk desk("meantone-quarter");
    REQUIRE(desk.bench.choose(QStringLiteral("vallotti")));
    const std::size_t all = there(desk.offer()).strings.size();
    SessionOptions options;
    options.leftAlone << QStringLiteral("8b") << QStringLiteral("4");
    desk.tuning.setOptionsOfNext(options);
    CHECK(desk.offer().strings == 61);
    CHECK(there(desk.offer()).strings.size() * 3 == all);
}

TEST_CASE("Temperament tells the change-over in words, and its button shifts the whole", "[ui]") {
    Desk desk;
    TemperamentPage page(desk.bench, desk.tuning);
    page.resize(1200, 760);
    page.show();
    const auto find = [&page](const char* name) {
        auto* found = page.findChild<QWidget*>(QString::fromLatin1(name));
        REQUIRE(found != nullptr);
        return found;
    };
    const auto tellsNone = [&find] {
        return find("changeOverBack")->isHidden() &&
               qobject_cast<QLabel*>(find("changeOverWords"))
                   ->text()
                   .startsWith(QStringLiteral("The instrument stands in this."));
    };
    CHECK(tellsNone());
    desk.bench.setLeft(leftAt(desk.tuning, 415.0, -2.0));
    CHECK(tellsNone()); // out of tune is not another temperament
    REQUIRE(desk.bench.choose(QStringLiteral("young-2")));
    CHECK_FALSE(tellsNone());
    const auto isAbove = [&find](const char* other) {
        QApplication::processEvents();
        return find("changeOver")->y() < find(other)->y();
    };
    CHECK_FALSE(isAbove("circle"));
    page.resize(800, 600); // stacked: it would else lie below all that is scrolled
    CHECK(isAbove("circle"));
    page.resize(1200, 760);
    CHECK_FALSE(isAbove("circle"));
    const auto words = [&find](const char* name) {
        return qobject_cast<QLabel*>(find(name))->text();
    };
    CHECK(words("changeOverWords")
              .startsWith(QStringLiteral(
                  "From Vallotti at 415.00 Hz (where 183 of 183 strings were heard) to this: ")));
    CHECK(words("changeOverBack").startsWith(QStringLiteral("The way back: ")));
    const ChangeOverOffer offer = desk.offer();
    REQUIRE(offer.shifted);
    auto* button = qobject_cast<QPushButton*>(find("shiftWhole"));
    CHECK_FALSE(button->accessibleDescription().isEmpty());
    button->click();
    CHECK(desk.bench.a4Hz() == Approx(offer.shifted->a4Hz));
    // At the pitch taken no shift spares a string more.
    CHECK(button->isHidden());
    REQUIRE(desk.bench.choose(QStringLiteral("meantone-quarter")));
    CHECK_FALSE(find("changeOverCare")->isHidden());
    CHECK(words("changeOverWords").contains(QStringLiteral("at most")));
    desk.bench.setA4(400.0); // 63.7 cents lower than 415: all fall
    CHECK(words("changeOverWords").contains(QStringLiteral("none up")));
    CHECK(find("changeOverCare")->isHidden());
    REQUIRE(desk.bench.choose(QStringLiteral("vallotti")));
    desk.bench.setA4(415.0);
    CHECK(tellsNone());
}

TEST_CASE("nothing moves on Temperament while the catalogue is looked through", "[ui]") {
    Desk desk;
    desk.bench.setLeft(leftAt(desk.tuning, 415.0, -2.0));
    TemperamentPage page(desk.bench, desk.tuning);
    const bool stacked = GENERATE(false, true);
    page.resize(stacked ? QSize(800, 600) : QSize(1200, 760));
    page.show();
    // Stacked, what lies below the list moves with what is told of each.
    const auto place = [&page, stacked](const char* name) {
        QApplication::processEvents();
        const QRect at = page.findChild<QWidget*>(QString::fromLatin1(name))->geometry();
        return stacked ? QRect(at.topLeft(), QSize()) : at;
    };
    const auto places = [&place, stacked] {
        return stacked ? std::vector<QRect>{place("catalogue")}
                       : std::vector<QRect>{place("circle"), place("temperamentTabs")};
    };
    REQUIRE(desk.bench.choose(QStringLiteral("meantone-quarter"))); // with the most to say
    const std::vector<QRect> before = places();
    for (const char* next : {"young-2", "vallotti", "meantone-quarter"}) {
        REQUIRE(desk.bench.choose(QString::fromLatin1(next)));
        INFO(next);
        CHECK((places() == before));
    }
}

TEST_CASE("colours on Temperament go with the theme", "[ui]") {
    Desk desk;
    TemperamentPage page(desk.bench, desk.tuning);
    page.show();
    REQUIRE(desk.bench.choose(QStringLiteral("meantone-quarter")));
    auto* care = page.findChild<QLabel*>(QStringLiteral("changeOverCare"));
    auto* beats = page.findChild<QTableWidget*>(QStringLiteral("beatTable"));
    REQUIRE(care != nullptr);
    REQUIRE(beats != nullptr);
    REQUIRE_FALSE(care->isHidden());
    for (const Theme& theme : {Theme::dark(), Theme::light(), Theme::boldDark()}) {
        QApplication::setPalette(theme.palette());
        QApplication::processEvents(); // the page is told,
        QApplication::processEvents(); // and fills its tables again
        INFO(theme.paper.name().toStdString());
        CHECK(care->palette().color(QPalette::WindowText).name().toStdString() ==
              theme.danger.name().toStdString());
        int pale = 0; // too fast to count
        for (int row = 0; row < beats->rowCount(); ++row) {
            const QTableWidgetItem* item = beats->item(row, 2);
            if (item != nullptr && item->foreground().style() != Qt::NoBrush) {
                ++pale;
                CHECK(item->foreground().color().name().toStdString() ==
                      theme.quiet.name().toStdString());
            }
        }
        CHECK(pale > 0);
    }
    QApplication::setPalette(QApplication::style()->standardPalette());
}
