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
    bool small = false; ///< few answers: a guess
    bool tells = true;  ///< false: too few answers for a mark, the words say so

    bool operator==(const StandingShown& other) const {
        return std::tie(name, words, at, low, high, small, tells) == std::tie(other.name,
                                                                              other.words,
                                                                              other.at,
                                                                              other.low,
                                                                              other.high,
                                                                              other.small,
                                                                              other.tells);
    }
};

/// One week of one interval: `day` from 0 (the first week shown) to 1 (the last), heights as in StandingShown.
struct WeekShown {
    double day = 0;
    double at = 0;
    double low = 0;
    double high = 0;
    bool small = false;
    QString date; ///< of its Monday; empty where there is no room for it

    bool operator==(const WeekShown& other) const {
        return std::tie(day, at, low, high, small, date) ==
               std::tie(other.day, other.at, other.low, other.high, other.small, other.date);
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

/// One step of a bearing plan as it was left; numbers with their sign, + = wide, of a note sharp.
struct BearingRow {
    QString step;     ///< "set C4–F3, fifth"
    QString wanted;   ///< beats a second where the ear is sent to listen
    QString left;     ///< beats a second from that
    QString interval; ///< cents
    QString note;     ///< cents from the temperament; of a check empty
};

/// Where the ear stands.
struct ProgressPicture {
    QString title;
    QString axis; ///< what it counts in
    std::vector<StandingShown> standings;
    std::vector<AxisMark> ticks;
    std::vector<AxisMark> published;
    QString weeksTitle;
    std::vector<WeekShown> weeks; ///< oldest first; empty: practised in one week only
    QString hint;                 ///< where there is nothing yet
    QString habit;
    QString description;

    bool operator==(const ProgressPicture&) const = default;
};

/// The large figures: the keys, and after uncovering what was measured.
[[nodiscard]] FiguresPicture practiseFigures(const PractiseModel& model);

/// The breath: covered until answered, unless it is asked for slowly.
[[nodiscard]] BreathPicture practiseBreath(const PractiseModel& model);

/// The whole plan, when it is done; else none.
[[nodiscard]] std::vector<BearingRow> bearingRows(const PractiseModel& model);

[[nodiscard]] ProgressPicture practiseProgress(const PractiseModel& model);

} // namespace quillbench
