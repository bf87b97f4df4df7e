#include "app/storage/migrations.hpp"

#include <array>

namespace quillbench {

namespace {

/// What was tuned, and every reading.
constexpr const char* kStep1 = R"sql(
CREATE TABLE instrument(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  key TEXT NOT NULL UNIQUE,
  sum INTEGER NOT NULL) STRICT;
CREATE TABLE description(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  instrument INTEGER NOT NULL REFERENCES instrument,
  name TEXT NOT NULL,
  content TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
CREATE TABLE string(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  instrument INTEGER NOT NULL REFERENCES instrument,
  choir TEXT NOT NULL,
  course INTEGER NOT NULL,
  note TEXT NOT NULL,
  sum INTEGER NOT NULL,
  UNIQUE(instrument, choir, course)) STRICT;
CREATE TABLE session(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  uid TEXT NOT NULL UNIQUE,
  description INTEGER NOT NULL REFERENCES description,
  kind TEXT NOT NULL,
  method TEXT NOT NULL,
  inputs_schema INTEGER NOT NULL,
  inputs TEXT NOT NULL,
  engine TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
CREATE TABLE event(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  session INTEGER NOT NULL REFERENCES session,
  place INTEGER NOT NULL,
  schema INTEGER NOT NULL,
  content TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL,
  UNIQUE(session, place)) STRICT;
CREATE TABLE reading(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  session INTEGER NOT NULL REFERENCES session,
  event INTEGER NOT NULL REFERENCES event,
  string INTEGER NOT NULL REFERENCES string,
  note TEXT NOT NULL,
  position INTEGER NOT NULL,
  plucks INTEGER NOT NULL,
  used_s REAL NOT NULL,
  target_hz REAL NOT NULL,
  pitch_hz REAL NOT NULL,
  pitch_hz_u REAL NOT NULL,
  deviation_cents REAL NOT NULL,
  deviation_cents_u REAL NOT NULL,
  start_cents REAL NOT NULL,
  start_cents_u REAL NOT NULL,
  inharmonicity REAL NOT NULL,
  inharmonicity_u REAL NOT NULL,
  own_beat_hz REAL,
  warnings TEXT NOT NULL,
  source TEXT NOT NULL,
  rate_hz REAL NOT NULL,
  clock_ppm REAL NOT NULL,
  clock_ppm_u REAL NOT NULL,
  settings TEXT NOT NULL,
  engine TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
CREATE TABLE step(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  session INTEGER NOT NULL REFERENCES session,
  event INTEGER NOT NULL REFERENCES event,
  step INTEGER NOT NULL,
  string INTEGER REFERENCES string,
  reading INTEGER REFERENCES reading,
  state TEXT NOT NULL,
  reason TEXT NOT NULL,
  sum INTEGER NOT NULL) STRICT;
CREATE TABLE session_end(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  session INTEGER NOT NULL UNIQUE REFERENCES session,
  how TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
)sql";

/// What else a tuner writes down; readings found by session and by string.
constexpr const char* kStep2 = R"sql(
CREATE TABLE remark(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  instrument INTEGER NOT NULL REFERENCES instrument,
  session INTEGER REFERENCES session,
  string INTEGER REFERENCES string,
  text TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
CREATE TABLE climate(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  instrument INTEGER NOT NULL REFERENCES instrument,
  session INTEGER REFERENCES session,
  temperature_c REAL,
  humidity_percent REAL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
CREATE TABLE string_change(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  string INTEGER NOT NULL REFERENCES string,
  session INTEGER REFERENCES session,
  diameter_mm REAL,
  material TEXT,
  reason TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
CREATE TABLE calibration(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  device TEXT NOT NULL,
  ppm REAL NOT NULL,
  ppm_u REAL NOT NULL,
  how TEXT NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
CREATE INDEX reading_by_session ON reading(session);
CREATE INDEX reading_by_string ON reading(string);
CREATE INDEX step_by_session ON step(session);
)sql";

/// What was practised.
constexpr const char* kStep3 = R"sql(
CREATE TABLE practise(
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  kind TEXT NOT NULL,
  interval TEXT NOT NULL,
  note TEXT NOT NULL,
  source TEXT NOT NULL,
  level REAL NOT NULL,
  answer TEXT NOT NULL,
  left_beats REAL,
  left_cents REAL,
  path TEXT NOT NULL,
  beat_hz REAL NOT NULL,
  beat_hz_u REAL NOT NULL,
  at_ms INTEGER NOT NULL,
  at_offset_min INTEGER NOT NULL,
  sum INTEGER NOT NULL) STRICT;
)sql";

constexpr std::array kSteps{kStep1, kStep2, kStep3};

/// One step, unless another program has just taken it.
Result<void> climb(Database& database, std::int64_t from) {
    Result<Transaction> transaction = Transaction::begin(database);
    if (!transaction) {
        return Unexpected<Error>(transaction.error());
    }
    const Result<std::int64_t> now = database.integer("PRAGMA user_version");
    if (!now || *now != from) {
        return now ? Result<void>() : Unexpected<Error>(now.error());
    }
    const std::string sql = std::string(kSteps[static_cast<std::size_t>(from)]) +
                            "PRAGMA application_id = " + std::to_string(kLogbookMark) +
                            "; PRAGMA user_version = " + std::to_string(from + 1) + ";";
    if (Result<void> done = database.run(sql); !done) {
        return done;
    }
    return transaction->commit();
}

} // namespace

std::int64_t newestSchema() {
    return static_cast<std::int64_t>(kSteps.size());
}

Result<void> migrate(Database& database, std::int64_t wanted) {
    const Result<std::int64_t> from = database.integer("PRAGMA user_version");
    if (!from) {
        return Unexpected<Error>(from.error());
    }
    for (std::int64_t schema = *from; schema < wanted; ++schema) {
        if (Result<void> climbed = climb(database, schema); !climbed) {
            return climbed;
        }
    }
    return {};
}

Result<std::vector<std::string>> schemaOf(const Database& database) {
    Result<Statement> statement = database.prepare(
        "SELECT type || ' ' || name || ' ' || tbl_name || ' ' || coalesce(sql, '') "
        "FROM sqlite_schema WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER BY 1");
    if (!statement) {
        return Unexpected<Error>(statement.error());
    }
    std::vector<std::string> lines;
    while (true) {
        const Result<bool> more = statement->step();
        if (!more) {
            return Unexpected<Error>(more.error());
        }
        if (!*more) {
            return lines;
        }
        lines.push_back(statement->text(0));
    }
}

Result<std::int64_t> schemaByTables(const Database& database) {
    const Result<std::vector<std::string>> found = schemaOf(database);
    if (!found) {
        return Unexpected<Error>(found.error());
    }
    for (std::int64_t schema = newestSchema(); schema > 0; --schema) {
        Result<Database> fresh = Database::inMemory();
        const Result<void> made =
            fresh ? migrate(*fresh, schema) : Result<void>(Unexpected<Error>(fresh.error()));
        if (!made) {
            return Unexpected<Error>(made.error());
        }
        const Result<std::vector<std::string>> right = schemaOf(*fresh);
        if (right && *right == *found) {
            return schema;
        }
    }
    return 0;
}

} // namespace quillbench
