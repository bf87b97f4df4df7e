#pragma once

#include "core/logbook/instant.hpp"
#include "core/support/result.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quillbench {

/// Place of a row in its table of the logbook, from 1 upwards in the order in which rows were kept; order goes by it,
/// never by a clock. 0: not kept yet, or refers to nothing.
using RowNumber = std::int64_t;

// What the logbook keeps. Rows are only ever added: what is withdrawn is said by a later row. Every record names its
// table and visits its fields in the order of its columns; storage, export, import and checksums all go by that.
// A field named like a table holds the RowNumber of a row of it. Ranges: texts are UTF-8 without NUL and at most
// kLongestText bytes, numbers are finite.

inline constexpr std::size_t kLongestText = std::size_t{1} << 20U;

/// An instrument, known by its key.
struct InstrumentRecord {
    static constexpr std::string_view kTable = "instrument";
    RowNumber seq = 0;
    std::string key; ///< id of the instrument's file; unlike any other here

    template <typename Self, typename Visit>
    static void fields(Self& self, Visit&& visit) {
        visit("seq", self.seq);
        visit("key", self.key);
    }
};

/// What an instrument was like from some day on: its whole file. The newest holds.
struct DescriptionRecord {
    static constexpr std::string_view kTable = "description";
    RowNumber seq = 0;
    RowNumber instrument = 0;
    std::string name;
    std::string content; ///< JSON text of the instrument file, with its schema number
    Instant at;

    template <typename Self, typename Visit>
    static void fields(Self& self, Visit&& visit) {
        visit("seq", self.seq);
        visit("instrument", self.instrument);
        visit("name", self.name);
        visit("content", self.content);
        visit("at", self.at);
    }
};

/// A string by its place in the instrument: keys may move over it.
struct StringRecord {
    static constexpr std::string_view kTable = "string";
    RowNumber seq = 0;
    RowNumber instrument = 0;
    std::string choir; ///< "8", "8b", "4", "16"
    int course = 0;    ///< from 0, the lowest string of the choir
    std::string note;  ///< of the key that stood over it when it was first entered: "A3"

    template <typename Self, typename Visit>
    static void fields(Self& self, Visit&& visit) {
        visit("seq", self.seq);
        visit("instrument", self.instrument);
        visit("choir", self.choir);
        visit("course", self.course);
        visit("note", self.note);
    }
};

/// A sitting at an instrument.
struct SessionRecord {
    static constexpr std::string_view kTable = "session";
    RowNumber seq = 0;
    std::string uid; ///< 32 hexadecimal digits, unlike those of any other logbook
    RowNumber description = 0;
    std::string kind;   ///< which planner: "first-octave", …; "recheck": nothing was tuned
    std::string method; ///< "meter" or "ear"
    int inputsSchema = 1;
    std::string inputs; ///< JSON text of all that the plan was made from
    std::string engine; ///< version of the program
    Instant at;

    template <typename Self, typename Visit>
    static void fields(Self& self, Visit&& visit) {
        visit("seq", self.seq);
        visit("uid", self.uid);
        visit("description", self.description);
        visit("kind", self.kind);
        visit("method", self.method);
        visit("inputs_schema", self.inputsSchema);
        visit("inputs", self.inputs);
        visit("engine", self.engine);
        visit("at", self.at);
    }
};

/// One event of a session. The planner applied to all of them in order gives the session's state.
struct EventRecord {
    static constexpr std::string_view kTable = "event";
    RowNumber seq = 0;
    RowNumber session = 0;
    int place = 0; ///< within the session, from 0
    int schema = 1;
    std::string content; ///< JSON text
    Instant at;

    template <typename Self, typename Visit>
    static void fields(Self& self, Visit&& visit) {
        visit("seq", self.seq);
        visit("session", self.session);
        visit("place", self.place);
        visit("schema", self.schema);
        visit("content", self.content);
        visit("at", self.at);
    }
};

/// A kept reading of one string. Uncertainties are one standard deviation in the unit of their quantity.
struct ReadingRecord {
    static constexpr std::string_view kTable = "reading";
    RowNumber seq = 0;
    RowNumber session = 0;
    RowNumber event = 0; ///< the event by which it was kept
    RowNumber string = 0;
    std::string note; ///< the key by which it was played
    int position = 0; ///< of the keyboard, in semitones
    int plucks = 1;   ///< how many it rests on
    double usedS = 0; ///< how much after the last pluck was heard
    double targetHz = 0;
    double pitchHz = 0;  ///< sustain pitch
    double pitchHzU = 0; ///< the clock's included
    double deviationCents = 0;
    double deviationCentsU = 0;
    double startCents = 0;
    double startCentsU = 0;
    double inharmonicity = 0;
    double inharmonicityU = 0;
    std::optional<double> ownBeatHz; ///< a false beat
    std::string warnings;            ///< separated by ", ", as the command line prints them
    std::string source;              ///< device or file
    double rateHz = 0;               ///< nominal sample rate
    double clockPpm = 0; ///< how far the device's clock runs from true, as it was reckoned
    double clockPpmU = 0;
    std::string settings; ///< JSON text: what else the reading depends on
    std::string engine;   ///< version of the program
    Instant at;

    template <typename Self, typename Visit>
    static void fields(Self& self, Visit&& visit) {
        visit("seq", self.seq);
        visit("session", self.session);
        visit("event", self.event);
        visit("string", self.string);
        visit("note", self.note);
        visit("position", self.position);
        visit("plucks", self.plucks);
        visit("used_s", self.usedS);
        visit("target_hz", self.targetHz);
        visit("pitch_hz", self.pitchHz);
        visit("pitch_hz_u", self.pitchHzU);
        visit("deviation_cents", self.deviationCents);
        visit("deviation_cents_u", self.deviationCentsU);
        visit("start_cents", self.startCents);
        visit("start_cents_u", self.startCentsU);
        visit("inharmonicity", self.inharmonicity);
        visit("inharmonicity_u", self.inharmonicityU);
        visit("own_beat_hz", self.ownBeatHz);
        visit("warnings", self.warnings);
        visit("source", self.source);
        visit("rate_hz", self.rateHz);
        visit("clock_ppm", self.clockPpm);
        visit("clock_ppm_u", self.clockPpmU);
        visit("settings", self.settings);
        visit("engine", self.engine);
        visit("at", self.at);
    }
};

/// A step of the plan got another state; the newest row of a step holds.
struct StepRecord {
    static constexpr std::string_view kTable = "step";
    RowNumber seq = 0;
    RowNumber session = 0;
    RowNumber event = 0;
    int step = 0;                     ///< index in the plan
    std::optional<RowNumber> string;  ///< the string it tunes, where it is one
    std::optional<RowNumber> reading; ///< settled, kept: by which reading
    std::string
        state; ///< "settled", "kept", "skipped", "working", "untouched"; of a recheck "heard"
    std::string reason; ///< of skipping or of being open again; may be empty

    template <typename Self, typename Visit>
    static void fields(Self& self, Visit&& visit) {
        visit("seq", self.seq);
        visit("session", self.session);
        visit("event", self.event);
        visit("step", self.step);
        visit("string", self.string);
        visit("reading", self.reading);
        visit("state", self.state);
        visit("reason", self.reason);
    }
};

/// A session that will not be gone on with.
struct SessionEndRecord {
    static constexpr std::string_view kTable = "session_end";
    RowNumber seq = 0;
    RowNumber session = 0;
    std::string how; ///< "done", "left"
    Instant at;

    template <typename Self, typename Visit>
    static void fields(Self& self, Visit&& visit) {
        visit("seq", self.seq);
        visit("session", self.session);
        visit("how", self.how);
        visit("at", self.at);
    }
};

/// What somebody wanted remembered: of a string ("false beat", "pin loose"), or of the instrument.
struct RemarkRecord {
    static constexpr std::string_view kTable = "remark";
    RowNumber seq = 0;
    RowNumber instrument = 0;
    std::optional<RowNumber> session;
    std::optional<RowNumber> string;
    std::string text;
    Instant at;

    template <typename Self, typename Visit>
    static void fields(Self& self, Visit&& visit) {
        visit("seq", self.seq);
        visit("instrument", self.instrument);
        visit("session", self.session);
        visit("string", self.string);
        visit("text", self.text);
        visit("at", self.at);
    }
};

/// The air around an instrument; at least one of the two is there.
struct ClimateRecord {
    static constexpr std::string_view kTable = "climate";
    RowNumber seq = 0;
    RowNumber instrument = 0;
    std::optional<RowNumber> session;
    std::optional<double> temperatureC;    ///< −30 to 60 °C
    std::optional<double> humidityPercent; ///< 0 to 100 %, relative
    Instant at;

    template <typename Self, typename Visit>
    static void fields(Self& self, Visit&& visit) {
        visit("seq", self.seq);
        visit("instrument", self.instrument);
        visit("session", self.session);
        visit("temperature_c", self.temperatureC);
        visit("humidity_percent", self.humidityPercent);
        visit("at", self.at);
    }
};

/// A string was replaced.
struct StringChangeRecord {
    static constexpr std::string_view kTable = "string_change";
    RowNumber seq = 0;
    RowNumber string = 0;
    std::optional<RowNumber> session;
    std::optional<double> diameterMm;    ///< of the new wire, > 0
    std::optional<std::string> material; ///< of the new wire
    std::string reason;                  ///< "broken", "false", …; may be empty
    Instant at;

    template <typename Self, typename Visit>
    static void fields(Self& self, Visit&& visit) {
        visit("seq", self.seq);
        visit("string", self.string);
        visit("session", self.session);
        visit("diameter_mm", self.diameterMm);
        visit("material", self.material);
        visit("reason", self.reason);
        visit("at", self.at);
    }
};

/// How far the clock of a device was found or said to run from true.
struct CalibrationRecord {
    static constexpr std::string_view kTable = "calibration";
    RowNumber seq = 0;
    std::string device;
    double ppm = 0;
    double ppmU = 0;
    std::string how; ///< "entered by hand", …
    Instant at;

    template <typename Self, typename Visit>
    static void fields(Self& self, Visit&& visit) {
        visit("seq", self.seq);
        visit("device", self.device);
        visit("ppm", self.ppm);
        visit("ppm_u", self.ppmU);
        visit("how", self.how);
        visit("at", self.at);
    }
};

/// One exercise that was done at Practise and counts. It belongs to no instrument of the logbook.
struct PractiseRecord {
    static constexpr std::string_view kTable = "practise";
    RowNumber seq = 0;
    std::string kind;     ///< "count", "which-way", "bring-together", "leave-a-little", …
    std::string interval; ///< "unison", "four-foot", "octave", "fifth", …
    std::string note;     ///< key of the lower string: "A3"
    std::string
        source; ///< "virtual", "bearings" (a step of a whole plan), "own" (the learner's instrument)
    double level = 0;   ///< how hard, as the kind counts it
    std::string answer; ///< "right", "wrong"; of a pin "set"
    std::optional<double>
        leftBeats; ///< set: left over against what was wanted, per second, + = wide
    std::optional<double> leftCents; ///< likewise in cents
    std::string path;                ///< set: "from-above", "settled", both with a blank, or empty
    double beatHz = 0;               ///< what it was judged by, + = wide
    double beatHzU = 0;
    Instant at;

    template <typename Self, typename Visit>
    static void fields(Self& self, Visit&& visit) {
        visit("seq", self.seq);
        visit("kind", self.kind);
        visit("interval", self.interval);
        visit("note", self.note);
        visit("source", self.source);
        visit("level", self.level);
        visit("answer", self.answer);
        visit("left_beats", self.leftBeats);
        visit("left_cents", self.leftCents);
        visit("path", self.path);
        visit("beat_hz", self.beatHz);
        visit("beat_hz_u", self.beatHzU);
        visit("at", self.at);
    }
};

/// Every row of a logbook, each table in the order of its numbers.
struct LogbookContents {
    std::vector<InstrumentRecord> instruments;
    std::vector<DescriptionRecord> descriptions;
    std::vector<StringRecord> strings;
    std::vector<SessionRecord> sessions;
    std::vector<EventRecord> events;
    std::vector<ReadingRecord> readings;
    std::vector<StepRecord> steps;
    std::vector<SessionEndRecord> sessionEnds;
    std::vector<RemarkRecord> remarks;
    std::vector<ClimateRecord> climates;
    std::vector<StringChangeRecord> stringChanges;
    std::vector<CalibrationRecord> calibrations;
    std::vector<PractiseRecord> practised;

    /// Visits the tables; each after those it refers to.
    template <typename Self, typename Visit>
    static void tables(Self& self, Visit&& visit) {
        visit(self.instruments);
        visit(self.descriptions);
        visit(self.strings);
        visit(self.sessions);
        visit(self.events);
        visit(self.readings);
        visit(self.steps);
        visit(self.sessionEnds);
        visit(self.remarks);
        visit(self.climates);
        visit(self.stringChanges);
        visit(self.calibrations);
        visit(self.practised);
    }
};

/// Whether one value may be kept: a text is UTF-8 without NUL and not too long, a number finite, an instant within
/// its span. The complaint says what is wrong and how to mend it; empty: nothing.
[[nodiscard]] std::string complaintAbout(const std::string& text);
[[nodiscard]] std::string complaintAbout(double number);
[[nodiscard]] std::string complaintAbout(std::int64_t number);
[[nodiscard]] std::string complaintAbout(int number);
[[nodiscard]] std::string complaintAbout(const Instant& instant);

template <typename T>
[[nodiscard]] std::string complaintAbout(const std::optional<T>& value) {
    return value ? complaintAbout(*value) : std::string();
}

/// Whether a record may be kept. **Errors** BadArgument naming table and field.
template <typename Record>
[[nodiscard]] Result<void> checked(const Record& record) {
    std::string wrong;
    Record::fields(record, [&](const char* name, const auto& value) {
        if (const std::string complaint = complaintAbout(value);
            wrong.empty() && !complaint.empty()) {
            wrong = std::string(Record::kTable) + "." + name + " " + complaint;
        }
    });
    if (!wrong.empty()) {
        return failure(ErrorCode::BadArgument, wrong);
    }
    return {};
}

} // namespace quillbench
