#include "audio/sound_file.hpp"

#include "core/support/contract.hpp"

#include <sndfile.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <string_view>
#include <system_error>
#include <utility>

namespace quillbench {
namespace {

constexpr int kLowestRateHz = 8000;
constexpr int kHighestRateHz = 192000;
constexpr std::size_t kFramesAtOnce = 4096;
// Sizes from here up stand in headers of sound that was streamed, where the length was not known.
constexpr unsigned long long kUnknownSize = 0x7FFF0000ULL;

struct CloseFile {
    void operator()(SNDFILE* file) const { sf_close(file); }
};

using FileHandle = std::unique_ptr<SNDFILE, CloseFile>;

Unexpected<Error> unreadable(const std::filesystem::path& path, const std::string& what) {
    return failure(ErrorCode::UnreadableInput, path.string() + ": " + what, path.string());
}

/// libsndfile shortens a sound that ends before its header says, and tells so only in its log: a line such as
/// "data : 96000 (should be 48000)".
bool isTruncated(SNDFILE* file) {
    std::array<char, 8192> log{};
    sf_command(file, SFC_GET_LOG_INFO, log.data(), static_cast<int>(log.size()));
    std::string_view rest(log.data());
    while (!rest.empty()) {
        const std::size_t end = rest.find('\n');
        const std::string_view line = rest.substr(0, end);
        rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
        const std::size_t first = line.find_first_not_of(" *");
        const std::size_t colon = line.find(':');
        const std::size_t should = line.find("(should be ");
        if (first == std::string_view::npos || colon == std::string_view::npos ||
            should == std::string_view::npos ||
            (line.substr(first, 4) != "data" && line.substr(first, 4) != "SSND")) {
            continue;
        }
        const unsigned long long says =
            std::strtoull(std::string(line.substr(colon + 1)).c_str(), nullptr, 10);
        const unsigned long long is =
            std::strtoull(std::string(line.substr(should + 11)).c_str(), nullptr, 10);
        if (says > is && says < kUnknownSize) {
            return true;
        }
    }
    return false;
}

} // namespace

struct SoundFile::Body {
    std::filesystem::path path;
    FileHandle file;
    SF_INFO info{};
    std::optional<int> channel;
    std::int64_t done = 0; // frames read
    std::vector<float> interleaved;
};

SoundFile::SoundFile(std::unique_ptr<Body> body) : body_(std::move(body)) {
}

SoundFile::SoundFile(SoundFile&&) noexcept = default;
SoundFile& SoundFile::operator=(SoundFile&&) noexcept = default;
SoundFile::~SoundFile() = default;

Result<SoundFile> SoundFile::open(const std::filesystem::path& path, std::optional<int> channel) {
    std::error_code ignored;
    if (!std::filesystem::exists(path, ignored)) {
        return unreadable(path, "there is no such file; look at its path");
    }
    if (std::filesystem::is_directory(path, ignored)) {
        return unreadable(path, "this is a folder, give a sound file");
    }
    if (std::filesystem::is_regular_file(path, ignored) &&
        std::filesystem::file_size(path, ignored) == 0) {
        return unreadable(path, "the file is empty");
    }
    auto body = std::make_unique<Body>();
    body->path = path;
    body->file.reset(sf_open(path.c_str(), SFM_READ, &body->info));
    if (!body->file) {
        return unreadable(path,
                          std::string("not a sound file that can be read (") +
                              sf_strerror(nullptr) + "): give WAV, FLAC, AIFF or Ogg");
    }
    const SF_INFO& info = body->info;
    if (info.samplerate < kLowestRateHz || info.samplerate > kHighestRateHz) {
        return unreadable(path,
                          "its rate is " + std::to_string(info.samplerate) +
                              " Hz: 8000 to 192000 Hz can be used");
    }
    if (isTruncated(body->file.get())) {
        return unreadable(path, "it is cut short: it holds less sound than its header says");
    }
    if (info.frames <= 0) {
        return unreadable(path, "it holds no sound");
    }
    if (channel && (*channel < 0 || *channel >= info.channels)) {
        return failure(ErrorCode::BadArgument,
                       path.string() + ": channel " + std::to_string(*channel + 1) +
                           " was asked for, it has " + std::to_string(info.channels) +
                           ": choose 1" +
                           (info.channels > 1 ? " to " + std::to_string(info.channels) : ""),
                       path.string());
    }
    body->channel = channel;
    body->interleaved.resize(kFramesAtOnce * static_cast<std::size_t>(info.channels));
    return SoundFile(std::move(body));
}

SampleRate SoundFile::rate() const {
    return SampleRate(body_->info.samplerate);
}

FrameCount SoundFile::length() const {
    return FrameCount(body_->info.frames);
}

int SoundFile::channels() const {
    return body_->info.channels;
}

Result<std::size_t> SoundFile::read(std::span<float> into) {
    Body& body = *body_;
    const auto channels = static_cast<std::size_t>(body.info.channels);
    std::size_t filled = 0;
    while (filled < into.size()) {
        const std::size_t want = std::min(into.size() - filled, kFramesAtOnce);
        const sf_count_t got =
            sf_readf_float(body.file.get(), body.interleaved.data(), static_cast<sf_count_t>(want));
        if (got <= 0) {
            if (body.done < body.info.frames) {
                return unreadable(body.path,
                                  "it is cut short: " + std::to_string(body.done) + " of " +
                                      std::to_string(body.info.frames) + " frames can be read");
            }
            break;
        }
        for (std::size_t i = 0; i < static_cast<std::size_t>(got); ++i) {
            const float* frame = body.interleaved.data() + i * channels;
            double sum = 0.0;
            for (std::size_t c = 0; c < channels; ++c) {
                sum += static_cast<double>(frame[c]);
            }
            const double value =
                body.channel ? static_cast<double>(frame[static_cast<std::size_t>(*body.channel)])
                             : sum / static_cast<double>(channels);
            if (!std::isfinite(sum) || !std::isfinite(static_cast<float>(value))) {
                return unreadable(body.path,
                                  "sample " +
                                      std::to_string(body.done + static_cast<std::int64_t>(i)) +
                                      " is not a finite number: export the sound again");
            }
            into[filled + i] = static_cast<float>(value);
        }
        filled += static_cast<std::size_t>(got);
        body.done += got;
    }
    return filled;
}

Result<Sound> readSound(const std::filesystem::path& path, std::optional<int> channel) {
    auto file = SoundFile::open(path, channel);
    if (!file) {
        return Unexpected<Error>(file.error());
    }
    Sound sound;
    sound.rate = file->rate();
    std::vector<float> part(kFramesAtOnce);
    for (;;) {
        const auto got = file->read(part);
        if (!got) {
            return Unexpected<Error>(got.error());
        }
        if (*got == 0) {
            return sound;
        }
        sound.samples.insert(
            sound.samples.end(), part.begin(), part.begin() + static_cast<std::ptrdiff_t>(*got));
    }
}

} // namespace quillbench
