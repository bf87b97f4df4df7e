#include "app/storage/logbook.hpp"

#include <chrono>
#include <cstdlib>
#include <ctime>
#include <random>

namespace quillbench {

Instant instantNow() {
    using namespace std::chrono;
    const auto now = system_clock::now();
    const std::time_t seconds = system_clock::to_time_t(now);
    std::tm wall{};
    ::localtime_r(&seconds, &wall);
    Instant instant;
    instant.milliseconds = duration_cast<milliseconds>(now.time_since_epoch()).count();
    instant.offsetMinutes = static_cast<int>(wall.tm_gmtoff / 60);
    return instant;
}

std::string newUid() {
    constexpr std::string_view kDigits = "0123456789abcdef";
    constexpr int kLength = 32;
    std::random_device randomness;
    std::string uid;
    for (int i = 0; i < kLength; ++i) {
        uid += kDigits[randomness() & 15U];
    }
    return uid;
}

Result<std::filesystem::path> logbookPlace() {
    const auto named = [](const char* name) {
        const char* value = std::getenv(name); // NOLINT(concurrency-mt-unsafe): nobody sets it here
        return std::filesystem::path(value == nullptr ? "" : value);
    };
    std::filesystem::path data = named("XDG_DATA_HOME");
    if (!data.is_absolute()) {
        const std::filesystem::path home = named("HOME");
        if (!home.is_absolute()) {
            return failure(ErrorCode::Environment,
                           "there is no home folder to keep the logbook in; name a file with "
                           "--logbook");
        }
        data = home / ".local" / "share";
    }
    return data / "quillbench" / "logbook.sqlite";
}

} // namespace quillbench
