#pragma once

#include "core/support/result.hpp"
#include "core/units/frames.hpp"

#include <cstddef>
#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// A recording read from front to back as mono: WAV, FLAC, AIFF, Ogg, whatever libsndfile reads.
class SoundFile {
public:
    /// `channel` counts from 0; none: the mean of all. **Errors** UnreadableInput (missing, not audio, empty, shorter than
    /// its header says, a rate outside 8–192 kHz) or BadArgument (no such channel); the text names the file.
    [[nodiscard]] static Result<SoundFile> open(const std::filesystem::path& path,
                                                std::optional<int> channel = std::nullopt);

    SoundFile(SoundFile&&) noexcept;
    SoundFile& operator=(SoundFile&&) noexcept;
    ~SoundFile();

    [[nodiscard]] SampleRate rate() const;
    [[nodiscard]] FrameCount length() const;
    [[nodiscard]] int channels() const;

    /// The next samples, full scale ±1; fewer than asked for only at the end, then 0. **Errors** UnreadableInput
    /// (truncated, a sample that is not finite, with its place).
    [[nodiscard]] Result<std::size_t> read(std::span<float> into);

private:
    struct Body;
    explicit SoundFile(std::unique_ptr<Body> body);
    std::unique_ptr<Body> body_;
};

/// A whole recording.
struct Sound {
    SampleRate rate;
    std::vector<float> samples;
};

/// Reads it all. **Errors** as SoundFile.
[[nodiscard]] Result<Sound> readSound(const std::filesystem::path& path,
                                      std::optional<int> channel = std::nullopt);

} // namespace quillbench
