#include "app/storage/database.hpp"

#include "core/support/excerpt.hpp"

#include <sqlite3.h>

#include <array>
#include <limits>
#include <utility>

namespace quillbench {

namespace {

constexpr const char* kDamaged = "damaged";
constexpr int kPatienceMilliseconds = 5000; // how long another program may hold the file

/// A path as SQLite's URI wants it: what could be taken for a query is written as its code.
std::string uriOf(const std::filesystem::path& path, const char* query) {
    constexpr std::string_view kDigits = "0123456789abcdef";
    std::string uri = "file:";
    for (const char c : std::filesystem::absolute(path).string()) {
        const auto byte = static_cast<unsigned char>(c);
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                           (c >= '0' && c <= '9') || c == '/' || c == '.' || c == '-' || c == '_';
        if (plain) {
            uri += c;
        } else {
            uri += '%';
            uri += kDigits[byte >> 4U];
            uri += kDigits[byte & 15U];
        }
    }
    return uri + query;
}

Error errorOf(const std::filesystem::path& path, int extended, const std::string& said) {
    constexpr std::size_t kMostSaid = 300;
    const std::string text = excerpt(said, kMostSaid); // a damaged file is quoted as it is
    const std::string file = path.string() + ": ";
    const auto environment = [&](const std::string& what) {
        return Error{ErrorCode::Environment, file + what, path.string()};
    };
    switch (extended & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return environment("another program is writing to this logbook; try again in a moment");
    case SQLITE_FULL:
        return environment("the disk is full; free some space, nothing kept before is lost");
    case SQLITE_READONLY:
    case SQLITE_PERM:
        return environment("cannot be written; give it write permission or name another file");
    case SQLITE_CANTOPEN:
        return environment("cannot be opened; look whether its folder is there and may be used");
    case SQLITE_IOERR:
        return environment("the disk does not answer (" + text +
                           "); look whether it is still there");
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        return damaged(path, text);
    default:
        return environment("the logbook refused (" + text + ")");
    }
}

} // namespace

bool saysDamaged(const Error& error) {
    return error.context == kDamaged;
}

Error damaged(const std::filesystem::path& file, const std::string& what) {
    return {ErrorCode::UnreadableInput,
            file.string() + ": damaged, or no logbook (" + what +
                "); 'quillbench-cli log repair' saves what can be read",
            kDamaged};
}

void Statement::Finalizer::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
}

Statement::Statement(const Database& database, sqlite3_stmt* statement)
    : database_(&database),
      statement_(statement) {
}

void Statement::bind(int index, std::int64_t value) {
    sqlite3_bind_int64(statement_.get(), index, value);
}

void Statement::bind(int index, int value) {
    sqlite3_bind_int(statement_.get(), index, value);
}

void Statement::bind(int index, double value) {
    sqlite3_bind_double(statement_.get(), index, value);
}

void Statement::bind(int index, const std::string& value) {
    sqlite3_bind_text64(statement_.get(),
                        index,
                        value.data(),
                        value.size(),
                        SQLITE_TRANSIENT, // NOLINT: SQLite's own macro casts so
                        SQLITE_UTF8);
}

Result<bool> Statement::step() {
    const int code = sqlite3_step(statement_.get());
    if (code == SQLITE_ROW || code == SQLITE_DONE) {
        return code == SQLITE_ROW;
    }
    return Unexpected<Error>(database_->error());
}

void Statement::reset() {
    sqlite3_reset(statement_.get());
    sqlite3_clear_bindings(statement_.get());
}

bool Statement::isNull(int column) const {
    return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
}

bool Statement::read(int column, std::int64_t& value) const {
    if (sqlite3_column_type(statement_.get(), column) != SQLITE_INTEGER) {
        return false;
    }
    value = sqlite3_column_int64(statement_.get(), column);
    return true;
}

bool Statement::read(int column, int& value) const {
    std::int64_t wide = 0;
    if (!read(column, wide) || wide < std::numeric_limits<int>::min() ||
        wide > std::numeric_limits<int>::max()) {
        return false;
    }
    value = static_cast<int>(wide);
    return true;
}

bool Statement::read(int column, double& value) const {
    if (sqlite3_column_type(statement_.get(), column) != SQLITE_FLOAT) {
        return false;
    }
    value = sqlite3_column_double(statement_.get(), column);
    return true;
}

bool Statement::read(int column, std::string& value) const {
    if (sqlite3_column_type(statement_.get(), column) != SQLITE_TEXT) {
        return false;
    }
    value = text(column);
    return true;
}

std::int64_t Statement::integer(int column) const {
    return sqlite3_column_int64(statement_.get(), column);
}

std::string Statement::text(int column) const {
    const void* bytes = sqlite3_column_text(statement_.get(), column);
    const int size = sqlite3_column_bytes(statement_.get(), column);
    return bytes == nullptr
               ? std::string()
               : std::string(static_cast<const char*>(bytes), static_cast<std::size_t>(size));
}

void Database::Closer::operator()(sqlite3* handle) const {
    sqlite3_close_v2(handle);
}

Database::Database(std::filesystem::path path, sqlite3* handle)
    : path_(std::move(path)),
      handle_(handle) {
}

Result<Database>
Database::open(const std::filesystem::path& path, DatabaseAccess access, const std::string& vfs) {
    const int flags = access == DatabaseAccess::Write ? SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE
                                                      : SQLITE_OPEN_READONLY;
    return openAs(path,
                  uriOf(path, access == DatabaseAccess::Immutable ? "?immutable=1" : ""),
                  flags | SQLITE_OPEN_URI,
                  vfs);
}

Result<Database> Database::inMemory() {
    return openAs("memory", ":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, {});
}

Result<Database> Database::openAs(const std::filesystem::path& path,
                                  const std::string& name,
                                  int flags,
                                  const std::string& vfs) {
    sqlite3* handle = nullptr;
    const int code = sqlite3_open_v2(
        name.c_str(), &handle, flags | SQLITE_OPEN_FULLMUTEX, vfs.empty() ? nullptr : vfs.c_str());
    Database database(path, handle);
    if (code != SQLITE_OK) {
        return Unexpected<Error>(
            errorOf(path, code, handle == nullptr ? "no memory" : sqlite3_errmsg(handle)));
    }
    sqlite3_extended_result_codes(handle, 1);
    sqlite3_busy_timeout(handle, kPatienceMilliseconds);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_FKEY, 1, nullptr);
    return database;
}

Result<void> Database::run(const std::string& sql) {
    if (sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) {
        return Unexpected<Error>(error());
    }
    return {};
}

Result<Statement> Database::prepare(const std::string& sql) const {
    sqlite3_stmt* statement = nullptr;
    const int code = sqlite3_prepare_v2(
        handle_.get(), sql.c_str(), static_cast<int>(sql.size()), &statement, nullptr);
    if (code != SQLITE_OK) {
        return Unexpected<Error>(error());
    }
    return Statement(*this, statement);
}

Result<std::int64_t> Database::integer(const std::string& sql) const {
    Result<Statement> statement = prepare(sql);
    if (!statement) {
        return Unexpected<Error>(statement.error());
    }
    const Result<bool> row = statement->step();
    if (!row) {
        return Unexpected<Error>(row.error());
    }
    return *row ? statement->integer(0) : 0;
}

Result<std::string> Database::text(const std::string& sql) const {
    Result<Statement> statement = prepare(sql);
    if (!statement) {
        return Unexpected<Error>(statement.error());
    }
    const Result<bool> row = statement->step();
    if (!row) {
        return Unexpected<Error>(row.error());
    }
    return *row ? statement->text(0) : std::string();
}

Error Database::error() const {
    return errorOf(path_, sqlite3_errcode(handle_.get()), sqlite3_errmsg(handle_.get()));
}

void Database::leaveAlone() {
    sqlite3_db_config(handle_.get(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
}

Result<void> Database::copyTo(Database& other) const {
    sqlite3_backup* backup =
        sqlite3_backup_init(other.handle_.get(), "main", handle_.get(), "main");
    if (backup == nullptr) {
        return Unexpected<Error>(other.error());
    }
    constexpr int kEverything = -1;
    int code = sqlite3_backup_step(backup, kEverything);
    for (int waited = 0; (code == SQLITE_BUSY || code == SQLITE_LOCKED) && waited < 50; ++waited) {
        sqlite3_sleep(kPatienceMilliseconds / 50);
        code = sqlite3_backup_step(backup, kEverything);
    }
    const int finished = sqlite3_backup_finish(backup);
    if (code != SQLITE_DONE || finished != SQLITE_OK) {
        const int worst = code == SQLITE_DONE ? finished : code;
        return Unexpected<Error>(errorOf(other.path_, worst, sqlite3_errstr(worst)));
    }
    return {};
}

Result<Transaction> Transaction::begin(Database& database) {
    if (const Result<void> begun = database.run("BEGIN IMMEDIATE"); !begun) {
        return Unexpected<Error>(begun.error());
    }
    return Transaction(database);
}

Transaction::Transaction(Transaction&& other) noexcept
    : database_(std::exchange(other.database_, nullptr)) {
}

Transaction::~Transaction() {
    if (database_ != nullptr) {
        // SQLite may have rolled it back already; then this says so, and nothing is lost.
        static_cast<void>(database_->run("ROLLBACK"));
    }
}

Result<void> Transaction::commit() {
    Result<void> done = database_->run("COMMIT");
    if (done) {
        database_ = nullptr;
    }
    return done;
}

} // namespace quillbench
