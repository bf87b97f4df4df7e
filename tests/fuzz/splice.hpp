#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>

namespace quillbench::test {

/// Two inputs from one: the bytes as they are, and a good file into which they are put, so that inputs get past the
/// first field. The first two bytes say where. **Range** good is not empty.
[[nodiscard]] inline std::array<std::string, 2>
rawAndSpliced(const std::string& good, const std::uint8_t* data, std::size_t size) {
    const std::string bytes(data, data + size);
    if (size <= 2) {
        return {bytes, bytes};
    }
    const std::size_t place = (static_cast<std::size_t>(data[0]) * 256 + data[1]) % good.size();
    std::string spliced = good;
    spliced.replace(place, size - 2, bytes, 2, std::string::npos);
    return {bytes, spliced};
}

} // namespace quillbench::test
