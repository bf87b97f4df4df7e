#include "app/places/recheck/drift_view.hpp"

#include "app/paint/scale_map.hpp"
#include "app/paint/theme.hpp"
#include "app/text/format.hpp"
#include "app/views/drawn_keys.hpp"
#include "app/views/screen_reader.hpp"

#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <algorithm>

namespace quillbench {

namespace {

constexpr double kScaleWidth = 44.0;  // for the cents at the left
constexpr double kDriftLegend = 24.0; // height
constexpr double kKeysHeight = 56.0;  // at most
constexpr double kWidestDriftKey = 30.0;
constexpr double kLargestSign = 7.0;

void paintSign(
    QPainter& painter, const Theme& theme, DriftSign sign, bool listed, QPointF at, double size) {
    painter.setPen(QPen(theme.sound, 2.0));
    painter.setBrush(theme.sound);
    switch (sign) {
    case DriftSign::AsTheRest:
        painter.drawEllipse(at, size * 0.55, size * 0.55);
        break;
    case DriftSign::PlayAgain:
        painter.setBrush(theme.paper);
        painter.drawEllipse(at, size * 0.8, size * 0.8);
        break;
    case DriftSign::Moved:
        painter.drawRect(QRectF(at.x() - size * 0.8, at.y() - size * 0.8, size * 1.6, size * 1.6));
        break;
    case DriftSign::NeverSettled:
        painter.drawLine(at + QPointF(-size * 0.7, -size * 0.7),
                         at + QPointF(size * 0.7, size * 0.7));
        painter.drawLine(at + QPointF(-size * 0.7, size * 0.7),
                         at + QPointF(size * 0.7, -size * 0.7));
        break;
    }
    if (listed) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(theme.target, 2.0));
        painter.drawEllipse(at, size * 1.6, size * 1.6);
    }
}

} // namespace

/// Where everything lies for the present size.
struct DriftView::Layout {
    DrawnKeys keys;
    double right = 0.0; ///< where the lines of the scale end
    double zero = 0;
    double half = 1;
    double sign = 0;

    [[nodiscard]] double height(Cents cents) const { return CentsScale(zero, half).pixel(cents); }
};

DriftView::DriftView(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("drift"));
    presentAsPicture(this, tr("How the strings moved, over the keyboard"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
}

void DriftView::show(const DriftPicture& picture) {
    if (picture == picture_) {
        return;
    }
    if (picture.description != picture_.description) {
        setAccessibleDescription(picture.description);
    }
    picture_ = picture;
    update();
}

DriftView::Layout DriftView::layout() const {
    Layout where;
    where.keys = fitKeys(picture_.keys, kScaleWidth, width() - kScaleWidth - 8.0, kWidestDriftKey);
    where.right = width() - 8.0 - (where.keys.left - kScaleWidth); // keys stand in the middle
    where.keys.height = std::min(kKeysHeight, height() * 0.25);
    where.keys.top = height() - kDriftLegend - where.keys.height;
    where.half = std::max(10.0, (where.keys.top - 20.0) / 2.0);
    where.zero = 8.0 + where.half;
    where.sign = std::clamp(where.keys.keyWidth * 0.3, 2.5, kLargestSign);
    return where;
}

void DriftView::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setLayoutDirection(layoutDirection()); // Qt takes the application's
    painter.setRenderHint(QPainter::Antialiasing);
    QFont small = font();
    small.setPixelSize(13);
    painter.setFont(small);
    const Layout where = layout();
    paintScale(painter, where);
    paintTogether(painter, where);
    paintMarks(painter, where);
    paintKeys(painter,
              themeOf(palette()),
              where.keys,
              picture_.keys,
              {pressed_, picture_.heard, picture_.asked});
    paintLegend(painter, where);
}

void DriftView::paintScale(QPainter& painter, const Layout& where) const {
    const Theme theme = themeOf(palette());
    const bool cramped = where.half < 70.0;
    for (const Cents tick : CentsScale::ticks()) {
        for (const Cents at : {tick, -tick}) {
            const double y = where.height(at);
            painter.setPen(QPen(theme.faint, 1.0));
            painter.drawLine(QPointF(where.keys.left, y), QPointF(where.right, y));
            const bool lettered = !cramped || tick >= Cents(10.0);
            if (lettered) {
                painter.setPen(theme.quiet);
                painter.drawText(QRectF(0.0, y - 9.0, where.keys.left - 6.0, 18.0),
                                 Qt::AlignRight | Qt::AlignVCenter,
                                 (at > Cents(0.0) ? QStringLiteral("+") : QString(QChar(0x2212))) +
                                     QString::number(static_cast<int>(tick.value())));
            }
        }
    }
    painter.setPen(QPen(theme.target, 2.0));
    painter.drawLine(QPointF(where.keys.left, where.zero), QPointF(where.right, where.zero));
    painter.setPen(theme.quiet);
    painter.drawText(QRectF(0.0, where.zero - 9.0, where.keys.left - 6.0, 18.0),
                     Qt::AlignRight | Qt::AlignVCenter,
                     QStringLiteral("0"));
}

/// What the last recheck heard, faint, and what all strings did together, as a fine line.
void DriftView::paintTogether(QPainter& painter, const Layout& where) const {
    const Theme theme = themeOf(palette());
    painter.setBrush(Qt::NoBrush);
    QColor faint = theme.quiet;
    faint.setAlpha(120);
    painter.setPen(QPen(faint, 1.5));
    for (const OverKey& one : picture_.ghost) {
        const QPointF at(where.keys.centre(picture_.keys[one.key]), where.height(one.cents));
        const double size = where.sign * 0.8;
        painter.drawPolygon(QPolygonF({at + QPointF(-size, 0.0),
                                       at + QPointF(0.0, -size),
                                       at + QPointF(size, 0.0),
                                       at + QPointF(0.0, size)}));
    }
    QPolygonF line;
    for (const OverKey& one : picture_.expected) {
        line << QPointF(where.keys.centre(picture_.keys[one.key]), where.height(one.cents));
    }
    painter.setPen(QPen(theme.target, 1.2, Qt::DashLine));
    painter.drawPolyline(line);
}

void DriftView::paintMarks(QPainter& painter, const Layout& where) const {
    const Theme theme = themeOf(palette());
    for (const DriftMark& mark : picture_.marks) {
        const double x = where.keys.centre(picture_.keys[mark.key]);
        painter.setPen(QPen(theme.sound, 1.5));
        painter.drawLine(QPointF(x, where.height(mark.moved - mark.uncertainty)),
                         QPointF(x, where.height(mark.moved + mark.uncertainty)));
        paintSign(painter,
                  theme,
                  mark.sign,
                  mark.listed,
                  QPointF(x, where.height(mark.moved)),
                  where.sign);
    }
}

void DriftView::paintLegend(QPainter& painter, const Layout& where) const {
    const Theme theme = themeOf(palette());
    const double y = height() - kDriftLegend / 2.0;
    double x = where.keys.left;
    const auto word = [&](const QString& text) {
        painter.setPen(theme.quiet);
        const double room = painter.fontMetrics().horizontalAdvance(text) + 18.0;
        painter.drawText(QRectF(x, y - 10.0, room, 20.0), Qt::AlignLeft | Qt::AlignVCenter, text);
        x += room;
    };
    const auto sign = [&](DriftSign one, bool listed, const QString& text) {
        paintSign(painter, theme, one, listed, QPointF(x + 6.0, y), 5.0);
        x += 18.0;
        word(text);
    };
    const auto has = [&](DriftSign one) {
        return std::any_of(picture_.marks.begin(),
                           picture_.marks.end(),
                           [one](const DriftMark& mark) { return mark.sign == one; });
    };
    sign(DriftSign::AsTheRest, false, tr("as the rest"));
    if (has(DriftSign::Moved)) {
        sign(DriftSign::Moved, false, tr("moved by itself"));
    }
    if (has(DriftSign::PlayAgain)) {
        sign(DriftSign::PlayAgain, false, tr("play again"));
    }
    if (has(DriftSign::NeverSettled)) {
        sign(DriftSign::NeverSettled, false, tr("never settled"));
    }
    if (std::any_of(picture_.marks.begin(), picture_.marks.end(), [](const DriftMark& mark) {
            return mark.listed;
        })) {
        sign(DriftSign::AsTheRest, true, tr("worth the hammer"));
    }
    word(picture_.ghostName);
}

std::optional<std::size_t> DriftView::keyAtPoint(QPointF point) const {
    const Layout where = layout();
    // Above the keys a press counts for the sign that stands there.
    if (point.y() < where.keys.top) {
        point.setY(where.keys.besideSharps());
    }
    return where.keys.under(point, picture_.keys);
}

void DriftView::mousePressEvent(QMouseEvent* event) {
    pressed_ = keyAtPoint(event->position());
    if (pressed_) {
        update();
        Q_EMIT keyPressed(*pressed_);
    }
}

void DriftView::mouseReleaseEvent(QMouseEvent* /*event*/) {
    if (pressed_) {
        const std::size_t key = *pressed_;
        pressed_.reset();
        update();
        Q_EMIT keyReleased(key);
    }
}

bool DriftView::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip) {
        return QWidget::event(event);
    }
    const auto* help = static_cast<QHelpEvent*>(event);
    const auto key = keyAtPoint(help->pos());
    if (!key) {
        QToolTip::hideText();
        return true;
    }
    QString text = picture_.keys[*key].name;
    for (const DriftMark& mark : picture_.marks) {
        if (mark.key == *key) {
            text = tr("%1: %2 %3 cents")
                       .arg(text, signedCents(mark.moved), plusMinus(mark.uncertainty));
        }
    }
    QToolTip::showText(help->globalPos(), text, this);
    return true;
}

} // namespace quillbench
