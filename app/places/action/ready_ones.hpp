#pragma once

#include <chrono>
#include <future>
#include <utility>
#include <vector>

namespace quillbench {

/// Takes out of `waiting` what is ready, in order; never waits. **Errors** throws what the work threw.
template <typename T>
[[nodiscard]] std::vector<T> takeReady(std::vector<std::future<T>>& waiting) {
    std::vector<T> ready;
    std::vector<std::future<T>> later;
    ready.reserve(waiting.size());
    later.reserve(waiting.size());
    for (std::future<T>& one : waiting) {
        if (one.wait_for(std::chrono::seconds(0)) == std::future_status::ready) {
            ready.push_back(one.get());
        } else {
            later.push_back(std::move(one));
        }
    }
    waiting = std::move(later);
    return ready;
}

} // namespace quillbench
