#include "app/views/state_sign.hpp"

#include "app/paint/theme.hpp"
#include "app/text/guidance_text.hpp"

#include <QPainter>
#include <QPolygonF>
#include <array>

namespace quillbench {

namespace {

constexpr std::array kStates{StepState::Untouched,
                             StepState::Working,
                             StepState::Settled,
                             StepState::Kept,
                             StepState::Skipped};

std::size_t countOf(const KeyboardPicture& picture, StepState state) {
    std::size_t count = 0;
    for (const LaneShown& lane : picture.lanes) {
        for (const std::optional<StepState>& one : lane.states) {
            count += one == state ? 1U : 0U;
        }
    }
    return count;
}

void paintHalfDiamond(QPainter& painter, const QColor& colour, QPointF centre, double size) {
    const QPointF top = centre - QPointF(0.0, size);
    const QPointF right = centre + QPointF(size, 0.0);
    const QPointF bottom = centre + QPointF(0.0, size);
    const QPointF left = centre - QPointF(size, 0.0);
    painter.setBrush(Qt::NoBrush);
    painter.drawPolygon(QPolygonF({top, right, bottom, left}));
    painter.setBrush(colour);
    painter.drawPolygon(QPolygonF({left, right, bottom}));
}

} // namespace

void paintStateSign(
    QPainter& painter, const Theme& theme, StepState state, QPointF centre, double size) {
    switch (state) {
    case StepState::Untouched:
        painter.setPen(QPen(theme.quiet, 1.2));
        painter.setBrush(theme.paper);
        painter.drawEllipse(centre, size * 0.7, size * 0.7);
        return;
    case StepState::Working:
        painter.setPen(QPen(theme.sound, 1.6));
        paintHalfDiamond(painter, theme.sound, centre, size);
        return;
    case StepState::Settled:
        painter.setPen(QPen(theme.target, 2.0));
        painter.drawLine(centre - QPointF(size * 1.3, 0.0), centre + QPointF(size * 1.3, 0.0));
        painter.setBrush(theme.target);
        painter.drawEllipse(centre, size * 0.8, size * 0.8);
        return;
    case StepState::Kept:
        painter.setPen(QPen(theme.ink, 1.2));
        painter.setBrush(theme.ink);
        painter.drawRect(QRectF(centre - QPointF(size, size) * 0.75, QSizeF(size, size) * 1.5));
        return;
    case StepState::Skipped:
        painter.setPen(QPen(theme.ink, 1.6));
        painter.drawLine(centre - QPointF(size, size) * 0.7, centre + QPointF(size, size) * 0.7);
        painter.drawLine(centre + QPointF(-size, size) * 0.7, centre + QPointF(size, -size) * 0.7);
        return;
    }
}

void paintStateLegend(QPainter& painter,
                      const Theme& theme,
                      const KeyboardPicture& picture,
                      const QRectF& area) {
    double x = area.left();
    for (const StepState state : kStates) {
        const std::size_t count = countOf(picture, state);
        if (count == 0) {
            continue;
        }
        const QString text = QStringLiteral("%1 %2").arg(count).arg(stateText(state));
        paintStateSign(painter, theme, state, QPointF(x + 10.0, area.center().y()), 6.0);
        painter.setPen(theme.ink);
        const QRectF box(x + 24.0, area.top(), area.right() - x, area.height());
        painter.drawText(box, Qt::AlignLeft | Qt::AlignVCenter, text);
        x += 24.0 + painter.fontMetrics().horizontalAdvance(text) + 28.0;
    }
}

} // namespace quillbench
