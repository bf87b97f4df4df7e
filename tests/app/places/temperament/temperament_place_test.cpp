#include "app/places/temperament/circle_view.hpp"
#include "app/places/temperament/temperament_card.hpp"
#include "app/places/temperament/temperament_model.hpp"
#include "app/places/temperament/temperament_page.hpp"
#include "app/places/temperament/temperament_text.hpp"
#include "app/text/format.hpp"
#include "core/temperament/catalogue.hpp"
#include "tests/app/tuning_at_hand.hpp"
#include "tests/support/temporary_folder.hpp"

#include <QApplication>
#include <QFile>
#include <QFocusEvent>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QMouseEvent>
#include <QPushButton>
#include <QTableWidget>
#include <cmath>

using namespace quillbench;
using namespace quillbench::test;

namespace {

struct Bench {
    TuningModel tuning;
    TemperamentModel model{tuning};
    TemperamentPage page{model, tuning};

    Bench() { page.resize(1200, 760); }

    template <typename Widget>
    [[nodiscard]] Widget& find(const char* name) const {
        auto* found = page.findChild<Widget*>(QString::fromLatin1(name));
        INFO(name);
        REQUIRE(found != nullptr);
        return *found;
    }

    [[nodiscard]] CircleView& circle() const { return find<CircleView>("circle"); }

    void press(int key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) const {
        QKeyEvent event(QEvent::KeyPress, key, modifiers);
        QApplication::sendEvent(&circle(), &event);
    }

    [[nodiscard]] double fifth(std::size_t i) const { return model.fifths()[i].cents().value(); }
};

/// What the field of the chosen fifth is called.
QString fifthName(const Bench& bench) {
    const QWidget& field = bench.find<QLineEdit>("chosenFifth");
    for (const QLabel* label : bench.page.findChildren<QLabel*>()) {
        if (label->buddy() == &field) {
            return label->text();
        }
    }
    return {};
}

void sendMouse(QWidget& view, QEvent::Type type, const QPointF& at) {
    QMouseEvent event(
        type, at, view.mapToGlobal(at), Qt::LeftButton, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&view, &event);
}

} // namespace

TEST_CASE("every temperament of the catalogue can be laid on the bench", "[ui]") {
    const Bench bench;
    auto& list = bench.find<QListWidget>("catalogue");
    REQUIRE(list.count() == static_cast<int>(catalogue().size()));
    for (int row = 0; row < list.count(); ++row) {
        list.setCurrentRow(row);
        CHECK(bench.model.temperament().id() == catalogue()[static_cast<std::size_t>(row)].id());
        CHECK(bench.circle().picture().closing.isEmpty());
        CHECK(bench.find<QListWidget>("bearingSteps").count() >= 12);
    }
}

TEST_CASE("the circle says fractions of the comma and cents as they are printed", "[ui]") {
    Bench other;
    REQUIRE(other.model.choose(QStringLiteral("werckmeister-3")));
    // Werckmeister III: C-G, G-D, D-A and B-F# narrow by a quarter of the Pythagorean comma, 5.865 cents, the rest pure
    // (the catalogue's source; the size is 23.460 / 4).
    const CirclePicture picture = other.circle().picture();
    for (const FifthShown& fifth : picture.fifths) {
        const bool tempered =
            fifth.lower == QStringLiteral("C") || fifth.lower == QStringLiteral("G") ||
            fifth.lower == QStringLiteral("D") || fifth.lower == QStringLiteral("B");
        INFO(fifth.lower.toStdString());
        CHECK(fifth.cents == (tempered ? QStringLiteral("\u22125.9") : QString()));
        CHECK(fifth.fraction ==
              (tempered ? QStringLiteral("\u22121/4\u00a0P") : QStringLiteral("pure")));
    }
}

TEST_CASE("a fifth is tempered by keys, and every change can be undone and done again", "[ui]") {
    Bench bench;
    bench.model.follow(firstOctave());
    CHECK_FALSE(bench.model.canUndo());
    bench.press(Qt::Key_Right);
    REQUIRE(bench.circle().chosen() == 1);
    const double before = bench.fifth(1);
    bench.press(Qt::Key_Up);
    // A twelfth of the Pythagorean comma, 531441/524288.
    CHECK(bench.fifth(1) == Approx(before + 1200.0 * std::log2(531441.0 / 524288.0) / 12.0));
    bench.press(Qt::Key_Down, Qt::ShiftModifier);
    CHECK(bench.fifth(1) == Approx(before + 1.955 - 0.1).margin(1e-3));
    bench.model.undo();
    bench.model.undo();
    CHECK(bench.fifth(1) == Approx(before));
    CHECK_FALSE(bench.model.canUndo());
    CHECK(bench.model.temperament().id() == "vallotti");
    bench.model.redo();
    CHECK(bench.fifth(1) == Approx(before + 1.955).margin(1e-3));
}

TEST_CASE("a circle that does not close says by how much, and cannot be tuned", "[ui]") {
    Bench bench;
    bench.model.follow(firstOctave());
    bench.press(Qt::Key_Up);
    CHECK(bench.model.openBy().value() == Approx(1.955).margin(1e-3));
    CHECK(bench.circle().picture().closing.contains(QStringLiteral("+2.0")));
    bool wanted = false;
    QObject::connect(&bench.page, &TemperamentPage::tuneWanted, [&] { wanted = true; });
    bench.find<QPushButton>("tuneWithThis").click();
    CHECK_FALSE(wanted);
    CHECK(bench.find<QLabel>("temperamentTold").text().contains(QStringLiteral("open by")));
    bench.press(Qt::Key_Right);
    bench.press(Qt::Key_Equal);
    CHECK(bench.circle().picture().closing.isEmpty());
    CHECK(bench.fifth(1) == Approx(-1.955).margin(1e-3));
}

TEST_CASE("dragging a mark outwards widens its fifth, and one undo takes the drag back", "[ui]") {
    Bench bench;
    bench.model.follow(firstOctave());
    CircleView& circle = bench.circle();
    circle.resize(460, 460);
    const double before = bench.fifth(4);
    const QPointF start = circle.handleOf(4);
    const QPointF middle = QRectF(circle.rect()).center();
    const QPointF out =
        (start - middle) / std::hypot(start.x() - middle.x(), start.y() - middle.y());
    sendMouse(circle, QEvent::MouseButtonPress, start);
    sendMouse(circle, QEvent::MouseMove, start + out * 10.0);
    sendMouse(circle, QEvent::MouseMove, start + out * 22.0);
    sendMouse(circle, QEvent::MouseButtonRelease, start + out * 22.0);
    CHECK(bench.fifth(4) > before + 3.0);
    bench.model.undo();
    CHECK(bench.fifth(4) == Approx(before));
    CHECK_FALSE(bench.model.canUndo());
}

TEST_CASE("from E flat to D sharp the key changes its name, and the fifth that is chosen stays",
          "[ui]") {
    Bench bench;
    REQUIRE(bench.model.choose(QStringLiteral("meantone-quarter")));
    CircleView& circle = bench.circle();
    REQUIRE(circle.picture().fifths[0].lower == QStringLiteral("E♭"));
    REQUIRE(bench.model.setFifth(11, *parseTempering("-1/4S")));
    circle.choose(0);
    const QPointF handle = circle.handleOf(0);
    REQUIRE(bench.model.closeAt(0));
    CHECK(circle.picture().lastNote == QStringLiteral("D♯"));
    CHECK(circle.picture().fifths[10].lower == QStringLiteral("G♯"));
    CHECK(circle.chosen() == 11);
    CHECK(std::abs(circle.handleOf(11).x() - handle.x()) < 20.0);
    CHECK(fifthName(bench).contains(QStringLiteral("D♯\u2013B♭")));
    const auto& notes = bench.find<QTableWidget>("noteTable");
    CHECK(notes.item(3, 0)->text() == QStringLiteral("D♯"));
    bench.model.undo();
    CHECK(circle.chosen() == 0);
    CHECK(circle.picture().fifths[0].lower == QStringLiteral("E♭"));
}

TEST_CASE("the keyboard in the catalogue does not take away what is being made", "[ui]") {
    Bench bench;
    bench.model.follow(firstOctave());
    REQUIRE(bench.model.setFifth(0, *parseTempering("-1/12P")));
    auto& list = bench.find<QListWidget>("catalogue");
    CHECK(list.selectedItems().isEmpty());
    bench.page.show();
    QFocusEvent event(QEvent::FocusIn, Qt::TabFocusReason);
    QApplication::sendEvent(&list, &event);
    CHECK(bench.model.unsaved());
    CHECK(bench.fifth(0) == Approx(-1.955).margin(1e-3));
}

TEST_CASE("one's own temperament is saved, opened and tuned", "[ui]") {
    const TemporaryFolder folder;
    const QString file = QString::fromStdString((folder.path() / "own.json").string());
    Bench bench;
    bench.model.follow(firstOctave());
    REQUIRE(bench.model.setFifth(0, *parseTempering("-1/12P")));
    REQUIRE(bench.model.closeAt(11));
    bench.model.rename(QStringLiteral("House temperament"));
    REQUIRE(bench.model.save(file));
    Bench again;
    REQUIRE(again.model.choose(file));
    CHECK(again.model.temperament().description().name == "House temperament");
    for (std::size_t i = 0; i < 12; ++i) {
        CHECK(again.fifth(i) == Approx(bench.fifth(i)));
    }
    REQUIRE(again.model.choiceId().hasValue());
    TuningChoice choice = firstOctave();
    choice.temperament = *again.model.choiceId();
    REQUIRE(again.tuning.choose(choice));
    CHECK(again.tuning.choice().temperament == choice.temperament);
}

TEST_CASE("twelve notes heard at Tune are given their name", "[ui]") {
    Bench bench;
    chooseFirstOctave(bench.tuning);
    CHECK_FALSE(bench.model.recognise());
    for (std::size_t i = 0; i < bench.tuning.session().plan->steps.size(); ++i) {
        bench.tuning.hear(readingOf(bench.tuning, i, 0.0), Seconds(static_cast<double>(i)));
    }
    const auto found = bench.model.recognise();
    REQUIRE(found.hasValue());
    CHECK(found->known);
    CHECK(found->matches.front().temperament->id() == "vallotti");
    CHECK(found->matches.front().a4.value() == Approx(415.0).margin(0.1));
    CHECK(recognitionText(*found).front().contains(QStringLiteral("Vallotti")));
}

TEST_CASE("the bearing plan names every note of the octave and reads as sentences", "[ui]") {
    const Bench bench;
    const auto& steps = bench.find<QListWidget>("bearingSteps");
    CHECK(steps.item(0)->text().contains(QStringLiteral("pitch standard")));
    for (int i = 0; i < steps.count(); ++i) {
        CHECK(steps.item(i)->text().endsWith(QLatin1Char('.')));
        CHECK_FALSE(steps.item(i)->text().contains(QLatin1Char('%')));
    }
}

TEST_CASE("Return on a step of the bearing plan asks for its sound", "[ui]") {
    const Bench bench;
    auto& steps = bench.find<QListWidget>("bearingSteps");
    std::vector<BearingStep> wanted;
    QObject::connect(&bench.page, &TemperamentPage::stepWanted, [&wanted](const BearingStep& step) {
        wanted.push_back(step);
    });
    steps.setCurrentRow(2);
    QKeyEvent enter(QEvent::KeyPress, Qt::Key_Return, Qt::NoModifier);
    QApplication::sendEvent(&steps, &enter);
    bench.find<QPushButton>("hearStep").click();
    REQUIRE(wanted.size() == 2);
    const BearingStep third = computedPlan(bench.model.scale()).steps[2];
    CHECK(bearingText(wanted[0]) == bearingText(third));
    CHECK(bearingText(wanted[1]) == bearingText(third));
}

TEST_CASE("the card is a page of A5 in vectors", "[ui]") {
    const TemporaryFolder folder;
    const QString file = QString::fromStdString((folder.path() / "card.pdf").string());
    const Bench bench;
    REQUIRE(writePdf(file, temperamentCard(bench.model)).hasValue());
    QFile written(file);
    REQUIRE(written.open(QIODevice::ReadOnly));
    const QByteArray pdf = written.readAll();
    CHECK(pdf.startsWith("%PDF"));
    CHECK(pdf.count("/Type /Page\n") == 1);
    CHECK_FALSE(writePdf(QStringLiteral("/no such folder/card.pdf"), temperamentCard(bench.model)));
}

TEST_CASE("the place fits on a small screen at twice the size and has names throughout", "[ui]") {
    Bench bench;
    CHECK(bench.page.minimumSizeHint().width() <= 560);
    CHECK(bench.page.minimumSizeHint().height() <= 340);
    // 1280 pixels at 200 % are 640, less the edge and a scroll bar: nothing has to be scrolled sideways.
    bench.page.resize(510, 340);
    bench.page.show();
    CHECK(bench.page.widget()->minimumSizeHint().width() <= 490);
    for (const char* name : {"circle", "thirds", "catalogue", "noteTable", "beatTable"}) {
        CHECK_FALSE(bench.find<QWidget>(name).accessibleName().isEmpty());
    }
    CHECK_FALSE(bench.circle().accessibleDescription().isEmpty());
}
