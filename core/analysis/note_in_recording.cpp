#include "core/analysis/note_in_recording.hpp"

#include "core/analysis/key_recogniser.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <array>

namespace quillbench {

namespace {

constexpr int kLowestKey = 21;  // A0: 27.5 Hz at 440
constexpr int kHighestKey = 96; // C7

} // namespace

std::optional<int> recogniseNote(std::span<const float> samples,
                                 SampleRate rate,
                                 std::span<const FrameIndex> onsets,
                                 FrameIndex from,
                                 Hertz a4) {
    KeyRecogniser recogniser(rate);
    recogniser.setTarget(chromaticTarget(a4, kLowestKey, kHighestKey));
    const auto needed = rate.frames(KeyRecogniser::lookAfter(KeyRecogniser::kLooks - 1)).value();
    for (const FrameIndex onset : onsets) {
        const std::int64_t at = std::max<std::int64_t>(onset.value(), 0);
        if (onset < from || at + needed > static_cast<std::int64_t>(samples.size())) {
            continue;
        }
        const std::int64_t begin =
            std::max<std::int64_t>(at - rate.frames(KeyRecogniser::kBefore).value(), 0);
        const auto sound = samples.subspan(static_cast<std::size_t>(begin),
                                           static_cast<std::size_t>(at + needed - begin));
        const KeyVerdict verdict =
            recogniser.look(KeyRecogniser::kLooks - 1, sound, static_cast<std::size_t>(at - begin));
        if (verdict.string) {
            return kLowestKey + static_cast<int>(verdict.string->course);
        }
    }
    return std::nullopt;
}

Note noteOfKey(int midiNumber) {
    EXPECTS(midiNumber >= 12 && midiNumber <= 108);
    constexpr std::array<PitchClass, 12> kSpelling{{{Letter::C, 0},
                                                    {Letter::C, 1},
                                                    {Letter::D, 0},
                                                    {Letter::E, -1},
                                                    {Letter::E, 0},
                                                    {Letter::F, 0},
                                                    {Letter::F, 1},
                                                    {Letter::G, 0},
                                                    {Letter::G, 1},
                                                    {Letter::A, 0},
                                                    {Letter::B, -1},
                                                    {Letter::B, 0}}};
    Note note;
    note.pitchClass = kSpelling[static_cast<std::size_t>(midiNumber % 12)];
    note.octave = static_cast<std::int8_t>(midiNumber / 12 - 1);
    return note;
}

} // namespace quillbench
