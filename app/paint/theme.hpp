#pragma once

#include <QColor>

namespace quillbench {

/// Colours of the window. Blue and amber carry meaning (safe for colour-blind eyes); red is only for danger
/// to a string.
struct Theme {
    QColor paper;
    QColor ink;
    QColor quiet;  ///< ink for what matters less
    QColor target; ///< blue: the target wire, what is wanted
    QColor sound;  ///< amber: the sounding wire, what is heard
    QColor danger;

    /// Warm paper and ink.
    [[nodiscard]] static Theme light();

    /// The reverse.
    [[nodiscard]] static Theme dark();
};

} // namespace quillbench
