#pragma once

#include "core/logbook/instant.hpp"

#include <bit>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace quillbench {

/// The 32-bit cyclic redundancy check of Ethernet and ZIP: any damage within 32 bits in a row is found for certain,
/// any other with a chance of 1 − 2⁻³². **Source** ISO/IEC 3309 (reflected polynomial EDB88320; check value of
/// "123456789" is CBF43926; both from memory).
class CyclicSum {
public:
    void add(std::string_view bytes);
    void add(std::uint64_t value); ///< its eight bytes, least first

    [[nodiscard]] std::uint32_t value() const { return ~state_; }

private:
    std::uint32_t state_ = 0xFFFFFFFFU;
};

namespace detail {

inline void addTo(CyclicSum& sum, std::int64_t value) {
    sum.add(std::string_view("i"));
    sum.add(std::bit_cast<std::uint64_t>(value));
}

inline void addTo(CyclicSum& sum, int value) {
    addTo(sum, static_cast<std::int64_t>(value));
}

/// The bits of a number as SQLite gives it back: a zero has no sign there.
inline std::uint64_t storedBits(double value) {
    return std::bit_cast<std::uint64_t>(value + 0.0);
}

inline void addTo(CyclicSum& sum, double value) {
    sum.add(std::string_view("d"));
    sum.add(storedBits(value));
}

inline void addTo(CyclicSum& sum, const std::string& value) {
    sum.add(std::string_view("t"));
    sum.add(std::uint64_t{value.size()});
    sum.add(std::string_view(value));
}

inline void addTo(CyclicSum& sum, const Instant& value) {
    addTo(sum, value.milliseconds);
    addTo(sum, value.offsetMinutes);
}

template <typename T>
void addTo(CyclicSum& sum, const std::optional<T>& value) {
    if (value) {
        addTo(sum, *value);
    } else {
        sum.add(std::string_view("n"));
    }
}

} // namespace detail

/// The checksum of a row: its table's name, then every field with its kind, in order.
template <typename Record>
[[nodiscard]] std::int64_t rowSum(const Record& record) {
    CyclicSum sum;
    sum.add(Record::kTable);
    Record::fields(record,
                   [&](const char* /*name*/, const auto& value) { detail::addTo(sum, value); });
    return static_cast<std::int64_t>(sum.value());
}

} // namespace quillbench
