#include "app/views/choice_bar.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <QApplication>
#include <QComboBox>
#include <QSet>
#include <QStyle>
#include <QStyleOptionComboBox>
#include <QVBoxLayout>

using namespace quillbench;
using namespace quillbench::test;

namespace {

/// The bar over a page, as in the window.
struct Page {
    TuningModel tuning;
    QWidget page;
    ChoiceBar* bar = new ChoiceBar(&page);

    Page() {
        auto* column = new QVBoxLayout(&page);
        column->setContentsMargins(0, 0, 0, 0);
        column->addWidget(bar);
        column->addStretch(1);
        TuningChoice choice = firstOctave();
        choice.extent = Extent::Whole;
        choice.order = StepOrder::FromA;
        choice.temperament = QStringLiteral("meantone-quarter");
        REQUIRE(tuning.choose(choice));
        bar->show(tuning.choice(), tuning.instrument(), tuning.temperament(), tuning.positions());
        page.show();
    }

    void resize(int wide, int high) {
        page.resize(wide, high);
        for (int i = 0; i < 5; ++i) {
            QApplication::processEvents();
        }
    }

    /// Names of the boxes whose choice is cut.
    [[nodiscard]] QStringList cut() const {
        QStringList names;
        for (const QComboBox* box : bar->findChildren<QComboBox*>()) {
            QStyleOptionComboBox option;
            option.initFrom(box);
            option.editable = box->isEditable();
            const QRect room = box->style()->subControlRect(
                QStyle::CC_ComboBox, &option, QStyle::SC_ComboBoxEditField, box);
            if (box->isVisible() &&
                box->fontMetrics().horizontalAdvance(box->currentText()) > room.width()) {
                names << box->objectName();
            }
        }
        return names;
    }

    [[nodiscard]] int rows() const {
        QSet<int> tops;
        for (const QComboBox* box : bar->findChildren<QComboBox*>()) {
            if (box->isVisible()) {
                tops.insert(box->mapTo(bar, QPoint(0, 0)).y());
            }
        }
        return static_cast<int>(tops.size());
    }
};

} // namespace

TEST_CASE("what is chosen along the top is read whole, in a second row where one is too narrow",
          "[ui]") {
    Page page;
    page.resize(1150, 760);
    CHECK(page.cut().join(QLatin1Char(' ')).toStdString().empty());
    CHECK(page.rows() == 1);
    page.resize(600, 700); // 1024 pixels less the places and the help
    CHECK(page.cut().join(QLatin1Char(' ')).toStdString().empty());
    CHECK(page.rows() == 2);
    page.resize(1150, 760);
    CHECK(page.rows() == 1);
    for (int wide = 600; wide <= 1300; wide += 10) {
        page.resize(wide, 700);
        INFO(wide);
        CHECK(page.cut().join(QLatin1Char(' ')).toStdString().empty());
    }
    page.resize(510, 340); // a small screen at twice the size has no height for it
    CHECK(page.rows() == 1);
}
