#pragma once

#include <QString>
#include <optional>
#include <vector>

namespace quillbench {

/// One string in a plot; `low` and `high` differ where the value is a range.
struct CompassPoint {
    double course = 0;
    double low = 0;
    double high = 0;
};

/// One choir in a plot.
struct CompassLine {
    QString name;
    std::vector<CompassPoint> points;
    bool chosen = false;
};

/// One quantity over the compass.
struct CompassPanel {
    QString title; ///< with its unit
    bool logarithmic = false;
    std::vector<CompassLine> lines;
    std::optional<double> dangerBelow; ///< red: the weakest wire of its kind breaks there
    std::optional<double> dangerAbove;
};

/// A key under which a line is ruled.
struct CompassTick {
    double course = 0;
    QString note;
};

struct CompassPicture {
    std::vector<CompassPanel> panels;
    std::vector<CompassTick> ticks;
    double courses = 0;                 ///< how many
    std::vector<QString> wordsOfCourse; ///< the chosen choir's string there, in words
    QString description;
};

} // namespace quillbench
