#pragma once

#include "core/logbook/instant.hpp"
#include "core/support/result.hpp"

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

namespace quillbench {

/// How a database file is opened.
enum class DatabaseAccess {
    Write,     ///< made where there is none
    Read,      ///< never changed by this program
    Immutable, ///< on a medium that nobody can write to: no locks, no files beside it
};

/// Whether an error says that the file itself is damaged, so that repairing it is worth a try.
[[nodiscard]] bool saysDamaged(const Error& error);

/// The error that says so: "FILE: damaged (WHAT); …".
[[nodiscard]] Error damaged(const std::filesystem::path& file, const std::string& what);

/// One prepared statement of SQLite. Bound from 1 on; read from column 0 on. **Thread** that of its Database.
class Statement {
public:
    void bind(int index, std::int64_t value);
    void bind(int index, int value);
    void bind(int index, double value);
    void bind(int index, const std::string& value);

    template <typename T>
    void bind(int index, const std::optional<T>& value) {
        if (value) {
            bind(index, *value);
        }
    }

    /// True while there is a row. **Errors** as Database::error.
    [[nodiscard]] Result<bool> step();

    /// For the next use with other values.
    void reset();

    /// False where the column holds another type: then the row is damaged.
    [[nodiscard]] bool read(int column, std::int64_t& value) const;
    [[nodiscard]] bool read(int column, int& value) const;
    [[nodiscard]] bool read(int column, double& value) const;
    [[nodiscard]] bool read(int column, std::string& value) const;

    template <typename T>
    [[nodiscard]] bool read(int column, std::optional<T>& value) const {
        if (isNull(column)) {
            value.reset();
            return true;
        }
        return read(column, value.emplace());
    }

    /// An integer, or 0.
    [[nodiscard]] std::int64_t integer(int column) const;

    /// A text, or "".
    [[nodiscard]] std::string text(int column) const;

private:
    friend class Database;

    struct Finalizer {
        void operator()(sqlite3_stmt* statement) const;
    };

    Statement(const class Database& database, sqlite3_stmt* statement);
    [[nodiscard]] bool isNull(int column) const;

    const Database* database_;
    std::unique_ptr<sqlite3_stmt, Finalizer> statement_;
};

/// One open SQLite file: errors as one clear line, waits a while for other programs. **Thread** one at a time.
class Database {
public:
    /// **Range** `vfs`: name of a registered VFS of SQLite; empty: the system's. **Errors** Environment: cannot be
    /// opened; what the file holds is not looked at yet.
    [[nodiscard]] static Result<Database>
    open(const std::filesystem::path& path, DatabaseAccess access, const std::string& vfs);

    /// An empty one that ends with the program. **Errors** Environment: no memory.
    [[nodiscard]] static Result<Database> inMemory();

    /// **Errors** as error().
    [[nodiscard]] Result<void> run(const std::string& sql);
    [[nodiscard]] Result<Statement> prepare(const std::string& sql) const;

    /// The first column of the first row. **Errors** as error(); no row gives 0 or "".
    [[nodiscard]] Result<std::int64_t> integer(const std::string& sql) const;
    [[nodiscard]] Result<std::string> text(const std::string& sql) const;

    /// What the last failure was, naming the file and how to mend it: UnreadableInput where the file is damaged or
    /// none of SQLite's, else Environment.
    [[nodiscard]] Error error() const;

    /// When it is closed nothing is written back into the file any more.
    void leaveAlone();

    /// Copies everything into another file, while others may read and write this one. **Errors** Environment.
    [[nodiscard]] Result<void> copyTo(Database& other) const;

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

private:
    friend class Statement;

    struct Closer {
        void operator()(sqlite3* handle) const;
    };

    Database(std::filesystem::path path, sqlite3* handle);
    [[nodiscard]] static Result<Database> openAs(const std::filesystem::path& path,
                                                 const std::string& name,
                                                 int flags,
                                                 const std::string& vfs);

    std::filesystem::path path_;
    std::unique_ptr<sqlite3, Closer> handle_;
};

/// A group of changes that is kept whole or not at all. Others wait meanwhile.
class Transaction {
public:
    /// **Errors** as Database::error.
    [[nodiscard]] static Result<Transaction> begin(Database& database);

    Transaction(Transaction&& other) noexcept;
    Transaction& operator=(Transaction&&) = delete;
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction();

    /// When this succeeds the changes outlive a power cut. **Errors** as Database::error; then nothing was changed.
    [[nodiscard]] Result<void> commit();

private:
    explicit Transaction(Database& database) : database_(&database) {}

    Database* database_; ///< null when it is over
};

} // namespace quillbench
