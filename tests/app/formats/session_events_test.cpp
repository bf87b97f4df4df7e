#include "app/formats/session_events.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace quillbench;

TEST_CASE("every kind of event comes back as it was written", "[unit]") {
    Heard heard;
    heard.reading.string = {0, 12};
    heard.reading.target = Hertz(415.3);
    heard.reading.deviation = Cents(-3.25);
    heard.uncertainty = Cents(0.17);
    heard.at = Seconds(12.5);
    PartialReading second;
    second.number = 2;
    second.frequency = Hertz(831.25);
    second.frequencyUncertainty = 0.02;
    heard.reading.partials.tryPush(second);
    HeardPair pair;
    pair.lower = {0, 12};
    pair.upper = {1, 12};
    pair.beat = BeatRate(-0.4);
    pair.direction = BeatDirection::Narrow;
    pair.referenceHeard = true;
    const std::vector<SessionEvent> events{heard,
                                           Accept{},
                                           Skip{"pin loose"},
                                           GoTo{7, FrameIndex(48'000)},
                                           Pause{},
                                           Resume{},
                                           pair,
                                           GoBy{Way::ByEar},
                                           Remark{{2, 5}, "false beat \"wolf\""},
                                           PressTest{},
                                           Undo{},
                                           SecondPass{}};
    REQUIRE(events.size() == std::variant_size_v<SessionEvent::What>);
    for (const SessionEvent& event : events) {
        const std::string written = formatSessionEvent(event);
        INFO(written);
        const auto read = parseSessionEvent(kSessionEventSchema, written);
        REQUIRE(read);
        CHECK(read->what.index() == event.what.index());
        CHECK(formatSessionEvent(*read) == written);
    }
}

TEST_CASE("partials of a reading come back, those of an older event are not missed", "[unit]") {
    Heard heard;
    PartialReading third;
    third.number = 3;
    third.frequency = Hertz(1246.5);
    third.frequencyUncertainty = 0.05;
    heard.reading.partials.tryPush(third);
    const std::string written = formatSessionEvent(heard);
    const auto read = parseSessionEvent(kSessionEventSchema, written);
    REQUIRE(read);
    const auto& partials = std::get<Heard>(read->what).reading.partials;
    REQUIRE(partials.size() == 1);
    CHECK(partials[0].number == 3);
    CHECK(partials[0].frequency.value() == Approx(1246.5));
    CHECK(partials[0].frequencyUncertainty == Approx(0.05));
    const auto older = parseSessionEvent(kSessionEventSchema, formatSessionEvent(Heard{}));
    REQUIRE(older);
    CHECK(std::get<Heard>(older->what).reading.partials.empty());
}
