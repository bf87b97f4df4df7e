#pragma once

#include <QColor>
#include <QPalette>
#include <QString>

namespace quillbench {

/// Colours of the window. Blue and amber carry meaning (safe for colour-blind eyes); red is only for danger
/// to a string.
struct Theme {
    QColor paper;
    QColor sheet; ///< fields and keys that lie on the paper
    QColor ink;
    QColor quiet;  ///< ink for what matters less
    QColor faint;  ///< ruled lines
    QColor target; ///< blue: the target wire, what is wanted
    QColor sound;  ///< amber: the sounding wire, what is heard
    QColor danger;
    bool night = false;

    /// Warm paper and ink.
    [[nodiscard]] static Theme light();

    /// The reverse.
    [[nodiscard]] static Theme dark();

    /// For the ordinary widgets.
    [[nodiscard]] QPalette palette() const;
};

/// The theme that every painted view of this widget tree uses: told by the palette's paper.
/// **Thread** GUI.
[[nodiscard]] Theme themeOf(const QPalette& palette);

} // namespace quillbench
