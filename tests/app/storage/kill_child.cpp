// Goes on with the session of a logbook and says the place of every entry on standard output once it is kept.
// usage: storage_kill_child LOGBOOK; ended by a signal.

#include "tests/app/storage/sample_entries.hpp"

#include <unistd.h>

#include <cstdio>

int main(int argc, char** argv) {
    using namespace quillbench;
    if (argc != 2) {
        return 2;
    }
    Result<Logbook> logbook = Logbook::open({argv[1], true, {}});
    if (!logbook || !logbook->writable() ||
        !logbook->begin(test::inventedInstrument(), test::sessionNamed("uid-1"))) {
        std::fprintf(
            stderr, "%s\n", logbook ? logbook->trouble().c_str() : logbook.error().text.c_str());
        return 1;
    }
    const auto saved = logbook->unfinished("first-octave");
    if (!saved || !*saved) {
        return 1;
    }
    for (int place = static_cast<int>((*saved)->events.size());; ++place) {
        const Result<void> kept = logbook->keep("uid-1", test::entryAt(place));
        if (!kept) {
            std::fprintf(stderr, "%s\n", kept.error().text.c_str());
            return 1;
        }
        if (::write(STDOUT_FILENO, &place, sizeof place) != sizeof place) {
            return 1;
        }
    }
}
