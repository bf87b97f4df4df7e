#include "core/pitch/note.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/temperament/transposing.hpp"
#include "tests/core/dsp/two_strings.hpp"
#include "tests/support/golden.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace quillbench;
using quillbench::test::PlainString;

namespace {

/// A flexible string: the published tables leave stiffness out.
PlainString flexible(Hertz pitch, std::uint64_t seed) {
    PlainString string;
    string.f0Hz = pitch.value();
    string.seed = seed;
    return string;
}

Hertz pitchOf(const test::GoldenRow& row, const char* column) {
    const Temperament* temperament = findTemperament(row.text("temperament"));
    REQUIRE(temperament != nullptr);
    const TunedScale scale{*temperament, ReferencePitch{Hertz(row.number("a4_hz"))}};
    const auto note = parseNote(row.text(column));
    REQUIRE(note.hasValue());
    return scale.pitchOf(*note);
}

/// Reads every `each`-th row of tests/golden/beats_published.csv (which names their sources) that agrees with
/// theory and beats slower than 12 a second, from sound; returns how many.
int hearPublished(int each) {
    int heard = 0;
    int agreeing = 0;
    for (const auto& row : test::goldenRows("beats_published.csv")) {
        if (row.text("status") != "agrees" || row.number("published") >= 12.0 ||
            row.number("tolerance") > 0.05 || agreeing++ % each != 0) {
            continue;
        }
        INFO(row.text("temperament")
             << " " << row.text("lower") << " " << row.text("upper") << " " << row.text("source"));
        const PlainString lower = flexible(pitchOf(row, "lower"), 1);
        const PlainString upper = flexible(pitchOf(row, "upper"), 2);
        PairQuestion question;
        question.lowerPartial = static_cast<int>(row.number("lower_partial"));
        question.upperPartial = static_cast<int>(row.number("upper_partial"));
        question.lowerTarget = Hertz(lower.f0Hz);
        question.upperTarget = Hertz(upper.f0Hz);
        const auto reading = test::listen(test::together(lower, upper), question);
        REQUIRE(reading.found);
        const double exact =
            question.upperPartial * upper.f0Hz - question.lowerPartial * lower.f0Hz;
        CHECK(reading.beat.perSecond() == Approx(exact).margin(0.03));
        CHECK(std::abs(reading.beat.perSecond()) ==
              Approx(row.number("published")).margin(row.number("tolerance") + 0.03));
        const bool wide = row.text("sense") == "wide";
        CHECK(reading.direction == (wide ? BeatDirection::Wide : BeatDirection::Narrow));
        ++heard;
    }
    return heard;
}

} // namespace

TEST_CASE("published beat rates are heard from synthesised strings", "[beats][slow][golden]") {
    // Each fourth, so that fourths, fifths, thirds and sixths are all among them.
    CHECK(hearPublished(4) >= 10);
}

TEST_CASE("every published beat rate is heard from synthesised strings",
          "[.][beats][slow][golden]") {
    CHECK(hearPublished(1) >= 40);
}
