#include "core/virtual/tuning_pin.hpp"
#include "tests/core/virtual/playing.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;
using namespace quillbench::test;
using Kind = VirtualCommand::Kind;

TEST_CASE("a perfect pin moves the string by its cents per degree", "[unit]") {
    const Instrument& made = exampleInstruments().front();
    VirtualInstrument instrument(made, quiet(made));
    const StringId string{0, 24};
    const Hertz before = instrument.restPitch(string);
    const double perDegree = instrument.centsPerDegree(string).value();
    const auto expected = stringState(made.choirs[0].strings[24], before).centsPerDegree;
    if (expected) {
        CHECK(perDegree == Approx(expected->value()));
    }
    CHECK(perDegree > 1.0);
    instrument.apply(onString(Kind::TurnPin, 0, string, 0.1));
    rendered(instrument, 64);
    CHECK(interval(before, instrument.restPitch(string)).value() ==
          Approx(0.1 * perDegree).epsilon(0.01));
    instrument.apply(onString(Kind::TurnPin, 0, string, -0.1));
    rendered(instrument, 64);
    CHECK(interval(before, instrument.restPitch(string)).value() == Approx(0.0).margin(1e-6));
}

TEST_CASE("a pin with backlash follows late on each reversal", "[unit]") {
    TuningPin pin({1.0, 0.0, 0.0}, Random(1));
    pin.turn(0.4);
    CHECK(pin.angle() == Approx(0.0).margin(1e-12));
    pin.turn(0.6);
    CHECK(pin.angle() == Approx(0.5));
    pin.turn(-0.9);
    CHECK(pin.angle() == Approx(0.5));
    pin.turn(-0.6);
    CHECK(pin.angle() == Approx(0.0).margin(1e-12));
}

TEST_CASE("what the string feels of the pin's twist is gone when the hammer is let go", "[unit]") {
    TuningPin pin({2.0, 0.5, 0.0}, Random(1));
    pin.turn(3.0);
    CHECK(pin.angle() == Approx(2.5));
    pin.letGo();
    CHECK(pin.angle() == Approx(2.0));

    // The virtual hand leaves the hammer after 0.4 s without a turn.
    const Instrument& made = exampleInstruments().front();
    VirtualSettings settings = quiet(made);
    settings.pins = {0.2, 0.5, 0.0};
    VirtualInstrument instrument(made, settings);
    const StringId string{0, 24};
    instrument.apply(onString(Kind::TurnPin, 0, string, 0.5));
    rendered(instrument, 4800);
    const Hertz held = instrument.restPitch(string);
    rendered(instrument, 24000);
    CHECK(instrument.restPitch(string) < held);
}

TEST_CASE("a slipping pin scatters about where it was turned to", "[unit]") {
    double sum = 0.0;
    double squares = 0.0;
    constexpr int kPins = 400;
    for (int i = 0; i < kPins; ++i) {
        TuningPin pin({0.0, 0.0, 0.3}, Random(static_cast<std::uint64_t>(i)));
        pin.turn(1.0);
        sum += pin.angle() - 1.0;
        squares += (pin.angle() - 1.0) * (pin.angle() - 1.0);
    }
    CHECK(sum / kPins == Approx(0.0).margin(0.05));
    CHECK(std::sqrt(squares / kPins) == Approx(0.3).epsilon(0.15));
}

TEST_CASE("a finger on the string sharpens it for as long as it presses", "[unit]") {
    const Instrument& made = exampleInstruments().front();
    VirtualInstrument instrument(made, quiet(made));
    const StringId string{1, 10};
    const Hertz before = instrument.restPitch(string);
    instrument.apply(onString(Kind::PressString, 0, string, 12.0));
    rendered(instrument, 64);
    CHECK(interval(before, instrument.restPitch(string)).value() == Approx(12.0));
    instrument.apply(onString(Kind::PressString, 0, string, 0.0));
    rendered(instrument, 64);
    CHECK(interval(before, instrument.restPitch(string)).value() == Approx(0.0).margin(1e-9));
}
