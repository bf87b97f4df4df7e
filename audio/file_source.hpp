#pragma once

#include "audio/audio_source.hpp"
#include "audio/sound_file.hpp"

#include <filesystem>
#include <memory>
#include <optional>

namespace quillbench {

/// A recording as a source of sound: the same blocks as from a microphone.
class FileSource final : public AudioSource {
public:
    /// `channel` counts from 0; none: the mean of all. **Errors** as SoundFile::open.
    [[nodiscard]] static Result<std::unique_ptr<FileSource>>
    open(const std::filesystem::path& path, Pace pace, std::optional<int> channel = std::nullopt);

    ~FileSource() override;

    [[nodiscard]] SampleRate sampleRate() const override;
    [[nodiscard]] Result<void> start() override;
    void stop() override;
    [[nodiscard]] bool take(AudioBlock& block) override;

    /// Ended after the last block; Failed where the file turns out to be damaged.
    [[nodiscard]] EngineState state() const override;

private:
    struct Body;
    explicit FileSource(std::unique_ptr<Body> body);
    std::unique_ptr<Body> body_;
};

} // namespace quillbench
