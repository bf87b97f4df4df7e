#include "app/places/action/action_map_view.hpp"

#include "app/paint/scale_map.hpp"
#include "app/paint/theme.hpp"
#include "app/views/drawn_keys.hpp"
#include "app/views/screen_reader.hpp"

#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>
#include <QToolTip>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr double kEdge = 52.0;
constexpr double kTitleHeight = 24.0;
constexpr double kMapLegendHeight = 24.0;
constexpr double kKeysShare = 0.26;
constexpr double kSignRoom = 14.0;
constexpr int kSmallType = 13;

void paintMark(QPainter& painter, int shape, QPointF at, double size) {
    switch (shape) {
    case 1:
        painter.drawRect(QRectF(at.x() - size, at.y() - size, 2.0 * size, 2.0 * size));
        return;
    case 2: {
        QPainterPath diamond(QPointF(at.x(), at.y() - 1.3 * size));
        diamond.lineTo(at.x() + 1.3 * size, at.y());
        diamond.lineTo(at.x(), at.y() + 1.3 * size);
        diamond.lineTo(at.x() - 1.3 * size, at.y());
        diamond.closeSubpath();
        painter.drawPath(diamond);
        return;
    }
    case 3:
        painter.save();
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(at, size, size);
        painter.restore();
        return;
    default:
        painter.drawEllipse(at, size, size);
    }
}

/// A pointer down to the key: look here.
void paintLook(QPainter& painter, QPointF tip, double size) {
    QPainterPath pointer(tip);
    pointer.lineTo(tip.x() - size, tip.y() - 1.5 * size);
    pointer.lineTo(tip.x() + size, tip.y() - 1.5 * size);
    pointer.closeSubpath();
    painter.drawPath(pointer);
}

} // namespace

/// Where everything lies for the present size.
struct ActionMapView::Layout {
    DrawnKeys keys;
    QRectF plot;
};

ActionMapView::ActionMapView(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("actionMap"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    presentAsPicture(this, tr("Map over the keyboard"));
}

void ActionMapView::show(const ActionMapPicture& picture) {
    if (picture == picture_) {
        return;
    }
    if (picture.description != picture_.description) {
        setAccessibleDescription(picture.description);
    }
    picture_ = picture;
    keys_.clear();
    keys_.reserve(picture_.columns.size());
    for (const ActionColumn& column : picture_.columns) {
        keys_.push_back(column.key);
    }
    update();
}

void ActionMapView::setPlayable(bool playable) {
    playable_ = playable;
    setCursor(playable ? Qt::PointingHandCursor : Qt::ArrowCursor);
}

QSize ActionMapView::sizeHint() const {
    return {900, 320};
}

QSize ActionMapView::minimumSizeHint() const {
    return {320, 150};
}

ActionMapView::Layout ActionMapView::layout() const {
    Layout where;
    const double room = width() - kEdge - 10.0;
    where.keys = fitKeys(keys_, kEdge, room, room);
    where.keys.height = std::clamp(height() * kKeysShare, 36.0, 96.0);
    where.keys.top = height() - kMapLegendHeight - where.keys.height;
    where.plot = QRectF(
        kEdge, kTitleHeight + kSignRoom, room, where.keys.top - kTitleHeight - 2.0 * kSignRoom);
    return where;
}

std::optional<std::size_t> ActionMapView::keyUnder(QPointF point) const {
    const Layout where = layout();
    const bool above = point.y() < where.keys.top;
    return where.keys.under(QPointF(point.x(), above ? where.keys.besideSharps() : point.y()),
                            keys_);
}

void ActionMapView::paintBand(QPainter& painter, const Layout& where) const {
    const Theme theme = themeOf(palette());
    const LinearScale scale(picture_.low, picture_.high, where.plot.bottom(), where.plot.top());
    painter.setPen(theme.quiet);
    painter.drawText(QRectF(kEdge, 0.0, where.plot.width(), kTitleHeight),
                     Qt::AlignLeft | Qt::AlignVCenter,
                     picture_.title);
    if (picture_.bandHigh > picture_.bandLow) {
        const double top = scale.pixel(picture_.bandHigh);
        painter.fillRect(
            QRectF(where.plot.left(), top, where.plot.width(), scale.pixel(picture_.bandLow) - top),
            theme.sheet);
    }
    for (const ActionTick& tick : picture_.ticks) {
        const double y = scale.pixel(tick.value);
        painter.setPen(QPen(theme.faint, 1.0));
        painter.drawLine(QPointF(where.plot.left(), y), QPointF(where.plot.right(), y));
        painter.setPen(theme.quiet);
        painter.drawText(
            QRectF(0.0, y - 10.0, kEdge - 8.0, 20.0), Qt::AlignRight | Qt::AlignVCenter, tick.text);
    }
    const double zero = scale.pixelInside(picture_.zero);
    painter.setPen(QPen(theme.target, 1.5));
    painter.drawLine(QPointF(where.plot.left(), zero), QPointF(where.plot.right(), zero));
}

void ActionMapView::paintColumns(QPainter& painter, const Layout& where) const {
    const Theme theme = themeOf(palette());
    const LinearScale scale(picture_.low, picture_.high, where.plot.bottom(), where.plot.top());
    const double zero = scale.pixelInside(picture_.zero);
    const double size = std::clamp(where.keys.keyWidth * 0.16, 2.5, 6.0);
    for (const ActionColumn& column : picture_.columns) {
        const double x = where.keys.centre(column.key);
        const bool looks = column.standing == ActionStanding::Look;
        const QColor colour = looks                                          ? theme.sound
                              : column.standing == ActionStanding::HeardOnce ? theme.quiet
                                                                             : theme.ink;
        painter.setPen(QPen(colour, looks ? 2.5 : 1.2));
        for (const ActionMark& mark : column.marks) {
            const double y = scale.pixelInside(mark.value);
            painter.drawLine(QPointF(x, zero), QPointF(x, y));
        }
        for (const ActionMark& mark : column.marks) {
            // Heard once only: hollow.
            painter.setBrush(column.standing == ActionStanding::HeardOnce ? QBrush(theme.paper)
                                                                          : QBrush(colour));
            paintMark(painter, mark.shape, QPointF(x, scale.pixelInside(mark.value)), size);
        }
        if (looks) {
            painter.setBrush(theme.sound);
            painter.setPen(Qt::NoPen);
            paintLook(painter, QPointF(x, where.keys.top - 2.0), std::max(size, 4.5));
            painter.save();
            painter.setPen(theme.ink);
            painter.translate(x, where.plot.top());
            painter.rotate(-90.0);
            painter.drawText(QRectF(-where.plot.height(), 4.0, where.plot.height() - 2.0, 18.0),
                             Qt::AlignRight | Qt::AlignVCenter,
                             column.word);
            painter.restore();
        }
    }
}

void ActionMapView::paintLegend(QPainter& painter, const Layout& where) const {
    const Theme theme = themeOf(palette());
    double x = kEdge;
    const double y = where.keys.top + where.keys.height + kMapLegendHeight / 2.0;
    const QFontMetricsF metrics(painter.font());
    const auto word = [&](const QString& text) {
        painter.setPen(theme.quiet);
        painter.drawText(
            QRectF(x + 12.0, y - 10.0, 400.0, 20.0), Qt::AlignLeft | Qt::AlignVCenter, text);
        x += metrics.horizontalAdvance(text) + 34.0;
    };
    painter.setPen(QPen(theme.ink, 1.2));
    painter.setBrush(theme.ink);
    for (std::size_t i = 0; i < picture_.legend.size(); ++i) {
        painter.setPen(QPen(theme.ink, 1.2));
        paintMark(painter, static_cast<int>(i), QPointF(x + 4.0, y), 4.5);
        word(picture_.legend[i]);
    }
    if (picture_.legend.empty()) {
        paintMark(painter, 0, QPointF(x + 4.0, y), 4.5);
        word(tr("heard twice or more"));
    }
    painter.setPen(QPen(theme.quiet, 1.2));
    painter.setBrush(theme.paper);
    paintMark(painter, 0, QPointF(x + 4.0, y), 4.5);
    word(tr("heard once: play again"));
    painter.setPen(Qt::NoPen);
    painter.setBrush(theme.sound);
    paintLook(painter, QPointF(x + 4.0, y + 5.0), 5.0);
    word(tr("worth a look"));
}

void ActionMapView::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setLayoutDirection(layoutDirection()); // Qt takes the application's
    painter.setRenderHint(QPainter::Antialiasing);
    QFont small = font();
    small.setPixelSize(kSmallType);
    painter.setFont(small);
    if (picture_.columns.empty()) {
        return;
    }
    const Layout where = layout();
    paintBand(painter, where);
    paintColumns(painter, where);
    paintKeys(painter,
              themeOf(palette()),
              where.keys,
              keys_,
              {pressed_, picture_.heard, picture_.chosen});
    paintLegend(painter, where);
}

void ActionMapView::mousePressEvent(QMouseEvent* event) {
    const auto key = keyUnder(event->position());
    if (event->button() != Qt::LeftButton || !key) {
        return;
    }
    Q_EMIT keyChosen(*key);
    if (playable_ && event->position().y() >= layout().keys.top) {
        pressed_ = key;
        update();
        Q_EMIT keyPressed(*key);
    }
}

void ActionMapView::mouseReleaseEvent(QMouseEvent* /*event*/) {
    if (!pressed_) {
        return;
    }
    const std::size_t key = *pressed_;
    pressed_.reset();
    update();
    Q_EMIT keyReleased(key);
}

bool ActionMapView::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip) {
        return QWidget::event(event);
    }
    const auto* help = static_cast<QHelpEvent*>(event);
    const auto key = keyUnder(help->pos());
    if (!key) {
        QToolTip::hideText();
        return true;
    }
    const ActionColumn& column = picture_.columns[*key];
    const QString words = column.words.isEmpty() ? tr("not heard yet") : column.words;
    QToolTip::showText(help->globalPos(), tr("%1: %2").arg(column.key.name, words), this);
    return true;
}

} // namespace quillbench
