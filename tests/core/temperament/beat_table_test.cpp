#include "core/temperament/beat_table.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/temperament/transposing.hpp"
#include "tests/support/golden.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using namespace quillbench;
using quillbench::test::goldenRows;

namespace {

Note note(const std::string& name) {
    const auto parsed = parseNote(name);
    REQUIRE(parsed.hasValue());
    return *parsed;
}

TunedScale tunedTo(const std::string& id, double a4Hz) {
    const Temperament* found = findTemperament(id);
    INFO(id);
    REQUIRE(found != nullptr);
    return {*found, ReferencePitch{Hertz(a4Hz)}};
}

void checkSense(const std::string& sense, BeatRate beat) {
    if (sense == "wide") {
        CHECK(beat > BeatRate(0.0));
    } else if (sense == "narrow") {
        CHECK(beat < BeatRate(0.0));
    } else {
        CHECK(std::abs(beat.perSecond()) < 1e-6);
    }
}

BeatEntry entryOf(const test::GoldenRow& row) {
    const TunedScale scale = tunedTo(row.text("temperament"), row.number("a4_hz"));
    const BeatEntry entry = beatEntry(scale, note(row.text("lower")), note(row.text("upper")));
    const PartialPair pair = intervalOf(entry.interval).pair;
    CHECK(pair.ofLower == static_cast<int>(row.number("lower_partial")));
    CHECK(pair.ofUpper == static_cast<int>(row.number("upper_partial")));
    return entry;
}

} // namespace

TEST_CASE("published beat rates agree within their print rounding", "[golden]") {
    // tests/golden/beats_published.csv names the source of every row and the eight known disagreements.
    int agreed = 0;
    int disagreed = 0;
    for (const auto& row : goldenRows("beats_published.csv")) {
        INFO(row.text("temperament")
             << " " << row.text("lower") << " " << row.text("upper") << " " << row.text("source"));
        const BeatEntry entry = entryOf(row);
        const double difference = std::abs(abs(entry.beat).perSecond() - row.number("published"));
        checkSense(row.text("sense"), entry.beat);
        if (row.text("status") == "agrees") {
            CHECK(difference <= row.number("tolerance") + 1e-9);
            ++agreed;
        } else {
            CHECK(row.text("status") == "known-disagreement");
            CHECK(difference > row.number("tolerance"));
            ++disagreed;
        }
    }
    CHECK(agreed == 71);
    CHECK(disagreed == 8);
}

TEST_CASE("beat rates agree with an independent computation", "[golden]") {
    for (const auto& row : goldenRows("beats_computed.csv")) {
        INFO(row.text("temperament")
             << " " << row.text("a4_hz") << " " << row.text("lower") << " " << row.text("upper"));
        const BeatEntry entry = entryOf(row);
        CHECK(abs(entry.beat).perSecond() == Approx(row.number("beats")).margin(5e-6));
        if (row.number("beats") > 1e-4) { // below, the direction is the rounding of the cents
            checkSense(row.text("sense"), entry.beat);
        }
    }
}

TEST_CASE("the reference pitch of ISO 16 allows about two cents either way", "[unit]") {
    // ISO 16:1975, 440 Hz ± 0.5 Hz (clause from memory; an Italian law of 1989 sets the same tolerance).
    CHECK(kIso16Pitch.value() == 440.0);
    const Hertz high{kIso16Pitch.value() + kIso16ToleranceHz};
    CHECK(interval(kIso16Pitch, high).value() == Approx(1.966).margin(0.0015));
    const TunedScale scale{*findTemperament("equal"), ReferencePitch{kIso16Pitch}};
    CHECK(std::abs(scale.pitchOf(note("A4")).value() - 440.0) < kIso16ToleranceHz);
    // 392, 415.30 and 466.16 Hz: semitones of equal temperament from 440 (arithmetic).
    CHECK(scale.pitchOf(note("G4")).value() == Approx(391.995).margin(5e-4));
    CHECK(scale.pitchOf(note("G#4")).value() == Approx(415.305).margin(5e-4));
    CHECK(scale.pitchOf(note("Bb4")).value() == Approx(466.164).margin(5e-4));
}

TEST_CASE("the beat table holds every pair of keys once", "[unit]") {
    const std::array kinds{IntervalKind::Fifth, IntervalKind::MajorThird};
    const auto table = beatTable(tunedTo("vallotti", 415.0), note("F3"), note("F4"), kinds);
    CHECK(table.size() == 6 + 9);
    CHECK(toAscii(table.front().lower) == "F3");
    CHECK(toAscii(table.front().upper) == "C4");
    CHECK(table.front().beat.perSecond() < 0.0);
    for (const BeatEntry& each : table) {
        CHECK((each.width.value() < 0.0) == (each.beat.perSecond() < 0.0));
    }
    const auto split = findTemperament("meantone-quarter")
                           ->extended(*parsePitchClass("Ab"), *parsePitchClass("D#"));
    const auto keys = keysBetween(*split, note("C4"), note("C5"));
    CHECK(keys.size() == 15);
    CHECK(toAscii(keys[3]) == "D#4"); // the lower of the two in meantone
    CHECK(toAscii(keys[4]) == "Eb4");
}

TEST_CASE("the thirds of all keys are told, wolves too", "[unit]") {
    const Temperament& meantone = *findTemperament("meantone-quarter");
    int pure = 0;
    int wolves = 0;
    for (const ThirdSize& each : thirdsOf(meantone, true)) {
        pure += std::abs(each.width.value()) < 1e-9 ? 1 : 0;
        wolves += each.asSpelled ? 0 : 1;
        // A diminished fourth of quarter-comma meantone is 32/25, a diesis (41.059) wider than 5/4.
        CHECK((each.asSpelled || each.width.value() == Approx(41.058859).margin(1e-6)));
    }
    CHECK(pure == 8);
    CHECK(wolves == 4);
    // Major thirds over one octave: the three that stack up make an octave, so all twelve widths add up to
    // four times 41.059 cents in every circle (arithmetic).
    for (const Temperament& each : catalogue()) {
        double all = 0.0;
        for (const ThirdSize& third : thirdsOf(each, true)) {
            all += third.width.value();
        }
        INFO(each.id());
        CHECK(all == Approx(4.0 * 41.058859).margin(1e-5));
        CHECK(thirdsOf(each, false).size() == 12);
    }
    const auto split = meantone.extended(*parsePitchClass("Ab"), *parsePitchClass("D#"));
    CHECK(thirdsOf(*split, true).size() == 10);
}

TEST_CASE("with split keys only the fifth that is spelled so is listed", "[unit]") {
    // Fourteen notes of quarter-comma meantone make thirteen fifths, all a quarter of a syntonic comma (21.506 cents)
    // narrow; G♯–E♭ and A♭–D♯ are no fifths there.
    const auto split = findTemperament("meantone-quarter")
                           ->extended(*parsePitchClass("Ab"), *parsePitchClass("D#"));
    REQUIRE(split);
    const std::array kinds{IntervalKind::Fifth};
    const auto fifths =
        beatTable({*split, ReferencePitch{Hertz(415.0)}}, note("C4"), note("B5"), kinds);
    CHECK(fifths.size() > 13);
    for (const BeatEntry& fifth : fifths) {
        INFO(toAscii(fifth.lower) << " to " << toAscii(fifth.upper));
        CHECK(fifth.width.value() == Approx(-0.25 * 21.506290).margin(1e-5));
    }
}

TEST_CASE("Vallotti at 415 moved up a semitone sounds A4 at 441.17 Hz", "[unit]") {
    // Worked value: 415 · 2^(105.865/1200), from the difference B♭ − A of Vallotti (arithmetic).
    const TunedScale scale = tunedTo("vallotti", 415.0);
    CHECK(pitchAtPosition(scale, note("A4"), 1).value() == Approx(441.17).margin(0.005));
    CHECK(pitchAtPosition(scale, note("A4"), 0).value() == 415.0);
    CHECK(toAscii(stringUnderKey(scale.temperament, note("A4"), 1)) == "Bb4");
    CHECK(toAscii(stringUnderKey(scale.temperament, note("B3"), 1)) == "C4");
    CHECK(toAscii(stringUnderKey(scale.temperament, note("Cb4"), 0)) == "B3");
}

TEST_CASE("each position played has its own widest thirds", "[unit]") {
    const TunedScale scale = tunedTo("vallotti", 415.0);
    const auto reports = positionReports(scale, 0, {0, 1});
    REQUIRE(reports.size() == 2);
    // Vallotti's widest thirds are Pythagorean, 21.506 cents wide: on B, F♯ and C♯ at home; a semitone up those
    // strings are played by B♭, F and C.
    const auto widest = [](const PositionReport& report) {
        std::string names;
        for (const ThirdSize& each : report.majorThirds) {
            if (each.width.value() > 21.0) {
                names += toAscii(each.lower) + "-" + toAscii(each.upper) + " ";
            }
        }
        return names;
    };
    CHECK(reports[0].majorThirds.front().width.value() == Approx(21.506290).margin(1e-5));
    CHECK(reports[0].majorThirds.front().width >= reports[0].majorThirds.back().width);
    CHECK(widest(reports[0]) == "B-Eb F#-Bb C#-F ");
    CHECK(widest(reports[1]) == "Bb-D F-A C-E ");
    CHECK(reports[1].a4.value() == Approx(441.17).margin(0.005));
}
