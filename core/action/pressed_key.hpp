#pragma once

#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <cstddef>
#include <optional>
#include <span>

namespace quillbench {

/// A key as it would sound: its lowest string of those that are on.
struct KeySound {
    std::size_t key = 0;
    Hertz pitch; ///< of partial 1, to within a quarter of a semitone
    double inharmonicity = 0.0;
};

/// Which key brought a sound: of all partials of its lowest string each that rose speaks for it, each that did not
/// against it, so that neither the octave that a 4′ sounds nor the octave below is taken for it.
/// **Range** `begins` and `sounds` seconds into the sound: before the first pluck that is known of, and where all strings
/// of the key sound. Of what lies before the one the quietest 0.25 s count, so that a stroke that nobody told of does no
/// harm; after the other 0.25 s are looked at. Keys not empty, pitch 15 to 4 000 Hz. Nothing where no key rose by itself,
/// or the sound is too short.
/// **Accuracy** pressed_key_test: on the virtual instrument all keys, one to three registers.
[[nodiscard]] std::optional<std::size_t> pressedKey(std::span<const float> samples,
                                                    SampleRate rate,
                                                    Seconds begins,
                                                    Seconds sounds,
                                                    std::span<const KeySound> keys);

} // namespace quillbench
