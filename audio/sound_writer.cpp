#include "audio/sound_writer.hpp"

#include <sndfile.h>

#include <cmath>

namespace quillbench {

Result<void> writeSound(const std::filesystem::path& path, const Sound& sound) {
    SF_INFO info{};
    info.samplerate = static_cast<int>(std::lround(sound.rate.hz()));
    info.channels = 1;
    if (path.extension() == ".wav") {
        info.format = SF_FORMAT_WAV | SF_FORMAT_PCM_24;
    } else if (path.extension() == ".flac") {
        info.format = SF_FORMAT_FLAC | SF_FORMAT_PCM_24;
    } else {
        return failure(ErrorCode::BadArgument,
                       path.string() + ": the name of a sound to write ends in .wav or .flac",
                       path.string());
    }
    SNDFILE* file = sf_open(path.string().c_str(), SFM_WRITE, &info);
    if (file == nullptr) {
        return failure(ErrorCode::Environment,
                       path.string() + ": cannot be written: " + sf_strerror(nullptr),
                       path.string());
    }
    sf_command(file, SFC_SET_CLIPPING, nullptr, SF_TRUE);
    const auto frames = static_cast<sf_count_t>(sound.samples.size());
    const bool written = sf_writef_float(file, sound.samples.data(), frames) == frames;
    const bool closed = sf_close(file) == 0;
    if (!written || !closed) {
        return failure(ErrorCode::Environment,
                       path.string() + ": could not be written to its end; is the disk full?",
                       path.string());
    }
    return {};
}

} // namespace quillbench
