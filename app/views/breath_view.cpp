#include "app/views/breath_view.hpp"

#include "app/paint/scale_map.hpp"
#include "app/paint/theme.hpp"
#include "app/views/screen_reader.hpp"

#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr double kBreathEdge = 56.0; // as the wires above
constexpr double kTop = 16.0;        // room for the crests' marks
constexpr double kBottom = 20.0;
constexpr double kMark = 5.0; // half a crest's mark

QPainterPath
curveOf(const std::vector<BreathPoint>& points, const LinearScale& x, const LinearScale& y) {
    QPainterPath path;
    for (const BreathPoint& point : points) {
        const QPointF at(x.pixel(point.at), y.pixel(point.loudness));
        path.elementCount() == 0 ? path.moveTo(at) : path.lineTo(at);
    }
    return path;
}

double loudnessAt(const std::vector<BreathPoint>& points, double at) {
    const auto after =
        std::lower_bound(points.begin(), points.end(), at, [](const BreathPoint& point, double t) {
            return point.at < t;
        });
    return after == points.end() ? 0.0 : after->loudness;
}

} // namespace

BreathView::BreathView(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("breath"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    presentAsPicture(this, tr("The breath of two strings"));
}

void BreathView::show(const BreathPicture& picture) {
    if (picture == picture_) {
        return;
    }
    if (picture.description != picture_.description) {
        setAccessibleDescription(picture.description);
    }
    picture_ = picture;
    update();
}

QSize BreathView::sizeHint() const {
    return {900, 150};
}

QSize BreathView::minimumSizeHint() const {
    return {320, 72};
}

void BreathView::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setLayoutDirection(layoutDirection()); // Qt takes the application's
    painter.setRenderHint(QPainter::Antialiasing);
    const Theme theme = themeOf(palette());
    painter.fillRect(rect(), theme.paper);
    const QRectF area(kBreathEdge, kTop, width() - 2.0 * kBreathEdge, height() - kTop - kBottom);
    QFont small = font();
    small.setPixelSize(13);
    painter.setFont(small);
    painter.setPen(QPen(theme.faint, 1.0));
    painter.drawLine(area.bottomLeft(), area.bottomRight());
    if (picture_.curve.empty()) {
        painter.setPen(theme.quiet);
        painter.drawText(area, Qt::AlignCenter | Qt::TextWordWrap, picture_.hint);
        return;
    }
    const LinearScale x(picture_.from, picture_.from + picture_.span, area.left(), area.right());
    const LinearScale y(0.0, 1.0, area.bottom(), area.top());
    painter.setPen(theme.quiet);
    for (int second = static_cast<int>(std::ceil(picture_.from));
         second <= picture_.from + picture_.span;
         ++second) {
        const double at = x.pixel(second);
        painter.drawLine(QPointF(at, area.bottom()), QPointF(at, area.bottom() + 4.0));
        painter.drawText(QRectF(at - 20.0, area.bottom() + 3.0, 40.0, 16.0),
                         Qt::AlignCenter,
                         second == 0 ? tr("pluck") : tr("%1 s").arg(second));
    }
    QColor fill = theme.sound;
    fill.setAlphaF(picture_.sounding ? 0.22F : 0.12F);
    QPainterPath body = curveOf(picture_.curve, x, y);
    painter.setPen(QPen(theme.sound, picture_.sounding ? 3.0 : 2.0));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(body);
    body.lineTo(x.pixel(picture_.curve.back().at), area.bottom());
    body.lineTo(x.pixel(picture_.curve.front().at), area.bottom());
    body.closeSubpath();
    painter.fillPath(body, fill);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(theme.target, 1.5));
    painter.drawPath(curveOf(picture_.wanted, x, y));
    for (const double crest : picture_.wantedCrests) {
        painter.drawLine(QPointF(x.pixel(crest), area.top() - 12.0),
                         QPointF(x.pixel(crest), area.top() - 2.0));
    }
    painter.setPen(QPen(theme.ink, 1.5));
    painter.setBrush(theme.sound);
    for (const double crest : picture_.crests) {
        const QPointF at(x.pixel(crest), y.pixel(loudnessAt(picture_.curve, crest)) - 7.0);
        painter.drawPolygon(QPolygonF(
            {at + QPointF(0.0, kMark), at + QPointF(-kMark, -kMark), at + QPointF(kMark, -kMark)}));
    }
    painter.setPen(theme.quiet);
    painter.drawText(QRectF(area.left(), area.top() + 1.0, area.width() - 6.0, 18.0),
                     Qt::AlignRight | Qt::AlignTop,
                     picture_.ear);
}

} // namespace quillbench
