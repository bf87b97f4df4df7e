#include "app/storage/log_writer.hpp"
#include "tests/app/storage/logbook_at_hand.hpp"
#include "tests/support/temporary_folder.hpp"

#include <atomic>

using namespace quillbench;
using namespace quillbench::test;

TEST_CASE("what was posted is kept in its order before the writer ends", "[unit]") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "l.sqlite";
    {
        LogWriter writer(opened(file));
        writer.post([](Logbook& logbook) {
            return logbook.begin(inventedInstrument(), sessionNamed("uid-1"));
        });
        for (int place = 0; place < 40; ++place) {
            writer.post(
                [place](Logbook& logbook) { return logbook.keep("uid-1", entryAt(place)); });
        }
    }
    const auto saved = opened(file).unfinished("first-octave");
    REQUIRE(saved);
    REQUIRE(*saved);
    CHECK((*saved)->events.size() == 40);
}

TEST_CASE("what cannot be kept now is tried again, what never can be holds nothing up", "[unit]") {
    const TemporaryFolder folder;
    LogWriter writer(opened(folder.path() / "l.sqlite"));
    std::atomic<int> tries = 0;
    std::atomic<bool> room = false;
    writer.post([&](Logbook& /*logbook*/) -> Result<void> {
        ++tries;
        return room ? Result<void>() : failure(ErrorCode::Environment, "the disk is full");
    });
    writer.post([](Logbook& /*logbook*/) -> Result<void> {
        return failure(ErrorCode::BadArgument, "never");
    });
    std::atomic<bool> last = false;
    writer.post([&](Logbook& /*logbook*/) -> Result<void> {
        last = true;
        return {};
    });
    while (tries < 2) {
        CHECK_FALSE(writer.waitUntilKept(std::chrono::milliseconds(10)));
    }
    CHECK(writer.state().kept == 0);
    REQUIRE(writer.state().trouble);
    CHECK(writer.state().trouble->text == "the disk is full");
    CHECK_FALSE(last);
    room = true;
    CHECK(writer.waitUntilKept(std::chrono::seconds(30)));
    CHECK(writer.state().kept == 2);
    CHECK(writer.state().refused == 1);
    CHECK_FALSE(writer.state().trouble);
    CHECK(last);
}

TEST_CASE("a writer that can keep nothing does not hold up the end for ever", "[unit]") {
    const TemporaryFolder folder;
    LogWriter writer(opened(folder.path() / "l.sqlite"), std::chrono::milliseconds(20));
    writer.post([](Logbook& /*logbook*/) -> Result<void> {
        return failure(ErrorCode::Environment, "the disk is full");
    });
    CHECK_FALSE(writer.waitUntilKept(std::chrono::milliseconds(1)));
}
