#pragma once

#include "core/pitch/note.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <optional>
#include <span>

namespace quillbench {

/// The key whose 8′ string was plucked at the first onset from `from` on that is recognised, as its number on a
/// twelve-note keyboard (60 = middle C); empty where none is.
[[nodiscard]] std::optional<int> recogniseNote(std::span<const float> samples,
                                               SampleRate rate,
                                               std::span<const FrameIndex> onsets,
                                               FrameIndex from,
                                               Hertz a4);

/// The usual spelling of a key: E♭ and B♭, otherwise sharps. **Range** 12 to 108.
[[nodiscard]] Note noteOfKey(int midiNumber);

} // namespace quillbench
