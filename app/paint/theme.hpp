#pragma once

#include <QColor>
#include <QPalette>
#include <QString>

namespace quillbench {

/// Colours of the window. Blue and amber carry meaning (safe for colour-blind eyes); red is only for danger
/// to a string. Every ink has a contrast of 4.5 or more against paper and sheet, of 7 or more where it is bold
/// ([WCAG21] 1.4.3, 1.4.6); what carries meaning stays apart for eyes that lack a kind of cone (theme_test).
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

    /// Black on white, and its reverse, with stronger colours.
    [[nodiscard]] static Theme boldLight();
    [[nodiscard]] static Theme boldDark();

    /// For the ordinary widgets.
    [[nodiscard]] QPalette palette() const;
};

/// The theme that every painted view of this widget tree uses: told by the palette's paper.
/// **Thread** GUI.
[[nodiscard]] Theme themeOf(const QPalette& palette);

} // namespace quillbench
