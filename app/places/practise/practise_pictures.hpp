#pragma once

#include "app/models/pictures.hpp"
#include "app/places/practise/practise_model.hpp"

#include <QString>
#include <tuple>
#include <vector>

namespace quillbench {

/// A line of the picture of progress: where the ear stands with one interval in one register. Places run from 0 (easy)
/// to 1 (hard) along the axis.
struct StandingShown {
    QString name;
    QString words; ///< "2.4 (1.9 to 3.1)"
    double at = 0;
    double low = 0;
    double high = 0;
    bool small = false;        ///< few answers: a guess
    std::vector<double> weeks; ///< the same interval in earlier weeks, oldest first

    bool operator==(const StandingShown& other) const {
        return std::tie(name, words, at, low, high, small, weeks) == std::tie(other.name,
                                                                              other.words,
                                                                              other.at,
                                                                              other.low,
                                                                              other.high,
                                                                              other.small,
                                                                              other.weeks);
    }
};

/// A mark on the axis; a published value covers a stretch.
struct AxisMark {
    double from = 0;
    double to = 0;
    QString text;

    bool operator==(const AxisMark& other) const {
        return std::tie(from, to, text) == std::tie(other.from, other.to, other.text);
    }
};

/// Where the ear stands.
struct ProgressPicture {
    QString title;
    QString axis; ///< what it counts in
    std::vector<StandingShown> standings;
    std::vector<AxisMark> ticks;
    std::vector<AxisMark> published;
    QString hint; ///< where there is nothing yet
    QString habit;
    QString description;

    bool operator==(const ProgressPicture&) const = default;
};

/// The large figures: the keys, and after uncovering what was measured.
[[nodiscard]] FiguresPicture practiseFigures(const PractiseModel& model);

/// The breath: covered until answered, unless it is asked for slowly; then `shownTo` seconds of it.
[[nodiscard]] BreathPicture practiseBreath(const PractiseModel& model);

[[nodiscard]] ProgressPicture practiseProgress(const PractiseModel& model);

} // namespace quillbench
