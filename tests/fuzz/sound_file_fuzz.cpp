#include "audio/file_source.hpp"
#include "audio/sound_file.hpp"
#include "core/analysis/analyser.hpp"
#include "tests/fuzz/complaint.hpp"
#include "tests/fuzz/sensible.hpp"
#include "tests/support/sound_files.hpp"

#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

using namespace quillbench;

namespace {

/// A file without a disk.
class FileInMemory {
public:
    FileInMemory() : descriptor_(memfd_create("sound", MFD_CLOEXEC)) { EXPECTS(descriptor_ >= 0); }

    FileInMemory(const FileInMemory&) = delete;
    FileInMemory& operator=(const FileInMemory&) = delete;

    ~FileInMemory() { close(descriptor_); }

    [[nodiscard]] std::string path() const {
        return "/proc/self/fd/" + std::to_string(descriptor_);
    }

    void set(const std::string& bytes) const {
        EXPECTS(ftruncate(descriptor_, 0) == 0);
        EXPECTS(pwrite(descriptor_, bytes.data(), bytes.size(), 0) ==
                static_cast<ssize_t>(bytes.size()));
    }

private:
    int descriptor_;
};

constexpr std::array<int, 10> kContainers{SF_FORMAT_WAV | SF_FORMAT_PCM_16,
                                          SF_FORMAT_WAV | SF_FORMAT_FLOAT,
                                          SF_FORMAT_WAVEX | SF_FORMAT_PCM_24,
                                          SF_FORMAT_RF64 | SF_FORMAT_PCM_16,
                                          SF_FORMAT_W64 | SF_FORMAT_FLOAT,
                                          SF_FORMAT_AIFF | SF_FORMAT_PCM_24,
                                          SF_FORMAT_AU | SF_FORMAT_FLOAT,
                                          SF_FORMAT_CAF | SF_FORMAT_PCM_16,
                                          SF_FORMAT_FLAC | SF_FORMAT_PCM_16,
                                          SF_FORMAT_OGG | SF_FORMAT_VORBIS};

/// One short sound in every container.
std::vector<std::string> soundFiles() {
    std::vector<float> sound(600); // 300 frames of two channels
    for (std::size_t i = 0; i < sound.size(); ++i) {
        sound[i] = 0.3F * std::sin(0.1F * static_cast<float>(i));
    }
    std::vector<std::string> files;
    for (const int format : kContainers) {
        const FileInMemory file;
        EXPECTS(test::writeSound(file.path(), sound, 8000, 2, format));
        std::ifstream in(file.path(), std::ios::binary);
        files.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
        EXPECTS(files.back().size() > 40);
    }
    return files;
}

void listen(const Sound& sound) {
    constexpr std::size_t kMostFrames =
        1000; // enough to pass through; listening has a target of its own
    Analyser analyser(sound.rate, {});
    const std::span<const float> samples(sound.samples);
    const auto shot =
        analyser.push({FrameIndex(0), samples.first(std::min(samples.size(), kMostFrames)), false});
    if (shot) {
        test::expectSensible(*shot, {});
    }
}

void read(const FileInMemory& file, std::optional<int> channel) {
    const auto sound = readSound(file.path(), channel);
    auto source = FileSource::open(file.path(), Pace::AsTaken, channel);
    if (!test::heldOrComplained(sound)) {
        if (source) {
            // What is damaged further on is found there, too.
            AudioBlock block;
            (void)(*source)->start();
            while ((*source)->take(block)) {
            }
            EXPECTS((*source)->state().phase == EnginePhase::Failed);
        }
        return;
    }
    EXPECTS(std::all_of(sound->samples.begin(), sound->samples.end(), [](float sample) {
        return std::isfinite(sample);
    }));
    EXPECTS(source);
    if (sound->samples.size() < 4096) {
        listen(*sound);
    }
}

} // namespace

/// libsndfile 1.2 loses what libvorbis prepared for an Ogg file whose first page is broken.
extern "C" const char* knownLeaks() __asm__("__lsan_default_suppressions");

extern "C" const char* knownLeaks() {
    return "leak:vorbis_info_init\n";
}

/// Recordings through libsndfile: the first byte chooses container and channel, the second and third where the rest is
/// put over the file's own bytes.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const std::vector<std::string> kFiles = soundFiles();
    static const FileInMemory kFile;
    if (size < 3) {
        return 0;
    }
    std::string bytes = kFiles[data[0] % kFiles.size()];
    const std::size_t place = (static_cast<std::size_t>(data[1]) * 256 + data[2]) % bytes.size();
    const std::size_t count = std::min(size - 3, bytes.size() - place);
    std::copy_n(data + 3, count, bytes.begin() + static_cast<std::ptrdiff_t>(place));
    if (data[0] >= 250) {
        bytes.assign(data + 3, data + size);
    }
    kFile.set(bytes);
    read(kFile, data[0] % 3 == 0 ? std::optional<int>(data[0] % 4) : std::nullopt);
    return 0;
}
