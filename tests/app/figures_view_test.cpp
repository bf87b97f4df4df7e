#include "app/paint/theme.hpp"
#include "app/views/figures_view.hpp"

#include <catch2/catch.hpp>

#include <QLabel>

using namespace quillbench;

TEST_CASE("the large figures follow the light though what they show stays the same", "[ui]") {
    FiguresView view;
    view.setPalette(Theme::light().palette());
    FiguresPicture picture;
    picture.note = QStringLiteral("A3");
    view.show(picture);
    const auto* note = view.findChild<QLabel*>(QStringLiteral("note"));
    REQUIRE(note != nullptr);
    CHECK(note->palette().color(QPalette::WindowText) == Theme::light().ink);
    view.setPalette(Theme::dark().palette());
    CHECK(note->palette().color(QPalette::WindowText) == Theme::dark().ink);
}
