#pragma once

#include "core/support/contract.hpp"

#include <array>
#include <cstddef>
#include <type_traits>

namespace quillbench {

/// A sequence of at most N values inside the object itself, trivially copyable with its elements, for
/// snapshots that pass between threads.
template <typename T, std::size_t N>
class FixedVector {
    static_assert(std::is_trivially_copyable_v<T>);

public:
    [[nodiscard]] static constexpr std::size_t capacity() { return N; }

    [[nodiscard]] constexpr std::size_t size() const { return size_; }

    [[nodiscard]] constexpr bool empty() const { return size_ == 0; }

    [[nodiscard]] constexpr bool full() const { return size_ == N; }

    /// Appends, or drops the value when full; says which.
    constexpr bool tryPush(const T& value) {
        if (full()) {
            return false;
        }
        items_[size_++] = value;
        return true;
    }

    constexpr void clear() { size_ = 0; }

    constexpr T& operator[](std::size_t i) {
        EXPECTS(i < size_);
        return items_[i];
    }

    constexpr const T& operator[](std::size_t i) const {
        EXPECTS(i < size_);
        return items_[i];
    }

    constexpr T* begin() { return items_.data(); }

    constexpr T* end() { return items_.data() + size_; }

    [[nodiscard]] constexpr const T* begin() const { return items_.data(); }

    [[nodiscard]] constexpr const T* end() const { return items_.data() + size_; }

private:
    std::array<T, N> items_{};
    std::size_t size_ = 0;
};

} // namespace quillbench
