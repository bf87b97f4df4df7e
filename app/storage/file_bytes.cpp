#include "app/storage/file_bytes.hpp"

#include <fstream>
#include <sstream>

namespace quillbench {

std::string bytesOf(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream bytes;
    bytes << in.rdbuf();
    return in ? bytes.str() : std::string();
}

} // namespace quillbench
