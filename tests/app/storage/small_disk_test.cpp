// A disk that is really full, and a logbook that is really used by two programs.
#include "core/support/random.hpp"
#include "tests/app/storage/logbook_at_hand.hpp"
#include "tests/support/temporary_folder.hpp"

#include <sched.h>
#include <sys/mount.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>

using namespace quillbench;
using namespace quillbench::test;

namespace {

constexpr int kNotHere = 77; ///< this system does not let tests mount a disk

/// Runs `work` in a child; its exit code.
template <typename Work>
int inChild(const Work& work) {
    const pid_t child = ::fork();
    if (child == 0) {
        ::_exit(work());
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE(WIFEXITED(status));
    return WEXITSTATUS(status);
}

bool mountDisk(const std::filesystem::path& at, std::size_t kilobytes, bool again) {
    const std::string options = "size=" + std::to_string(kilobytes) + "k";
    return ::mount("none", at.c_str(), "tmpfs", again ? MS_REMOUNT : 0, options.c_str()) == 0;
}

/// A session on a disk of so many kilobytes until nothing more goes on to it, then with more room. 0: all as it should
/// be; else the number of what was not.
int fillDisk(const std::filesystem::path& disk, std::size_t kilobytes) {
    if (::unshare(::geteuid() == 0 ? CLONE_NEWNS : CLONE_NEWNS | CLONE_NEWUSER) != 0 ||
        ::mount(nullptr, "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0 ||
        !mountDisk(disk, kilobytes, false)) {
        return kNotHere;
    }
    const LogbookOpening opening{disk / "l.sqlite", true, {}};
    int kept = 0;
    {
        Result<Logbook> logbook = Logbook::open(opening);
        if (!logbook) {
            return isOneLine(logbook.error().text) ? 0 : 1;
        }
        Result<void> last = logbook->begin(inventedInstrument(), sessionNamed("uid-1"));
        while (last && (last = logbook->keep("uid-1", entryAt(kept)))) {
            ++kept;
        }
        if (!isOneLine(last.error().text) ||
            last.error().text.find("the disk is full") == std::string::npos) {
            return 2;
        }
    }
    // Looked at while the disk is still full ...
    {
        const Result<Logbook> full = Logbook::open({opening.file, false, {}});
        if (full && (!full->damages().empty() ||
                     full->contents()->readings.size() != static_cast<std::size_t>(kept))) {
            return 3;
        }
        if (!full && !isOneLine(full.error().text)) {
            return 4;
        }
    }
    // ... and gone on with when there is room.
    if (!mountDisk(disk, kilobytes + 4096, true)) {
        return kNotHere;
    }
    Result<Logbook> logbook = Logbook::open(opening);
    if (!logbook || !logbook->writable() ||
        !logbook->begin(inventedInstrument(), sessionNamed("uid-1")) ||
        !logbook->keep("uid-1", entryAt(kept))) {
        return 5;
    }
    const bool whole = logbook->inspect().empty() &&
                       logbook->contents()->readings.size() == static_cast<std::size_t>(kept) + 1;
    return whole ? 0 : 6;
}

} // namespace

TEST_CASE("a small disk is filled to the brim: it is said, nothing kept is lost, and it goes on",
          "[unit]") {
    const TemporaryFolder folder;
    Random random(17);
    for (int round = 0; round < 40; ++round) {
        const auto kilobytes = static_cast<std::size_t>(random.uniform(4.0, 900.0));
        const int outcome = inChild([&] { return fillDisk(folder.path(), kilobytes); });
        if (outcome == kNotHere) {
            SUCCEED("no disk can be mounted here: only the simulated one was filled");
            return;
        }
        INFO("round " << round << ", " << kilobytes << " KiB");
        CHECK(outcome == 0);
    }
}

TEST_CASE("two programs write to one logbook at once and neither loses a line", "[unit]") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "l.sqlite";
    fill(*std::make_unique<Logbook>(opened(file)), "uid-0", 1);
    constexpr int kEntries = 100;
    std::array<pid_t, 2> children{};
    for (std::size_t i = 0; i < children.size(); ++i) {
        const std::string uid = "uid-" + std::to_string(i + 1);
        children[i] = ::fork();
        if (children[i] == 0) {
            Result<Logbook> logbook = Logbook::open({file, true, {}});
            bool good = logbook && logbook->writable() &&
                        logbook->begin(inventedInstrument(), sessionNamed(uid));
            for (int place = 0; good && place < kEntries; ++place) {
                good = logbook->keep(uid, entryAt(place)).hasValue();
            }
            ::_exit(good ? 0 : 1);
        }
    }
    for (const pid_t child : children) {
        int status = 0;
        REQUIRE(::waitpid(child, &status, 0) == child);
        CHECK(WIFEXITED(status));
        CHECK(WEXITSTATUS(status) == 0);
    }
    const Logbook logbook = opened(file);
    CHECK(logbook.inspect().empty());
    const auto contents = logbook.contents();
    REQUIRE(contents);
    CHECK(contents->instruments.size() == 1);
    CHECK(contents->sessions.size() == 3);
    CHECK(contents->readings.size() == 2 * kEntries + 1);
}
