#include "app/views/register_bar.hpp"
#include "core/instrument/examples.hpp"

#include <catch2/catch.hpp>

#include <QToolButton>

using namespace quillbench;

TEST_CASE("a register that is on says so by a sign, also when it is drawn by hand", "[ui]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    RegisterBar bar;
    Registration registration;
    registration.on[0] = true;
    bar.show(instrument, registration);
    const auto buttons = bar.findChildren<QToolButton*>();
    REQUIRE(buttons.size() == static_cast<qsizetype>(instrument.registers.size()) + 1);
    const auto isOn = [&](qsizetype at) { return buttons[at]->text().startsWith(QChar(0x25CF)); };
    CHECK(isOn(0));
    CHECK_FALSE(isOn(1));
    buttons[1]->click();
    CHECK(isOn(1));
    CHECK(buttons[1]->font().bold());
    registration.on[0] = false;
    bar.show(instrument, registration);
    CHECK_FALSE(isOn(0));
    CHECK_FALSE(isOn(1));
}

TEST_CASE("a register keeps its key after it was drawn", "[ui]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    RegisterBar bar;
    bar.show(instrument, Registration{});
    const auto buttons = bar.findChildren<QToolButton*>();
    REQUIRE(buttons.size() >= 2);
    buttons[0]->click();
    CHECK(buttons[0]->shortcut() == QKeySequence(Qt::ALT | Qt::Key_1));
    CHECK(buttons[1]->shortcut() == QKeySequence(Qt::ALT | Qt::Key_2));
}

TEST_CASE("registers that were given other names are shown by them", "[ui]") {
    Instrument instrument = *findExample("double-8-8-4");
    RegisterBar bar;
    bar.show(instrument, Registration{});
    instrument.registers[0].name = "deep eight";
    bar.show(instrument, Registration{});
    const auto buttons = bar.findChildren<QToolButton*>();
    REQUIRE_FALSE(buttons.isEmpty());
    CHECK(buttons[0]->text().contains(QStringLiteral("deep eight")));
}
