#include "app/storage/salvage.hpp"

#include "app/storage/file_bytes.hpp"
#include "app/storage/row_sum.hpp"

#include <algorithm>
#include <bit>
#include <limits>
#include <map>
#include <set>
#include <type_traits>
#include <variant>

namespace quillbench {

namespace {

using Value = std::variant<std::monostate, std::int64_t, double, std::string>;

constexpr std::size_t kUsualPage = 4096;
constexpr std::size_t kLargestRow = 4 * kLongestText;
constexpr std::size_t kMostColumns = 40;

std::uint64_t bigEndian(std::string_view bytes) {
    std::uint64_t value = 0;
    for (const char c : bytes) {
        value = (value << 8U) | static_cast<unsigned char>(c);
    }
    return value;
}

/// A variable-length integer at `at`, which moves past it; nothing where the bytes end.
std::optional<std::uint64_t> varint(std::string_view bytes, std::size_t& at) {
    std::uint64_t value = 0;
    for (int i = 0; i < 9; ++i) {
        if (at >= bytes.size()) {
            return std::nullopt;
        }
        const auto byte = static_cast<unsigned char>(bytes[at++]);
        if (i == 8) {
            return (value << 8U) | byte;
        }
        value = (value << 7U) | (byte & 0x7FU);
        if ((byte & 0x80U) == 0) {
            return value;
        }
    }
    return value;
}

std::size_t sizeOfType(std::uint64_t type) {
    constexpr std::size_t kSizes[] = {0, 1, 2, 3, 4, 6, 8, 8, 0, 0, 0, 0};
    return type < 12 ? kSizes[type] : (type - 12) / 2;
}

Value valueOf(std::uint64_t type, std::string_view bytes) {
    if (type == 0) {
        return std::monostate{};
    }
    if (type == 7) {
        return std::bit_cast<double>(bigEndian(bytes));
    }
    if (type == 8 || type == 9) {
        return static_cast<std::int64_t>(type - 8);
    }
    if (type >= 12) {
        return std::string(bytes);
    }
    const unsigned unused = 64U - 8U * static_cast<unsigned>(bytes.size());
    return static_cast<std::int64_t>(bigEndian(bytes) << unused) >> unused;
}

/// Pages of one state of the file.
class Image {
public:
    Image(std::string bytes, std::size_t page) : bytes_(std::move(bytes)), page_(page) {}

    [[nodiscard]] std::size_t pages() const { return (bytes_.size() + page_ - 1) / page_; }

    [[nodiscard]] std::string_view page(std::size_t index) const {
        return std::string_view(bytes_).substr(index * page_, page_);
    }

    void put(std::size_t index, std::string_view content) {
        if (bytes_.size() < (index + 1) * page_) {
            bytes_.resize((index + 1) * page_);
        }
        std::copy(content.begin(),
                  content.end(),
                  bytes_.begin() + static_cast<std::ptrdiff_t>(index * page_));
    }

    /// The whole of a row's bytes, the part on overflow pages too; empty where the chain breaks.
    [[nodiscard]] std::string
    payload(std::string_view page, std::size_t at, std::size_t size) const {
        const std::size_t most = page_ - 35;
        std::size_t local = size;
        if (size > most) {
            const std::size_t least = (page_ - 12) * 32 / 255 - 23;
            const std::size_t fitting = least + (size - least) % (page_ - 4);
            local = fitting <= most ? fitting : least;
        }
        if (at + local + (local < size ? 4 : 0) > page.size()) {
            return {};
        }
        std::string whole(page.substr(at, local));
        std::size_t next = local < size ? bigEndian(page.substr(at + local, 4)) : 0;
        while (whole.size() < size) {
            if (next == 0 || next > pages() || this->page(next - 1).size() < page_) {
                return {};
            }
            const std::string_view more = this->page(next - 1);
            whole += more.substr(4, std::min(page_ - 4, size - whole.size()));
            next = bigEndian(more.substr(0, 4));
        }
        return whole;
    }

private:
    std::string bytes_;
    std::size_t page_;
};

bool take(const Value& from, std::int64_t& to) {
    const auto* number = std::get_if<std::int64_t>(&from);
    to = number != nullptr ? *number : 0;
    return number != nullptr;
}

bool take(const Value& from, int& to) {
    std::int64_t wide = 0;
    const bool fits = take(from, wide) && wide >= std::numeric_limits<int>::min() &&
                      wide <= std::numeric_limits<int>::max();
    to = fits ? static_cast<int>(wide) : 0;
    return fits;
}

bool take(const Value& from, double& to) {
    // A whole number in a column of reals is stored as an integer.
    if (const auto* whole = std::get_if<std::int64_t>(&from)) {
        to = static_cast<double>(*whole);
        return true;
    }
    const auto* number = std::get_if<double>(&from);
    to = number != nullptr ? *number : 0.0;
    return number != nullptr;
}

bool take(const Value& from, std::string& to) {
    const auto* text = std::get_if<std::string>(&from);
    to = text != nullptr ? *text : std::string();
    return text != nullptr;
}

template <typename T>
bool take(const Value& from, std::optional<T>& to) {
    if (std::holds_alternative<std::monostate>(from)) {
        to.reset();
        return true;
    }
    return take(from, to.emplace());
}

/// The record that these columns make; nothing where they do not agree with its checksum.
template <typename Record>
std::optional<Record> recordOf(const std::vector<Value>& columns) {
    Record record;
    std::size_t next = 0;
    bool good = true;
    Record::fields(record, [&](const char* /*name*/, auto& value) {
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, Instant>) {
            good = good && next + 1 < columns.size() && take(columns[next], value.milliseconds) &&
                   take(columns[next + 1], value.offsetMinutes);
            next += 2;
        } else {
            good = good && next < columns.size() && take(columns[next], value);
            ++next;
        }
    });
    std::int64_t sum = 0;
    good = good && next + 1 == columns.size() && take(columns[next], sum) && record.seq > 0 &&
           sum == rowSum(record);
    return good ? std::optional(record) : std::nullopt;
}

/// The columns of a row that begins at `at`, its number first; empty where none does.
std::vector<Value> columnsAt(const Image& image, std::string_view page, std::size_t at) {
    const auto size = varint(page, at);
    if (!size || *size < 4 || *size > kLargestRow) {
        return {};
    }
    const auto number = varint(page, at);
    if (!number || at >= page.size()) {
        return {};
    }
    // The header is short and always on the page itself; most places fail here.
    std::size_t place = at;
    const auto header = varint(page, place);
    if (!header || *header < 3 || *header > *size || at + *header > page.size()) {
        return {};
    }
    std::vector<std::uint64_t> types;
    std::size_t bytes = *header;
    const std::size_t end = at + *header;
    while (place < end) {
        const auto type = varint(page, place);
        if (!type || *type == 10 || *type == 11 || types.size() == kMostColumns) {
            return {};
        }
        types.push_back(*type);
        bytes += sizeOfType(*type);
        if (bytes > *size) {
            return {};
        }
    }
    if (place != end || bytes != *size || types.front() != 0) {
        return {};
    }
    std::string whole = image.payload(page, at, *size);
    if (whole.size() != *size) {
        return {};
    }
    std::vector<Value> columns;
    std::size_t from = *header;
    for (const std::uint64_t type : types) {
        columns.push_back(valueOf(type, std::string_view(whole).substr(from, sizeOfType(type))));
        from += sizeOfType(type);
    }
    columns.front() = static_cast<std::int64_t>(*number);
    return columns;
}

void search(const Image& image, LogbookContents& found) {
    for (std::size_t index = 0; index < image.pages(); ++index) {
        const std::string_view page = image.page(index);
        for (std::size_t at = 0; at + 4 < page.size(); ++at) {
            const std::vector<Value> columns = columnsAt(image, page, at);
            if (columns.empty()) {
                continue;
            }
            LogbookContents::tables(found, [&](auto& table) {
                using Record = typename std::decay_t<decltype(table)>::value_type;
                if (const auto record = recordOf<Record>(columns)) {
                    table.push_back(*record);
                }
            });
        }
    }
}

std::size_t pageSizeOf(std::string_view bytes) {
    const std::size_t said = bytes.size() < 18 ? 0 : bigEndian(bytes.substr(16, 2));
    const bool sound = said >= 512 && std::has_single_bit(said);
    return sound ? said : kUsualPage;
}

/// The file as its write-ahead log would make it, whatever the log's own checksums say.
Image overlaid(Image image, std::string_view log, std::size_t page) {
    constexpr std::size_t kHeader = 32;
    constexpr std::size_t kFrameHeader = 24;
    for (std::size_t at = kHeader; at + kFrameHeader + page <= log.size();
         at += kFrameHeader + page) {
        const std::size_t index = bigEndian(log.substr(at, 4));
        if (index >= 1 && index <= image.pages() + log.size() / page) {
            image.put(index - 1, log.substr(at + kFrameHeader, page));
        }
    }
    return image;
}

template <typename Record>
std::set<RowNumber> numbersOf(const std::vector<Record>& table) {
    std::set<RowNumber> numbers;
    for (const Record& record : table) {
        numbers.insert(record.seq);
    }
    return numbers;
}

/// Adds what `make` makes for every number that the other tables name and this one lacks.
template <typename Record, typename Make>
void fill(LogbookContents& contents, std::vector<Record>& table, Make make) {
    const std::set<RowNumber> there = numbersOf(table);
    std::set<RowNumber> lost;
    const auto look = [&](const char* name, RowNumber number) {
        if (Record::kTable == name && !there.contains(number)) {
            lost.insert(number);
        }
    };
    LogbookContents::tables(contents, [&](const auto& other) {
        for (const auto& record : other) {
            std::decay_t<decltype(record)>::fields(
                record, [&](const char* name, const auto& value) {
                    using Field = std::decay_t<decltype(value)>;
                    if constexpr (std::is_same_v<Field, RowNumber>) {
                        look(name, value);
                    } else if constexpr (std::is_same_v<Field, std::optional<RowNumber>>) {
                        value ? look(name, *value) : void();
                    }
                });
        }
    });
    for (const RowNumber number : lost) {
        Record record = make(number);
        record.seq = number;
        table.push_back(std::move(record));
    }
    std::sort(
        table.begin(), table.end(), [](const Record& a, const Record& b) { return a.seq < b.seq; });
}

} // namespace

Result<LogbookContents> salvage(const std::filesystem::path& logbook) {
    const std::string file = bytesOf(logbook);
    if (file.empty()) {
        return failure(ErrorCode::UnreadableInput,
                       logbook.string() + ": nothing of it can be read",
                       logbook.string());
    }
    const std::string log = bytesOf(logbook.string() + "-wal");
    const std::size_t page = pageSizeOf(file);
    const Image image(file, page);
    LogbookContents found;
    search(image, found);
    if (!log.empty()) {
        search(overlaid(image, log, page), found);
    }
    LogbookContents::tables(found, [](auto& table) {
        std::sort(
            table.begin(), table.end(), [](const auto& a, const auto& b) { return a.seq < b.seq; });
        table.erase(std::unique(table.begin(),
                                table.end(),
                                [](const auto& a, const auto& b) { return a.seq == b.seq; }),
                    table.end());
    });
    return found;
}

void fillGaps(LogbookContents& contents) {
    const auto mark = [](RowNumber number) { return "lost-" + std::to_string(number); };
    fill(contents, contents.readings, [](RowNumber) {
        ReadingRecord reading;
        reading.warnings = "lost";
        return reading;
    });
    fill(contents, contents.events, [](RowNumber number) {
        EventRecord event;
        event.place = -static_cast<int>(number);
        event.content = R"({"kind":"lost"})";
        return event;
    });
    // A row put in for a lost one refers to one put in for its lost parent, number 0.
    fill(contents, contents.sessions, [&](RowNumber number) {
        SessionRecord session;
        session.uid = mark(number);
        session.kind = "lost";
        session.inputs = "{}";
        return session;
    });
    fill(contents, contents.strings, [](RowNumber number) {
        StringRecord string;
        string.choir = "lost";
        string.course = static_cast<int>(number);
        return string;
    });
    fill(contents, contents.descriptions, [](RowNumber) {
        DescriptionRecord description;
        description.name = "lost";
        description.content = "{}";
        return description;
    });
    fill(contents, contents.instruments, [&](RowNumber number) {
        InstrumentRecord instrument;
        instrument.key = mark(number);
        return instrument;
    });
}

} // namespace quillbench
