#pragma once

#include <memory>
#include <mutex>
#include <utility>

namespace quillbench {

/// Holds the newest of a run of immutable values. The lock guards one pointer swap.
/// **Thread** any ordinary thread; never an audio callback.
template <typename T>
class SnapshotCell {
public:
    void set(std::shared_ptr<const T> value) {
        const std::lock_guard lock(mutex_);
        value_.swap(value);
    } // the old value is let go here, after the lock

    /// Null before the first set().
    [[nodiscard]] std::shared_ptr<const T> get() const {
        const std::lock_guard lock(mutex_);
        return value_;
    }

private:
    mutable std::mutex mutex_;
    std::shared_ptr<const T> value_;
};

} // namespace quillbench
