#include "core/workflow/false_beats.hpp"
#include "tests/core/workflow/scripted.hpp"

#include <catch2/catch.hpp>

#include <optional>
#include <vector>

using namespace quillbench;
using quillbench::test::pluck;

namespace {

SessionEvent plucked(std::size_t course, double seconds, std::optional<double> beat) {
    SessionEvent event = pluck(course, 0.0);
    StringReading& reading = std::get<Heard>(event.what).reading;
    reading.string = StringId{0, course};
    reading.used = Seconds(seconds);
    if (beat) {
        reading.ownBeat = BeatRate(*beat);
    }
    return event;
}

} // namespace

TEST_CASE("a string is named where most of its long plucks beat by themselves", "[unit]") {
    const std::vector<SessionEvent> events{plucked(3, 2.5, 0.8),
                                           plucked(3, 2.5, 0.7),
                                           plucked(3, 2.5, std::nullopt),
                                           plucked(3, 2.5, 0.9),
                                           plucked(4, 2.5, 0.5),
                                           plucked(4, 2.5, std::nullopt),
                                           plucked(4, 2.5, std::nullopt)};
    const auto found = falseBeatsHeard(events);
    REQUIRE(found.size() == 1);
    CHECK(found[0].string == StringId{0, 3});
    CHECK(found[0].rate.perSecond() == Approx(0.8));
    CHECK(found[0].plucks == 3);
    CHECK(found[0].of == 4);
}

TEST_CASE("short and unsure plucks tell of no beat, and two are too few", "[unit]") {
    std::vector<SessionEvent> events{
        plucked(3, 2.5, 0.8), plucked(3, 2.5, 0.8), plucked(3, 0.6, 0.8), plucked(3, 2.5, 0.8)};
    std::get<Heard>(events.back().what).reading.standing = Standing::Weak;
    CHECK(falseBeatsHeard(events).empty());
    std::get<Heard>(events.back().what).reading.standing = Standing::Ok;
    CHECK(falseBeatsHeard(events).size() == 1);
    events.push_back(events.back());
    std::get<Heard>(events.back().what).reading.warnings =
        static_cast<std::uint32_t>(Warning::TwoStrings);
    CHECK(falseBeatsHeard(events)[0].of == 3);
}
