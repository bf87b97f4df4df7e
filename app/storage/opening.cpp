#include "app/storage/opening.hpp"

#include "app/storage/inspection.hpp"
#include "app/storage/migrations.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <system_error>
#include <utility>

namespace quillbench {

namespace {

namespace fs = std::filesystem;

Unexpected<Error> refused(ErrorCode code, const fs::path& file, const std::string& why) {
    return failure(code, file.string() + ": " + why, file.string());
}

bool mayWrite(const fs::path& path) {
    return ::faccessat(AT_FDCWD, path.c_str(), W_OK, AT_EACCESS) == 0;
}

fs::path folderOf(const fs::path& file) {
    return file.has_parent_path() ? file.parent_path() : fs::path(".");
}

Result<void> checkPlace(const LogbookOpening& opening) {
    std::error_code code;
    if (fs::is_directory(opening.file, code)) {
        return refused(ErrorCode::UnreadableInput, opening.file, "a folder; name a file in it");
    }
    if (fs::exists(opening.file, code)) {
        return {};
    }
    if (!opening.toWrite) {
        return refused(
            ErrorCode::UnreadableInput, opening.file, "there is no such logbook; look at its path");
    }
    fs::create_directories(folderOf(opening.file), code);
    if (code) {
        return refused(ErrorCode::Environment,
                       opening.file,
                       "its folder cannot be made (" + code.message() + "); name another file");
    }
    return {};
}

DatabaseAccess accessTo(const LogbookOpening& opening) {
    std::error_code code;
    const bool folder = mayWrite(folderOf(opening.file));
    const bool file = !fs::exists(opening.file, code) || mayWrite(opening.file);
    if (!folder) {
        return DatabaseAccess::Immutable;
    }
    return opening.toWrite && file ? DatabaseAccess::Write : DatabaseAccess::Read;
}

/// The schema of a file that is a logbook or still empty. What it says of itself is compared with its tables: a file of
/// our tables is ours, whatever a damaged byte in its head says.
Result<std::int64_t> identified(const Database& database) {
    const Result<std::int64_t> tables = database.integer("SELECT count(*) FROM sqlite_schema");
    const Result<std::int64_t> mark = database.integer("PRAGMA application_id");
    Result<std::int64_t> schema = database.integer("PRAGMA user_version");
    const Result<std::int64_t> byTables = schemaByTables(database);
    for (const Result<std::int64_t>* one : {&tables, &mark, &std::as_const(schema), &byTables}) {
        if (!*one) {
            return *one;
        }
    }
    if (*tables == 0 && *mark == 0 && *schema == 0) {
        return schema;
    }
    const bool ours = *mark == kLogbookMark;
    if (ours && *schema >= 1 && (*schema == newestSchema() || *schema == *byTables)) {
        return schema;
    }
    if (*byTables > 0) {
        return Unexpected<Error>(
            damaged(database.path(), "its head does not agree with its tables"));
    }
    if (!ours) {
        return refused(ErrorCode::UnreadableInput,
                       database.path(),
                       "not a logbook of Quillbench; name another file");
    }
    if (*schema > newestSchema()) {
        return refused(ErrorCode::UnreadableInput,
                       database.path(),
                       "written by a newer version of Quillbench (schema " +
                           std::to_string(*schema) + ", this one knows up to " +
                           std::to_string(newestSchema()) + "); use that version");
    }
    return Unexpected<Error>(damaged(database.path(), "its tables are not those of its schema"));
}

/// A copy in memory, brought to the newest schema: how an older file is read that may not be changed.
Result<Database> inMemory(const Database& database) {
    Result<Database> copy = Database::inMemory();
    if (!copy) {
        return copy;
    }
    if (const Result<void> copied = database.copyTo(*copy); !copied) {
        return Unexpected<Error>(copied.error());
    }
    if (const Result<void> climbed = migrate(*copy); !climbed) {
        return Unexpected<Error>(climbed.error());
    }
    return copy;
}

Result<void> makeReady(Database& database) {
    // Another program may be making the same change to a new file: it then is in force already.
    static_cast<void>(database.run("PRAGMA journal_mode = WAL"));
    if (Result<void> durable = database.run("PRAGMA synchronous = FULL"); !durable) {
        return durable;
    }
    return migrate(database);
}

std::string damageLine(const std::vector<std::string>& damages) {
    std::string line = "damaged (" + damages.front();
    if (damages.size() > 1) {
        line += "; and " + std::to_string(damages.size() - 1) + " more";
    }
    return line + "), opened for reading only; 'quillbench-cli log repair' saves what can be read";
}

Result<OpenedLogbook> openAs(const LogbookOpening& opening, DatabaseAccess access) {
    Result<Database> database = Database::open(opening.file, access, opening.vfs);
    if (!database) {
        return Unexpected<Error>(database.error());
    }
    Result<std::int64_t> schema = identified(*database);
    if (!schema) {
        return Unexpected<Error>(schema.error());
    }
    if (const Result<void> careful = database->run("PRAGMA cell_size_check = ON"); !careful) {
        return Unexpected<Error>(careful.error());
    }
    if (access == DatabaseAccess::Write) {
        if (const Result<void> ready = makeReady(*database); !ready) {
            return Unexpected<Error>(ready.error());
        }
    } else if (*schema < newestSchema()) {
        database = inMemory(*database);
        if (!database) {
            return Unexpected<Error>(database.error());
        }
    }
    OpenedLogbook opened{std::move(database).value(), access == DatabaseAccess::Write, {}, {}};
    opened.damages = inspect(opened.database);
    return opened;
}

std::string troubleOf(const LogbookOpening& opening, const OpenedLogbook& opened, bool logBroken) {
    const std::string file = opening.file.string() + ": ";
    if (!opened.damages.empty()) {
        return file + damageLine(opened.damages);
    }
    if (logBroken) {
        return file + "the power went or the disk erred while it was written: last entries that "
                      "were not acknowledged may be missing";
    }
    if (opening.toWrite && !opened.writable) {
        return file + "cannot be written, opened for reading only; give it and its folder write "
                      "permission, or name another file";
    }
    return {};
}

} // namespace

Result<OpenedLogbook> openLogbook(const LogbookOpening& opening) {
    if (const Result<void> place = checkPlace(opening); !place) {
        return Unexpected<Error>(place.error());
    }
    const bool logBroken = writeAheadLogBroken(opening.file);
    const DatabaseAccess access = accessTo(opening);
    Result<OpenedLogbook> opened = openAs(opening, access);
    if (!opened) {
        return opened;
    }
    if (!opened->damages.empty() && opened->writable) {
        // Not a byte of a damaged file is changed: repairing wants it as it is.
        opened->database.leaveAlone();
        Result<Database> readOnly = Database::open(opening.file, DatabaseAccess::Read, opening.vfs);
        if (!readOnly) {
            return Unexpected<Error>(readOnly.error());
        }
        opened->database = std::move(readOnly).value();
        opened->writable = false;
    }
    opened->trouble = troubleOf(opening, *opened, logBroken);
    return opened;
}

Result<void> copyLogbook(const Database& database, const fs::path& to) {
    std::error_code code;
    if (fs::exists(to, code)) {
        return refused(ErrorCode::BadArgument, to, "is there already; give another name");
    }
    const fs::path part = to.string() + ".part";
    fs::remove(part, code);
    {
        Result<Database> copy = Database::open(part, DatabaseAccess::Write, {});
        if (!copy) {
            return Unexpected<Error>(copy.error());
        }
        Result<void> done = database.copyTo(*copy);
        // One file, nothing beside it.
        done = done ? copy->run("PRAGMA journal_mode = DELETE") : done;
        if (done && !inspect(*copy).empty()) {
            done =
                refused(ErrorCode::Environment, to, "the copy is not what was copied; try again");
        }
        if (!done) {
            fs::remove(part, code);
            return done;
        }
    }
    if (const int file = ::open(part.c_str(), O_RDONLY | O_CLOEXEC); file >= 0) {
        ::fsync(file);
        ::close(file);
    }
    fs::rename(part, to, code);
    if (code) {
        return refused(ErrorCode::Environment,
                       to,
                       "cannot be written (" + code.message() + "); choose another place");
    }
    if (const int folder = ::open(folderOf(to).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
        folder >= 0) {
        ::fsync(folder);
        ::close(folder);
    }
    return {};
}

} // namespace quillbench
