#pragma once

#include "core/units/beat_rate.hpp"
#include "core/units/cents.hpp"

#include <QString>
#include <cstddef>
#include <optional>
#include <vector>

namespace quillbench {

/// One fifth of the circle as it is painted.
struct FifthShown {
    QString lower;
    QString fraction; ///< "−1/6 P"; "pure"
    QString cents;    ///< "−3.9"; empty where pure
    Cents width;      ///< from pure; negative is narrow
    std::optional<Cents> compared;
};

struct CirclePicture {
    std::vector<FifthShown> fifths; ///< from the note in the chain that comes first
    int firstPlace = 0;             ///< its place in the chain of fifths, C 0, which stands on top
    bool closed = true;  ///< false for the open chain of split sharps: the last note has no fifth
    QString lastNote;    ///< of an open chain
    QString name;        ///< what stands in the middle
    QString closing;     ///< "open by +2.3 cents"; empty where it closes
    QString description; ///< all of it in words
};

/// One third as it is painted: a wire above or below the pure one.
struct ThirdShown {
    QString name; ///< "C–E"
    QString lower;
    QString upper;
    Cents width; ///< from pure
    BeatRate beat;
    bool asSpelled = true;
    std::optional<Cents> compared;
};

struct ThirdsPicture {
    std::vector<ThirdShown> thirds;
    Cents pythagorean; ///< width of the third of four (or three) pure fifths
    QString description;
};

} // namespace quillbench
