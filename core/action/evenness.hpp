#pragma once

#include "core/action/pluck_voice.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// What is compared from key to key.
enum class VoiceQuality {
    Strength, ///< what all partials together are stronger by: as the plectrum, not one note of the board, makes it
    Level,    ///< A-weighted
    PlainLevel,
    Brightness,
    Attack,
    Sustain,
    Displacement
};

inline constexpr std::size_t kVoiceQualities = 7;

/// One pluck of the register that is looked at.
struct VoicedPluck {
    std::size_t key = 0;
    int place = 0; ///< of the microphone: 0, then 1 after it was moved
    PluckVoice voice;
};

/// One quality of one key: dB, but octaves for brightness and (as dB) 10·log10 of seconds for sustain.
struct VoicePoint {
    std::size_t key = 0;
    int count = 0;            ///< plucks behind it
    double value = 0.0;       ///< their median
    double curve = 0.0;       ///< what the keys around it lead one to expect
    double away = 0.0;        ///< value − curve
    double uncertainty = 0.0; ///< of `away`, one standard deviation, from the spread of the repeats
};

/// One quality over the register.
struct VoiceCurve {
    std::vector<VoicePoint> points; ///< ascending keys
    double scatter = 0.0;           ///< of ordinary keys about the curve, one standard deviation
    double repeat = 0.0; ///< of one pluck about its key's median, pooled over the register
};

enum class VoiceFault { Weak, Loud, Dull, Bright, NoisyAttack, ShortSustain };

/// Where an unlike key has it from.
enum class VoiceCause {
    Unknown,
    Plectrum, ///< the string is displaced less (or more) as well
    Place, ///< the string moves like its neighbours: board, room or microphone answer otherwise there
};

struct VoiceFinding {
    std::size_t key = 0;
    VoiceFault fault = VoiceFault::Weak;
    double amount = 0.0;     ///< as VoicePoint::away
    double confidence = 0.0; ///< that it truly lies beyond what a neighbour may, 0 to 1
    VoiceCause cause = VoiceCause::Unknown;
    bool heardTwice = false;   ///< again with the microphone elsewhere
    bool contradicted = false; ///< played again with the microphone elsewhere, and not heard there
};

struct EvennessReport {
    std::array<VoiceCurve, kVoiceQualities> curves;
    std::vector<VoiceFinding> findings; ///< the surest and largest first
    std::size_t keys = 0;               ///< heard
    bool enough = false;                ///< keys enough for a curve

    [[nodiscard]] const VoiceCurve& curve(VoiceQuality quality) const {
        return curves[static_cast<std::size_t>(quality)];
    }
};

/// More than this from its neighbours is unequal. Common practice, no source.
inline constexpr double kUnequalDb = 3.0;

/// Compares the keys of one register: a robust curve over the compass for each quality, then the keys that lie off it
/// beyond what repeats and ordinary scatter explain. Findings need two plucks of the key.
/// **Accuracy** evenness_test "weak plectra are found …", "… false findings": ≤ 2 % of keys.
/// **Source** [Cleveland1979] for the curve; limits: common practice, no source.
[[nodiscard]] EvennessReport compareKeys(std::span<const VoicedPluck> plucks);

} // namespace quillbench
