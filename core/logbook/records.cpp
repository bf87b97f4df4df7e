#include "core/logbook/records.hpp"

#include "core/support/excerpt.hpp"

#include <cmath>

namespace quillbench {

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
