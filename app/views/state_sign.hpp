#pragma once

#include "app/models/pictures.hpp"

#include <QPointF>
#include <QRectF>

class QPainter;

namespace quillbench {

struct Theme;

/// The sign of a string's state: an open ring (not yet), a half-filled diamond (at work), a filled disc with a bar
/// through it like a tied string (settled), a filled square (kept), a cross (skipped).
void paintStateSign(
    QPainter& painter, const Theme& theme, StepState state, QPointF centre, double size);

/// Signs with their words and how many there are.
void paintStateLegend(QPainter& painter,
                      const Theme& theme,
                      const KeyboardPicture& picture,
                      const QRectF& area);

} // namespace quillbench
