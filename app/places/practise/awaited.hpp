#pragma once

#include <mutex>
#include <optional>
#include <utility>

namespace quillbench {

/// What is made elsewhere and fetched when it is there. **Thread** any.
template <typename T>
class Awaited {
public:
    void give(T value) {
        const std::lock_guard lock(mutex_);
        value_ = std::move(value);
    }

    /// Nothing while it is still made.
    [[nodiscard]] std::optional<T> look() const {
        const std::lock_guard lock(mutex_);
        return value_;
    }

private:
    mutable std::mutex mutex_;
    std::optional<T> value_;
};

} // namespace quillbench
