#pragma once

#include "core/support/contract.hpp"

#include <algorithm>
#include <atomic>
#include <bit>
#include <cstddef>
#include <span>
#include <type_traits>
#include <vector>

namespace quillbench {

/// A first-in, first-out queue from one thread to one other. Wait-free: no operation waits, locks or, after
/// construction, allocates. What does not fit is refused, never overwritten.
/// **Thread** one producer, one consumer.
///
/// Memory order: an index is written by one side only. The side that owns an index reads it relaxed; the other reads
/// it with acquire, which pairs with the owner's release store made after the elements were written (tail) or read
/// (head). So an element is seen whole before it is popped, and is popped before its place is written again.
template <typename T>
class SpscRing {
    static_assert(std::is_trivially_copyable_v<T>);

public:
    /// Room for `capacity` elements, rounded up to a power of two. **Range** capacity ≥ 1.
    explicit SpscRing(std::size_t capacity) : items_(std::bit_ceil(capacity)) {
        EXPECTS(capacity >= 1);
    }

    [[nodiscard]] std::size_t capacity() const { return items_.size(); }

    /// Producer: false, and nothing done, when full.
    [[nodiscard]] bool tryPush(const T& item) noexcept { return push({&item, 1}) == 1; }

    /// Consumer: false when empty.
    [[nodiscard]] bool tryPop(T& item) noexcept { return pop({&item, 1}) == 1; }

    /// Producer: appends as many as fit, in order; says how many.
    std::size_t push(std::span<const T> from) noexcept {
        const std::size_t tail = tail_.load(std::memory_order_relaxed);
        const std::size_t room = items_.size() - (tail - head_.load(std::memory_order_acquire));
        const std::size_t count = std::min(room, from.size());
        const std::size_t start = tail & (items_.size() - 1);
        const std::size_t before = std::min(count, items_.size() - start);
        std::copy_n(from.data(), before, items_.data() + start);
        std::copy_n(from.data() + before, count - before, items_.data());
        tail_.store(tail + count, std::memory_order_release);
        return count;
    }

    /// Consumer: takes as many as there are, up to the size of `into`; says how many.
    std::size_t pop(std::span<T> into) noexcept {
        const std::size_t head = head_.load(std::memory_order_relaxed);
        const std::size_t there = tail_.load(std::memory_order_acquire) - head;
        const std::size_t count = std::min(there, into.size());
        const std::size_t start = head & (items_.size() - 1);
        const std::size_t before = std::min(count, items_.size() - start);
        std::copy_n(items_.data() + start, before, into.data());
        std::copy_n(items_.data(), count - before, into.data() + before);
        head_.store(head + count, std::memory_order_release);
        return count;
    }

    /// How many elements are there now. Exact on neither side while the other works; for the producer it never
    /// tells too few, for the consumer never too many.
    [[nodiscard]] std::size_t size() const noexcept {
        const std::size_t head = head_.load(std::memory_order_acquire);
        return tail_.load(std::memory_order_acquire) - head;
    }

private:
    static constexpr std::size_t kCacheLine = 64; // bytes; keeps the two sides off one line

    std::vector<T> items_;
    alignas(kCacheLine) std::atomic<std::size_t> head_{0}; // taken so far; free-running
    alignas(kCacheLine) std::atomic<std::size_t> tail_{0}; // pushed so far; free-running
};

} // namespace quillbench
