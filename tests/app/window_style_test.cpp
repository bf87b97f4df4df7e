#include "app/paint/theme.hpp"
#include "app/paint/window_style.hpp"
#include "tests/app/contrast.hpp"

#include <catch2/catch.hpp>

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QSpinBox>
#include <QToolButton>

using namespace quillbench;

namespace {

/// The rightmost column of a widget's picture that has ink in it; −1 where none has.
int inkUpTo(QWidget& widget, int from, int to) {
    const QImage picture = widget.grab().toImage();
    const QRgb paper = picture.pixel(1, 1);
    int last = -1;
    for (int x = from; x < to; ++x) {
        for (int y = 4; y < picture.height() - 4; ++y) {
            last = picture.pixel(x, y) != paper ? x : last;
        }
    }
    return last;
}

} // namespace

TEST_CASE("words that do not fit end in dots, those that fit are as they were", "[ui]") {
    WindowStyle eliding;
    const QString words = QStringLiteral("iiiiiiiiiiiiiiiiWWWWWWWWWWWWWWWWWWWWWWWW");
    QLabel label(words);
    const int whole = label.fontMetrics().horizontalAdvance(words);
    label.resize(whole + 20, 30);
    const QImage before = label.grab().toImage();
    label.setStyle(&eliding);
    CHECK(label.grab().toImage() == before);
    // Narrow, the cut would go through a wide letter and leave ink in the last columns; three dots do not.
    label.resize(whole / 2, 30);
    const QImage narrow = label.grab().toImage();
    label.setText(label.fontMetrics().elidedText(words, Qt::ElideRight, whole / 2));
    CHECK(label.grab().toImage() == narrow);
    label.setText(words);
    label.setStyle(QApplication::style());
    CHECK(label.grab().toImage() != narrow);
    label.setWordWrap(true);
    const QImage wrapped = label.grab().toImage();
    label.setStyle(&eliding);
    CHECK(label.grab().toImage() == wrapped);
}

TEST_CASE("a choice that does not fit into its box ends in dots", "[ui]") {
    WindowStyle eliding;
    QComboBox box;
    box.setStyle(&eliding);
    box.addItem(QStringLiteral("WWWWWWWWWWWWWWWWWWWWWWWWWWWW"));
    box.setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box.resize(120, 28);
    const QImage dotted = box.grab().toImage();
    box.setItemText(0, QStringLiteral("WWWWWWWWWWWW")); // another that is too long
    CHECK(box.grab().toImage() == dotted);
    CHECK(inkUpTo(box, 0, 60) > 0);
}

TEST_CASE("a tool button that is on is told from one that is off by a bar", "[ui]") {
    WindowStyle style;
    QToolButton button;
    button.setStyle(&style);
    button.setText(QStringLiteral("Stagger"));
    button.setCheckable(true);
    button.resize(100, 30);
    const QColor bar = button.palette().color(QPalette::Highlight);
    const auto barred = [&] { return button.grab().toImage().pixelColor(50, 28) == bar; };
    CHECK_FALSE(barred());
    button.setChecked(true);
    CHECK(barred());
}

TEST_CASE("an empty field, a box and a choice are seen against the paper, in every light", "[ui]") {
    WindowStyle style;
    for (const Theme& theme :
         {Theme::light(), Theme::dark(), Theme::boldLight(), Theme::boldDark()}) {
        QLineEdit line;
        QSpinBox spin;
        QComboBox choice;
        QCheckBox check;
        for (QWidget* widget : std::initializer_list<QWidget*>{&line, &spin, &choice, &check}) {
            widget->setStyle(&style);
            widget->setPalette(theme.palette());
            widget->setAutoFillBackground(true);
            widget->resize(100, 30);
            const QImage picture = widget->grab().toImage();
            // Along the lower edge, past the round corner; of the box that is checked, its left edge.
            double best = 0.0;
            for (int y = 0; y < picture.height(); ++y) {
                best = std::max(best, test::contrast(picture.pixelColor(8, y), theme.paper));
            }
            INFO(widget->metaObject()->className() << ' ' << theme.paper.name().toStdString());
            CHECK(best >= 3.0); // [WCAG21] 1.4.11
        }
    }
}
