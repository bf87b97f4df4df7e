#pragma once

#include "core/analysis/snapshot.hpp"
#include "core/analysis/sound_block.hpp"
#include "core/dsp/phase_track.hpp"
#include "core/dsp/stiff_comb.hpp"
#include "core/instrument/instrument.hpp"
#include "core/units/cents.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <array>
#include <memory>
#include <optional>
#include <vector>

namespace quillbench {

/// The string that is listened to.
struct ListeningFor {
    StringId string;          ///< passed on into the reading
    Hertz target;             ///< where partial 1 should lie; **Range** 15 to 4 000 Hz
    Cents range{60.0};        ///< how far from the target it is looked for; 5 to 250 cents
    double inharmonicity = 0; ///< B from the string's make; 0 where unknown
    double alsoSounding =
        0.0; ///< pitch of another string of the same key as a multiple of this one's:
             ///< 2 for an 8′ with its 4′, 0.5 the other way, 1 for a unison; 0 for none
};

/// What a reading was made of: for pictures and for learning.
struct ListeningTrace {
    static constexpr double kGlideStep = 0.02; ///< seconds
    static constexpr std::size_t kGlideSteps = 126;

    std::vector<PhaseTrack> tracks; ///< of the partials that were heard
    StiffComb comb;                 ///< of the sustain pitch
    /// Sharpness of the string against its sustain pitch every kGlideStep from the pluck on, cents.
    std::array<double, kGlideSteps> glide{};
};

/// Hears one string after its pluck and says its sustain pitch: the same object serves the live analysis
/// and recordings. It is given the sound in order, from up to kBefore before the pluck on (earlier sound is
/// ignored; a later beginning only costs knowledge of the room); what it says depends on the sound alone,
/// not on how it was cut into blocks.
/// **Real-time** allocates only in the constructor; begin, push and reading do not. About 0.5 % of a core
/// while it listens, and under a millisecond per reading. Not thread-safe: one thread at a time.
class StringListener {
public:
    /// Sound before the pluck that is of use: what hums and rings in the room.
    static constexpr Seconds kBefore{0.4};
    /// A reading no longer changes when this much was heard.
    static constexpr Seconds kLongest{2.5};

    /// **Range** 8 000 to 192 000 Hz, already corrected for the clock.
    explicit StringListener(SampleRate rate);
    ~StringListener();
    StringListener(StringListener&&) noexcept;
    StringListener& operator=(StringListener&&) noexcept;
    StringListener(const StringListener&) = delete;
    StringListener& operator=(const StringListener&) = delete;

    /// Forgets what it heard and waits for the sound around `pluck`.
    void begin(const ListeningFor& what, FrameIndex pluck);

    /// The next sound. Requires begin(). The first block may start anywhere up to the pluck; every other
    /// continues where the last one ended (a gap ends the listening: what follows it is ignored).
    void push(const SoundBlock& block);

    /// What can be said from the sound pushed so far; Standing::Nothing before earliestReading() and where
    /// no such string is heard. To have it at an exact instant, push up to that instant. Has no effect on
    /// later readings.
    [[nodiscard]] StringReading reading() const;

    /// The tracks and the glide behind reading(); none where that says Nothing. Allocates.
    [[nodiscard]] std::optional<ListeningTrace> trace() const;

    /// When the first reading after a pluck of this string can be had: 0.14 s above 200 Hz, 0.3 s at 40 Hz.
    [[nodiscard]] static Seconds earliestReading(Hertz target);

    /// True when kLongest was heard or a gap came: further sound changes nothing.
    [[nodiscard]] bool finished() const;

private:
    struct State;
    struct Heard;
    void hear(Heard& heard) const;
    [[nodiscard]] StringReading readingOf(const Heard& heard) const;
    std::unique_ptr<State> state_;
};

} // namespace quillbench
