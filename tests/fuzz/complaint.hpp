#pragma once

#include "core/support/contract.hpp"
#include "core/support/result.hpp"

namespace quillbench::test {

/// A person is told what is wrong.
inline void expectComplaint(const Error& error) {
    EXPECTS(!error.text.empty());
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
