#include "app/storage/logbook.hpp"

#include "app/storage/inspection.hpp"
#include "app/storage/migrations.hpp"
#include "app/storage/opening.hpp"
#include "app/storage/rows.hpp"

#include <algorithm>
#include <utility>

namespace quillbench {

struct Logbook::State {
    Database database;
    bool writable = true;
    std::vector<std::string> damages;
    std::string trouble;
};

namespace {

/// The number of the first row where `where` holds for `value`; 0 where there is none.
Result<RowNumber> numberOf(const Database& database,
                           const std::string& table,
                           const std::string& where,
                           const std::string& value) {
    Result<Statement> statement =
        database.prepare("SELECT seq FROM " + table + " WHERE " + where + " ORDER BY seq DESC");
    if (!statement) {
        return Unexpected<Error>(statement.error());
    }
    statement->bind(1, value);
    const Result<bool> row = statement->step();
    if (!row) {
        return Unexpected<Error>(row.error());
    }
    return *row ? statement->integer(0) : 0;
}

Result<RowNumber> sessionOf(const Database& database, const std::string& uid) {
    Result<RowNumber> session = numberOf(database, "session", "uid = ?", uid);
    if (session && *session == 0) {
        return failure(ErrorCode::BadArgument, "the logbook has no session " + uid);
    }
    return session;
}

/// Number of the newest description, entered if it is new.
Result<RowNumber> enter(Database& database, const InstrumentState& state, const Instant& at) {
    Result<RowNumber> instrument = numberOf(database, "instrument", "key = ?", state.key);
    if (instrument && *instrument == 0) {
        InstrumentRecord record;
        record.key = state.key;
        instrument = rows::add(database, record);
    }
    if (!instrument) {
        return instrument;
    }
    const auto newest = rows::select<DescriptionRecord>(
        database,
        "seq = (SELECT max(seq) FROM description WHERE instrument = ?)",
        std::to_string(*instrument));
    if (!newest) {
        return Unexpected<Error>(newest.error());
    }
    if (!newest->empty() && newest->front().content == state.content &&
        newest->front().name == state.name) {
        return newest->front().seq;
    }
    DescriptionRecord record;
    record.instrument = *instrument;
    record.name = state.name;
    record.content = state.content;
    record.at = at;
    return rows::add(database, record);
}

Result<RowNumber> enter(Database& database, RowNumber instrument, const StringName& name) {
    Result<Statement> statement = database.prepare(
        "SELECT seq FROM string WHERE instrument = ? AND choir = ? AND course = ?");
    if (!statement) {
        return Unexpected<Error>(statement.error());
    }
    statement->bind(1, instrument);
    statement->bind(2, name.choir);
    statement->bind(3, name.course);
    const Result<bool> row = statement->step();
    if (!row) {
        return Unexpected<Error>(row.error());
    }
    if (*row) {
        return statement->integer(0);
    }
    StringRecord record;
    record.instrument = instrument;
    record.choir = name.choir;
    record.course = name.course;
    record.note = name.note;
    return rows::add(database, record);
}

Result<RowNumber> instrumentOfDescription(const Database& database, RowNumber description) {
    return database.integer("SELECT instrument FROM description WHERE seq = " +
                            std::to_string(description));
}

Result<RowNumber> instrumentOfSession(const Database& database, RowNumber session) {
    return database.integer("SELECT instrument FROM description WHERE seq = (SELECT description "
                            "FROM session WHERE seq = " +
                            std::to_string(session) + ")");
}

/// The row of this number. **Errors** also: there is none that is sound.
template <typename Record>
Result<Record> only(const Database& database, RowNumber number) {
    const auto found = rows::select<Record>(database, "seq = ?", std::to_string(number));
    if (!found) {
        return Unexpected<Error>(found.error());
    }
    if (found->empty()) {
        return failure(ErrorCode::UnreadableInput,
                       database.path().string() + ": damaged (" + std::string(Record::kTable) +
                           " " + std::to_string(number) + " is missing)",
                       database.path().string());
    }
    return found->front();
}

/// A row being put together: the first failure stops the rest.
class Entering {
public:
    explicit Entering(Database& database) : database_(database) {}

    /// What was found: a number, or rows; 0 or none after a failure.
    template <typename Found>
    Found take(const Result<Found>& found) {
        if (!found) {
            error_ = error_ ? error_ : found.error();
            return {};
        }
        return *found;
    }

    template <typename Record>
    RowNumber add(const Record& record) {
        return error_ ? 0 : take(rows::add(database_, record));
    }

    RowNumber string(RowNumber instrument, const StringName& name) {
        return error_ ? 0 : take(enter(database_, instrument, name));
    }

    [[nodiscard]] Result<void> outcome() const {
        return error_ ? Result<void>(Unexpected<Error>(*error_)) : Result<void>();
    }

private:
    Database& database_;
    std::optional<Error> error_;
};

/// Runs `work` as one change.
template <typename Work>
Result<void> changed(Database& database, Work work) {
    Result<Transaction> transaction = Transaction::begin(database);
    if (!transaction) {
        return Unexpected<Error>(transaction.error());
    }
    Entering entering(database);
    work(entering);
    if (Result<void> outcome = entering.outcome(); !outcome) {
        return outcome;
    }
    return transaction->commit();
}

/// Within an entry: rows of one event.
void keepSteps(Entering& entering,
               RowNumber session,
               RowNumber event,
               RowNumber instrument,
               const std::vector<ReachedStep>& steps) {
    for (const ReachedStep& reached : steps) {
        StepRecord step = reached.step;
        step.session = session;
        step.event = event;
        if (reached.string) {
            step.string = entering.string(instrument, *reached.string);
        }
        if (reached.reading) {
            ReadingRecord reading = reached.reading->reading;
            reading.session = session;
            reading.event = event;
            reading.string = entering.string(instrument, reached.reading->string);
            step.reading = entering.add(reading);
        }
        entering.add(step);
    }
}

} // namespace

Logbook::Logbook(std::unique_ptr<State> state) : state_(std::move(state)) {
}

Logbook::Logbook(Logbook&&) noexcept = default;
Logbook& Logbook::operator=(Logbook&&) noexcept = default;
Logbook::~Logbook() = default;

Result<Logbook> Logbook::open(const LogbookOpening& opening) {
    Result<OpenedLogbook> opened = openLogbook(opening);
    if (!opened) {
        return Unexpected<Error>(opened.error());
    }
    return Logbook(std::make_unique<State>(State{std::move(opened->database),
                                                 opened->writable,
                                                 std::move(opened->damages),
                                                 std::move(opened->trouble)}));
}

const std::filesystem::path& Logbook::file() const {
    return state_->database.path();
}

bool Logbook::writable() const {
    return state_->writable;
}

const std::vector<std::string>& Logbook::damages() const {
    return state_->damages;
}

const std::string& Logbook::trouble() const {
    return state_->trouble;
}

Result<void> Logbook::begin(const InstrumentState& instrument, const SessionRecord& session) {
    Database& database = state_->database;
    return changed(database, [&](Entering& entering) {
        if (entering.take(numberOf(database, "session", "uid = ?", session.uid)) != 0) {
            return;
        }
        SessionRecord record = session;
        record.description = entering.take(enter(database, instrument, session.at));
        entering.add(record);
    });
}

Result<void> Logbook::keep(const std::string& uid, const SessionEntry& entry) {
    Database& database = state_->database;
    Result<RowNumber> session = sessionOf(database, uid);
    if (!session) {
        return Unexpected<Error>(session.error());
    }
    bool taken = false;
    Result<void> kept = changed(database, [&](Entering& entering) {
        const RowNumber there =
            entering.take(numberOf(database,
                                   "event",
                                   "session = ? AND place = " + std::to_string(entry.event.place),
                                   std::to_string(*session)));
        if (there != 0) {
            const auto same = rows::select<EventRecord>(database, "seq = ?", std::to_string(there));
            taken = !same || same->empty() || same->front().content != entry.event.content;
            return;
        }
        EventRecord event = entry.event;
        event.session = *session;
        const RowNumber number = entering.add(event);
        const RowNumber instrument = entering.take(instrumentOfSession(database, *session));
        keepSteps(entering, *session, number, instrument, entry.steps);
    });
    if (kept && taken) {
        return failure(ErrorCode::Environment,
                       file().string() +
                           ": another window has gone on with this session; close one of them",
                       file().string());
    }
    return kept;
}

Result<void> Logbook::end(const std::string& uid, const std::string& how, const Instant& at) {
    Database& database = state_->database;
    Result<RowNumber> session = sessionOf(database, uid);
    if (!session) {
        return Unexpected<Error>(session.error());
    }
    return changed(database, [&](Entering& entering) {
        SessionEndRecord record;
        record.session = *session;
        record.how = how;
        record.at = at;
        if (entering.take(
                numberOf(database, "session_end", "session = ?", std::to_string(*session))) == 0) {
            entering.add(record);
        }
    });
}

Result<void> Logbook::remark(const InstrumentState& instrument,
                             const std::string& uid,
                             const std::optional<StringName>& string,
                             RemarkRecord remark) {
    Database& database = state_->database;
    return changed(database, [&](Entering& entering) {
        const RowNumber description = entering.take(enter(database, instrument, remark.at));
        remark.instrument = entering.take(instrumentOfDescription(database, description));
        if (!uid.empty()) {
            remark.session = entering.take(sessionOf(database, uid));
        }
        if (string) {
            remark.string = entering.string(remark.instrument, *string);
        }
        entering.add(remark);
    });
}

Result<void>
Logbook::climate(const InstrumentState& instrument, const std::string& uid, ClimateRecord climate) {
    Database& database = state_->database;
    return changed(database, [&](Entering& entering) {
        const RowNumber description = entering.take(enter(database, instrument, climate.at));
        climate.instrument = entering.take(instrumentOfDescription(database, description));
        if (!uid.empty()) {
            climate.session = entering.take(sessionOf(database, uid));
        }
        entering.add(climate);
    });
}

Result<void> Logbook::stringChanged(const InstrumentState& instrument,
                                    const std::string& uid,
                                    const StringName& string,
                                    StringChangeRecord change) {
    Database& database = state_->database;
    return changed(database, [&](Entering& entering) {
        const RowNumber description = entering.take(enter(database, instrument, change.at));
        const RowNumber number = entering.take(instrumentOfDescription(database, description));
        if (!uid.empty()) {
            change.session = entering.take(sessionOf(database, uid));
        }
        change.string = entering.string(number, string);
        entering.add(change);
    });
}

Result<void> Logbook::calibrated(const CalibrationRecord& calibration) {
    return changed(state_->database, [&](Entering& entering) { entering.add(calibration); });
}

Result<void> Logbook::practised(const PractiseRecord& practised) {
    Database& database = state_->database;
    return changed(database, [&](Entering& entering) {
        const auto there = entering.take(rows::select<PractiseRecord>(
            database, "at_ms = ?", std::to_string(practised.at.milliseconds)));
        const bool same = std::any_of(there.begin(), there.end(), [&](PractiseRecord one) {
            one.seq = practised.seq;
            return rowSum(one) == rowSum(practised);
        });
        if (!same) {
            entering.add(practised);
        }
    });
}

Result<std::optional<SavedSession>> Logbook::unfinished(const std::string& kind) const {
    const Database& database = state_->database;
    const auto sessions = rows::select<SessionRecord>(
        database,
        "seq = (SELECT max(seq) FROM session WHERE kind = ? AND seq NOT IN "
        "(SELECT session FROM session_end))",
        kind);
    if (!sessions) {
        return Unexpected<Error>(sessions.error());
    }
    if (sessions->empty()) {
        return std::optional<SavedSession>();
    }
    const auto description = only<DescriptionRecord>(database, sessions->front().description);
    if (!description) {
        return Unexpected<Error>(description.error());
    }
    auto instrument = only<InstrumentRecord>(database, description->instrument);
    if (!instrument) {
        return Unexpected<Error>(instrument.error());
    }
    auto events = eventsOf(sessions->front().seq);
    if (!events) {
        return Unexpected<Error>(events.error());
    }
    return std::optional(
        SavedSession{sessions->front(), *description, *instrument, std::move(events).value()});
}

namespace {

Result<LogbookContents> read(const Database& database, bool withEvents) {
    LogbookContents contents;
    std::optional<Error> error;
    LogbookContents::tables(contents, [&](auto& table) {
        using Record = typename std::decay_t<decltype(table)>::value_type;
        if (error || (std::is_same_v<Record, EventRecord> && !withEvents)) {
            return;
        }
        auto found = rows::select<Record>(database);
        if (found) {
            table = std::move(found).value();
        } else {
            error = found.error();
        }
    });
    if (error) {
        return Unexpected<Error>(*error);
    }
    return contents;
}

} // namespace

Result<LogbookContents> Logbook::contents() const {
    return read(state_->database, true);
}

Result<LogbookContents> Logbook::contentsWithoutEvents() const {
    return read(state_->database, false);
}

Result<std::vector<EventRecord>> Logbook::eventsOf(RowNumber session) const {
    auto events =
        rows::select<EventRecord>(state_->database, "session = ?", std::to_string(session));
    if (events) {
        std::sort(events->begin(), events->end(), [](const EventRecord& a, const EventRecord& b) {
            return a.place < b.place;
        });
    }
    return events;
}

std::vector<std::string> Logbook::inspect() const {
    return quillbench::inspect(state_->database);
}

Result<MergeReport> Logbook::merge(const LogbookContents& contents) {
    return mergeInto(state_->database, contents);
}

Result<void> Logbook::backUp(const std::filesystem::path& to) const {
    return copyLogbook(state_->database, to);
}

} // namespace quillbench
