#include "core/support/random.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/temperament/recognition.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>

using namespace quillbench;

namespace {

const std::array<const char*, 12> kHeardKeys{
    "C4", "C#4", "D4", "Eb4", "E4", "F4", "F#4", "G4", "G#4", "A4", "Bb4", "B4"};

Note noteNamed(const char* name) {
    const auto parsed = parseNote(name);
    REQUIRE(parsed.hasValue());
    return *parsed;
}

const Temperament& known(const char* id) {
    const Temperament* found = findTemperament(id);
    REQUIRE(found != nullptr);
    return *found;
}

std::vector<HeardNote>
playedIn(const Temperament& temperament, double a4Hz, double scatterCents, std::uint64_t seed) {
    Random random(seed);
    std::vector<HeardNote> heard;
    for (const char* name : kHeardKeys) {
        const Note key = noteNamed(name);
        const Hertz pitch = pitchOf(temperament, ReferencePitch{Hertz(a4Hz)}, key);
        heard.push_back({key,
                         transpose(pitch, Cents(scatterCents * random.normal())),
                         Cents(std::max(0.05, scatterCents))});
    }
    return heard;
}

Recognition recognised(const std::vector<HeardNote>& heard) {
    auto result = recogniseTemperament(heard, catalogue());
    REQUIRE(result.hasValue());
    return *result;
}

} // namespace

TEST_CASE("offsets printed to a tenth of a cent are recognised as the temperament they print") {
    // Lehman, Early Music 33 (2005): offsets from equal temperament with A at 0, as commonly printed: C 5.9, C# 3.9,
    // D 2.0, Eb 3.9, E -2.0, F 7.8, F# 2.0, G 3.9, G# 3.9, A 0, Bb 3.9, B 0 (value from memory).
    const std::array<double, 12> printed{5.9, 3.9, 2.0, 3.9, -2.0, 7.8, 2.0, 3.9, 3.9, 0, 3.9, 0};
    std::vector<HeardNote> heard;
    for (std::size_t i = 0; i < kHeardKeys.size(); ++i) {
        const Note key = noteNamed(kHeardKeys[i]);
        const double cents = 100.0 * (key.midiNumber() - 69) + printed[i];
        heard.push_back({key, transpose(Hertz(415.0), Cents(cents)), Cents(0.1)});
    }
    const Recognition result = recognised(heard);
    CHECK(result.known);
    CHECK(result.matches.front().temperament->id() == "lehman");
    CHECK(result.matches.front().distance < Cents(0.1));
    CHECK(result.matches.front().a4.value() == Approx(415.0).margin(0.02));
}

TEST_CASE("every temperament of the catalogue is known again, at any pitch") {
    for (const Temperament& each : catalogue()) {
        if (!each.isCircle()) {
            continue;
        }
        INFO(each.id());
        for (const double a4Hz : {392.0, 415.0, 466.0}) {
            const Recognition result = recognised(playedIn(each, a4Hz, 0.0, 1));
            CHECK(result.known);
            // Some are printed twice under different names; the distance tells.
            CHECK(result.matches.front().distance < Cents(1e-6));
            CHECK(result.matches.front().a4.value() == Approx(a4Hz).epsilon(1e-9));
        }
    }
}

TEST_CASE("a hand of half a cent leaves the right one among those that cannot be told apart") {
    int told = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        const Recognition result = recognised(playedIn(known("werckmeister-3"), 415.0, 0.5, seed));
        const auto found = std::find_if(
            result.matches.begin(), result.matches.end(), [](const TemperamentMatch& match) {
                return match.temperament->id() == "werckmeister-3";
            });
        REQUIRE(found != result.matches.end());
        told += found->asGoodAsBest && result.known ? 1 : 0;
    }
    CHECK(told >= 38);
}

TEST_CASE("quarter-comma meantone is not taken for a circle without a wolf") {
    const Recognition result = recognised(playedIn(known("meantone-quarter"), 415.0, 0.3, 3));
    CHECK(result.matches.front().temperament->id() == "meantone-quarter");
    for (const TemperamentMatch& match : result.matches) {
        if (match.temperament->id() == "equal" || match.temperament->id() == "vallotti") {
            CHECK_FALSE(match.asGoodAsBest);
        }
    }
}

TEST_CASE("an instrument that is out of tune is not given a name") {
    std::vector<HeardNote> sure = playedIn(known("vallotti"), 415.0, 12.0, 5);
    for (HeardNote& one : sure) {
        one.uncertainty = Cents(0.1); // surely heard, but a dozen cents from anything
    }
    CHECK_FALSE(recognised(sure).known);
}

TEST_CASE("a fifth heard is the difference of two readings, whatever the octave") {
    std::vector<HeardNote> heard = playedIn(known("meantone-quarter"), 415.0, 0.0, 1);
    heard[7].pitch = heard[7].pitch * 2.0; // G an octave up
    const Recognition result = recognised(heard);
    double sum = 0.0;
    for (const HeardFifth& fifth : result.fifths) {
        sum += fifth.tempering.value();
        if (fifth.lower == PitchClass{Letter::C, 0}) {
            // A quarter of 81/80, by definition of the temperament: 5.377 cents.
            CHECK(fifth.tempering.value() == Approx(-21.506290 / 4.0).margin(1e-5));
            CHECK(fifth.uncertainty.value() == Approx(0.05 * std::sqrt(2.0)));
        }
    }
    CHECK(sum == Approx(-23.460010).margin(1e-5)); // the circle closes: a Pythagorean comma
}

TEST_CASE("notes that were not heard are named") {
    std::vector<HeardNote> heard = playedIn(known("vallotti"), 415.0, 0.0, 1);
    heard.erase(heard.begin() + 3);
    const auto result = recogniseTemperament(heard, catalogue());
    REQUIRE_FALSE(result.hasValue());
    CHECK(result.error().code == ErrorCode::NothingFound);
    CHECK(result.error().text.find("E♭") != std::string::npos);
}
