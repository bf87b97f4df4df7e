#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace quillbench {

/// Bytes of the UTF-8 character that begins at `at`; 0 where none does. Overlong forms, surrogates, what lies beyond
/// U+10FFFF and the zero byte are none. **Range** at < text.size(). **Source** RFC 3629 §4 (value from memory).
[[nodiscard]] std::size_t characterAt(std::string_view text, std::size_t at);

/// What somebody wrote, as a complaint quotes it: on one line and no more than `most` bytes, then "...". Control
/// characters and bytes that are no UTF-8 become "?".
[[nodiscard]] std::string excerpt(std::string_view text, std::size_t most = 40);

} // namespace quillbench
