#include "app/formats/logbook_history.hpp"
#include "app/formats/logbook_settling.hpp"
#include "app/formats/session_events.hpp"
#include "core/instrument/examples.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace quillbench;

namespace {

constexpr double kDayMilliseconds = 86400000.0;
constexpr std::int64_t kFirstDay = 1790000000000;
constexpr int kStrings = 9;
constexpr RowNumber kReplaced = 5;
const StringId kNewOne{0, 19 + static_cast<std::size_t>(kReplaced)};

Instant onDay(double day) {
    return {kFirstDay + static_cast<std::int64_t>(day * kDayMilliseconds), 60};
}

/// A logbook of one invented instrument: nine strings of one choir, tuned together, one of them replaced on day 10.
class SettlingBook {
public:
    SettlingBook() {
        contents.instruments.push_back({1, "double-8-8-4"});
        contents.descriptions.push_back({1, 1, "invented", "{}", onDay(0)});
        for (int i = 1; i <= kStrings; ++i) {
            contents.strings.push_back({i, 1, "8", 19 + i, "C3"});
        }
        tune(0.0);
        StringChangeRecord change;
        change.seq = 1;
        change.string = kReplaced;
        change.at = onDay(10.0);
        contents.stringChanges.push_back(change);
    }

    RowNumber session(const std::string& kind, double day, bool virtualInstrument = false) {
        SessionRecord record;
        record.seq = static_cast<RowNumber>(contents.sessions.size() + 1);
        record.uid = "uid" + std::to_string(record.seq);
        record.description = 1;
        record.kind = kind;
        record.inputs = formatRecheckInputs({"8", "vallotti", 415.0, virtualInstrument});
        record.at = onDay(day);
        contents.sessions.push_back(record);
        return record.seq;
    }

    void reading(RowNumber session,
                 RowNumber string,
                 double pitchHz,
                 double cents,
                 double day,
                 const std::string& settings = "{}") {
        ReadingRecord record;
        record.seq = static_cast<RowNumber>(contents.readings.size() + 1);
        record.session = session;
        record.string = string;
        record.pitchHz = pitchHz;
        record.deviationCents = cents;
        record.deviationCentsU = 0.2;
        record.settings = settings;
        record.at = onDay(day);
        contents.readings.push_back(record);
        StepRecord step;
        step.seq = static_cast<RowNumber>(contents.steps.size() + 1);
        step.session = session;
        step.string = string;
        step.reading = record.seq;
        step.state = settings == "{}" ? "settled" : "heard";
        contents.steps.push_back(step);
    }

    /// All strings settled where they belong.
    RowNumber tune(double day, bool virtualInstrument = false) {
        const RowNumber number = session("whole", day, virtualInstrument);
        for (int i = 1; i <= kStrings; ++i) {
            reading(number, i, pitchOf(i), 0.0, day);
        }
        return number;
    }

    /// Looks at all strings; the rest moved by `weather`, the new one by itself by `own` as well.
    void recheck(double day, double setOn, double weather, double own) {
        const RowNumber number = session(kRecheckKind, day);
        const std::string with = formatCompared(ComparedWith{onDay(setOn), Cents(0.1), 2});
        for (int i = 1; i <= kStrings; ++i) {
            const double moved = weather + (i == kReplaced ? own : 0.0);
            reading(number, i, pitchOf(i) * std::exp2(moved / 1200.0), moved, day, with);
        }
    }

    static double pitchOf(int string) { return 130.0 * std::exp2(string / 12.0); }

    [[nodiscard]] std::vector<NewString> read(bool virtualInstrument = false) const {
        return newStringsOf(contents, *findExample("double-8-8-4"), virtualInstrument, events);
    }

    LogbookContents contents;
    std::vector<EventRecord> events;
};

} // namespace

TEST_CASE("what a new string did by itself is read from rechecks, its age from its replacement",
          "[unit]") {
    SettlingBook book;
    book.tune(10.25);
    book.recheck(11.0, 10.25, -3.0, -8.0);
    book.recheck(13.0, 10.25, 2.0, -12.0); // not set again since
    book.tune(13.125);
    book.recheck(20.0, 13.125, 0.0, -5.0);
    const std::vector<NewString> all = book.read();
    REQUIRE(all.size() == 1);
    CHECK(all[0].string == kNewOne);
    REQUIRE(all[0].lastSet);
    CHECK(*all[0].lastSet == Approx(3.125));
    REQUIRE(all[0].seen.size() == 3);
    CHECK(all[0].seen[0].from == Approx(0.25));
    CHECK(all[0].seen[0].to == Approx(1.0));
    CHECK(all[0].seen[0].moved.value() == Approx(-8.0).margin(0.5));
    CHECK(all[0].seen[1].from == Approx(1.0)); // since the last look
    CHECK(all[0].seen[1].to == Approx(3.0));
    CHECK(all[0].seen[1].moved.value() == Approx(-4.0).margin(0.7));
    CHECK(all[0].seen[2].from == Approx(3.125));
    CHECK(all[0].seen[2].moved.value() == Approx(-5.0).margin(0.5));
    CHECK(book.read(true).front().seen.empty()); // the virtual strings did nothing
    const SettlingLaw law = settlingLaw(all);
    CHECK(law.strings() == 1);
    CHECK(law.sightings() == 3);
    CHECK(settlingLaw(all, 0).strings() == 0);
}

TEST_CASE("a string heard alone is known less well: the weather is not taken off", "[unit]") {
    SettlingBook book;
    book.tune(10.25);
    const RowNumber number = book.session(kRecheckKind, 11.0);
    book.reading(number,
                 kReplaced,
                 200.0,
                 -8.0,
                 11.0,
                 formatCompared(ComparedWith{onDay(10.25), Cents(0.1), 1}));
    const std::vector<NewString> all = book.read();
    REQUIRE(all[0].seen.size() == 1);
    CHECK(all[0].seen[0].moved.value() == Approx(-8.0));
    CHECK(all[0].seen[0].uncertainty.value() > 2.0);
}

TEST_CASE("a look at the old string says nothing, and a second replacement begins anew", "[unit]") {
    SettlingBook book;
    book.recheck(10.5, 0.0, 0.0, -30.0); // compared with where the old one had been left
    CHECK(book.read()[0].seen.empty());
    CHECK_FALSE(book.read()[0].lastSet);
    book.tune(10.75);
    StringChangeRecord again;
    again.seq = 2;
    again.string = kReplaced;
    again.at = onDay(12.0);
    book.contents.stringChanges.push_back(again);
    book.recheck(13.0, 10.75, 0.0, -30.0);
    book.tune(13.5);
    book.recheck(14.0, 13.5, 0.0, -6.0);
    const std::vector<NewString> all = book.read();
    REQUIRE(all.size() == 2);
    CHECK(all[0].seen.empty());
    REQUIRE(all[1].seen.size() == 1);
    CHECK(all[1].seen[0].from == Approx(1.5));
    CHECK(all[1].seen[0].moved.value() == Approx(-6.0).margin(0.5));
}

TEST_CASE("how far strings had sunk when they were tuned again is read from that session's events",
          "[unit]") {
    SettlingBook book;
    book.tune(10.25);
    const RowNumber later = book.session("whole", 12.0);
    for (int i = 1; i <= kStrings; ++i) {
        const double moved = -2.0 + (i == kReplaced ? -9.0 : 0.0);
        for (const double turned :
             {0.0, 3.0}) { // what was heard after the pin was turned does not count
            Heard heard;
            heard.reading.standing = Standing::Ok;
            heard.reading.string = {0, static_cast<std::size_t>(19 + i)};
            heard.reading.target = Hertz(SettlingBook::pitchOf(i));
            heard.reading.pitch =
                Hertz(SettlingBook::pitchOf(i) * std::exp2((moved + turned) / 1200.0));
            heard.reading.deviation = Cents(moved + turned);
            heard.reading.deviationUncertainty = Cents(0.2);
            EventRecord event;
            event.session = later;
            event.schema = kSessionEventSchema;
            event.content = formatSessionEvent(SessionEvent{heard});
            event.at = onDay(12.0);
            book.events.push_back(event);
        }
        book.reading(later, i, SettlingBook::pitchOf(i), 0.0, 12.05);
    }
    const std::vector<NewString> all = book.read();
    REQUIRE(all[0].seen.size() == 1);
    CHECK(all[0].seen[0].from == Approx(0.25));
    CHECK(all[0].seen[0].to == Approx(2.0));
    CHECK(all[0].seen[0].moved.value() == Approx(-9.0).margin(0.5));
    CHECK(*all[0].lastSet == Approx(2.05));
    const Instrument& instrument = *findExample("double-8-8-4");
    const std::vector<RowNumber> wanted = sessionsAfterNewStrings(book.contents, instrument, false);
    CHECK(wanted == std::vector<RowNumber>{2, 3}); // not the first tuning, before it
    CHECK(sessionsAfterNewStrings(book.contents, instrument, true).empty());
}

TEST_CASE("without a replaced string there is nothing to learn", "[unit]") {
    SettlingBook book;
    book.contents.stringChanges.clear();
    book.recheck(11.0, 0.0, 0.0, -3.0);
    CHECK(book.read().empty());
    CHECK(newStringsOf({}, *findExample("double-8-8-4"), false).empty());
}
