#include "app/views/pin_view.hpp"

#include "app/paint/theme.hpp"
#include "app/text/format.hpp"
#include "app/views/screen_reader.hpp"

#include <QLocale>
#include <QMouseEvent>
#include <QPainter>
#include <QStyle>
#include <QWheelEvent>
#include <cmath>

namespace quillbench {

namespace {

constexpr double kCentsPerPixel = 0.1;
constexpr double kCoarse = 10.0; // times as far with Shift
constexpr double kShownTurn =
    4.0; // the hammer is drawn turned by this much more than it was, to be seen
constexpr int kPinWidth = 150;
constexpr int kPinEdge =
    16; // stays free at the window's side, as beside everything else on the page
constexpr int kNotch = 120; // eighths of a degree of the wheel

} // namespace

PinView::PinView(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("pin"));
    presentAsPicture(this, tr("Pin of the virtual string"));
    setCursor(Qt::OpenHandCursor);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Expanding);
    setToolTip(tr("Drag, wheel or \u2191 \u2193 turn the pin finely; with Shift coarsely"));
}

void PinView::show(const QString& note, double turned, double centsPerDegree) {
    if (note == note_ && std::abs(turned - turned_) < 1e-9 &&
        std::abs(centsPerDegree - centsPerDegree_) < 1e-9) {
        return;
    }
    note_ = note;
    turned_ = turned;
    centsPerDegree_ = centsPerDegree;
    setAccessibleDescription(
        tr("The pin of %1 was turned by %2; one degree is %3 cents")
            .arg(note, degreesText(turned), sizeInCents(Cents(centsPerDegree))));
    update();
}

QSize PinView::sizeHint() const {
    return {kPinWidth + kPinEdge, 200};
}

void PinView::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setLayoutDirection(layoutDirection()); // Qt takes the application's
    painter.setRenderHint(QPainter::Antialiasing);
    const Theme theme = themeOf(palette());
    const QRectF area =
        QStyle::visualRect(layoutDirection(), rect(), rect().adjusted(0, 0, -kPinEdge, 0));
    const double reach = std::min(area.width() * 0.44, (area.height() - 60.0) * 0.46);
    const QPointF centre(area.center().x(), 10.0 + reach);
    painter.setPen(QPen(theme.faint, 1.0, Qt::DotLine));
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(centre, reach, reach);
    painter.save();
    painter.translate(centre);
    painter.rotate(std::remainder(turned_ * kShownTurn, 360.0));
    painter.setPen(QPen(theme.ink, held_ ? 9.0 : 7.0, Qt::SolidLine, Qt::RoundCap));
    painter.drawLine(QPointF(0.0, 0.0), QPointF(0.0, -reach + 4.0));
    painter.setPen(QPen(theme.ink, 1.5));
    painter.setBrush(theme.sheet);
    painter.drawEllipse(QPointF(0.0, 0.0), 14.0, 14.0);
    painter.drawRect(QRectF(-5.0, -9.0, 10.0, 18.0));
    painter.restore();
    QFont small = font();
    small.setPixelSize(13);
    painter.setFont(small);
    painter.setPen(theme.ink);
    const QString sign = turned_ < 0.0 ? QStringLiteral("\u2212") : QStringLiteral("+");
    const QString degrees = sign + QLocale().toString(std::abs(turned_), 'f', 2) + QChar(0xb0);
    painter.drawText(
        QRectF(area.left(), centre.y() + reach + 6.0, area.width(), 18.0), Qt::AlignCenter, note_);
    painter.setPen(theme.quiet);
    painter.drawText(QRectF(area.left(), centre.y() + reach + 24.0, area.width(), 18.0),
                     Qt::AlignCenter,
                     tr("%1; 1° is %2 ct").arg(degrees, sizeInCents(Cents(centsPerDegree_))));
}

void PinView::mousePressEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton) {
        held_ = true;
        grip_ = event->position();
        setCursor(Qt::ClosedHandCursor);
        update();
    }
}

void PinView::mouseMoveEvent(QMouseEvent* event) {
    if (!held_) {
        return;
    }
    const QPointF moved = event->position() - grip_;
    grip_ = event->position();
    const double coarse = event->modifiers().testFlag(Qt::ShiftModifier) ? kCoarse : 1.0;
    const double cents = (moved.x() - moved.y()) * kCentsPerPixel * coarse;
    Q_EMIT turnedBy(cents / centsPerDegree_);
}

void PinView::mouseReleaseEvent(QMouseEvent* /*event*/) {
    if (held_) {
        held_ = false;
        setCursor(Qt::OpenHandCursor);
        update();
        Q_EMIT letGo();
    }
}

void PinView::wheelEvent(QWheelEvent* event) {
    // With Shift some systems turn the wheel sideways.
    wheel_ += event->angleDelta().y() != 0 ? event->angleDelta().y() : event->angleDelta().x();
    const bool coarse = event->modifiers().testFlag(Qt::ShiftModifier);
    while (std::abs(wheel_) >= kNotch) {
        const int direction = wheel_ > 0 ? 1 : -1;
        wheel_ -= direction * kNotch;
        Q_EMIT stepped(coarse, direction);
    }
    event->accept();
}

} // namespace quillbench
