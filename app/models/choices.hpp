#pragma once

#include "core/units/frames.hpp"
#include "core/workflow/first_look.hpp"
#include "core/workflow/plan.hpp"
#include "core/workflow/whole_plan.hpp"

#include <QDateTime>
#include <QString>
#include <QStringList>
#include <optional>
#include <vector>

namespace quillbench {

/// Where the sound comes from.
enum class SourceKind { Virtual, Microphone, File };

struct SourceChoice {
    SourceKind kind = SourceKind::Virtual;
    QString device; ///< Microphone: name from the device list; empty: the default
    QString file;   ///< File: its path

    bool operator==(const SourceChoice&) const = default;
};

/// How a microphone is captured; belongs to its device.
struct InputChoice {
    int channel = 0; ///< counts from 0
    SampleRate rate; ///< 44.1 to 192 kHz

    bool operator==(const InputChoice&) const = default;
};

/// How much of the instrument is tuned.
enum class Extent {
    Octave, ///< one octave of one choir, by meter
    Whole,  ///< every choir, from the warm-up to the recheck
};

/// Which parts of a whole session are wanted beside the tuning itself.
struct SessionParts {
    bool runThrough = false; ///< every key once on each register
    bool warmUp = true;      ///< sentinel notes
    bool firstLook = true;   ///< where each choir stands
    bool recheck = true;     ///< the 4′ and the bearings once more

    bool operator==(const SessionParts&) const = default;
};

inline constexpr double kLeastToleranceCents = 0.3;
inline constexpr double kMostToleranceCents = 5.0;

/// How a session goes about its strings; of an octave alone the tolerance of the bearings, the way and felt.
struct SessionOptions {
    QStringList
        leftAlone; ///< ids of choirs that are not tuned; that which is tuned first is tuned all the same
    Outward outward = Outward::DownThenUp;
    Approach approach = Approach::SettleDown;
    Tolerances tolerances; ///< but for the rough one each from kLeast- to kMostToleranceCents
    bool felt = false;     ///< between strings that are off: PlanOptions::feltOnSilenced

    bool operator==(const SessionOptions&) const = default;
};

/// What a session knew when it went on at another pitch after its first look.
struct AfterLook {
    double standardHz = 415.0;      ///< at which it was begun
    std::vector<FoundString> found; ///< from their targets at that standard

    bool operator==(const AfterLook&) const = default;
};

/// Where another instrument was heard to stand.
struct HeardPitch {
    double a4Hz = 440.0;   ///< 370 to 570
    Cents uncertainty;     ///< standard uncertainty
    bool ofTwelve = false; ///< the mean of all twelve notes; else A alone
    QDateTime at;

    bool operator==(const HeardPitch&) const = default;

    /// It counts for the evening: organs and rooms go with the warmth.
    [[nodiscard]] bool holds(const QDateTime& now) const;
};

/// What is being tuned, and to what.
struct TuningChoice {
    QString instrument;  ///< id of a built-in example, or the path of an instrument file
    QString choir;       ///< id within the instrument: "8", "8b", "4", "16"
    QString temperament; ///< id of the catalogue, or the path of a temperament file
    double a4Hz = 415.0; ///< pitch standard, 370 to 570
    Extent extent = Extent::Octave;
    SessionParts parts; ///< of a whole session
    SessionOptions options;
    QString lowest; ///< lowest key of the octave, or of the bearings: "C3", "F3"
    StepOrder order = StepOrder::FromA;
    int position = 0; ///< where the keyboard stands, one of Instrument::positions; a4Hz holds there
    std::optional<AfterLook>
        afterLook; ///< of a whole session: only what comes after the first look is planned, at a4Hz

    bool operator==(const TuningChoice&) const = default;
};

enum class Appearance { AsSystem, Light, Dark };

inline constexpr double kLowestStandardHz = 370.0;
inline constexpr double kHighestStandardHz = 570.0;

/// Pitch standards in use for these instruments, in Hz for a′. Common practice, no source.
inline constexpr double kStandardsHz[] = {392.0, 400.0, 403.0, 408.0, 415.0, 430.0, 440.0, 466.0};

/// The pitch standard of the keys when a keyboard slides by `semitones` over strings that stay: 415 Hz becomes 440,
/// the standard in use within ten cents, else what twelve equal steps to the octave give.
[[nodiscard]] double standardAfterSliding(double a4Hz, int semitones);

/// A pitch for a′ so far from a standard, to the hundredth of a hertz: as it is shown.
[[nodiscard]] double standardShifted(double a4Hz, Cents shift);

} // namespace quillbench
