#include "app/storage/opening.hpp"
#include "app/storage/rows.hpp"

#include <map>
#include <set>
#include <type_traits>

namespace quillbench {

namespace {

using Numbers = std::map<RowNumber, RowNumber>; ///< numbers of the contents → numbers here

void append(std::string& text, const std::string& part) {
    text += std::to_string(part.size()) + ':' + part;
}

template <typename T>
std::string written(const T& value) {
    CyclicSum sum;
    detail::addTo(sum, value);
    if constexpr (std::is_same_v<T, std::string>) {
        return value;
    } else if constexpr (std::is_same_v<T, Instant>) {
        return std::to_string(value.milliseconds) + "/" + std::to_string(value.offsetMinutes);
    } else if constexpr (std::is_same_v<T, double>) {
        return std::to_string(detail::storedBits(value));
    } else {
        return std::to_string(value);
    }
}

template <typename T>
std::string written(const std::optional<T>& value) {
    return value ? "=" + written(*value) : std::string();
}

/// What a row says but its number: by it the same row is known again. Some are known by less.
template <typename Record>
std::string identityOf(const Record& record) {
    const auto part = [](std::string_view field) {
        if constexpr (std::is_same_v<Record, InstrumentRecord>) {
            return field == "key";
        } else if constexpr (std::is_same_v<Record, StringRecord>) {
            return field == "instrument" || field == "choir" || field == "course";
        } else if constexpr (std::is_same_v<Record, SessionRecord>) {
            return field == "uid";
        } else if constexpr (std::is_same_v<Record, EventRecord>) {
            return field == "session" || field == "place";
        } else if constexpr (std::is_same_v<Record, SessionEndRecord>) {
            return field == "session";
        } else {
            return field != "seq";
        }
    };
    std::string identity;
    Record::fields(record, [&](const char* name, const auto& value) {
        if (part(name)) {
            append(identity, written(value));
        }
    });
    return identity;
}

class Merging {
public:
    explicit Merging(Database& database) : database_(database) {}

    template <typename Record>
    void table(const std::vector<Record>& table) {
        if (error_ || table.empty()) {
            return;
        }
        std::map<std::string, Record> there;
        const auto present = rows::select<Record>(database_);
        if (!present) {
            error_ = present.error();
            return;
        }
        for (const Record& record : *present) {
            there.emplace(identityOf(record), record);
        }
        for (const Record& offered : table) {
            row(offered, there);
            if (error_) {
                return;
            }
        }
    }

    MergeReport report_;
    std::optional<Error> error_;

private:
    template <typename Record>
    void row(const Record& offered, std::map<std::string, Record>& there) {
        Record record = offered;
        if (!translate(record)) {
            error_ = Error{ErrorCode::UnreadableInput,
                           std::string(Record::kTable) + " " + std::to_string(offered.seq) +
                               " refers to a row that is missing: nothing was taken over",
                           {}};
            return;
        }
        Numbers& numbers = numbers_[std::string(Record::kTable)];
        std::string identity = identityOf(record);
        const auto known = there.find(identity);
        if (known != there.end()) {
            if (!agree(record, known->second)) {
                return;
            }
            numbers[offered.seq] = known->second.seq;
            count(record, false);
            return;
        }
        const Result<RowNumber> number = rows::add(database_, record);
        if (!number) {
            error_ = number.error();
            return;
        }
        record.seq = *number;
        numbers[offered.seq] = *number;
        there.emplace(identity, record);
        ++report_.rows;
        count(record, true);
    }

    /// Turns numbers of the contents into numbers of this logbook; false where one is missing.
    template <typename Record>
    bool translate(Record& record) {
        bool whole = true;
        const auto look = [&](const char* table, RowNumber& number) {
            const Numbers& numbers = numbers_[table];
            const auto found = numbers.find(number);
            whole = whole && found != numbers.end();
            number = found == numbers.end() ? 0 : found->second;
        };
        Record::fields(record, [&](const char* name, auto& value) {
            using Field = std::decay_t<decltype(value)>;
            const bool refers = std::string_view(name) != "seq";
            if constexpr (std::is_same_v<Field, RowNumber>) {
                refers ? look(name, value) : void();
            } else if constexpr (std::is_same_v<Field, std::optional<RowNumber>>) {
                value ? look(name, *value) : void();
            }
        });
        return whole;
    }

    template <typename Record>
    bool agree(const Record& offered, const Record& known) {
        if constexpr (std::is_same_v<Record, EventRecord>) {
            if (offered.content != known.content) {
                error_ = Error{ErrorCode::UnreadableInput,
                               "event " + std::to_string(offered.seq) +
                                   ": its session went on otherwise in this logbook: nothing "
                                   "was taken over",
                               {}};
                return false;
            }
        }
        return true;
    }

    template <typename Record>
    void count(const Record& /*record*/, bool isNew) {
        if constexpr (std::is_same_v<Record, SessionRecord>) {
            ++(isNew ? report_.sessions : report_.sessionsThere);
        }
    }

    Database& database_;
    std::map<std::string, Numbers> numbers_;
};

} // namespace

Result<MergeReport> mergeInto(Database& database, const LogbookContents& contents) {
    Result<Transaction> transaction = Transaction::begin(database);
    if (!transaction) {
        return Unexpected<Error>(transaction.error());
    }
    Merging merging(database);
    LogbookContents::tables(contents, [&](const auto& table) { merging.table(table); });
    if (merging.error_) {
        return Unexpected<Error>(*merging.error_);
    }
    if (const Result<void> kept = transaction->commit(); !kept) {
        return Unexpected<Error>(kept.error());
    }
    return merging.report_;
}

} // namespace quillbench
