#pragma once

#include "app/storage/database.hpp"
#include "app/storage/row_sum.hpp"
#include "core/logbook/records.hpp"

#include <string>
#include <type_traits>
#include <utility>
#include <vector>

namespace quillbench::rows {

/// Names of a record's columns: those of its fields, an instant as two, and last the checksum.
template <typename Record>
[[nodiscard]] std::string columns() {
    std::string list;
    Record record;
    Record::fields(record, [&](const char* name, const auto& value) {
        list += name;
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, Instant>) {
            list += "_ms, ";
            list += name;
            list += "_offset_min";
        }
        list += ", ";
    });
    return list + "sum";
}

/// Adds a row and gives it its number. Within a Transaction, so that numbers have no gaps.
/// **Errors** as checked() and Database::error.
template <typename Record>
[[nodiscard]] Result<RowNumber> add(Database& database, Record record) {
    const std::string table(Record::kTable);
    const Result<std::int64_t> last =
        database.integer("SELECT coalesce(max(seq), 0) FROM " + table);
    if (!last) {
        return Unexpected<Error>(last.error());
    }
    record.seq = *last + 1;
    if (const Result<void> sound = checked(record); !sound) {
        return Unexpected<Error>(sound.error());
    }
    const std::string names = columns<Record>();
    std::string places = "?";
    for (const char c : names) {
        places += c == ',' ? ", ?" : "";
    }
    Result<Statement> statement =
        database.prepare("INSERT INTO " + table + "(" + names + ") VALUES(" + places + ")");
    if (!statement) {
        return Unexpected<Error>(statement.error());
    }
    int index = 0;
    Record::fields(record, [&](const char* /*name*/, const auto& value) {
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, Instant>) {
            statement->bind(++index, value.milliseconds);
            statement->bind(++index, value.offsetMinutes);
        } else {
            statement->bind(++index, value);
        }
    });
    statement->bind(++index, rowSum(record));
    const Result<bool> done = statement->step();
    if (!done) {
        return Unexpected<Error>(done.error());
    }
    return record.seq;
}

/// A row as it stands; sound: of the right types and agreeing with its checksum.
template <typename Record>
struct Row {
    Record record;
    bool sound = true;
};

template <typename Record>
[[nodiscard]] Row<Record> current(const Statement& statement) {
    Row<Record> row;
    int column = 0;
    Record::fields(row.record, [&](const char* /*name*/, auto& value) {
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, Instant>) {
            row.sound = statement.read(column, value.milliseconds) && row.sound;
            row.sound = statement.read(column + 1, value.offsetMinutes) && row.sound;
            column += 2;
        } else {
            row.sound = statement.read(column++, value) && row.sound;
        }
    });
    std::int64_t sum = 0;
    row.sound = row.sound && statement.read(column, sum) && sum == rowSum(row.record);
    return row;
}

/// Gives every row in order to `take`. `where` may hold one ?, for `value`. **Errors** as Database::error.
template <typename Record, typename Take>
[[nodiscard]] Result<void>
eachRow(const Database& database, const std::string& where, const std::string& value, Take&& take) {
    Result<Statement> statement =
        database.prepare("SELECT " + columns<Record>() + " FROM " + std::string(Record::kTable) +
                         (where.empty() ? "" : " WHERE " + where) + " ORDER BY seq");
    if (!statement) {
        return Unexpected<Error>(statement.error());
    }
    if (where.find('?') != std::string::npos) {
        statement->bind(1, value);
    }
    while (true) {
        const Result<bool> more = statement->step();
        if (!more) {
            return Unexpected<Error>(more.error());
        }
        if (!*more) {
            return {};
        }
        take(current<Record>(*statement));
    }
}

/// The sound rows in order; damaged ones are left out. **Errors** as Database::error.
template <typename Record>
[[nodiscard]] Result<std::vector<Record>>
select(const Database& database, const std::string& where = {}, const std::string& value = {}) {
    std::vector<Record> found;
    const Result<void> read = eachRow<Record>(database, where, value, [&](Row<Record> row) {
        if (row.sound) {
            found.push_back(std::move(row.record));
        }
    });
    if (!read) {
        return Unexpected<Error>(read.error());
    }
    return found;
}

} // namespace quillbench::rows
