#include "app/paint/theme.hpp"
#include "app/views/pin_view.hpp"
#include "app/views/wires_view.hpp"

#include <catch2/catch.hpp>

#include <QImage>
#include <QPixmap>
#include <cmath>
#include <optional>

using namespace quillbench;

namespace {

bool near(const QColor& a, const QColor& b) {
    return std::abs(a.red() - b.red()) < 12 && std::abs(a.green() - b.green()) < 12 &&
           std::abs(a.blue() - b.blue()) < 12;
}

/// The first row from above in which a colour is drawn, at a third of the width.
std::optional<int> rowOf(const QImage& image, const QColor& colour) {
    for (int y = 0; y < image.height(); ++y) {
        if (near(image.pixelColor(image.width() / 3, y), colour)) {
            return y;
        }
    }
    return std::nullopt;
}

QImage painted(const WiresPicture& picture, const Theme& theme) {
    WiresView view;
    view.setPalette(theme.palette());
    view.resize(900, 300);
    view.show(picture);
    return view.grab().toImage();
}

WiresPicture sounding(double cents) {
    WiresPicture picture;
    picture.sounding = SoundingWire{Cents(cents), Cents(0.1), true, true};
    return picture;
}

} // namespace

TEST_CASE("the sounding wire lies above the target's when sharp and below when flat", "[ui]") {
    const Theme theme = Theme::light();
    for (const double cents : {0.6, 8.0, 45.0}) {
        const QImage sharp = painted(sounding(cents), theme);
        const QImage flat = painted(sounding(-cents), theme);
        REQUIRE(rowOf(sharp, theme.sound));
        REQUIRE(rowOf(sharp, theme.target));
        CHECK(*rowOf(sharp, theme.sound) < *rowOf(sharp, theme.target));
        CHECK(*rowOf(flat, theme.sound) > *rowOf(flat, theme.target));
    }
}

TEST_CASE("red is drawn only in danger, by day and by night", "[ui]") {
    for (const Theme& theme : {Theme::light(), Theme::dark()}) {
        WiresPicture picture = sounding(14.0);
        CHECK_FALSE(rowOf(painted(picture, theme), theme.danger));
        picture.danger = true;
        CHECK(rowOf(painted(picture, theme), theme.danger));
    }
}

TEST_CASE("the painted wires say what they show", "[ui]") {
    WiresView view;
    WiresPicture picture = sounding(2.0);
    picture.description = QStringLiteral("A3: +2.0 cents");
    view.show(picture);
    CHECK(view.accessibleDescription() == picture.description);
    CHECK_FALSE(view.accessibleName().isEmpty());
}

TEST_CASE("what stands beside the wires keeps the page's margin", "[ui]") {
    const QImage image = painted(WiresPicture(), Theme::light());
    const QColor paper = Theme::light().paper;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = image.width() - 16; x < image.width(); ++x) {
            INFO(x << ", " << y);
            REQUIRE(near(image.pixelColor(x, y), paper));
        }
    }
}

TEST_CASE("the pin keeps the page's margin, whichever way is read", "[ui]") {
    for (const Qt::LayoutDirection way : {Qt::LeftToRight, Qt::RightToLeft}) {
        PinView view;
        view.setPalette(Theme::light().palette());
        view.setLayoutDirection(way);
        view.resize(view.sizeHint());
        view.show(QStringLiteral("second 8\u2032, A\u266f3"), -1234.56, 123.4);
        const QImage image = view.grab().toImage();
        const int from = way == Qt::LeftToRight ? image.width() - 15 : 0;
        const QColor ground = image.pixelColor(image.width() / 2, 1);
        for (int y = 0; y < image.height(); ++y) {
            for (int x = from; x < from + 15; ++x) {
                INFO(x << ", " << y);
                REQUIRE(near(image.pixelColor(x, y), ground));
            }
        }
    }
}
