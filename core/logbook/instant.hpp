#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace quillbench {

/// When something was done: the instant in universal time, and how far the clock on the wall was from it there.
struct Instant {
    std::int64_t milliseconds = 0; ///< since 1970-01-01T00:00Z; years 1 to 9999 can be written
    int offsetMinutes = 0;         ///< wall clock minus universal time; −1440 to 1440
};

/// The span of Instant::milliseconds that has a text.
inline constexpr std::int64_t kEarliestInstant = -62135596800000;
inline constexpr std::int64_t kLatestInstant = 253402300799999;
inline constexpr int kLargestOffset = 1440; ///< minutes

/// "2026-11-26T02:25:51.123Z", always universal time. **Range** within the span above.
/// **Source** ISO 8601.
[[nodiscard]] std::string toText(const Instant& instant);

/// "2026-11-26 03:25" by the clock on the wall. **Range** as toText.
[[nodiscard]] std::string wallClockText(const Instant& instant);

/// Milliseconds of a text as toText writes it; nothing where it is another.
[[nodiscard]] std::optional<std::int64_t> parseUniversalTime(std::string_view text);

} // namespace quillbench
