#pragma once

#include "app/models/pictures.hpp"

#include <QString>
#include <cstddef>
#include <optional>
#include <tuple>
#include <vector>

namespace quillbench {

/// What is listened to in the Action place.
enum class ActionTask { Stagger, Evenness, Dampers, Repetition };

/// A value of one key: a register's pluck, a loudness, a time.
struct ActionMark {
    double value = 0.0;
    int shape = 0; ///< 0 disc, 1 square, 2 diamond, 3 ring: which register it belongs to

    bool operator==(const ActionMark& other) const {
        return std::tie(value, shape) == std::tie(other.value, other.shape);
    }
};

/// How a key stands: told by a sign and a word.
enum class ActionStanding { NotHeard, HeardOnce, Fine, Look };

struct ActionColumn {
    KeyShown key;
    std::vector<ActionMark> marks;
    ActionStanding standing = ActionStanding::NotHeard;
    QString word;  ///< of a key to look at: "weak"
    QString words; ///< in full, for the hint that appears over the key

    bool operator==(const ActionColumn&) const = default;
};

/// A number at the edge of the map.
struct ActionTick {
    double value = 0.0;
    QString text;

    bool operator==(const ActionTick& other) const {
        return std::tie(value, text) == std::tie(other.value, other.text);
    }
};

/// The map over the keyboard.
struct ActionMapPicture {
    std::vector<ActionColumn> columns;
    double low = -10.0; ///< value at the lower edge
    double high = 10.0;
    double zero = 0.0;    ///< where stems begin
    double bandLow = 0.0; ///< what a neighbour may; equal: no band is drawn
    double bandHigh = 0.0;
    std::vector<ActionTick> ticks;
    QString title;               ///< what is drawn, with its unit
    std::vector<QString> legend; ///< names of the shapes, in their order; may be empty
    std::optional<std::size_t> heard;
    std::optional<std::size_t> chosen;
    QString description;

    bool operator==(const ActionMapPicture& other) const {
        return std::tie(columns,
                        low,
                        high,
                        zero,
                        bandLow,
                        bandHigh,
                        ticks,
                        title,
                        legend,
                        heard,
                        chosen,
                        description) == std::tie(other.columns,
                                                 other.low,
                                                 other.high,
                                                 other.zero,
                                                 other.bandLow,
                                                 other.bandHigh,
                                                 other.ticks,
                                                 other.title,
                                                 other.legend,
                                                 other.heard,
                                                 other.chosen,
                                                 other.description);
    }
};

/// One jack to do.
struct ActionJob {
    std::size_t key = 0;
    QString id;      ///< the same finding again has the same id
    QString what;    ///< "A3, front 8′: weak by 5.2 dB. …"
    QString symptom; ///< of the fault finder; may be empty
    double confidence = 0.0;

    bool operator==(const ActionJob& other) const {
        return std::tie(key, id, what, symptom, confidence) ==
               std::tie(other.key, other.id, other.what, other.symptom, other.confidence);
    }
};

} // namespace quillbench
