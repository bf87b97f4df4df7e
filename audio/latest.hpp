#pragma once

#include <array>
#include <atomic>
#include <cstdint>
#include <type_traits>

namespace quillbench {

/// A value handed from one thread to one other, of which only the newest matters (triple buffer). Wait-free on both
/// sides, nothing allocated.
/// **Thread** one writer, one reader.
///
/// Memory order: the three places are owned by writer, reader and the exchange `middle_`. Each side gives its place
/// away and gets the other by one acq_rel exchange, so that what was written before is seen after.
template <typename T>
class Latest {
    static_assert(std::is_trivially_copyable_v<T>);

public:
    explicit Latest(const T& initial = T{}) : places_{initial, initial, initial} {}

    /// Writer.
    void set(const T& value) noexcept {
        places_[writing_] = value;
        const std::uint8_t got = middle_.exchange(static_cast<std::uint8_t>(writing_ | kFresh),
                                                  std::memory_order_acq_rel);
        writing_ = static_cast<std::uint8_t>(got & kPlace);
    }

    /// Reader: the newest value that was set; the reference holds until the next call.
    [[nodiscard]] const T& get() noexcept {
        if ((middle_.load(std::memory_order_relaxed) & kFresh) != 0) {
            const std::uint8_t got = middle_.exchange(reading_, std::memory_order_acq_rel);
            reading_ = static_cast<std::uint8_t>(got & kPlace);
        }
        return places_[reading_];
    }

private:
    static constexpr std::uint8_t kPlace = 3; // bits that name a place
    static constexpr std::uint8_t kFresh = 4; // bit: not yet read

    std::array<T, 3> places_;
    std::uint8_t writing_ = 0;
    std::uint8_t reading_ = 1;
    std::atomic<std::uint8_t> middle_{2};
};

} // namespace quillbench
