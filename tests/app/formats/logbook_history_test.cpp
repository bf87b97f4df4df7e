#include "app/formats/logbook_history.hpp"
#include "app/formats/session_events.hpp"
#include "core/instrument/examples.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;

namespace {

constexpr std::int64_t kDayMs = 86400000;
constexpr std::int64_t kStart = 1790000000000;

/// A logbook of one invented instrument, a row at a time.
struct Written {
    LogbookContents contents;

    Written() {
        contents.instruments.push_back({1, "double-8-8-4"});
        contents.descriptions.push_back({1, 1, "invented", "{}", {kStart, 0}});
        contents.strings.push_back({1, 1, "8", 20, "C#3"});
        contents.strings.push_back({2, 1, "4", 30, "B3"});
        contents.strings.push_back({3, 1, "16", 5, "B1"}); // a choir that was taken out since
    }

    RowNumber session(const std::string& kind, int day, bool virtualInstrument = false) {
        SessionRecord record;
        record.seq = static_cast<RowNumber>(contents.sessions.size() + 1);
        record.uid = "uid" + std::to_string(record.seq);
        record.description = 1;
        record.kind = kind;
        record.inputs = formatRecheckInputs({"8", "vallotti", 415.0, virtualInstrument});
        record.at = {kStart + day * kDayMs, 0};
        contents.sessions.push_back(record);
        return record.seq;
    }

    void read(RowNumber session,
              RowNumber string,
              const std::string& state,
              double pitchHz,
              int day,
              const std::string& settings = "{}") {
        ReadingRecord reading;
        reading.seq = static_cast<RowNumber>(contents.readings.size() + 1);
        reading.session = session;
        reading.string = string;
        reading.pitchHz = pitchHz;
        reading.deviationCents = -1.5;
        reading.deviationCentsU = 0.2;
        reading.settings = settings;
        reading.at = {kStart + day * kDayMs, 0};
        contents.readings.push_back(reading);
        step(session, string, state, reading.seq);
    }

    void step(RowNumber session,
              RowNumber string,
              const std::string& state,
              std::optional<RowNumber> reading = std::nullopt) {
        StepRecord record;
        record.seq = static_cast<RowNumber>(contents.steps.size() + 1);
        record.session = session;
        record.step = static_cast<int>(string);
        record.string = string;
        record.reading = reading;
        record.state = state;
        contents.steps.push_back(record);
    }

    [[nodiscard]] StringHistory history(bool virtualInstrument = false) const {
        return historyOf(contents, *findExample("double-8-8-4"), virtualInstrument);
    }
};

const StringId kEight{0, 20};
const StringId kFour{2, 30};

} // namespace

TEST_CASE("the last settled pitch of each string is known, of the real strings alone", "[unit]") {
    Written book;
    const RowNumber first = book.session("first-octave", 0);
    book.read(first, 1, "settled", 138.0, 0);
    book.read(first, 2, "settled", 493.0, 0);
    book.read(first, 3, "settled", 31.0, 0);
    const RowNumber second = book.session("first-octave", 7);
    book.read(second, 1, "kept", 138.2, 7);
    book.step(second, 2, "skipped");
    const RowNumber virtualOne = book.session("first-octave", 8, true);
    book.read(virtualOne, 1, "settled", 140.0, 8);
    const StringHistory history = book.history();
    REQUIRE(history.settled.size() == 2);
    CHECK(history.settled.at(kEight).pitch.value() == Approx(138.2));
    CHECK(history.settled.at(kEight).at.milliseconds == kStart + 7 * kDayMs);
    CHECK(history.settled.at(kFour).pitch.value() == Approx(493.0));
    CHECK(book.history(true).settled.at(kEight).pitch.value() == Approx(140.0));
}

TEST_CASE("a string left while it was worked at, or replaced since, has no settled pitch",
          "[unit]") {
    Written book;
    const RowNumber session = book.session("first-octave", 0);
    book.read(session, 1, "settled", 138.0, 0);
    book.read(session, 2, "settled", 493.0, 0);
    book.step(session, 1, "working");
    StringChangeRecord change;
    change.seq = 1;
    change.string = 2;
    change.at = {kStart + kDayMs, 0};
    book.contents.stringChanges.push_back(change);
    CHECK(book.history().settled.empty());
    // Tuned after it was replaced: known again.
    book.read(book.session("first-octave", 2), 2, "settled", 494.0, 2);
    CHECK(book.history().settled.count(kFour) == 1);
}

TEST_CASE("rechecks are looks back: how far, after how many days, the newest pluck", "[unit]") {
    Written book;
    book.read(book.session("first-octave", 0), 1, "settled", 138.0, 0);
    const RowNumber recheck = book.session(kRecheckKind, 21);
    const ComparedWith with{{kStart, 60}, Cents(0.1), 2};
    book.read(recheck, 1, "heard", 137.0, 21, formatCompared(with));
    book.read(recheck, 1, "heard", 137.9, 21, formatCompared(with));
    book.read(recheck, 2, "heard", 493.0, 21, formatCompared(std::nullopt));
    const StringHistory history = book.history();
    CHECK(history.settled.at(kEight).pitch.value() == Approx(138.0)); // a recheck settles nothing
    REQUIRE(history.looks.size() == 1);
    CHECK(history.looks[0].uid == "uid2");
    REQUIRE(history.looks[0].look.movements.size() == 1); // the other was compared with nothing
    const Movement& movement = history.looks[0].look.movements[0];
    CHECK(movement.string == kEight);
    CHECK(movement.moved == Cents(-1.5));
    CHECK(movement.plucks == 2);
    CHECK(history.looks[0].look.days[0] == Approx(21.0));
}

TEST_CASE("what cannot be read of inputs and settings is nothing, not a failure", "[unit]") {
    for (const char* text : {"", "[]", "{\"a4_hz\":\"high\",\"virtual\":1}", "{", "null"}) {
        const SessionInputs inputs = sessionInputs(text);
        CHECK(inputs.temperament.empty());
        CHECK(inputs.a4Hz < 1e-9);
        CHECK_FALSE(inputs.virtualInstrument);
        CHECK_FALSE(parseCompared(text));
    }
    const SessionInputs read = sessionInputs(formatRecheckInputs({"4", "W3", 392.0, true}));
    CHECK(read.choir == "4");
    CHECK(read.temperament == "W3");
    CHECK(read.a4Hz == Approx(392.0));
    CHECK(read.virtualInstrument);
}

TEST_CASE("where a string stood before is where it was first heard surely", "[unit]") {
    std::vector<EventRecord> events;
    for (const auto& [standing, cents] : {std::pair{Standing::Weak, 9.0},
                                          std::pair{Standing::Ok, -12.5},
                                          std::pair{Standing::Ok, 0.3}}) {
        StringReading reading;
        reading.standing = standing;
        reading.string = kEight;
        reading.target = Hertz(138.0);
        reading.pitch = Hertz(138.0);
        reading.fundamental = Hertz(138.0);
        reading.deviation = Cents(cents);
        EventRecord record;
        record.place = static_cast<int>(events.size());
        record.schema = kSessionEventSchema;
        record.content = formatSessionEvent(Heard{reading, Cents(0.1), Seconds(1)});
        events.push_back(record);
    }
    events.push_back({4, 1, 3, 99, "{}", {}}); // of a newer version
    const auto first = firstHeard(events);
    REQUIRE(first.size() == 1);
    CHECK(first.at(kEight) == Cents(-12.5));
}

TEST_CASE("what was left by ear is found among the readings of sessions", "[unit]") {
    Written book;
    const LeftByEar left{"four-foot", 0, Cents(-0.625), Cents(0.0)};
    const RowNumber first = book.session("whole", 0);
    book.read(first, 1, "settled", 138.0, 0, R"({"tolerance_cents":1.0})");
    book.read(first, 2, "kept", 493.0, 0, formatLeftByEar(Cents(1.0), left));
    const RowNumber second = book.session("whole", 7);
    book.read(second, 2, "kept", 493.0, 7, formatLeftByEar(Cents(1.0), left));
    book.read(second, 1, "kept", 138.0, 7, R"({"by":"ear","interval":"unison"})");
    const auto all = leftByEar(book.contents);
    REQUIRE(all.size() == 2);
    CHECK(all[0].interval == "four-foot");
    CHECK(all[0].left == left.left);
    CHECK(all[0].uncertainty == Cents(0.2));
    CHECK(all[0].session == first);
    CHECK(all[1].session == second);
}

TEST_CASE("the time a string takes is that from one that settled to the next", "[unit]") {
    std::map<StringId, SettledString> settled;
    const auto at = [&](std::size_t course, double seconds) {
        settled[{0, course}].at.milliseconds = static_cast<std::int64_t>(1000.0 * seconds);
    };
    at(3, 0.0);
    at(1, 40.0);
    at(2, 100.0);
    at(0, 101.0);   // heard, not tuned
    at(4, 90000.0); // another evening
    const std::vector<Seconds> times = timesPerString(settled);
    REQUIRE(times.size() == 2);
    CHECK(times[0].count() == Approx(40.0));
    CHECK(times[1].count() == Approx(60.0));
    CHECK(timesPerString({}).empty());
}

TEST_CASE("what most strings were left in is told, of equally many the newer", "[unit]") {
    Written book;
    CHECK_FALSE(book.history().leftIn);
    const auto begun = [&book](const std::string& inputs, int day) {
        const RowNumber session = book.session("whole", day);
        book.contents.sessions.back().inputs = inputs;
        return session;
    };
    const RowNumber old = begun(R"({"temperament":"equal","a4_hz":440.0,"position":1})", 0);
    book.read(old, 1, "settled", 138.0, 0);
    book.read(old, 2, "settled", 493.0, 0);
    CHECK(book.history().leftIn == LeftIn{"equal", 440.0, 1});
    const RowNumber newer = begun(R"({"temperament":"vallotti","a4_hz":415.0})", 1);
    book.read(newer, 2, "settled", 494.0, 1);
    CHECK(book.history().leftIn == LeftIn{"vallotti", 415.0, 0});
    // A session that nothing is known of decides nothing.
    book.read(begun("?", 2), 2, "settled", 494.5, 2);
    CHECK(book.history().leftIn == LeftIn{"equal", 440.0, 1});
}

TEST_CASE("a recheck after it was settled says where a string stands now", "[unit]") {
    Written book;
    const RowNumber session = book.session("first-octave", 0);
    book.read(session, 1, "settled", 138.0, 0);
    book.read(session, 2, "settled", 493.0, 0);
    const Instant settledAt{kStart, 0};
    book.read(book.session(kRecheckKind, 5),
              1,
              "heard",
              137.9,
              5,
              formatCompared(ComparedWith{settledAt, Cents(0.2), 1}));
    // Readings of this logbook lie 1.5 cents below what they are compared with.
    auto pitches = lastPitches(book.history());
    CHECK(pitches.at(kEight).value() == Approx(transpose(Hertz(138.0), Cents(-1.5)).value()));
    CHECK(pitches.at(kFour).value() == Approx(493.0));
    // Settled anew: what the recheck heard is past.
    book.read(book.session("first-octave", 9), 1, "settled", 138.5, 9);
    pitches = lastPitches(book.history());
    CHECK(pitches.at(kEight).value() == Approx(138.5));
}
