#include "app/places/logbook/row_table.hpp"
#include "app/places/recheck/drift_view.hpp"
#include "app/places/recheck/recheck_page.hpp"
#include "tests/app/places/recheck/recheck_at_hand.hpp"

#include <QComboBox>
#include <QLabel>
#include <QLayout>
#include <QSpinBox>

using namespace quillbench;
using namespace quillbench::test;

namespace {

struct RecheckShown {
    RecheckDesk desk;
    RecheckPage page{desk.recheck, desk.live, desk.player};

    RecheckShown() {
        page.show();
        desk.enter();
    }

    [[nodiscard]] QString text(const char* name) const {
        const auto* label = page.findChild<QLabel*>(QString::fromLatin1(name));
        REQUIRE(label != nullptr);
        return label->text();
    }
};

} // namespace

TEST_CASE("the sentence says what is on and where to begin, then what comes next", "[ui]") {
    RecheckShown shown;
    CHECK(shown.text("recheckSentence").contains(QStringLiteral("upwards from F1")));
    shown.desk.pluck(0, 0.1);
    CHECK(shown.text("recheckSentence") == QStringLiteral("1 of 61 heard. Next: F♯1."));
}

TEST_CASE("nothing out of place is said plainly; one string is listed with its turn", "[ui]") {
    RecheckShown shown;
    for (std::size_t key = 0; key < 61; ++key) {
        shown.desk.pluck(key, 0.1);
    }
    shown.desk.recheck.finish();
    CHECK(shown.text("advice").startsWith(QStringLiteral("Leave it")));
    for (int i = 0; i < 20; ++i) {
        shown.desk.pluck(20, -9.0);
    }
    shown.desk.recheck.finish();
    CHECK(shown.text("advice").startsWith(QStringLiteral("Worth the hammer: 1 string")));
    const auto* list = shown.page.findChild<RowTable*>(QStringLiteral("shortList"));
    REQUIRE(list->topLevelItemCount() == 1);
    CHECK(list->topLevelItem(0)->text(1).startsWith(QLatin1Char('+')));
}

TEST_CASE("with minutes there are, the list names what gains most in them", "[ui]") {
    RecheckShown shown;
    for (std::size_t key = 0; key < 61; ++key) {
        shown.desk.pluck(key, key == 30 ? -14.0 : key == 10 ? 9.0 : key == 50 ? 7.0 : 0.1);
    }
    auto* minutes = shown.page.findChild<QSpinBox*>(QStringLiteral("recheckMinutes"));
    const auto* list = shown.page.findChild<RowTable*>(QStringLiteral("shortList"));
    REQUIRE(minutes != nullptr);
    minutes->setValue(1); // one string, at an ordinary player's 45 s
    shown.desk.recheck.finish();
    REQUIRE(shown.desk.recheck.bestUse());
    CHECK(shown.desk.recheck.bestUse()->strings.size() == 1);
    REQUIRE(list->topLevelItemCount() == 1);
    CHECK(shown.text("advice").startsWith(QStringLiteral("In 1 minutes these")));
    const double left = shown.desk.recheck.bestUse()->after;
    minutes->setValue(14);
    shown.desk.recheck.finish();
    CHECK(list->topLevelItemCount() == 3);
    CHECK(shown.desk.recheck.bestUse()->after < 0.2 * left);
    minutes->setValue(0);
    shown.desk.recheck.finish();
    CHECK_FALSE(shown.desk.recheck.bestUse());
    CHECK_FALSE(shown.text("advice").startsWith(QStringLiteral("In ")));
}

TEST_CASE("what only the virtual instrument can do is shown only with it", "[ui]") {
    const RecheckShown shown;
    for (const char* name : {"playUpwards", "letDaysPass"}) {
        CHECK_FALSE(shown.page.findChild<QWidget*>(QString::fromLatin1(name))->isVisible());
    }
}

TEST_CASE("a key is held as long as a recheck wants it", "[unit]") {
    CHECK(UpwardPlayer::millisecondsFor(*parseNote("C4")) == 1000);
    CHECK(UpwardPlayer::millisecondsFor(*parseNote("C#4")) == 700);
}

TEST_CASE("the picture is told to a screen reader, and all of it fits on a small screen", "[ui]") {
    const RecheckShown shown;
    const auto* drift = shown.page.findChild<DriftView*>();
    REQUIRE(drift != nullptr);
    CHECK(drift->accessibleDescription().startsWith(QStringLiteral("0 of 61")));
    for (const QComboBox* box : shown.page.findChildren<QComboBox*>()) {
        CHECK_FALSE(box->accessibleName().isEmpty());
    }
    CHECK(shown.page.layout()->minimumSize().width() <= 560);
    CHECK(shown.page.layout()->minimumSize().height() <= 360);
}
