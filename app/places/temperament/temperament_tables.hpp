#pragma once

#include "app/places/temperament/temperament_model.hpp"

class QTableWidget;
class QWidget;

namespace quillbench {

/// A table to be read, with a name for a screen reader; nothing in it can be changed.
[[nodiscard]] QTableWidget* readingTable(QWidget* parent, const char* name, const QString& title);

/// Twelve (or more) notes: cents above C, from equal temperament, hertz, and what the compared temperament has.
void fillNotes(QTableWidget& table, const TemperamentModel& model);

/// Beats of the intervals over each key from F3 to C5.
void fillBeats(QTableWidget& table, const TemperamentModel& model);

/// Fifth by fifth: heard, its ±, what the nearest temperament has, the difference.
void fillRecognised(QTableWidget& table, const Recognition& recognition);

/// The nearest temperaments with their distances.
void fillNearest(QTableWidget& table, const Recognition& recognition);

} // namespace quillbench
