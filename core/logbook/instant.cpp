#include "core/logbook/instant.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cstdio>

namespace quillbench {

namespace {

constexpr std::int64_t kMillisecondsADay = 86400000;
constexpr std::int64_t kMillisecondsAMinute = 60000;
constexpr std::int64_t kDaysAnEra = 146097;  // 400 years
constexpr std::int64_t kDaysTo1970 = 719468; // from 0000-03-01

struct Date {
    std::int64_t year = 0;
    int month = 0;
    int day = 0;
};

std::int64_t floorDivided(std::int64_t value, std::int64_t by) {
    return value / by - (value % by < 0 ? 1 : 0);
}

/// The proleptic Gregorian calendar; years begin in March here, so that the leap day comes last.
Date dateOf(std::int64_t daysSince1970) {
    const std::int64_t days = daysSince1970 + kDaysTo1970;
    const std::int64_t era = floorDivided(days, kDaysAnEra);
    const std::int64_t dayOfEra = days - era * kDaysAnEra;
    const std::int64_t yearOfEra =
        (dayOfEra - dayOfEra / 1460 + dayOfEra / 36524 - dayOfEra / 146096) / 365;
    const std::int64_t dayOfYear = dayOfEra - (365 * yearOfEra + yearOfEra / 4 - yearOfEra / 100);
    const std::int64_t month = (5 * dayOfYear + 2) / 153;
    Date date;
    date.day = static_cast<int>(dayOfYear - (153 * month + 2) / 5 + 1);
    date.month = static_cast<int>(month < 10 ? month + 3 : month - 9);
    date.year = yearOfEra + era * 400 + (date.month <= 2 ? 1 : 0);
    return date;
}

std::int64_t daysOf(const Date& date) {
    const std::int64_t year = date.year - (date.month <= 2 ? 1 : 0);
    const std::int64_t era = floorDivided(year, 400);
    const std::int64_t yearOfEra = year - era * 400;
    const std::int64_t month = date.month > 2 ? date.month - 3 : date.month + 9;
    const std::int64_t dayOfYear = (153 * month + 2) / 5 + date.day - 1;
    return era * kDaysAnEra + yearOfEra * 365 + yearOfEra / 4 - yearOfEra / 100 + dayOfYear -
           kDaysTo1970;
}

/// Takes `digits` digits and one mark off the front; −1 where they are not there.
int taken(std::string_view& text, std::size_t digits, char mark) {
    if (text.size() <= digits || text[digits] != mark) {
        return -1;
    }
    int value = 0;
    for (const char digit : text.substr(0, digits)) {
        if (digit < '0' || digit > '9') {
            return -1;
        }
        value = value * 10 + (digit - '0');
    }
    text.remove_prefix(digits + 1);
    return value;
}

} // namespace

std::string toText(const Instant& instant) {
    EXPECTS(instant.milliseconds >= kEarliestInstant && instant.milliseconds <= kLatestInstant);
    const std::int64_t days = floorDivided(instant.milliseconds, kMillisecondsADay);
    const int time = static_cast<int>(instant.milliseconds - days * kMillisecondsADay);
    const Date date = dateOf(days);
    std::array<char, 96> text{};
    const int length = std::snprintf(text.data(),
                                     text.size(),
                                     "%04d-%02d-%02dT%02d:%02d:%02d.%03dZ",
                                     static_cast<int>(date.year),
                                     date.month,
                                     date.day,
                                     time / 3600000,
                                     time / 60000 % 60,
                                     time / 1000 % 60,
                                     time % 1000);
    return {text.data(), static_cast<std::size_t>(length)};
}

std::string wallClockText(const Instant& instant) {
    const std::int64_t wall = instant.milliseconds + instant.offsetMinutes * kMillisecondsAMinute;
    std::string text = toText({std::min(std::max(wall, kEarliestInstant), kLatestInstant), 0});
    constexpr std::size_t kToMinutes = 16;
    text.resize(kToMinutes);
    text[10] = ' ';
    return text;
}

std::optional<std::int64_t> parseUniversalTime(std::string_view text) {
    const int year = taken(text, 4, '-');
    const int month = taken(text, 2, '-');
    const int day = taken(text, 2, 'T');
    const int hour = taken(text, 2, ':');
    const int minute = taken(text, 2, ':');
    const int second = taken(text, 2, '.');
    const int millisecond = taken(text, 3, 'Z');
    const bool plausible = text.empty() && year >= 1 && month >= 1 && month <= 12 && day >= 1 &&
                           day <= 31 && hour >= 0 && hour < 24 && minute >= 0 && minute < 60 &&
                           second >= 0 && second < 60 && millisecond >= 0;
    if (!plausible) {
        return std::nullopt;
    }
    const std::int64_t days = daysOf({year, month, day});
    if (dateOf(days).day != day) {
        return std::nullopt; // the 31st of a month of thirty days
    }
    return days * kMillisecondsADay + hour * std::int64_t{3600000} + minute * kMillisecondsAMinute +
           second * std::int64_t{1000} + millisecond;
}

} // namespace quillbench
