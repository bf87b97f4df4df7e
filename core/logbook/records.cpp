#include "core/logbook/records.hpp"

#include <cmath>

namespace quillbench {

namespace {

bool continues(std::string_view text, std::size_t at) {
    return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U;
}

/// Bytes of the character that begins here; 0 where none does. Overlong forms, surrogates and what lies beyond
/// U+10FFFF are none. **Source** RFC 3629 §4 (value from memory).
std::size_t characterAt(std::string_view text, std::size_t at) {
    const auto first = static_cast<unsigned char>(text[at]);
    const auto second = at + 1 < text.size() ? static_cast<unsigned char>(text[at + 1])
                                             : static_cast<unsigned char>(0);
    if (first < 0x80U) {
        return first == 0 ? 0 : 1;
    }
    if (first >= 0xC2U && first <= 0xDFU) {
        return continues(text, at + 1) ? 2 : 0;
    }
    if (first >= 0xE0U && first <= 0xEFU) {
        const bool sound = continues(text, at + 1) && continues(text, at + 2) &&
                           !(first == 0xE0U && second < 0xA0U) &&
                           !(first == 0xEDU && second >= 0xA0U);
        return sound ? 3 : 0;
    }
    if (first >= 0xF0U && first <= 0xF4U) {
        const bool sound = continues(text, at + 1) && continues(text, at + 2) &&
                           continues(text, at + 3) && !(first == 0xF0U && second < 0x90U) &&
                           !(first == 0xF4U && second >= 0x90U);
        return sound ? 4 : 0;
    }
    return 0;
}

} // namespace

std::string complaintAbout(const std::string& text) {
    if (text.size() > kLongestText) {
        return "is " + std::to_string(text.size()) + " bytes long: give " +
               std::to_string(kLongestText) + " at most";
    }
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = characterAt(text, at);
        if (length == 0) {
            return "is no text from byte " + std::to_string(at) +
                   " on: give UTF-8 without zero bytes";
        }
        at += length;
    }
    return {};
}

std::string complaintAbout(double number) {
    return std::isfinite(number) ? std::string() : "is not finite: give a number";
}

std::string complaintAbout(std::int64_t number) {
    return number >= 0 ? std::string() : "is negative: give the number of a row";
}

std::string complaintAbout(int /*number*/) {
    return {};
}

std::string complaintAbout(const Instant& instant) {
    const bool sound =
        instant.milliseconds >= kEarliestInstant && instant.milliseconds <= kLatestInstant &&
        instant.offsetMinutes >= -kLargestOffset && instant.offsetMinutes <= kLargestOffset;
    return sound ? std::string() : "is no time: give one of the years 1 to 9999";
}

} // namespace quillbench
