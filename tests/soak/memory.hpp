#pragma once

#include <fstream>

namespace quillbench::soak {

/// What this process holds in memory now, in units of 2²⁰ bytes (Linux).
[[nodiscard]] inline double residentMegabytes() {
    constexpr double kPage = 4096.0;
    std::ifstream statm("/proc/self/statm");
    double all = 0.0;
    double resident = 0.0;
    statm >> all >> resident;
    return resident * kPage / 1048576.0;
}

} // namespace quillbench::soak
