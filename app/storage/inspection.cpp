#include "app/storage/inspection.hpp"

#include "app/storage/file_bytes.hpp"
#include "app/storage/migrations.hpp"
#include "app/storage/rows.hpp"

#include <algorithm>

namespace quillbench {

namespace {

constexpr std::size_t kMostComplaints = 20;

class Complaints {
public:
    void add(const std::string& line) {
        if (lines_.size() < kMostComplaints) {
            lines_.push_back(line);
        } else if (lines_.size() == kMostComplaints) {
            lines_.emplace_back("and more");
        }
    }

    std::vector<std::string> lines_;
};

void checkStructure(const Database& database, Complaints& complaints) {
    Result<Statement> statement = database.prepare("PRAGMA integrity_check(20)");
    if (!statement) {
        complaints.add("its structure cannot be read");
        return;
    }
    while (true) {
        const Result<bool> more = statement->step();
        if (!more) {
            complaints.add("its structure cannot be read");
            return;
        }
        if (!*more) {
            return;
        }
        // Several complaints may come as one text.
        std::string text = statement->text(0);
        text.resize(std::min(text.size(), text.find('\n')));
        if (text != "ok") {
            complaints.add("structure: " + text);
        }
    }
}

void checkSchema(const Database& database, Complaints& complaints) {
    Result<Database> fresh = Database::inMemory();
    if (!fresh || !migrate(*fresh)) {
        complaints.add("no memory to compare its tables with");
        return;
    }
    const Result<std::vector<std::string>> right = schemaOf(*fresh);
    const Result<std::vector<std::string>> found = schemaOf(database);
    if (!right || !found || *right != *found) {
        complaints.add("its tables are not those of a logbook");
    }
}

template <typename Record>
void checkTable(const Database& database, Complaints& complaints) {
    const std::string table(Record::kTable);
    RowNumber expected = 1;
    const Result<void> read =
        rows::eachRow<Record>(database, {}, {}, [&](const rows::Row<Record>& row) {
            const RowNumber seq = row.record.seq;
            if (seq > expected) {
                complaints.add(table + " " + std::to_string(expected) +
                               (seq - expected > 1 ? " to " + std::to_string(seq - 1) : "") +
                               ": missing");
            }
            if (!row.sound) {
                complaints.add(table + " " + std::to_string(seq) + ": not as it was kept");
            }
            expected = std::max(expected, seq) + 1;
        });
    if (!read) {
        complaints.add(table + " " + std::to_string(expected) + " and what follows: unreadable");
        return;
    }
    const Result<std::int64_t> last =
        database.integer("SELECT seq FROM sqlite_sequence WHERE name = '" + table + "'");
    if (!last || *last != expected - 1) {
        complaints.add(table + ": rows after " + std::to_string(expected - 1) + " are missing");
    }
}

void checkReferences(const Database& database, Complaints& complaints) {
    Result<Statement> statement = database.prepare("PRAGMA foreign_key_check");
    if (!statement) {
        complaints.add("references between its tables cannot be read");
        return;
    }
    while (true) {
        const Result<bool> more = statement->step();
        if (!more || !*more) {
            if (!more) {
                complaints.add("references between its tables cannot be read");
            }
            return;
        }
        complaints.add(statement->text(0) + " " + std::to_string(statement->integer(1)) +
                       ": refers to a row that is missing");
    }
}

std::uint32_t numberAt(const std::string& bytes, std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        value = (value << 8U) | static_cast<unsigned char>(bytes[at + i]);
    }
    return value;
}

} // namespace

std::vector<std::string> inspect(const Database& database) {
    Complaints complaints;
    checkStructure(database, complaints);
    checkSchema(database, complaints);
    const LogbookContents tables;
    LogbookContents::tables(tables, [&](const auto& table) {
        using Record = typename std::decay_t<decltype(table)>::value_type;
        checkTable<Record>(database, complaints);
    });
    checkReferences(database, complaints);
    return complaints.lines_;
}

bool writeAheadLogBroken(const std::filesystem::path& logbook) {
    const std::string log = bytesOf(logbook.string() + "-wal");
    constexpr std::size_t kHeader = 32;
    constexpr std::size_t kFrameHeader = 24;
    if (log.size() < kHeader) {
        return false; // begun when the power went: nothing in it was ever kept
    }
    // The sum runs over pairs of words, in the order of bytes that the magic number names.
    const std::uint32_t magic = numberAt(log, 0);
    const bool bigEnd = (magic & 1U) != 0;
    const auto word = [&](std::size_t at) {
        const std::uint32_t value = numberAt(log, at);
        return bigEnd ? value
                      : ((value >> 24U) | ((value >> 8U) & 0xFF00U) | ((value << 8U) & 0xFF0000U) |
                         (value << 24U));
    };
    std::uint32_t first = 0;
    std::uint32_t second = 0;
    const auto sumUp = [&](std::size_t from, std::size_t size) {
        for (std::size_t at = from; at + 8 <= from + size; at += 8) {
            first += word(at) + second;
            second += word(at + 4) + first;
        }
    };
    sumUp(0, 24);
    const std::size_t page = numberAt(log, 8);
    const bool headerSound = (magic | 1U) == 0x377F0683U && page >= 512 && page <= 65536 &&
                             first == numberAt(log, 24) && second == numberAt(log, 28);
    if (!headerSound) {
        return true;
    }
    bool broken = false;
    for (std::size_t at = kHeader; at + kFrameHeader + page <= log.size();
         at += kFrameHeader + page) {
        // A frame of an earlier turn of the log has other salts.
        const bool sameTurn = numberAt(log, at + 8) == numberAt(log, 16) &&
                              numberAt(log, at + 12) == numberAt(log, 20);
        if (broken && sameTurn) {
            return true;
        }
        sumUp(at, 8);
        sumUp(at + kFrameHeader, page);
        broken = broken || !sameTurn || first != numberAt(log, at + 16) ||
                 second != numberAt(log, at + 20);
    }
    return false;
}

} // namespace quillbench
