#include "core/support/random.hpp"
#include "tests/app/storage/logbook_at_hand.hpp"
#include "tests/support/temporary_folder.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <ctime>

using namespace quillbench;
using namespace quillbench::test;

namespace {

/// Lets a child keep entries, kills it so many milliseconds after it began or after its first entry, and returns the
/// last place it acknowledged; −1: none.
int killedAt(const std::filesystem::path& file, double milliseconds, bool afterFirst) {
    int ends[2] = {-1, -1};
    REQUIRE(::pipe(ends) == 0);
    const pid_t child = ::fork();
    if (child == 0) {
        ::dup2(ends[1], STDOUT_FILENO);
        ::close(ends[0]);
        ::execl(STORAGE_KILL_CHILD, STORAGE_KILL_CHILD, file.c_str(), nullptr);
        ::_exit(127);
    }
    ::close(ends[1]);
    int last = -1;
    if (afterFirst) {
        REQUIRE(::read(ends[0], &last, sizeof last) == sizeof last);
    }
    // The moment of the kill is what is tried here: any will do, none is waited for.
    const timespec moment{0, static_cast<long>(milliseconds * 1e6)};
    ::nanosleep(&moment, nullptr);
    REQUIRE(::kill(child, SIGKILL) == 0);
    for (int place = 0; ::read(ends[0], &place, sizeof place) == sizeof place;) {
        last = place;
    }
    ::close(ends[0]);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE(WIFSIGNALED(status)); // it never ends by itself
    return last;
}

} // namespace

TEST_CASE("killed at 200 moments: nothing acknowledged is lost, the session goes on", "[unit]") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "l.sqlite";
    Random random(200);
    int acknowledged = 0; // entries
    int worked = 0;
    for (int round = 0; round < 200; ++round) {
        const int last = killedAt(file, random.uniform(0.0, 40.0), round % 2 == 0);
        worked += last >= acknowledged ? 1 : 0;
        acknowledged = std::max(acknowledged, last + 1);
        const Logbook logbook = opened(file);
        INFO("round " << round << ", acknowledged " << acknowledged << " " << logbook.trouble());
        REQUIRE(logbook.writable());
        REQUIRE(logbook.damages().empty());
        const auto saved = logbook.unfinished("first-octave");
        REQUIRE(saved);
        if (!*saved) {
            REQUIRE(acknowledged == 0);
            continue;
        }
        const auto& events = (*saved)->events;
        REQUIRE(static_cast<int>(events.size()) >= acknowledged);
        REQUIRE(static_cast<int>(events.size()) <= acknowledged + 1);
        for (std::size_t place = 0; place < events.size(); ++place) {
            REQUIRE(events[place].content == entryAt(static_cast<int>(place)).event.content);
        }
        REQUIRE(logbook.contents()->readings.size() == events.size());
        acknowledged = static_cast<int>(events.size());
    }
    CHECK(worked > 50);
    CHECK(acknowledged > 100);
}
