#include "core/analysis/beat_listener.hpp"
#include "tests/support/pair_playing.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

using namespace quillbench;
using namespace quillbench::test;

namespace {

/// Two eight-foots of a single manual: the first alone, then both from one key.
PairPlayer unisonAfterItsReference(double cents) {
    PairPlayer player("single-8-8");
    player.detune(player.string("8b", "A3"), cents);
    player.on("8").key("A3", 0.3, 2.0).turn("8b", true, 2.6).key("A3", 3.0, 3.0);
    return player;
}

/// The register is drawn after the first pluck, and the program is told.
std::vector<TargetFrom> drawnAfterwards(const PairPlayer& player, std::string_view second) {
    return {{0.0, player.target({"8"})}, {2.6, player.target({"8", second})}};
}

/// The first pair's; the jacks that fall back afterwards are none of it.
const PairReading& settled(const PairsHeard& heard) {
    REQUIRE_FALSE(heard.finished.empty());
    return heard.finished.front();
}

} // namespace

TEST_CASE("one key with two registers on is heard as a unison, which way and how fast", "[beats]") {
    for (const double cents : {4.0, -6.0}) {
        PairPlayer player = unisonAfterItsReference(cents);
        const auto sound = player.play(6.6);
        const StringId lower = player.string("8", "A3");
        const StringId upper = player.string("8b", "A3");
        const double truth = *player.beat(lower, 1, upper, 1);
        const PairsHeard heard = listenToPairs(sound, drawnAfterwards(player, "8b"));
        const PairReading& reading = settled(heard);
        CAPTURE(cents, truth, reading.beat.perSecond(), reading.uncertainty);
        CHECK(reading.lower == lower);
        CHECK(reading.upper == upper);
        CHECK(reading.interval == IntervalKind::Unison);
        CHECK(reading.reference == ReferenceKind::HeardAlone);
        CHECK(reading.beat.perSecond() ==
              Approx(truth).margin(std::max(0.08, 4.0 * reading.uncertainty)));
        CHECK(reading.direction == (cents > 0.0 ? BeatDirection::Wide : BeatDirection::Narrow));
        CHECK(reading.low.perSecond() < reading.beat.perSecond());
        CHECK(reading.high.perSecond() > reading.beat.perSecond());
        CHECK_FALSE(reading.still);
        CHECK_FALSE(reading.moving);
    }
}

TEST_CASE("a string that was heard alone long before its pair is still heard out", "[beats]") {
    PairPlayer player("single-8-8");
    player.detune(player.string("8b", "A3"), 3.0);
    player.on("8").key("A3", 0.3, 2.6);
    player.turn("8b", true, 15.6).key("A3", 16.0, 3.0);
    const auto sound = player.play(19.6);
    const double truth = *player.beat(player.string("8", "A3"), 1, player.string("8b", "A3"), 1);
    const PairsHeard heard =
        listenToPairs(sound, {{0.0, player.target({"8"})}, {15.6, player.target({"8", "8b"})}});
    const PairReading& reading = settled(heard);
    CAPTURE(truth, reading.beat.perSecond(), reading.uncertainty);
    CHECK(reading.reference == ReferenceKind::HeardAlone);
    CHECK(reading.beat.perSecond() ==
          Approx(truth).margin(std::max(0.05, 3.0 * reading.uncertainty)));
    CHECK(reading.direction == BeatDirection::Wide);
}

TEST_CASE("a first rate stands after six tenths of a second", "[beats]") {
    PairPlayer player = unisonAfterItsReference(5.0);
    const PairsHeard heard = listenToPairs(player.play(6.6), drawnAfterwards(player, "8b"));
    const auto first = std::find_if(heard.shots.begin(), heard.shots.end(), [](const auto& shot) {
        return shot.reading.has_value();
    });
    REQUIRE(first != heard.shots.end());
    CHECK(first->reading->used.count() < 0.75);
    const double truth = *player.beat(player.string("8", "A3"), 1, player.string("8b", "A3"), 1);
    CHECK(std::abs(first->reading->beat.perSecond() - truth) <
          3.0 * first->reading->uncertainty + 0.05);
}

TEST_CASE("a still unison is said to be still, with its limit", "[beats]") {
    // Strings at one pitch at rest do not yet make a still unison: their polarisations and glides differ.
    PairPlayer untouched = unisonAfterItsReference(0.0);
    (void)untouched.play(6.0);
    const StringId lower = untouched.string("8", "A3");
    const StringId upper = untouched.string("8b", "A3");
    const double hz = nominalPitch(untouched.instrument(), lower).value();
    const double off = *untouched.beat(lower, 1, upper, 1) / hz * 1200.0 / std::log(2.0);
    PairPlayer player = unisonAfterItsReference(-off);
    const auto sound = player.play(6.6);
    REQUIRE(std::abs(*player.beat(lower, 1, upper, 1)) < 0.02);
    const PairsHeard heard = listenToPairs(sound, drawnAfterwards(player, "8b"));
    const PairReading& reading = settled(heard);
    CAPTURE(reading.beat.perSecond(), reading.uncertainty);
    CHECK(reading.still);
    CHECK(reading.direction == BeatDirection::Pure);
    CHECK(reading.stillLimit.perSecond() == Approx(0.05).margin(0.01));
    CHECK(reading.low < reading.stillLimit);
    CHECK(reading.high.perSecond() > 0.0);
}

TEST_CASE("a second key while the first is held makes their interval", "[beats]") {
    PairPlayer player("single-8-8");
    player.detune(player.string("8", "G3"), -4.0);
    player.on("8").key("C3", 0.3, 5.5).key("G3", 2.0, 3.2);
    const auto sound = player.play(6.0);
    const double truth = *player.beat(player.string("8", "C3"), 3, player.string("8", "G3"), 2);
    const PairsHeard heard = listenToPairs(sound, {{0.0, player.target({"8"})}});
    const PairReading& reading = settled(heard);
    CAPTURE(truth, reading.uncertainty);
    CHECK(reading.interval == IntervalKind::Fifth);
    CHECK(reading.beat.perSecond() ==
          Approx(truth).margin(std::max(0.08, 4.0 * reading.uncertainty)));
    CHECK(reading.direction == BeatDirection::Narrow);
}

TEST_CASE("two keys played at once are told apart", "[beats]") {
    PairPlayer player("single-8-8");
    player.detune(player.string("8", "E3"), 5.0);
    player.on("8").key("C3", 0.4, 2.8).key("E3", 0.43, 2.8);
    const auto sound = player.play(3.6);
    const double truth = *player.beat(player.string("8", "C3"), 5, player.string("8", "E3"), 4);
    const PairsHeard heard = listenToPairs(sound, {{0.0, player.target({"8"})}});
    const PairReading& reading = settled(heard);
    CAPTURE(truth, reading.uncertainty);
    CHECK(reading.lower == player.string("8", "C3"));
    CHECK(reading.interval == IntervalKind::MajorThird);
    CHECK(reading.beat.perSecond() ==
          Approx(truth).margin(std::max(0.1, 4.0 * reading.uncertainty)));
}

TEST_CASE("an octave in the bass that is asked for is known as such, not its upper string alone",
          "[beats]") {
    for (const char* note : {"C2", "E2", "G2", "Bb2"}) {
        for (const double apart : {0.11, 0.14}) {
            PairPlayer player("double-8-8-4");
            const StringId lower = player.string("8", note);
            const StringId upper{lower.choir, lower.course + 12};
            const std::string above = toAscii(keyNote(player.instrument(), upper));
            player.detune(lower, 3.0);
            player.on("8").key(above, 0.4, 3.0).key(note, 0.4 + apart, 3.0 - apart);
            const auto asked = player.target({"8"});
            asked->asked = lower;
            asked->with = upper;
            const PairsHeard heard = listenToPairs(player.play(3.8), {{0.0, asked}});
            CAPTURE(note, apart);
            const PairReading& reading = settled(heard);
            CHECK(reading.lower == lower);
            CHECK(reading.upper == upper);
        }
    }
}

namespace {

/// What is played once the lower string was heard alone.
enum class Stroke { Together, LowerAlone, LowerAfterUpper };

/// Whether the pair that was asked for was heard: `semitones` from `course` up, the lower string learned before.
bool askedPairHeard(std::size_t course, std::size_t semitones, Stroke stroke, double apart) {
    PairPlayer player("double-8-8-4", 1 + course % 2);
    const StringId lower{0, course};
    const StringId upper{0, course + semitones};
    const std::string below = toAscii(keyNote(player.instrument(), lower));
    const std::string above = toAscii(keyNote(player.instrument(), upper));
    player.detune(upper, 3.0);
    player.on("8").key(below, 0.4, 1.5);
    const double start = 2.4;
    if (stroke == Stroke::LowerAfterUpper) {
        player.key(above, start, apart);
    } else if (stroke == Stroke::Together) {
        player.key(above, start, 2.0);
    }
    player.key(below, start + apart, 2.0);
    const auto alone = player.target({"8"});
    alone->asked = lower;
    const auto both = player.target({"8"});
    both->asked = upper;
    both->with = lower;
    const PairsHeard heard = listenToPairs(player.play(5.0), {{0.0, alone}, {2.0, both}});
    return std::any_of(
        heard.finished.begin(), heard.finished.end(), [&](const PairReading& reading) {
            return reading.lower == lower && reading.upper == upper;
        });
}

} // namespace

TEST_CASE("two keys asked for that go down together are a pair, one alone is none", "[beats]") {
    for (const std::size_t semitones : {std::size_t{12}, std::size_t{7}}) {
        int all = 0;
        int found = 0;
        for (std::size_t course = 4; course + semitones < 56; course += 8) {
            CAPTURE(semitones, course);
            ++all;
            found += askedPairHeard(course, semitones, Stroke::Together, 0.02) ? 1 : 0;
            CHECK_FALSE(askedPairHeard(course, semitones, Stroke::LowerAlone, 0.0));
            if (semitones == 12) {
                CHECK_FALSE(askedPairHeard(course, semitones, Stroke::LowerAfterUpper, 0.3));
            }
        }
        CAPTURE(semitones, found, all);
        CHECK(found * 10 >= all * 8); // in the treble two strings are sometimes taken for one
    }
}

TEST_CASE("a lower string that is asked for alone first is heard so, and the octave after it",
          "[beats]") {
    int all = 0;
    int alone = 0;
    int pairs = 0;
    for (std::size_t course = 4; course + 12 < 56; course += 4) {
        PairPlayer player("double-8-8-4", 1 + course % 3);
        const StringId lower{0, course};
        const StringId upper{0, course + 12};
        const std::string below = toAscii(keyNote(player.instrument(), lower));
        const std::string above = toAscii(keyNote(player.instrument(), upper));
        player.detune(upper, 3.0);
        player.on("8").key(below, 0.4, 1.5).key(below, 2.4, 2.0).key(above, 2.42, 2.0);
        const auto both = player.target({"8"});
        both->asked = upper;
        both->with = lower;
        const auto first = std::make_shared<AnalysisTarget>(*both);
        first->withAlone = true;
        const PairsHeard heard = listenToPairs(player.play(5.0), {{0.0, first}, {2.2, both}});
        ++all;
        const bool early =
            std::any_of(heard.strings.begin(), heard.strings.end(), [&](const StringReading& one) {
                return one.string == lower && !one.has(Warning::TwoStrings) &&
                       one.pluck < FrameIndex(48000);
            });
        alone += early ? 1 : 0;
        pairs += !heard.finished.empty() && heard.finished.back().upper == upper ? 1 : 0;
    }
    CAPTURE(all, alone, pairs);
    CHECK(alone * 10 >= all * 9);
    CHECK(pairs * 10 >= all * 8);
}

TEST_CASE("a string that is plucked alone after the jacks fell makes no pair", "[beats]") {
    for (const char* note : {"C2", "G2"}) {
        PairPlayer player("double-8-8-4");
        const StringId lower = player.string("8", note);
        player.on("8").key(note, 0.4, 2.0).key(note, 2.65, 2.5);
        const auto asked = player.target({"8"});
        asked->asked = lower;
        asked->with = StringId{lower.choir, lower.course + 12};
        const PairsHeard heard = listenToPairs(player.play(5.6), {{0.0, asked}});
        CAPTURE(note);
        CHECK(heard.finished.empty());
        CHECK(heard.strings.size() == 2);
    }
}

TEST_CASE("keys played one after the other, each let go, make no pair", "[beats]") {
    PairPlayer player("single-8-8");
    player.on("8").key("C3", 0.3, 1.2).key("G3", 1.55, 1.2).key("C4", 2.8, 1.2);
    const PairsHeard heard = listenToPairs(player.play(5.8), {{0.0, player.target({"8"})}});
    CHECK(heard.finished.empty());
    REQUIRE(heard.strings.size() == 3);
    for (const StringReading& reading : heard.strings) {
        CHECK_FALSE(reading.has(Warning::TwoStrings));
    }
}

TEST_CASE("a key that was let go after its last word makes no pair with the next", "[beats]") {
    const std::pair<const char*, const char*> following[] = {
        {"F3", "F4"}, {"F3", "C4"}, {"F3", "A3"}, {"F4", "C5"}, {"F5", "C6"}, {"C2", "G2"}};
    for (const auto& [first, second] : following) {
        PairPlayer player("double-8-8-4");
        player.on("8").key(first, 0.3, 3.2).key(second, 4.2, 2.3);
        const PairsHeard heard = listenToPairs(player.play(7.2), {{0.0, player.target({"8"})}});
        CAPTURE(first, second);
        CHECK(heard.finished.empty());
        CHECK(heard.strings.size() == 2);
    }
}

TEST_CASE("a 4′ with its 8′ from one key is said to be two strings and read as their octave",
          "[beats]") {
    PairPlayer player("single-8-4", 5);
    player.detune(player.string("4", "G3"), -4.0);
    player.on("8").key("G3", 0.3, 2.0).turn("4", true, 2.6).key("G3", 3.0, 3.0);
    const auto sound = player.play(6.6);
    const double truth = *player.beat(player.string("8", "G3"), 2, player.string("4", "G3"), 1);
    const PairsHeard heard = listenToPairs(sound, drawnAfterwards(player, "4"));
    const PairReading& reading = settled(heard);
    CAPTURE(truth, reading.uncertainty);
    CHECK(reading.interval == IntervalKind::Octave);
    CHECK(reading.beat.perSecond() ==
          Approx(truth).margin(std::max(0.1, 3.0 * reading.uncertainty)));
    CHECK(reading.direction == BeatDirection::Narrow);
    REQUIRE_FALSE(heard.strings.empty());
    CHECK(heard.strings.back().has(Warning::TwoStrings));
}

TEST_CASE("a 4′ that is asked for while its 8′ is the louder one is listened for in its own place",
          "[beats]") {
    for (const char* note : {"A3", "C4", "G3", "C3"}) {
        PairPlayer player("single-8-4");
        player.on("8").on("4").key(note, 0.4, 2.5);
        auto target = player.target({"8", "4"});
        target->asked = player.string("4", note);
        const PairsHeard heard = listenToPairs(player.play(4.0), {{0.0, target}});
        REQUIRE_FALSE(heard.strings.empty());
        CHECK(heard.strings.front().string.course == target->asked->course);
        CHECK(heard.strings.front().has(Warning::TwoStrings));
    }
}

TEST_CASE("what was heard of a lower string before its pin was turned does not say where it stands",
          "[beats]") {
    PairPlayer player("single-8-8");
    const StringId lower = player.string("8", "E3");
    player.detune(lower, -24.0).pull(lower, 3.2, 3.8, 25.5);
    player.on("8").key("E3", 0.3, 2.2).key("E4", 4.5, 3.0).key("E3", 4.6, 3.0);
    const auto sound = player.play(8.5);
    const double truth = *player.beat(lower, 2, player.string("8", "E4"), 1);
    auto target = player.target({"8"});
    target->asked = lower;
    const PairsHeard heard = listenToPairs(sound, {{0.0, target}});
    const PairReading& reading = settled(heard);
    CAPTURE(truth, reading.beat.perSecond(), reading.uncertainty);
    CHECK(reading.interval == IntervalKind::Octave);
    CHECK(std::abs(reading.beat.perSecond()) ==
          Approx(std::abs(truth)).margin(std::max(0.1, 4.0 * reading.uncertainty)));
}

TEST_CASE("what was heard of a string before its pin was worked at is no reference afterwards",
          "[beats]") {
    PairPlayer player("single-8-8");
    const StringId lower = player.string("8", "E3");
    player.detune(lower, -24.0).pull(lower, 3.2, 3.8, 25.5);
    player.on("8").key("E3", 0.3, 2.2).key("E4", 4.5, 3.0).key("E3", 4.6, 3.0);
    player.key("E4", 9.5, 3.0).key("E3", 9.6, 3.0);
    const auto sound = player.play(13.4);
    const double truth = *player.beat(lower, 2, player.string("8", "E4"), 1);
    auto worked = player.target({"8"});
    worked->asked = lower;
    const PairsHeard heard = listenToPairs(sound, {{0.0, worked}, {8.6, player.target({"8"})}});
    REQUIRE(heard.finished.size() >= 2);
    const PairReading& reading = heard.finished.back();
    CAPTURE(truth, reading.beat.perSecond(), reading.uncertainty);
    CHECK(reading.reference == ReferenceKind::OwnPartials);
    CHECK(std::abs(reading.beat.perSecond()) ==
          Approx(std::abs(truth)).margin(std::max(0.15, 4.0 * reading.uncertainty)));
}

TEST_CASE("an octave downwards has the string above it for its reference", "[beats]") {
    for (const auto& [below, above] : {std::pair("F3", "F4"), {"D3", "D4"}, {"B2", "B3"}}) {
        for (const double cents : {2.5, -3.5, 12.0, -24.0}) {
            PairPlayer player("single-8-8");
            const StringId lower = player.string("8", below);
            player.detune(lower, cents);
            player.on("8").key(above, 0.3, 2.4).key(below, 4.5, 3.0).key(above, 4.64, 2.86);
            const auto sound = player.play(8.5);
            const double truth = *player.beat(lower, 2, player.string("8", above), 1);
            auto target = player.target({"8"});
            target->asked = lower;
            target->with = player.string("8", above);
            const PairsHeard heard = listenToPairs(sound, {{0.0, target}});
            const PairReading& reading = settled(heard);
            CAPTURE(below, cents, truth, reading.beat.perSecond(), reading.uncertainty);
            CHECK(reading.interval == IntervalKind::Octave);
            CHECK_FALSE(reading.moving);
            CHECK(reading.reference == ReferenceKind::HeardAlone);
            CHECK(reading.beat.perSecond() ==
                  Approx(truth).margin(std::max(0.12, 3.0 * reading.uncertainty)));
            CHECK(reading.direction == (truth > 0.0 ? BeatDirection::Wide : BeatDirection::Narrow));
        }
    }
}

TEST_CASE("what is said of a pair does not depend on the blocks", "[beats]") {
    PairPlayer player = unisonAfterItsReference(4.0);
    const auto sound = player.play(6.6);
    const auto target = drawnAfterwards(player, "8b");
    const PairsHeard one = listenToPairs(sound, target, {256});
    const PairsHeard other = listenToPairs(sound, target, {1, 63, 400, 17, 256, 129});
    REQUIRE(one.finished.size() == other.finished.size());
    for (std::size_t i = 0; i < one.finished.size(); ++i) {
        // The same arithmetic: bit for bit.
        CHECK_FALSE(one.finished[i].beat < other.finished[i].beat);
        CHECK_FALSE(other.finished[i].beat < one.finished[i].beat);
        CHECK(one.finished[i].used == other.finished[i].used);
        CHECK(one.finished[i].direction == other.finished[i].direction);
    }
    REQUIRE_FALSE(one.shots.empty());
    const PairHeard& a = one.shots.back();
    const PairHeard& b = other.shots.back();
    REQUIRE(a.breath.level.size() == b.breath.level.size());
    for (std::size_t i = 0; i < a.breath.level.size(); ++i) {
        CHECK(a.breath.level[i] == Approx(b.breath.level[i]).margin(1e-5));
    }
    REQUIRE(a.breath.crests.size() == b.breath.crests.size());
}

TEST_CASE("while the pin turns the live rate follows and nothing is kept", "[beats]") {
    PairPlayer player = unisonAfterItsReference(8.0);
    // From 8 cents down to 2 within three seconds.
    player.pull(player.string("8b", "A3"), 3.6, 6.6, -6.0);
    player.key("A3", 7.5, 0.1);
    const auto sound = player.play(6.4);
    const PairsHeard heard = listenToPairs(sound, drawnAfterwards(player, "8b"));
    REQUIRE_FALSE(heard.shots.empty());
    const double hz = nominalPitch(player.instrument(), player.string("8", "A3")).value();
    int compared = 0;
    int near = 0;
    bool turning = false;
    for (std::size_t i = 0; i < heard.shots.size(); ++i) {
        const double now = static_cast<double>(heard.at[i].value()) / 48000.0;
        const auto& breath = heard.shots[i].breath;
        turning = turning || breath.turning;
        if (now < 4.6 || now > 5.8 || !breath.live) {
            continue;
        }
        // In the middle of the last 0.7 s; the pair started a little apart from its rest pitches.
        const double cents = 8.0 - 2.0 * (now - 0.35 - 3.6);
        const double wanted = hz * (std::exp2(cents / 1200.0) - 1.0);
        ++compared;
        near += std::abs(breath.live->perSecond() - wanted) < std::max(0.15, 0.1 * wanted) ? 1 : 0;
    }
    REQUIRE(compared > 10);
    CHECK(near >= compared * 9 / 10);
    CHECK(turning);
    CHECK(heard.shots.back().reading->moving);
}

TEST_CASE("crests of the breath come once a beat", "[beats]") {
    PairPlayer player = unisonAfterItsReference(9.0);
    const PairsHeard heard = listenToPairs(player.play(6.0), drawnAfterwards(player, "8b"));
    REQUIRE_FALSE(heard.shots.empty());
    const PairHeard& shot = heard.shots.back();
    REQUIRE(shot.reading.has_value());
    const double rate = std::abs(shot.reading->beat.perSecond()) *
                        static_cast<double>(shot.pairs[shot.followed].lowerPartial);
    REQUIRE(shot.breath.crests.size() >= 2);
    const double apart = static_cast<double>(shot.breath.crests[shot.breath.crests.size() - 1] -
                                             shot.breath.crests[0]) /
                         static_cast<double>(shot.breath.crests.size() - 1);
    CHECK(apart * rate == Approx(1.0).margin(0.12));
}

TEST_CASE("intervals are known by the pitches of their strings", "[beats]") {
    CHECK(intervalBetween(Hertz(200.0), Hertz(200.5)) == IntervalKind::Unison);
    CHECK(intervalBetween(Hertz(200.0), Hertz(299.0)) == IntervalKind::Fifth);
    CHECK(intervalBetween(Hertz(200.0), Hertz(401.0)) == IntervalKind::Octave);
    CHECK_FALSE(intervalBetween(Hertz(200.0), Hertz(224.0)).has_value());
    CHECK_FALSE(intervalBetween(Hertz(300.0), Hertz(200.0)).has_value());
}

TEST_CASE("the ear weighs by the A curve", "[beats]") {
    // IEC 61672-1, table of nominal weights (value from memory).
    CHECK(earWeight(Hertz(1000.0)) == Approx(0.0).margin(0.05));
    CHECK(earWeight(Hertz(100.0)) == Approx(-19.1).margin(0.1));
    CHECK(earWeight(Hertz(250.0)) == Approx(-8.6).margin(0.1));
    CHECK(earWeight(Hertz(4000.0)) == Approx(1.0).margin(0.1));
}
