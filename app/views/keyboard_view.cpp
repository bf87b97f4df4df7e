#include "app/views/keyboard_view.hpp"

#include "app/paint/scale_map.hpp"
#include "app/paint/theme.hpp"
#include "app/text/guidance_text.hpp"
#include "app/text/written_text.hpp"
#include "app/views/drawn_keys.hpp"
#include "app/views/screen_reader.hpp"
#include "app/views/state_sign.hpp"

#include <QFontMetricsF>
#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr double kLaneHeight = 26.0;
constexpr double kLegendHeight = 24.0;
constexpr double kLeastLabelWidth = 78.0; // for the names of the choirs
constexpr double kLabelGap = 12.0;
constexpr int kLabelPixels = 13;
constexpr double kWidestKey = 34.0; // pixels
constexpr double kEndEdge = 16.0;   // as what stands above

} // namespace

/// Where everything lies for the present size.
struct KeyboardView::Layout {
    DrawnKeys keys;
    double labels = 0; ///< width at the left
    double lanesTop = 0;
    double laneHeight = 0;
};

KeyboardView::KeyboardView(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("keyboard"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    presentAsPicture(this, tr("The keyboard with its choirs"));
}

void KeyboardView::show(const KeyboardPicture& picture) {
    if (picture == picture_) {
        return;
    }
    const bool resized = picture.lanes.size() != picture_.lanes.size();
    const bool worded = picture.description != picture_.description;
    picture_ = picture;
    if (worded) {
        setAccessibleDescription(picture.description);
    }
    if (resized) {
        updateGeometry();
    }
    update();
}

void KeyboardView::setPlayable(bool playable) {
    playable_ = playable;
    setCursor(playable ? Qt::PointingHandCursor : Qt::ArrowCursor);
}

KeyboardView::Layout KeyboardView::layout() const {
    Layout layout;
    const auto lanes = static_cast<double>(std::max<std::size_t>(picture_.lanes.size(), 1));
    QFont lettering = font();
    lettering.setPixelSize(kLabelPixels);
    layout.labels = kLeastLabelWidth;
    for (const LaneShown& lane : picture_.lanes) {
        const double words = QFontMetricsF(lettering).horizontalAdvance(lane.choir);
        layout.labels = std::max(layout.labels, std::ceil(kEndEdge + words + kLabelGap));
    }
    layout.keys =
        fitKeys(picture_.keys, layout.labels, width() - layout.labels - kEndEdge, kWidestKey);
    layout.laneHeight = std::min(kLaneHeight, (height() - kLegendHeight) * 0.45 / lanes);
    layout.lanesTop = 4.0;
    layout.keys.top = layout.lanesTop + layout.laneHeight * lanes + 6.0;
    layout.keys.height = height() - layout.keys.top - kLegendHeight;
    return layout;
}

std::optional<std::size_t> KeyboardView::keyUnder(QPointF point) const {
    return layout().keys.under(point, picture_.keys);
}

QSize KeyboardView::sizeHint() const {
    const double lanes = kLaneHeight * static_cast<double>(picture_.lanes.size());
    return {900, static_cast<int>(lanes + kLegendHeight + 88.0)};
}

QSize KeyboardView::minimumSizeHint() const {
    return {320, 88};
}

void KeyboardView::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setLayoutDirection(layoutDirection()); // Qt takes the application's
    painter.setRenderHint(QPainter::Antialiasing);
    const Theme theme = themeOf(palette());
    const Layout where = layout();
    QFont small = font();
    small.setPixelSize(kLabelPixels);
    painter.setFont(small);
    paintKeys(
        painter, theme, where.keys, picture_.keys, {pressed_, picture_.heard, picture_.asked});
    for (std::size_t lane = 0; lane < picture_.lanes.size(); ++lane) {
        const LaneShown& shown = picture_.lanes[lane];
        const double y = where.lanesTop + where.laneHeight * (static_cast<double>(lane) + 0.5);
        QFont lettering = small;
        lettering.setPixelSize(std::clamp(static_cast<int>(where.laneHeight) + 1, 8, kLabelPixels));
        painter.setFont(lettering);
        painter.setPen(theme.quiet);
        painter.drawText(QRectF(0.0, y - 10.0, where.keys.left - kLabelGap, 20.0),
                         Qt::AlignRight | Qt::AlignVCenter,
                         shown.choir);
        painter.setPen(QPen(theme.faint, 1.0));
        painter.drawLine(QPointF(where.keys.left, y),
                         QPointF(width() - where.keys.left + where.labels - kEndEdge, y));
        for (std::size_t i = 0; i < picture_.keys.size() && i < shown.states.size(); ++i) {
            if (shown.states[i]) {
                const double size = std::min(where.keys.keyWidth * 0.24, where.laneHeight * 0.42);
                paintStateSign(painter,
                               theme,
                               *shown.states[i],
                               QPointF(where.keys.centre(picture_.keys[i]), y),
                               std::min(size, 9.0));
            }
        }
    }
    paintStateLegend(painter,
                     theme,
                     picture_,
                     QRectF(where.keys.left,
                            height() - kLegendHeight,
                            width() - where.keys.left - kEndEdge,
                            kLegendHeight));
}

void KeyboardView::mousePressEvent(QMouseEvent* event) {
    const Layout where = layout();
    const QPointF point = event->position();
    if (event->button() != Qt::LeftButton) {
        return;
    }
    const bool onLanes = point.y() < where.keys.top;
    const auto key = keyUnder(onLanes ? QPointF(point.x(), where.keys.besideSharps()) : point);
    if (!key) {
        return;
    }
    if (onLanes || !playable_) {
        Q_EMIT keyChosen(*key);
        return;
    }
    pressed_ = key;
    update();
    Q_EMIT keyPressed(*key);
}

void KeyboardView::mouseMoveEvent(QMouseEvent* event) {
    if (!pressed_) {
        return;
    }
    const auto key = keyUnder(event->position());
    if (key && key != pressed_) {
        release();
        pressed_ = key;
        update();
        Q_EMIT keyPressed(*key);
    }
}

void KeyboardView::mouseReleaseEvent(QMouseEvent* /*event*/) {
    release();
}

void KeyboardView::release() {
    if (!pressed_) {
        return;
    }
    const std::size_t key = *pressed_;
    pressed_.reset();
    update();
    Q_EMIT keyReleased(key);
}

bool KeyboardView::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip) {
        return QWidget::event(event);
    }
    const auto* help = static_cast<QHelpEvent*>(event);
    const Layout where = layout();
    QPointF point = help->pos();
    const double lane = (point.y() - where.lanesTop) / where.laneHeight;
    if (point.y() < where.keys.top) {
        point.setY(where.keys.besideSharps());
    }
    const auto key = keyUnder(point);
    if (!key) {
        QToolTip::hideText();
        return true;
    }
    QString text = picture_.keys[*key].name;
    if (lane >= 0.0 && lane < static_cast<double>(picture_.lanes.size())) {
        const LaneShown& shown = picture_.lanes[static_cast<std::size_t>(lane)];
        if (*key < shown.states.size() && shown.states[*key]) {
            text = tr("%1 of %2: %3").arg(text, shown.choir, stateText(*shown.states[*key]));
        }
    }
    QToolTip::showText(help->globalPos(), tipText(text), this);
    return true;
}

} // namespace quillbench
