#pragma once

#include "core/instrument/instrument.hpp"
#include "core/units/beat_rate.hpp"
#include "core/units/cents.hpp"
#include "core/units/decibel.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"
#include "core/virtual/command.hpp"

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// What surrounds the strings.
struct VirtualRoom {
    std::optional<Decibel> noise; ///< RMS of the room's noise re full scale; none: silent
    std::optional<Decibel> hum;   ///< amplitude of the mains hum's strongest line; none: silent
    Hertz mains{50.0};            ///< frequency of the mains, not a round multiple of anything here
    double kelvinPerHour = 0.0;   ///< the strings warm by this much; each sinks by its own amount
};

/// How the pins sit in their block; all zero is a pin that does exactly what the hand does.
struct PinBehaviour {
    double backlash = 0.0; ///< degrees the hammer turns before the pin follows, on each reversal
    double springBack =
        0.0; ///< part of the pin's elastic twist (0 … 1) that the string feels until the hammer is let go
    double slip = 0.0; ///< degrees: standard deviation of a pin's jump per degree it turns
};

/// Something that is not as it should be with one string or its jack.
struct StringFault {
    enum class Kind {
        FalseBeat,   ///< each partial is two lines `amount` cents apart, nearly equal in strength
        Broken,      ///< no string: the jack is heard, no tone
        HangingJack, ///< the jack stays up after the first pluck: no damping and no second pluck
        LateDamper,  ///< the damper takes hold `amount` seconds late
        StrayJack, ///< plucks `amount` millimetres of key travel later than its row (negative: earlier)
        WeakPlectrum, ///< plucks with `amount` (0 … 1) of the usual displacement
        EarlyDamper, ///< `amount` (0 … 1) of the damper's grip stays on the string while the key is down
        PartialDamper, ///< holds `amount` (0 … 1) less of the motion along the soundboard than it should
    };
    Kind kind = Kind::FalseBeat;
    StringId string;
    double amount = 0.0;
};

/// Everything that decides how a virtual instrument sounds, besides what is played.
struct VirtualSettings {
    SampleRate sampleRate{48000.0}; ///< 8 000 … 192 000 Hz
    std::uint64_t seed = 1;         ///< of every string's own character, and of the noises
    /// Rest pitch of partial 1 of each string: [choir][course], one for each string of the instrument,
    /// 10 … 8 000 Hz (an 8′ string: its key's pitch; a 4′ string: an octave above).
    std::vector<std::vector<Hertz>> pitches;
    int position = 0;              ///< of the keyboard, one of Instrument::positions
    std::vector<bool> registersOn; ///< one for each register; empty: all on
    VirtualRoom room;
    PinBehaviour pins;
    std::vector<StringFault> faults;
    std::size_t soundingLimit = 64; ///< strings sounding at once; beyond it the quietest fades
    bool actionNoise = true;        ///< plectrum, key and jack are heard
};

/// A pluck that has happened, with the string's state just after it left the plectrum.
struct PluckRecord {
    static constexpr std::size_t kMaxModes = 80; ///< 40 partials in two polarisations

    FrameIndex at;
    StringId string;
    double strength = 1.0; ///< displacement re the register's usual
    Hertz rest;            ///< rest pitch of partial 1 at that instant
    double inharmonicity = 0.0;
    std::size_t modes = 0;
    std::array<double, 2 * kMaxModes> state{}; ///< real and imaginary parts of the modes
};

/// The pitch of one pluck by the definition of the *sustain pitch*, from the generator's own state: mean
/// frequency of each partial (least-squares slope of its phase) from 0.10 s after the pluck to 2.5 s or
/// −40 dB, and the stiff comb fitted to them. As if the string were left to ring.
struct PluckTruth {
    struct Partial {
        int number = 0;
        Hertz mean;      ///< over its part of the window
        Seconds used{0}; ///< how long it stayed above −40 dB, at most 2.4 s
        Decibel level;   ///< in the first quarter of it, re full scale
        double uncertainty =
            0.0; ///< Hz: of the mean, against a notional noise 50 dB below the loudest
    };

    Hertz sustain;              ///< f0·√(1+B) of the fitted comb
    Hertz rest;                 ///< of partial 1
    double inharmonicity = 0.0; ///< B of the string (not of the fit)
    Cents start;                ///< how much sharper than it sustains it started (t = 0)
    Cents glide;                ///< start against rest
    std::vector<Partial> partials;
};

/// Two partials that beat.
struct CoincidentPair {
    Hertz lower;
    Hertz upper;

    /// + = the upper string is wide.
    [[nodiscard]] BeatRate beat() const { return upper - lower; }

    [[nodiscard]] Cents width() const { return interval(lower, upper); }
};

/// A whole instrument that sounds: strings, jacks, dampers, registers, pins, room. Deterministic: the
/// same settings and the same frame-stamped commands give the same samples, however the rendering is
/// divided into blocks.
///
/// What a string does: modes of a stiff string [Fletcher1964] plucked at a point; two polarisations a
/// part of a cent apart, which decay differently [Weinreich1977]; tension that grows with the energy of the
/// motion, so that the pitch starts sharp and sinks [Legge1984]; decay that grows with frequency.
class VirtualInstrument {
public:
    /// **Errors** aborts (EXPECTS) where `settings` does not fit `instrument`. Allocates everything.
    VirtualInstrument(const Instrument& instrument, const VirtualSettings& settings);
    VirtualInstrument(VirtualInstrument&&) noexcept;
    VirtualInstrument& operator=(VirtualInstrument&&) noexcept;
    ~VirtualInstrument();

    /// How long a plectrum in the hand rests on the string before it plucks (PluckString).
    static constexpr Seconds kHandContact{0.010};

    /// Takes a command; one that lies in the future waits for its frame. Commands that name what the
    /// instrument does not have are ignored. False where more than 4096 commands wait.
    /// **Real-time** no allocation.
    bool apply(const VirtualCommand& command) noexcept;

    /// The next samples, mono, full scale ±1. **Range** any length. **Real-time** no allocation, lock or
    /// system call.
    void render(std::span<float> into) noexcept;

    /// The frame that render() makes next.
    [[nodiscard]] FrameIndex now() const noexcept;

    /// Whether anything but the room is heard or is about to be: a string, the action, a command that waits.
    [[nodiscard]] bool sounds() const noexcept;

    /// Where partial 1 of a string would rest now (pin, temperature, finger on it).
    [[nodiscard]] Hertz restPitch(StringId string) const;

    /// How far one degree of its pin moves a string where it stands now.
    [[nodiscard]] Cents centsPerDegree(StringId string) const;

    [[nodiscard]] bool registerOn(std::size_t reg) const;

    /// The oldest pluck not yet taken; at most the last 64 are kept.
    [[nodiscard]] std::optional<PluckRecord> takePluck() noexcept;

    /// **Accuracy** virtual_instrument_test "a pluck's partials are where its truth says". Allocates.
    [[nodiscard]] PluckTruth truth(const PluckRecord& pluck) const;

    /// Two partials as they sound together: their mean frequencies over 0.10–2.5 s after the later of the two
    /// plucks. Nothing where one of them is not heard then. Allocates.
    [[nodiscard]] std::optional<CoincidentPair> coincidentPair(const PluckRecord& lower,
                                                               int lowerPartial,
                                                               const PluckRecord& upper,
                                                               int upperPartial) const;

private:
    struct Body;
    std::unique_ptr<Body> body_;
};

} // namespace quillbench
