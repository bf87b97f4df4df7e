#pragma once

#include "core/instrument/instrument.hpp"
#include "core/pitch/note.hpp"
#include "core/support/result.hpp"
#include "core/units/cents.hpp"
#include "core/units/frames.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <optional>
#include <string_view>
#include <vector>

namespace quillbench {

/// One string plucked, or (without a choir) a key of the lower manual pressed with the registers that are on.
struct PlayedNote {
    Note key;
    std::size_t keyIndex = 0; ///< in the compass
    std::optional<std::size_t> choir;
    Seconds at{0};
    std::optional<Seconds> hold; ///< none: until the end
};

/// Reads "A3:8@0+2.5,A3:8b@0.03,C4@1": key, choir (none: the key is pressed), `@` seconds, `+` seconds held.
/// **Range** times 0 … 3600 s, at most 1000 notes. **Errors** BadArgument, naming the part that is wrong.
[[nodiscard]] Result<std::vector<PlayedNote>> parsePerformance(std::string_view text,
                                                               const Instrument& instrument);

/// How far a string is out of tune.
struct Detuning {
    StringId string;
    Cents by;
};

/// Reads "8b:A3=+4.2,4:C4=-3": choir, key, cents. **Range** ±600 cents. **Errors** BadArgument, naming the part.
[[nodiscard]] Result<std::vector<Detuning>> parseDetunings(std::string_view text,
                                                           const Instrument& instrument);

/// How loud the room is against the strings: decibels by which noise, or the hum's strongest line, lies below
/// the RMS of the first second after the first pluck.
struct RoomAgainstStrings {
    std::optional<double> noiseBelow;
    std::optional<double> humBelow;
};

/// A pluck of a performance with what is true of it.
struct PerformedPluck {
    Seconds at{0};
    std::optional<Seconds> released; ///< when its damper was let go to fall
    StringId string;
    PluckRecord record;
    PluckTruth truth;
};

/// Two plucks that sound together for a while at an interval that is tuned by its beats.
struct PerformedPair {
    std::size_t lower = 0; ///< index into Performance::plucks
    std::size_t upper = 0;
    std::string_view interval; ///< "unison", "minor-third" … "fifteenth"
    int lowerPartial = 1;
    int upperPartial = 1;
    CoincidentPair pair;
};

struct Performance {
    std::vector<float> samples;
    std::vector<PerformedPluck> plucks;
    std::vector<PerformedPair> pairs;
    Decibel strings; ///< RMS of the first second after the first pluck, without the room
};

/// Plays notes on a virtual instrument. A plectrum in the hand takes 0.01 s: a note at 0 sounds at 0.01 s. The
/// room of `settings` is replaced by `room`. **Range** at least one note; length > 0.
[[nodiscard]] Performance perform(const Instrument& instrument,
                                  VirtualSettings settings,
                                  const std::vector<PlayedNote>& notes,
                                  RoomAgainstStrings room,
                                  Seconds length);

} // namespace quillbench
