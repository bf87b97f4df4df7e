#pragma once

#include "audio/sound_file.hpp"
#include "core/support/result.hpp"

#include <filesystem>

namespace quillbench {

/// Writes a mono sound in 24 bits: FLAC where the name ends in ".flac", WAV for ".wav". Samples beyond ±1 are clipped.
/// **Errors** BadArgument (another ending), Environment (the file cannot be made, disk full); the text names
/// the file.
[[nodiscard]] Result<void> writeSound(const std::filesystem::path& path, const Sound& sound);

} // namespace quillbench
