#pragma once

#include <sndfile.h>

#include <filesystem>
#include <vector>

namespace quillbench::test {

/// Writes interleaved samples with libsndfile, apart from the project's own reading and writing.
/// `format` is a libsndfile format, such as SF_FORMAT_WAV | SF_FORMAT_FLOAT. False where that failed.
[[nodiscard]] inline bool writeSound(const std::filesystem::path& path,
                                     const std::vector<float>& interleaved,
                                     int rateHz,
                                     int channels,
                                     int format) {
    SF_INFO info{};
    info.samplerate = rateHz;
    info.channels = channels;
    info.format = format;
    SNDFILE* file = sf_open(path.c_str(), SFM_WRITE, &info);
    if (file == nullptr) {
        return false;
    }
    const auto frames = static_cast<sf_count_t>(interleaved.size()) / channels;
    const bool whole = sf_writef_float(file, interleaved.data(), frames) == frames;
    return sf_close(file) == 0 && whole;
}

} // namespace quillbench::test
