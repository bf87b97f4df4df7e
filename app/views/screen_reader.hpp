#pragma once

#include <QAccessible>

class QLabel;
class QWidget;

namespace quillbench {

/// Has choices, tabs and pages told by their names too; Qt 6.4 leaves them out. Before the first window shows.
void readyForScreenReaders();

/// Gives a widget of ours the role by which a screen reader tells it; Qt knows none for what is painted by hand.
/// Call it in the widget's constructor. **Thread** GUI.
void presentAs(QWidget* widget, QAccessible::Role role);

/// A painted view: told as a picture by its name, and in words by its description. It is drawn from left to right in
/// every language: so do keys, strings and time lie.
void presentAsPicture(QWidget* view, const QString& name);

/// The page of a place: a named part of the window.
void presentAsPlace(QWidget* page, const QString& name);

/// A label whose words are to be read out when they change, wherever the focus is.
void presentAsAnnouncement(QLabel* label);

/// Writes into such a label; where the words are others than before and the label is seen they are read out, and where
/// `urgent` at once, whatever else is being read.
void sayIn(QLabel* label, const QString& words, bool urgent = false);

} // namespace quillbench
