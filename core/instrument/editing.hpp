#pragma once

#include "core/instrument/instrument.hpp"
#include "core/support/result.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace quillbench {

// What a person changes of an instrument. Every function takes an instrument that is whole and gives another that is
// whole: each choir keeps a string for each key and for as far as the keyboard shifts, each register keeps its strings
// and its manual. **Errors** BadArgument, one line that says what is allowed; the instrument given stays as it was.

/// The lowest octaves that withCompass() can lay, as Compass::bassOctave names them.
[[nodiscard]] const std::vector<std::string>& bassOctaves();

/// A keyboard from `low` (only where the bass octave is chromatic; the others begin where their name says) to `high`.
/// `splitSharps` cuts E♭ and G♯ into two keys each. Strings that stay are kept; those of new keys are laid on the line
/// of their neighbours: straight in log length over semitones, wire of the nearest.
[[nodiscard]] Result<Instrument> withCompass(Instrument instrument,
                                             std::string_view bassOctave,
                                             const Note& low,
                                             const Note& high,
                                             bool splitSharps);

/// Whether the compass has keys that are cut in two above its lowest octave.
[[nodiscard]] bool hasSplitSharps(const Compass& compass);

/// Positions of a keyboard that shifts, in semitones, each once and 0 among them. Strings are added or taken away at
/// the end that moves.
[[nodiscard]] Result<Instrument> withPositions(Instrument instrument, std::vector<int> positions);

/// **Range** 1 … kMostManuals. Registers of a manual that goes are played from the highest that stays; with one manual
/// there is no coupler and no dogleg.
[[nodiscard]] Result<Instrument> withManuals(Instrument instrument, std::size_t count);

[[nodiscard]] Result<Instrument> withCoupler(Instrument instrument, Coupler coupler);

/// a′ in Hz. **Range** kPitchStandardLimits.
[[nodiscard]] Result<Instrument> withStandard(Instrument instrument, double a4Hz);

/// One more choir and a register that plucks it. Its strings are laid where the nearest choir has strings of the same
/// pitch, and on that choir's line beyond its ends: a start to be measured, not a design.
[[nodiscard]] Result<Instrument> withChoir(Instrument instrument, Footage footage);

/// Its registers go with it. The last choir stays. **Range** choir < choirs.
[[nodiscard]] Result<Instrument> withoutChoir(Instrument instrument, std::size_t choir);

/// One more row of jacks for a choir. **Range** choir < choirs.
[[nodiscard]] Result<Instrument> withRegister(Instrument instrument, std::size_t choir);

/// The last register stays. **Range** reg < registers.
[[nodiscard]] Result<Instrument> withoutRegister(Instrument instrument, std::size_t reg);

/// A register as it is to be; its id stays. **Range** reg < registers.
[[nodiscard]] Result<Instrument>
withRegisterAs(Instrument instrument, std::size_t reg, JackRegister wanted);

/// **Range** string of the instrument; length, diameter and pin within core/instrument/limits, material known.
[[nodiscard]] Result<Instrument>
withString(Instrument instrument, StringId string, const StringMake& make, PinPlace pin);

/// The lengths between two strings of a choir that are known: straight in log length over semitones.
/// **Range** to < strings of the choir. **Errors** also where nothing lies between.
[[nodiscard]] Result<Instrument>
withLengthsBetween(Instrument instrument, std::size_t choir, std::size_t from, std::size_t to);

/// Wire and material of the strings from one to another become those of the first.
/// **Range** to < strings of the choir. **Errors** also where it is one string.
[[nodiscard]] Result<Instrument>
withWireOfFirst(Instrument instrument, std::size_t choir, std::size_t from, std::size_t to);

} // namespace quillbench
