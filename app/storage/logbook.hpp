#pragma once

#include "app/storage/database.hpp"
#include "core/logbook/records.hpp"
#include "core/support/result.hpp"

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace quillbench {

struct LogbookOpening {
    std::filesystem::path file;
    bool toWrite = true; ///< false: only looked at; then the file must be there
    std::string vfs;     ///< of SQLite; empty: the system's
};

/// A string by its place, with the key that stands over it: entered when it is first spoken of.
struct StringName {
    std::string choir;
    int course = 0;
    std::string note;
};

/// An instrument as it is now. A description that differs from the newest is kept as a new one.
struct InstrumentState {
    std::string key;
    std::string name;
    std::string content; ///< JSON text of the instrument file
};

/// A reading and the string it is of; the logbook fills in what refers to other rows.
struct KeptReading {
    StringName string;
    ReadingRecord reading;
};

struct ReachedStep {
    StepRecord step;
    std::optional<StringName> string;
    std::optional<KeptReading> reading; ///< by which it settled
};

/// One event with all that it brought about: kept whole or not at all.
struct SessionEntry {
    EventRecord event; ///< with its place in the session
    std::vector<ReachedStep> steps;
};

/// A session as it must be replayed.
struct SavedSession {
    SessionRecord session;
    DescriptionRecord description;
    InstrumentRecord instrument;
    std::vector<EventRecord> events; ///< in order of their places
};

/// What an import brought.
struct MergeReport {
    std::size_t sessions = 0;
    std::size_t sessionsThere = 0; ///< of the sessions offered, those that were there already
    std::size_t rows = 0;          ///< of all tables
};

/// What repairing saved.
struct RepairReport {
    std::size_t rows = 0;
    std::size_t readings = 0;
    std::filesystem::path damaged; ///< where the damaged file was put
};

/// The logbook: instruments, sessions, readings, remarks, in one SQLite file. Only ever added to. Whatever was kept
/// when a call returned outlives the end of the program and a power cut. Several programs may use one file.
/// **Errors** (of every call) one line naming the file and how to mend it. **Thread** one at a time.
class Logbook {
public:
    /// Opens a logbook, makes one, or brings an older one to the newest schema, and looks at every row. A damaged one
    /// and one that cannot be written to is opened for reading only; trouble() says why.
    /// **Errors** UnreadableInput: no logbook, of a newer version, or too damaged to be opened; Environment.
    [[nodiscard]] static Result<Logbook> open(const LogbookOpening& opening);

    Logbook(Logbook&&) noexcept;
    Logbook& operator=(Logbook&&) noexcept;
    Logbook(const Logbook&) = delete;
    Logbook& operator=(const Logbook&) = delete;
    ~Logbook();

    [[nodiscard]] const std::filesystem::path& file() const;

    [[nodiscard]] bool writable() const;

    /// What is wrong with the file, a line each; empty: nothing.
    [[nodiscard]] const std::vector<std::string>& damages() const;

    /// Why it is read-only, or that last entries may be missing; one line; empty: all is well.
    [[nodiscard]] const std::string& trouble() const;

    /// Begins a session (uid, kind, method, inputs, engine and at given). Again with the same uid: nothing happens.
    [[nodiscard]] Result<void> begin(const InstrumentState& instrument,
                                     const SessionRecord& session);

    /// Keeps an event and what came of it. The same again: nothing happens.
    /// **Errors** also: another program has gone on with this session.
    [[nodiscard]] Result<void> keep(const std::string& uid, const SessionEntry& entry);

    /// Ends a session; again: nothing happens.
    [[nodiscard]] Result<void>
    end(const std::string& uid, const std::string& how, const Instant& at);

    /// What belongs to an instrument; of a record what refers to other rows is filled in. A session is named by its
    /// uid, or "".
    [[nodiscard]] Result<void> remark(const InstrumentState& instrument,
                                      const std::string& uid,
                                      const std::optional<StringName>& string,
                                      RemarkRecord remark);
    [[nodiscard]] Result<void>
    climate(const InstrumentState& instrument, const std::string& uid, ClimateRecord climate);
    [[nodiscard]] Result<void> stringChanged(const InstrumentState& instrument,
                                             const std::string& uid,
                                             const StringName& string,
                                             StringChangeRecord change);
    [[nodiscard]] Result<void> calibrated(const CalibrationRecord& calibration);

    /// Keeps an exercise that was done. The same again: nothing happens.
    [[nodiscard]] Result<void> practised(const PractiseRecord& practised);

    /// The newest session of a kind that was not ended; nothing where there is none.
    [[nodiscard]] Result<std::optional<SavedSession>> unfinished(const std::string& kind) const;

    /// Everything. Rows that are damaged are left out.
    [[nodiscard]] Result<LogbookContents> contents() const;

    /// Everything but the events, which are most of it.
    [[nodiscard]] Result<LogbookContents> contentsWithoutEvents() const;

    /// The events of one session in order of their places; damaged ones are left out.
    [[nodiscard]] Result<std::vector<EventRecord>> eventsOf(RowNumber session) const;

    /// Looks at every row anew.
    [[nodiscard]] std::vector<std::string> inspect() const;

    /// Adds what another logbook holds and this one does not: sessions are known by their uid, other rows by what they
    /// say. The file is changed whole or not at all. **Errors** also: contents that contradict themselves.
    [[nodiscard]] Result<MergeReport> merge(const LogbookContents& contents);

    /// Copies everything into a new file, while it is in use. **Errors** also: the file exists.
    [[nodiscard]] Result<void> backUp(const std::filesystem::path& to) const;

private:
    struct State;
    explicit Logbook(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

/// Puts what can be read of a damaged logbook into a new one in its place; the damaged file is kept beside it under
/// another name. A sound logbook is let alone. **Errors** as Logbook; also: nothing could be read.
[[nodiscard]] Result<RepairReport> repairLogbook(const std::filesystem::path& file,
                                                 const Instant& now);

/// Puts a backup in the place of a logbook; what was there is kept beside it under another name, which is returned;
/// empty where nothing was there. **Errors** as Logbook: a backup that is damaged, newer or none is refused.
[[nodiscard]] Result<std::filesystem::path> restoreLogbook(const std::filesystem::path& file,
                                                           const std::filesystem::path& backup,
                                                           const Instant& now);

/// The time now, with the offset of the place. **Thread** any.
[[nodiscard]] Instant instantNow();

/// 32 hexadecimal digits from the system's source of randomness.
[[nodiscard]] std::string newUid();

/// The platform's place for the logbook: $XDG_DATA_HOME, else ~/.local/share, then quillbench/logbook.sqlite.
/// **Errors** Environment: there is no home folder. **Source** XDG Base Directory Specification (value from memory).
[[nodiscard]] Result<std::filesystem::path> logbookPlace();

} // namespace quillbench
