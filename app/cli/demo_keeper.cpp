#include "app/cli/demo_keeper.hpp"

#include "app/formats/instrument_file.hpp"
#include "app/formats/session_events.hpp"
#include "app/storage/logbook.hpp"
#include "app/version.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdint>
#include <string>
#include <system_error>
#include <utility>

namespace quillbench::cli {

namespace {

constexpr const char* kDemoKind = "demo";
constexpr const char* kDemoUid = "00000000000000000000000000000001";

bool writeAll(int to, const void* data, std::size_t size) {
    const auto* bytes = static_cast<const char*>(data);
    while (size > 0) {
        const ssize_t done = ::write(to, bytes, size);
        if (done <= 0) {
            return false;
        }
        bytes += done;
        size -= static_cast<std::size_t>(done);
    }
    return true;
}

bool readAll(int from, void* data, std::size_t size) {
    auto* bytes = static_cast<char*>(data);
    while (size > 0) {
        const ssize_t done = ::read(from, bytes, size);
        if (done <= 0) {
            return false;
        }
        bytes += done;
        size -= static_cast<std::size_t>(done);
    }
    return true;
}

bool beginDemo(Logbook& logbook, const Instrument& instrument) {
    SessionRecord session;
    session.uid = kDemoUid;
    session.kind = kDemoKind;
    session.method = "meter";
    session.inputs = "{}";
    session.engine = kVersion;
    session.at = instantNow();
    return static_cast<bool>(logbook.begin(
        {instrument.id, instrument.name, formatInstrument({instrument, ""})}, session));
}

/// The life of the child: an event in, its place out once it is kept. Ends with the pipe.
int writeEvents(const std::filesystem::path& file, const Instrument& instrument, int in, int out) {
    Result<Logbook> logbook = Logbook::open({file, true, {}});
    if (!logbook || !logbook->writable() || !beginDemo(*logbook, instrument)) {
        return 1;
    }
    std::int32_t place = 0;
    if (!writeAll(out, &place, sizeof place)) {
        return 1;
    }
    for (std::uint32_t size = 0; readAll(in, &size, sizeof size); ++place) {
        std::string content(size, '\0');
        SessionEntry entry;
        if (!readAll(in, content.data(), size)) {
            return 1;
        }
        entry.event.place = place;
        entry.event.schema = kSessionEventSchema;
        entry.event.content = std::move(content);
        entry.event.at = instantNow();
        if (!logbook->keep(kDemoUid, entry) || !writeAll(out, &place, sizeof place)) {
            return 1;
        }
    }
    return 0;
}

} // namespace

DemoKeeper::DemoKeeper(std::filesystem::path file, pid_t child, int toChild, int fromChild)
    : file_(std::move(file)),
      child_(child),
      toChild_(toChild),
      fromChild_(fromChild) {
}

DemoKeeper::~DemoKeeper() {
    kill();
    ::close(toChild_);
    ::close(fromChild_);
    std::error_code ignored;
    for (const char* ending : {"", "-wal", "-shm"}) {
        std::filesystem::remove(file_.string() + ending, ignored);
    }
}

Result<std::unique_ptr<DemoKeeper>> DemoKeeper::start(const Instrument& instrument) {
    std::error_code failed;
    const std::filesystem::path folder = std::filesystem::temp_directory_path(failed);
    const std::filesystem::path file =
        folder / ("quillbench-demo-" + std::to_string(::getpid()) + ".logbook");
    std::array<int, 2> to{};
    std::array<int, 2> from{};
    if (failed || ::pipe(to.data()) != 0 || ::pipe(from.data()) != 0) {
        return failure(ErrorCode::Environment,
                       "no folder for temporary files; set TMPDIR to one that can be written");
    }
    const pid_t child = ::fork();
    if (child == 0) {
        ::close(to[1]);
        ::close(from[0]);
        ::_exit(writeEvents(file, instrument, to[0], from[1]));
    }
    ::close(to[0]);
    ::close(from[1]);
    std::signal(SIGPIPE, SIG_IGN);
    std::unique_ptr<DemoKeeper> keeper(new DemoKeeper(file, child, to[1], from[0]));
    std::int32_t begun = 0;
    if (child < 0 || !readAll(keeper->fromChild_, &begun, sizeof begun)) {
        return failure(ErrorCode::Environment,
                       "no logbook can be written in " + folder.string() +
                           "; set TMPDIR to a folder that can be");
    }
    return keeper;
}

void DemoKeeper::keep(const SessionEvent& event) {
    if (child_ <= 0) {
        return;
    }
    const std::string content = formatSessionEvent(event);
    const auto size = static_cast<std::uint32_t>(content.size());
    std::int32_t place = 0;
    if (writeAll(toChild_, &size, sizeof size) && writeAll(toChild_, content.data(), size) &&
        readAll(fromChild_, &place, sizeof place)) {
        kept_ = place + 1;
    } else if (trouble_.empty()) {
        trouble_ = "an event could not be kept in " + file_.string();
    }
}

void DemoKeeper::kill() {
    if (child_ > 0) {
        ::kill(child_, SIGKILL);
        ::waitpid(child_, nullptr, 0);
        child_ = -1;
    }
}

std::vector<SessionEvent> DemoKeeper::killAndRead() {
    kill();
    std::vector<SessionEvent> events;
    const Result<Logbook> logbook = Logbook::open({file_, true, {}});
    const auto saved =
        logbook ? logbook->unfinished(kDemoKind)
                : Result<std::optional<SavedSession>>(Unexpected<Error>(logbook.error()));
    if (!saved || !*saved) {
        trouble_ = saved ? "the logbook holds no session" : saved.error().text;
        return events;
    }
    for (const EventRecord& record : (*saved)->events) {
        const auto event = parseSessionEvent(record.schema, record.content);
        if (!event) {
            trouble_ = event.error().text;
            return events;
        }
        events.push_back(*event);
    }
    return events;
}

} // namespace quillbench::cli
