#pragma once

#include "core/support/contract.hpp"
#include "core/support/result.hpp"

#include <algorithm>
#include <string>

namespace quillbench::test {

/// What a person is told fits on one line of a screen or a log and has no control characters in it.
inline void expectComplaint(const Error& error) {
    constexpr std::size_t kLongest = 1000; // bytes
    EXPECTS(!error.text.empty() && error.text.size() < kLongest);
    EXPECTS(std::none_of(error.text.begin(), error.text.end(), [](char c) {
        return static_cast<unsigned char>(c) < 0x20U || c == '\x7f';
    }));
}

/// True where there is a value; else the complaint is a good one.
template <typename T>
[[nodiscard]] bool heldOrComplained(const Result<T>& result) {
    if (!result) {
        expectComplaint(result.error());
    }
    return result.hasValue();
}

} // namespace quillbench::test
