#pragma once

#include "core/drift/drift_history.hpp"
#include "core/instrument/instrument.hpp"
#include "core/logbook/records.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace quillbench {

/// SessionRecord::kind of a recheck: strings were only listened to. Its readings have as target what each string is
/// compared with, so that their deviation is how far it moved.
inline constexpr const char* kRecheckKind = "recheck";

/// What a session was begun with, as far as it can be read; what is missing is empty, 0 or false.
struct SessionInputs {
    std::string choir; ///< id; empty where several are tuned
    std::string temperament;
    double a4Hz = 0;
    bool virtualInstrument = false;
    int position = 0; ///< of the keyboard
};

/// Never fails: a text of an unknown kind gives nothing.
[[nodiscard]] SessionInputs sessionInputs(const std::string& inputs);

/// The inputs of a recheck as JSON text.
[[nodiscard]] std::string formatRecheckInputs(const SessionInputs& inputs);

/// What the reading of a recheck was compared with.
struct ComparedWith {
    Instant settledAt; ///< when the string had settled
    Cents uncertainty; ///< of that reading
    int plucks = 1;    ///< of the recheck, so far
};

/// ReadingRecord::settings of a recheck as JSON text; nothing: compared with what the temperament wants.
[[nodiscard]] std::string formatCompared(const std::optional<ComparedWith>& with);
[[nodiscard]] std::optional<ComparedWith> parseCompared(const std::string& settings);

/// A string that was set by ear against another one and accepted, its number covered until then.
struct LeftByEar {
    std::string interval; ///< id of the interval; "four-foot": a 4′ string against the 8′
    std::int64_t session = 0;
    Cents left; ///< from what was wanted of the interval, + = wide
    Cents uncertainty;
};

/// What ReadingRecord::settings keep of it beside the tolerance, as JSON text. **Range** of `left`: session and
/// uncertainty are kept elsewhere.
[[nodiscard]] std::string formatLeftByEar(Cents tolerance, const LeftByEar& left);

/// Whether a reading tells of a string that was set by ear.
[[nodiscard]] bool keptByEar(const ReadingRecord& reading);

/// All of a logbook, session by session.
[[nodiscard]] std::vector<LeftByEar> leftByEar(const LogbookContents& contents);

/// The strings of an instrument by the numbers of their rows; those that it no longer has are left out.
[[nodiscard]] std::map<RowNumber, StringId> loggedStrings(const LogbookContents& contents,
                                                          const Instrument& instrument);

/// Where a string was left.
struct SettledString {
    Hertz pitch;
    Cents uncertainty;
    Instant at;
};

/// One recheck of the past.
struct PastLook {
    std::string uid; ///< of its session
    Instant at;      ///< when it began
    DriftLook look;
};

/// What most of the settled strings were left in.
struct LeftIn {
    std::string temperament; ///< id of the catalogue or path of a file
    double a4Hz = 0;         ///< > 0
    int position = 0;        ///< of the keyboard, at which it holds

    bool operator==(const LeftIn&) const = default;
};

/// What a logbook knows of the strings of one instrument.
struct StringHistory {
    std::map<StringId, SettledString> settled; ///< not those worked at or replaced since
    std::vector<PastLook> looks;               ///< the rechecks, oldest first
    std::optional<LeftIn> leftIn;              ///< of equally many strings the newer
};

/// How long each string took whoever tuned them: from one that settled to the next, where the two follow within minutes.
[[nodiscard]] std::vector<Seconds> timesPerString(const std::map<StringId, SettledString>& settled);

/// Where each string stood when it was last settled or, after that, last heard in a recheck.
[[nodiscard]] std::map<StringId, Hertz> lastPitches(const StringHistory& history);

/// Of the real strings, or of those of the virtual instrument. Events are not needed. Strings that the instrument no
/// longer has are left out.
[[nodiscard]] StringHistory
historyOf(const LogbookContents& contents, const Instrument& instrument, bool virtualInstrument);

/// How far each string stood from its target when it was first heard in a session. **Range** its events in order.
[[nodiscard]] std::map<StringId, Cents> firstHeard(const std::vector<EventRecord>& events);

} // namespace quillbench
