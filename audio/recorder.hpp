#pragma once

#include "core/analysis/sound_block.hpp"
#include "core/support/result.hpp"
#include "core/units/frames.hpp"

#include <filesystem>
#include <memory>
#include <optional>

namespace quillbench {

/// Keeps captured sound as a 24-bit FLAC file. A thread of its own encodes and writes.
/// **Thread** push() from one ordinary thread, never from a callback.
class Recorder {
public:
    /// **Errors** Environment: the file is there already, or cannot be made.
    [[nodiscard]] static Result<std::unique_ptr<Recorder>> begin(const std::filesystem::path& path,
                                                                 SampleRate rate);

    Recorder(const Recorder&) = delete;
    Recorder& operator=(const Recorder&) = delete;
    /// As finish(), without its answer.
    ~Recorder();

    /// Appends. Lost frames are kept as silence, so that time stays true, up to ten seconds for each gap.
    void push(const SoundBlock& block);

    /// Writes the rest and closes; says how many frames the file holds. **Errors** Environment (disk full, …); the
    /// file then holds what was written before.
    [[nodiscard]] Result<FrameCount> finish();

    /// The error that stopped writing, if one did.
    [[nodiscard]] std::optional<Error> trouble() const;

private:
    struct Body;
    explicit Recorder(std::unique_ptr<Body> body);
    std::unique_ptr<Body> body_;
};

} // namespace quillbench
