#include "app/places/temperament/circle_view.hpp"

#include "app/paint/scale_map.hpp"
#include "app/paint/theme.hpp"
#include "app/views/screen_reader.hpp"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kFullBulgeCents = 12.0; // wider or narrower lies at the edge
constexpr double kBulgeOfRadius = 0.17;  // how far the edge is from the pure circle
constexpr double kCirclePerNote = std::numbers::pi / 6.0;
constexpr int kArcPieces = 24;
constexpr double kPureWithinCents = 0.005; // drawn as lying on the circle
constexpr double kCoarsePixels = 7.0;      // of a drag, one coarse step
constexpr double kFinePixels = 3.0;

/// Where things lie: the middle, the pure circle, and the scale from cents to distance.
struct CirclePlan {
    explicit CirclePlan(const QRectF& area)
        : middle(area.center()),
          radius(std::min(area.width(), area.height()) / 2.0 * 0.84),
          scale(-kFullBulgeCents,
                kFullBulgeCents,
                -radius * kBulgeOfRadius,
                radius * kBulgeOfRadius) {}

    QPointF middle;
    double radius;
    LinearScale scale;

    [[nodiscard]] QPointF at(double angle, double distance) const {
        return middle + QPointF(distance * std::sin(angle), -distance * std::cos(angle));
    }

    [[nodiscard]] static double angleOf(const CirclePicture& picture, double fifth) {
        return kCirclePerNote * (picture.firstPlace + fifth);
    }

    [[nodiscard]] QPointF handle(const CirclePicture& picture, std::size_t fifth) const {
        const double bulge = scale.pixelInside(picture.fifths[fifth].width.value());
        return at(angleOf(picture, static_cast<double>(fifth) + 0.5), radius + bulge);
    }

    [[nodiscard]] QPainterPath
    wire(const CirclePicture& picture, std::size_t fifth, Cents width) const {
        const double bulge = scale.pixelInside(width.value());
        QPainterPath path;
        for (int i = 0; i <= kArcPieces; ++i) {
            const double t = static_cast<double>(i) / kArcPieces;
            const QPointF point =
                at(angleOf(picture, static_cast<double>(fifth) + t),
                   radius + bulge * std::pow(std::sin(std::numbers::pi * t), 0.8));
            i == 0 ? path.moveTo(point) : path.lineTo(point);
        }
        return path;
    }
};

void paintHandle(QPainter& painter,
                 const QPointF& at,
                 double size,
                 bool pure,
                 const QColor& edge,
                 const QColor& fill) {
    painter.setPen(QPen(edge, size / 4.0));
    painter.setBrush(fill);
    if (pure) {
        painter.drawEllipse(at, size * 0.8, size * 0.8);
        return;
    }
    painter.drawPolygon(QPolygonF({at + QPointF(0, -size),
                                   at + QPointF(size, 0),
                                   at + QPointF(0, size),
                                   at + QPointF(-size, 0)}));
}

void paintFifth(QPainter& painter,
                const CirclePlan& plan,
                const CirclePicture& picture,
                std::size_t fifth,
                const Theme& theme,
                bool chosen,
                bool focus) {
    const FifthShown& one = picture.fifths[fifth];
    const bool pure = std::abs(one.width.value()) < kPureWithinCents;
    painter.setBrush(Qt::NoBrush);
    if (one.compared) {
        painter.setPen(QPen(theme.quiet, plan.radius * 0.008, Qt::DashLine));
        painter.drawPath(plan.wire(picture, fifth, *one.compared));
    }
    painter.setPen(QPen(pure ? theme.target : theme.sound, plan.radius * (chosen ? 0.026 : 0.016)));
    painter.drawPath(plan.wire(picture, fifth, one.width));
    const QPointF handle = plan.handle(picture, fifth);
    const double size = plan.radius * 0.035;
    if (chosen) {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(theme.ink, focus ? 2.5 : 1.0, focus ? Qt::SolidLine : Qt::DotLine));
        painter.drawEllipse(handle, size * 2.1, size * 2.1);
    }
    paintHandle(painter, handle, size, pure, theme.paper, pure ? theme.target : theme.sound);
    QFont font = painter.font();
    font.setPixelSize(std::max(1, static_cast<int>(plan.radius * 0.072)));
    font.setBold(chosen);
    painter.setFont(font);
    painter.setPen(pure ? theme.quiet : theme.ink);
    const double line = plan.radius * 0.085;
    const QPointF label =
        plan.at(CirclePlan::angleOf(picture, static_cast<double>(fifth) + 0.5), plan.radius * 0.66);
    const QRectF box(
        label.x() - plan.radius * 0.3, label.y() - line, plan.radius * 0.6, line * 2.0);
    if (one.cents.isEmpty()) {
        painter.drawText(box, Qt::AlignCenter, one.fraction);
        return;
    }
    painter.drawText(box, Qt::AlignHCenter | Qt::AlignTop, one.fraction);
    painter.setPen(theme.quiet);
    painter.drawText(box, Qt::AlignHCenter | Qt::AlignBottom, one.cents);
}

void paintNoteDiscs(QPainter& painter,
                    const CirclePlan& plan,
                    const CirclePicture& picture,
                    const Theme& theme) {
    QFont font = painter.font();
    font.setPixelSize(std::max(1, static_cast<int>(plan.radius * 0.105)));
    font.setBold(true);
    painter.setFont(font);
    const std::size_t notes = picture.fifths.size() + (picture.closed ? 0 : 1);
    for (std::size_t i = 0; i < notes; ++i) {
        const double disc = plan.radius * 0.10;
        // A chain that goes on past twelve notes winds outwards.
        const double out = plan.radius + (i >= 12 ? 2.2 * disc : 0.0);
        const QPointF at = plan.at(CirclePlan::angleOf(picture, static_cast<double>(i)), out);
        painter.setPen(QPen(theme.ink, plan.radius * 0.006));
        painter.setBrush(theme.sheet);
        painter.drawEllipse(at, disc, disc);
        painter.setPen(theme.ink);
        painter.drawText(QRectF(at.x() - disc * 2, at.y() - disc, disc * 4, disc * 2),
                         Qt::AlignCenter,
                         i < picture.fifths.size() ? picture.fifths[i].lower : picture.lastNote);
    }
}

} // namespace

void paintCircle(QPainter& painter,
                 const QRectF& area,
                 const CirclePicture& picture,
                 const Theme& theme,
                 std::size_t chosen,
                 bool focus) {
    painter.setRenderHint(QPainter::Antialiasing);
    const CirclePlan plan(area);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(theme.target, plan.radius * 0.008));
    painter.drawEllipse(plan.middle, plan.radius, plan.radius);
    for (std::size_t i = 0; i < picture.fifths.size(); ++i) {
        paintFifth(painter, plan, picture, i, theme, i == chosen, focus);
    }
    paintNoteDiscs(painter, plan, picture, theme);
    QFont font = painter.font();
    font.setPixelSize(std::max(1, static_cast<int>(plan.radius * 0.088)));
    font.setBold(true);
    painter.setFont(font);
    painter.setPen(theme.ink);
    const double half = plan.radius * 0.42;
    const QRectF middle(plan.middle.x() - half, plan.middle.y() - half, 2.0 * half, 2.0 * half);
    if (picture.closing.isEmpty()) {
        painter.drawText(middle, Qt::AlignCenter | Qt::TextWordWrap, picture.name);
        return;
    }
    painter.drawText(middle.adjusted(0, 0, 0, -half),
                     Qt::AlignHCenter | Qt::AlignBottom | Qt::TextWordWrap,
                     picture.name);
    painter.setPen(theme.sound);
    painter.drawText(middle.adjusted(0, half * 1.05, 0, 0),
                     Qt::AlignHCenter | Qt::AlignTop | Qt::TextWordWrap,
                     picture.closing);
}

CircleView::CircleView(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("circle"));
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    presentAsPicture(this, tr("Circle of fifths"));
    setToolTip(tr("Left and right choose a fifth; up and down temper it by a twelfth of the comma, "
                  "with Shift by a tenth of a cent; 0 makes it pure; = lets it take what is left. "
                  "Or drag its mark: inwards narrow, outwards wide."));
}

void CircleView::show(const CirclePicture& picture) {
    chosen_ = placeIn(picture);
    picture_ = picture;
    setAccessibleDescription(picture.description);
    update();
}

/// The fifth that is chosen, wherever the other picture begins its chain.
std::size_t CircleView::placeIn(const CirclePicture& picture) const {
    const int count = static_cast<int>(picture.fifths.size());
    if (count == 0 || picture_.fifths.empty()) {
        return 0;
    }
    const int place = static_cast<int>(chosen_) + picture_.firstPlace - picture.firstPlace;
    return static_cast<std::size_t>((place % count + count) % count);
}

void CircleView::choose(std::size_t fifth) {
    if (fifth < picture_.fifths.size() && fifth != chosen_) {
        chosen_ = fifth;
        tellChosen();
    }
}

void CircleView::tellChosen() {
    update();
    Q_EMIT chosenChanged(chosen_);
}

QPointF CircleView::handleOf(std::size_t fifth) const {
    return CirclePlan(rect()).handle(picture_, fifth);
}

QSize CircleView::sizeHint() const {
    return {400, 360};
}

QSize CircleView::minimumSizeHint() const {
    return {300, 300};
}

void CircleView::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setLayoutDirection(layoutDirection()); // Qt takes the application's
    const Theme theme = themeOf(palette());
    painter.fillRect(rect(), theme.paper);
    paintCircle(painter, rect(), picture_, theme, chosen_, hasFocus());
}

void CircleView::keyPressEvent(QKeyEvent* event) {
    const std::size_t count = picture_.fifths.size();
    const bool fine = event->modifiers().testFlag(Qt::ShiftModifier);
    if (count == 0) {
        return;
    }
    switch (event->key()) {
    case Qt::Key_Right:
        return choose((chosen_ + 1) % count);
    case Qt::Key_Left:
        return choose((chosen_ + count - 1) % count);
    case Qt::Key_Up:
    case Qt::Key_Plus:
        Q_EMIT stepped(chosen_, 1, fine && event->key() == Qt::Key_Up);
        return;
    case Qt::Key_Down:
    case Qt::Key_Minus:
        Q_EMIT stepped(chosen_, -1, fine && event->key() == Qt::Key_Down);
        return;
    case Qt::Key_0:
        Q_EMIT pureWanted(chosen_);
        return;
    case Qt::Key_Equal:
        Q_EMIT closeWanted(chosen_);
        return;
    default:
        QWidget::keyPressEvent(event);
    }
}

std::size_t CircleView::fifthAt(const QPointF& point) const {
    std::size_t nearest = 0;
    double least = 1e9;
    for (std::size_t i = 0; i < picture_.fifths.size(); ++i) {
        const QPointF away = handleOf(i) - point;
        const double distance = std::hypot(away.x(), away.y());
        if (distance < least) {
            least = distance;
            nearest = i;
        }
    }
    return nearest;
}

void CircleView::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton || picture_.fifths.empty()) {
        return;
    }
    choose(fifthAt(event->position()));
    const QPointF out = event->position() - QRectF(rect()).center();
    dragFrom_ = std::hypot(out.x(), out.y());
    draggedSteps_ = 0;
    dragging_ = true;
}

void CircleView::mouseMoveEvent(QMouseEvent* event) {
    if (!dragging_) {
        return;
    }
    const bool fine = event->modifiers().testFlag(Qt::ShiftModifier);
    const QPointF out = event->position() - QRectF(rect()).center();
    const double moved = std::hypot(out.x(), out.y()) - dragFrom_;
    const int steps = static_cast<int>(std::lround(moved / (fine ? kFinePixels : kCoarsePixels)));
    if (steps != draggedSteps_) {
        draggedSteps_ = steps;
        Q_EMIT dragged(chosen_, steps, fine);
    }
}

void CircleView::mouseReleaseEvent(QMouseEvent* /*event*/) {
    dragging_ = false;
    Q_EMIT dragEnded();
}

void CircleView::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    update();
}

void CircleView::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

} // namespace quillbench
