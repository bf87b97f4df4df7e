#include "app/storage/row_sum.hpp"

#include <array>

namespace quillbench {

namespace {

constexpr std::uint32_t kPolynomial = 0xEDB88320U;

constexpr std::array<std::uint32_t, 256> makeTable() {
    std::array<std::uint32_t, 256> table{};
    for (std::uint32_t byte = 0; byte < table.size(); ++byte) {
        std::uint32_t rest = byte;
        for (int bit = 0; bit < 8; ++bit) {
            rest = (rest >> 1U) ^ ((rest & 1U) != 0U ? kPolynomial : 0U);
        }
        table[byte] = rest;
    }
    return table;
}

constexpr std::array<std::uint32_t, 256> kTable = makeTable();

} // namespace

void CyclicSum::add(std::string_view bytes) {
    for (const char c : bytes) {
        const auto byte = static_cast<unsigned char>(c);
        state_ = kTable[(state_ ^ byte) & 0xFFU] ^ (state_ >> 8U);
    }
}

void CyclicSum::add(std::uint64_t value) {
    for (unsigned shift = 0; shift < 64U; shift += 8U) {
        const auto byte = static_cast<std::uint32_t>((value >> shift) & 0xFFU);
        state_ = kTable[(state_ ^ byte) & 0xFFU] ^ (state_ >> 8U);
    }
}

} // namespace quillbench
