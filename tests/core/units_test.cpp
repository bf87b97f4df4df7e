#include "core/support/random.hpp"
#include "core/units/decibel.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;
using namespace quillbench::literals;

namespace {

template <typename A, typename B>
concept Addable = requires(A a, B b) {
    a + b;
};

static_assert(!Addable<Hertz, Cents>, "a frequency moves by transpose(), not by addition");
static_assert(!Addable<Hertz, double>);
static_assert(!Addable<FrameIndex, FrameIndex>, "two instants do not add");
static_assert(Addable<FrameIndex, FrameCount>);

} // namespace

TEST_CASE("an octave is 1200 cents and transposing back returns", "[unit]") {
    Random random(1);
    for (int i = 0; i < 200; ++i) {
        const Hertz from(random.uniform(20.0, 3000.0));
        const Cents by(random.uniform(-2400.0, 2400.0));
        CHECK(interval(from, from * 2.0).value() == Approx(1200.0).epsilon(1e-12));
        CHECK(transpose(transpose(from, by), -by).value() == Approx(from.value()).epsilon(1e-12));
        CHECK(interval(from, transpose(from, by)).value() == Approx(by.value()).margin(1e-9));
    }
}

TEST_CASE("ISO 16 allows 0.5 Hz about 440 Hz, which is 1.97 cents", "[unit]") {
    // ISO 16:1975 tolerance (clause from memory); the cents are computed in closed form.
    CHECK(interval(440.0_Hz, 440.5_Hz).value() == Approx(1.966).margin(0.001));
    CHECK(hertzPerCent(440.0_Hz) * 1.966 == Approx(0.5).margin(0.001));
}

TEST_CASE("wide is positive", "[unit]") {
    CHECK((441.0_Hz - 440.0_Hz).perSecond() == Approx(1.0));
}

TEST_CASE("decibels come from amplitude or power", "[unit]") {
    CHECK(Decibel::fromAmplitude(0.1).value() == Approx(-20.0));
    CHECK(Decibel::fromPower(0.1).value() == Approx(-10.0));
    CHECK(Decibel::fromAmplitude(0.0).value() == Approx(-200.0));
    CHECK((-6.0_dB).amplitude() == Approx(0.501187));
}

TEST_CASE("a clock 50 ppm fast shifts a reading by 0.087 cent", "[unit]") {
    const SampleRate nominal(48000.0);
    const SampleRate actual = nominal.corrected(ClockCalibration{50.0, 0.0});
    CHECK(interval(Hertz(nominal.hz()), Hertz(actual.hz())).value() ==
          Approx(0.0866).margin(0.0001));
    CHECK(nominal.frames(Seconds(0.5)) == FrameCount(24000));
}
