#include "app/formats/text_file.hpp"

#include <cerrno>
#include <fstream>
#include <sstream>
#include <system_error>

namespace quillbench {

namespace {

std::string reasonOf(int number) {
    return std::generic_category().message(number);
}

} // namespace

Result<std::string> readTextFile(const std::filesystem::path& path, std::uintmax_t mostBytes) {
    std::error_code code;
    const auto status = std::filesystem::status(path, code);
    if (!std::filesystem::exists(status)) {
        return failure(ErrorCode::UnreadableInput,
                       path.string() + ": no such file; look at its path",
                       path.string());
    }
    if (!std::filesystem::is_regular_file(status)) {
        return failure(ErrorCode::UnreadableInput,
                       path.string() + ": not a regular file; give one",
                       path.string());
    }
    if (std::filesystem::file_size(path, code) > mostBytes) {
        return failure(ErrorCode::UnreadableInput,
                       path.string() + ": larger than " + std::to_string(mostBytes >> 20U) +
                           " MiB, which no file of ours is; give another",
                       path.string());
    }
    errno = 0;
    std::ifstream in(path, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    if (!in) {
        return failure(ErrorCode::UnreadableInput,
                       path.string() + ": cannot be read (" + reasonOf(errno) +
                           "); look at its permissions",
                       path.string());
    }
    return text.str();
}

Result<void> writeTextFile(const std::filesystem::path& path, std::string_view text) {
    std::filesystem::path beside = path;
    beside += ".new";
    errno = 0;
    {
        std::ofstream out(beside, std::ios::binary | std::ios::trunc);
        out.write(text.data(), static_cast<std::streamsize>(text.size()));
        out.flush();
        if (!out) {
            return failure(ErrorCode::Environment,
                           path.string() + ": cannot be written (" + reasonOf(errno) +
                               "); choose a folder that may be written, with room on its disk",
                           path.string());
        }
    }
    std::error_code code;
    std::filesystem::rename(beside, path, code);
    if (code) {
        return failure(ErrorCode::Environment,
                       path.string() + ": cannot be replaced (" + code.message() +
                           "); look at the permissions of its folder",
                       path.string());
    }
    return {};
}

} // namespace quillbench
