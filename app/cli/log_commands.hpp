#pragma once

#include "app/storage/logbook.hpp"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

namespace quillbench::cli {

/// What was asked of the logbook; each subcommand uses what it needs.
struct LogOptions {
    std::string logbook; ///< empty: the platform's place
    std::string file;
    std::string folder;
    std::string text;
    std::string instrument;
    std::string string;
    std::string material;
    std::string reason;
    std::optional<double> temperatureC;
    std::optional<double> humidityPercent;
    std::optional<double> diameterMm;
    std::int64_t session = 0; ///< 0: the last
    bool json = false;
    bool practise = false;
};

/// Prints the error as one line; the exit code.
[[nodiscard]] int complainOfLog(const Error& error);

[[nodiscard]] Result<std::filesystem::path> fileOf(const LogOptions& options);

/// Says on standard error what is wrong with the file, if anything. **Errors** as Logbook::open; also: `toWrite`, and
/// it cannot be written.
[[nodiscard]] Result<Logbook> openLog(const LogOptions& options, bool toWrite);

[[nodiscard]] int listed(const LogOptions& options);
[[nodiscard]] int showed(const LogOptions& options);
[[nodiscard]] int verified(const LogOptions& options);

} // namespace quillbench::cli
