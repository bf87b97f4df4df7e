#pragma once

#include "core/units/cents.hpp"
#include "core/workflow/session.hpp"

#include <QString>
#include <cstddef>
#include <optional>
#include <vector>

namespace quillbench {

/// What the painted views show. Values made by the models; the views only draw them, and only when they change:
/// the comparisons are exact.

/// The wire that sounds now, or sounded last.
struct SoundingWire {
    Cents deviation;
    Cents uncertainty;
    bool ringing = false; ///< it is heard now; else it is what was heard last
    bool sure = true;

    bool operator==(const SoundingWire&) const = default;
};

/// One pluck of the past.
struct MarkShown {
    Cents deviation;
    Cents uncertainty;
    bool good = true;

    bool operator==(const MarkShown&) const = default;
};

/// The two wires with the marks of the last plucks.
struct WiresPicture {
    std::optional<SoundingWire> sounding;
    std::vector<MarkShown> marks; ///< oldest first
    Cents tolerance{1.0};
    bool knotted = false; ///< settled or kept: the two lie together
    bool danger = false;
    QString description; ///< what a screen reader says of it

    bool operator==(const WiresPicture&) const = default;
};

/// One key as it is drawn.
struct KeyShown {
    QString name;
    double column = 0; ///< middle line in natural key widths from the left
    bool sharp = false;
    bool back = false;  ///< the back half of a split sharp
    bool front = false; ///< the front half

    bool operator==(const KeyShown&) const = default;
};

/// One choir above the keys: the state of each key's string; none where it is not part of the session.
struct LaneShown {
    QString choir;
    std::vector<std::optional<StepState>> states;

    bool operator==(const LaneShown&) const = default;
};

struct KeyboardPicture {
    std::vector<KeyShown> keys;
    std::vector<LaneShown> lanes;
    std::optional<std::size_t> asked; ///< the key to play next
    std::optional<std::size_t> heard; ///< the key that sounds now
    QString description;

    bool operator==(const KeyboardPicture&) const = default;
};

/// The large figures.
struct FiguresPicture {
    QString note;      ///< "A3"; "?" where a pluck was not recognised
    QString choir;     ///< "front 8′, target 207.50 Hz"
    QString deviation; ///< "−2.4"; empty where nothing is known
    QString words;     ///< "± 0.1 cent, flat"
    QString remark;    ///< what the reading wants to say; may be empty
    bool danger = false;
    bool ringing = false;

    bool operator==(const FiguresPicture&) const = default;
};

/// Loudness at an instant.
struct BreathPoint {
    double at = 0;       ///< s after the pluck
    double loudness = 0; ///< 0 … 1

    bool operator==(const BreathPoint&) const = default;
};

/// How two strings together swell and sink.
struct BreathPicture {
    std::vector<BreathPoint> curve;   ///< empty: nothing heard yet, the hint is shown
    std::vector<BreathPoint> wanted;  ///< what the target would make of it
    std::vector<double> crests;       ///< s after the pluck
    std::vector<double> wantedCrests; ///< likewise
    double from = 0;                  ///< left edge, s after the pluck
    double span = 5;                  ///< s
    bool sounding = false;
    QString ear; ///< which partials are heard
    QString hint;
    QString description;

    bool operator==(const BreathPicture&) const = default;
};

/// The level of the microphone.
struct LevelPicture {
    double level = -100; ///< dB re full scale, RMS
    double peak = -100;
    QString trouble; ///< clipped, automatic gain, gated; empty where all is well

    bool operator==(const LevelPicture&) const = default;
};

} // namespace quillbench
