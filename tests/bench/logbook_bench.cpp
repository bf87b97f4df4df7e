// What it costs to open and to read a large logbook. logbook_bench FILE SESSIONS: makes FILE through the storage library
// where it is missing (every third session a recheck; invented), then prints milliseconds, the median of five.
#include "app/formats/instrument_file.hpp"
#include "app/formats/logbook_history.hpp"
#include "app/storage/logbook.hpp"
#include "core/drift/drift_history.hpp"
#include "core/instrument/examples.hpp"
#include "core/logbook/summary.hpp"
#include "core/support/random.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>

using namespace quillbench;

namespace {

constexpr std::int64_t kFirstDay = 1700000000000; // ms
constexpr std::int64_t kDay = 86400000;

/// A logbook being invented row by row.
class Invention {
public:
    explicit Invention(const Instrument& instrument) : instrument_(instrument) {
        contents_.instruments.push_back({1, instrument.id});
        contents_.descriptions.push_back(
            {1, 1, instrument.name, formatInstrument({instrument, ""}), {kFirstDay, 0}});
        for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
            for (std::size_t course = 0; course < instrument.choirs[choir].strings.size();
                 ++course) {
                const StringId string{choir, course};
                contents_.strings.push_back({static_cast<RowNumber>(contents_.strings.size() + 1),
                                             1,
                                             instrument.choirs[choir].id,
                                             static_cast<int>(course),
                                             toAscii(keyNote(instrument, string))});
                strings_.push_back(string);
            }
        }
    }

    void addSession(int number) {
        const bool recheck = number % 3 == 2;
        const std::int64_t at = kFirstDay + number * 7 * kDay;
        SessionRecord session;
        session.seq = number + 1;
        session.uid = std::to_string(1000000 + number) + std::string(25, '0');
        session.description = 1;
        session.kind = recheck ? kRecheckKind : "whole";
        session.method = "meter";
        session.inputs = formatRecheckInputs({"", "vallotti", 415.0, false});
        session.engine = "invented";
        session.at = {at, 60};
        contents_.sessions.push_back(session);
        for (std::size_t i = 0; i < strings_.size(); ++i) {
            addReading(session, i, at + static_cast<std::int64_t>(i) * 1000, recheck);
        }
        contents_.sessionEnds.push_back({static_cast<RowNumber>(contents_.sessionEnds.size() + 1),
                                         session.seq,
                                         "done",
                                         {at + 3600000, 60}});
        settledAt_ = recheck ? settledAt_ : at;
    }

    [[nodiscard]] const LogbookContents& contents() const { return contents_; }

private:
    void addReading(const SessionRecord& session, std::size_t i, std::int64_t at, bool recheck) {
        const RowNumber seq = static_cast<RowNumber>(contents_.readings.size() + 1);
        contents_.events.push_back(
            {seq, session.seq, static_cast<int>(i), 1, R"({"kind":"accept"})", {at, 60}});
        ReadingRecord reading;
        reading.seq = seq;
        reading.session = session.seq;
        reading.event = seq;
        reading.string = static_cast<RowNumber>(i + 1);
        reading.note = contents_.strings[i].note;
        reading.plucks = recheck ? 1 : 3;
        reading.usedS = recheck ? 0.9 : 2.4;
        reading.targetHz = nominalPitch(instrument_, strings_[i]).value();
        const double slips = i % 37 == 5 ? -3.0 : 0.0;
        reading.deviationCents = recheck ? -0.7 - 0.4 * static_cast<double>(strings_[i].choir) +
                                               slips + 0.25 * random_.normal()
                                         : 0.2 * random_.normal();
        reading.deviationCentsU = 0.15;
        reading.pitchHz = transpose(Hertz(reading.targetHz), Cents(reading.deviationCents)).value();
        reading.source = "USB microphone (invented)";
        reading.rateHz = 48000.0;
        reading.clockPpmU = 50.0;
        reading.settings = recheck ? formatCompared(ComparedWith{{settledAt_, 60}, Cents(0.1), 1})
                                   : R"({"tolerance_cents":1})";
        reading.engine = "invented";
        reading.at = {at, 60};
        contents_.readings.push_back(reading);
        contents_.steps.push_back({seq,
                                   session.seq,
                                   seq,
                                   static_cast<int>(i),
                                   reading.string,
                                   seq,
                                   recheck ? "heard" : "settled",
                                   ""});
    }

    const Instrument& instrument_;
    std::vector<StringId> strings_;
    LogbookContents contents_;
    Random random_{7};
    std::int64_t settledAt_ = kFirstDay;
};

template <typename Work>
double medianMilliseconds(Work work) {
    std::array<double, 5> times{};
    for (double& time : times) {
        const auto before = std::chrono::steady_clock::now();
        work();
        time = std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - before)
                   .count();
    }
    std::sort(times.begin(), times.end());
    return times[2];
}

int complain(const Error& error) {
    std::fprintf(stderr, "logbook_bench: %s\n", error.text.c_str());
    return 1;
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 3) {
        std::fprintf(stderr, "usage: logbook_bench FILE SESSIONS\n");
        return 2;
    }
    const std::filesystem::path file = argv[1];
    const Instrument& instrument = *findExample("double-8-8-4");
    if (!std::filesystem::exists(file)) {
        Invention invention(instrument);
        for (int number = 0; number < std::atoi(argv[2]); ++number) { // NOLINT(cert-err34-c)
            invention.addSession(number);
        }
        Result<Logbook> logbook = Logbook::open({file, true, {}});
        if (!logbook) {
            return complain(logbook.error());
        }
        if (const auto merged = logbook->merge(invention.contents()); !merged) {
            return complain(merged.error());
        }
    }
    const auto print = [](const char* what, double milliseconds) {
        std::printf("%-34s %8.1f ms\n", what, milliseconds);
    };
    print("open and look at every row", medianMilliseconds([&] {
              static_cast<void>(Logbook::open({file, false, {}}));
          }));
    const Result<Logbook> logbook = Logbook::open({file, false, {}});
    if (!logbook) {
        return complain(logbook.error());
    }
    LogbookContents contents;
    print("read all but the events",
          medianMilliseconds([&] { contents = logbook->contentsWithoutEvents().value(); }));
    print("summarise the sessions",
          medianMilliseconds([&] { static_cast<void>(summarise(contents)); }));
    StringHistory history;
    print("history of the strings",
          medianMilliseconds([&] { history = historyOf(contents, instrument, false); }));
    std::vector<DriftLook> looks;
    for (const PastLook& past : history.looks) {
        looks.push_back(past.look);
    }
    print("what the strings tend to do", medianMilliseconds([&] {
              static_cast<void>(tendenciesOf(instrument, looks, Cents(2.0)));
          }));
    std::printf("%zu sessions, %zu readings\n", contents.sessions.size(), contents.readings.size());
    return 0;
}
