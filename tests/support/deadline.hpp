#pragma once

#include <chrono>
#include <thread>

namespace quillbench::test {

/// Looks every 2 ms until `condition` holds, for at most `limit`; says whether it came to hold.
template <typename Condition>
[[nodiscard]] bool becomesTrue(Condition condition, std::chrono::duration<double> limit) {
    const auto end = std::chrono::steady_clock::now() + limit;
    while (!condition()) {
        if (std::chrono::steady_clock::now() > end) {
            return false;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    return true;
}

} // namespace quillbench::test
