#include "app/paint/theme.hpp"
#include "app/views/figures_view.hpp"

#include <catch2/catch.hpp>

#include <QCoreApplication>
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

TEST_CASE("from right to left the large figures stand at the other edges, over their words",
          "[ui]") {
    FiguresView view;
    FiguresPicture picture;
    picture.note = QStringLiteral("A3");
    picture.deviation = QStringLiteral("+1.2");
    view.show(picture);
    const auto alignmentOf = [&view](const char* name) {
        return view.findChild<QLabel*>(QString::fromLatin1(name))->alignment();
    };
    CHECK(alignmentOf("note").testFlag(Qt::AlignLeft));
    CHECK(alignmentOf("uncertainty").testFlag(Qt::AlignRight));
    view.setLayoutDirection(Qt::RightToLeft);
    // Absolute: a label would else turn it round again, or not, by what its text is.
    for (const char* name : {"note", "choir"}) {
        CHECK(alignmentOf(name).testFlag(Qt::AlignRight));
        CHECK(alignmentOf(name).testFlag(Qt::AlignAbsolute));
    }
    for (const char* name : {"deviation", "uncertainty"}) {
        CHECK(alignmentOf(name).testFlag(Qt::AlignLeft));
        CHECK(alignmentOf(name).testFlag(Qt::AlignAbsolute));
    }
}

TEST_CASE("large figures beside long words leave both whole", "[ui]") {
    FiguresView view;
    FiguresPicture picture;
    picture.note = QStringLiteral("A3");
    picture.choir = QStringLiteral("a long name of a part: second 8\u2032, target 207.50 Hz");
    picture.deviation = QStringLiteral("+120.1");
    picture.words = QStringLiteral("\u00b1 0.1 cents, sharp");
    view.show(picture);
    view.setFigureSize(90);
    view.resize(700, 150);
    view.show();
    QCoreApplication::processEvents();
    for (const char* name : {"note", "choir", "deviation", "uncertainty"}) {
        const auto* label = view.findChild<QLabel*>(QString::fromLatin1(name));
        INFO(name);
        CHECK(label->fontMetrics().horizontalAdvance(label->text()) <= label->width());
    }
}
