#pragma once

#include "core/support/result.hpp"
#include "core/temperament/temperament.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace quillbench {

/// Messages of the MIDI Tuning Standard, complete from F0 to F7. They have twelve notes to the octave; a
/// temperament with split sharps is refused. **Source** [MIDI1996] "MIDI Tuning"; scale/octave forms [CA021];
/// the byte layout was checked against pages that quote them, the checksum is from memory.
using SystemExclusive = std::vector<std::uint8_t>;

struct MidiTarget {
    std::uint8_t device = 0x7F; ///< 0 … 127; 127 is every device
    std::uint8_t program = 0;   ///< tuning program, 0 … 127
};

/// Scale/octave tuning, 1-byte form (08 08): whole cents from equal, for all channels. The pitch standard is not
/// part of it. **Errors** BadArgument where a note is not within −64 … +63 cents of equal.
[[nodiscard]] Result<SystemExclusive> octaveTuningOneByte(const TunedScale& scale,
                                                          MidiTarget target = {});

/// Scale/octave tuning, 2-byte form (08 09): steps of 100/8192 cent from equal, for all channels.
/// **Errors** BadArgument where a note is not within −100 … +100 cents of equal.
[[nodiscard]] Result<SystemExclusive> octaveTuningTwoBytes(const TunedScale& scale,
                                                           MidiTarget target = {});

/// Single note tuning change, real time (08 02), for the keys from `lowest` to `highest`, pitch standard included.
/// **Range** 1 to 127 keys. **Accuracy** half of 100/16384 cent.
[[nodiscard]] Result<SystemExclusive> singleNoteTuning(const TunedScale& scale,
                                                       const Note& lowest,
                                                       const Note& highest,
                                                       MidiTarget target = {});

/// Bulk tuning dump (08 01) of all 128 keys with the temperament's id for its name, pitch standard included. Keys
/// below 8.1758 or above 13289.73 Hz, which the format cannot hold, are marked "no change".
[[nodiscard]] Result<SystemExclusive> bulkTuningDump(const TunedScale& scale,
                                                     MidiTarget target = {});

/// The three bytes of a frequency: semitone in equal temperament at A4 = 440 Hz, and 14 bits of the semitone above
/// it. Empty outside the format's range.
struct FrequencyData {
    std::uint8_t semitone = 0;
    std::uint8_t high = 0;
    std::uint8_t low = 0;

    bool operator==(const FrequencyData&) const = default;
};

[[nodiscard]] std::optional<FrequencyData> frequencyData(Hertz pitch);

} // namespace quillbench
