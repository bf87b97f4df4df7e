#pragma once

#include "core/workflow/plan.hpp"

#include <QString>
#include <tuple>

namespace quillbench {

/// Where the sound comes from.
enum class SourceKind { Virtual, Microphone, File };

struct SourceChoice {
    SourceKind kind = SourceKind::Virtual;
    QString device; ///< Microphone: name from the device list; empty: the default
    QString file;   ///< File: its path

    bool operator==(const SourceChoice&) const = default;
};

/// What is being tuned, and to what.
struct TuningChoice {
    QString instrument;  ///< id of a built-in example, or the path of an instrument file
    QString choir;       ///< id within the instrument: "8", "8b", "4", "16"
    QString temperament; ///< id of the catalogue, or the path of a temperament file
    double a4Hz = 415.0; ///< pitch standard, 370 to 570
    QString lowest;      ///< lowest key of the octave: "C3", "F3"
    StepOrder order = StepOrder::FromA;

    /// Exact, the pitch standard too: is it the same choice, not nearly the same.
    bool operator==(const TuningChoice& other) const {
        return std::tie(instrument, choir, temperament, a4Hz, lowest, order) ==
               std::tie(other.instrument,
                        other.choir,
                        other.temperament,
                        other.a4Hz,
                        other.lowest,
                        other.order);
    }
};

enum class Appearance { AsSystem, Light, Dark };

inline constexpr double kLowestStandardHz = 370.0;
inline constexpr double kHighestStandardHz = 570.0;

} // namespace quillbench
