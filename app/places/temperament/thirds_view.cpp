#include "app/places/temperament/thirds_view.hpp"

#include "app/paint/scale_map.hpp"
#include "app/paint/theme.hpp"
#include "app/text/format.hpp"
#include "app/views/screen_reader.hpp"

#include <QLocale>
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr double kThirdsLeft = 44.0; // for the figures of the ruling
constexpr double kThirdsTop = 48.0;  // for what the figures are and the beats of the widest
constexpr double kThirdLine = 1.35;  // of the type's size
constexpr double kThirdsEdge = 8.0;
constexpr double kThirdRule = 10.0;    // cents from line to line
constexpr double kThirdAtLeast = 24.0; // cents always shown, so that two pictures compare
constexpr double kThirdRoom = 4.0;     // cents beyond the outermost
constexpr double kBetweenCents = 5.0;  // pixels, so that figures side by side are told apart

struct ThirdsPlan {
    QRectF area;
    LinearScale scale{0.0, 1.0, 0.0, 1.0};
    double column = 0.0;
    int typeSize = 0; ///< so that a column holds "+21.5"
    Theme theme;

    [[nodiscard]] double middle(std::size_t i) const {
        return area.left() + column * (static_cast<double>(i) + 0.5);
    }
};

/// Lowest and highest cents to show.
std::pair<double, double> spanOf(const ThirdsPicture& picture) {
    const bool wideKind = picture.pythagorean.value() > 0.0;
    double low = wideKind ? 0.0 : -kThirdAtLeast;
    double high = wideKind ? kThirdAtLeast : 0.0;
    for (const ThirdShown& one : picture.thirds) {
        low = std::min({low, one.width.value(), one.compared.value_or(Cents()).value()});
        high = std::max({high, one.width.value(), one.compared.value_or(Cents()).value()});
    }
    return {low - kThirdRoom, high + kThirdRoom};
}

void ruleThirds(QPainter& painter, const ThirdsPlan& plan, const ThirdsPicture& picture) {
    const auto [low, high] = spanOf(picture);
    const int from = static_cast<int>(std::ceil(low / kThirdRule));
    const int to = static_cast<int>(std::floor(high / kThirdRule));
    for (int i = from; i <= to; ++i) {
        const double y = plan.scale.pixel(i * kThirdRule);
        painter.setPen(QPen(plan.theme.faint, 1.0, Qt::DotLine));
        if (i != 0) {
            painter.drawLine(QPointF(plan.area.left(), y), QPointF(plan.area.right(), y));
        }
        painter.setPen(plan.theme.quiet);
        painter.drawText(QRectF(0.0, y - 10.0, kThirdsLeft - 8.0, 20.0),
                         Qt::AlignRight | Qt::AlignVCenter,
                         i == 0 ? ThirdsView::tr("pure")
                                : (i > 0 ? QStringLiteral("+") : QStringLiteral("\u2212")) +
                                      QString::number(std::abs(i) * static_cast<int>(kThirdRule)));
    }
    const double y = plan.scale.pixel(picture.pythagorean.value());
    painter.setPen(QPen(plan.theme.quiet, 1.0, Qt::DashDotLine));
    painter.drawLine(QPointF(plan.area.left(), y), QPointF(plan.area.right(), y));
    painter.setPen(QPen(plan.theme.target, 3.0));
    const double pure = plan.scale.pixel(0.0);
    painter.drawLine(QPointF(plan.area.left(), pure), QPointF(plan.area.right(), pure));
}

void paintThird(QPainter& painter, const ThirdsPlan& plan, const ThirdShown& one, double x) {
    const double pure = plan.scale.pixel(0.0);
    const double y = plan.scale.pixel(one.width.value());
    const double half = plan.column * 0.36;
    QColor span = plan.theme.sound;
    span.setAlphaF(0.16F);
    painter.fillRect(
        QRectF(QPointF(x - half, std::min(y, pure)), QPointF(x + half, std::max(y, pure))), span);
    if (one.compared) {
        const double other = plan.scale.pixel(one.compared->value());
        painter.setPen(QPen(plan.theme.ink, 2.0, Qt::DashLine));
        painter.drawLine(QPointF(x - half, other), QPointF(x + half, other));
    }
    painter.setPen(QPen(plan.theme.sound, 3.0, one.asSpelled ? Qt::SolidLine : Qt::DotLine));
    painter.drawLine(QPointF(x - half, y), QPointF(x + half, y));
    painter.setPen(Qt::NoPen);
    painter.setBrush(plan.theme.sound);
    painter.drawEllipse(QPointF(x - half, y), 3.5, 3.5);
    painter.drawEllipse(QPointF(x + half, y), 3.5, 3.5);
    QFont type = painter.font();
    type.setBold(true);
    type.setPixelSize(plan.typeSize);
    painter.setFont(type);
    painter.setPen(plan.theme.ink);
    const bool above = one.width >= Cents();
    const double line = plan.typeSize * kThirdLine;
    painter.drawText(
        QRectF(x - plan.column / 2.0, above ? y - 5.0 - line : y + 5.0, plan.column, line),
        Qt::AlignCenter,
        QLocale().toString(std::abs(one.beat.perSecond()), 'f', 1));
    type.setBold(false);
    painter.setFont(type);
    // The upper note over the lower one, as the wires lie; what is not spelled as a third in brackets.
    const auto below = [&](int row, const QString& text) {
        painter.drawText(
            QRectF(x - plan.column / 2.0, plan.area.bottom() + 4.0 + row * line, plan.column, line),
            Qt::AlignCenter,
            text);
    };
    const QString form = one.asSpelled ? QStringLiteral("%1") : QStringLiteral("(%1)");
    below(0, form.arg(one.upper));
    below(1, form.arg(one.lower));
    painter.setPen(plan.theme.quiet);
    type.setPixelSize(plan.typeSize - 1);
    painter.setFont(type);
    QString cents = signedCents(one.width);
    if (QFontMetrics(type).horizontalAdvance(cents) > plan.column - kBetweenCents &&
        cents.startsWith(QLatin1Char('+'))) {
        cents.remove(0, 1); // a narrow third keeps its minus
    }
    below(2, cents);
}

} // namespace

ThirdsView::ThirdsView(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("thirds"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    presentAsPicture(this, tr("Thirds"));
    setToolTip(tr("Blue: the pure third. Amber: each third of the temperament, above where it is "
                  "wide and below where it is narrow, with its beats a second. Dash-dotted: the "
                  "Pythagorean third. In brackets: keys not spelled as a third."));
}

void ThirdsView::show(const ThirdsPicture& picture) {
    picture_ = picture;
    setAccessibleDescription(picture.description);
    update();
}

QSize ThirdsView::sizeHint() const {
    return {620, 360};
}

QSize ThirdsView::minimumSizeHint() const {
    return {420, 220};
}

void ThirdsView::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setLayoutDirection(layoutDirection()); // Qt takes the application's
    painter.setRenderHint(QPainter::Antialiasing);
    const Theme theme = themeOf(palette());
    painter.fillRect(rect(), theme.paper);
    if (picture_.thirds.empty()) {
        return;
    }
    const double wide = width() - kThirdsLeft - kThirdsEdge;
    const double column = wide / static_cast<double>(picture_.thirds.size());
    const int typeSize = std::clamp(static_cast<int>(column * 0.36), 9, 15);
    // Three lines below: upper note, lower note, cents.
    const double below = 3.0 * kThirdLine * typeSize + kThirdsEdge;
    const QRectF area(kThirdsLeft, kThirdsTop, wide, height() - kThirdsTop - below);
    const auto [low, high] = spanOf(picture_);
    const ThirdsPlan plan{
        area, LinearScale(low, high, area.bottom(), area.top()), column, typeSize, theme};
    QFont small = font();
    small.setPixelSize(13);
    painter.setFont(small);
    painter.setPen(theme.quiet);
    painter.drawText(
        QRectF(kThirdsLeft, 4.0, area.width(), 20.0),
        Qt::AlignLeft | Qt::AlignVCenter,
        QFontMetrics(small).elidedText(tr("At each third: beats a second; below: cents"),
                                       Qt::ElideRight,
                                       static_cast<int>(area.width())));
    ruleThirds(painter, plan, picture_);
    for (std::size_t i = 0; i < picture_.thirds.size(); ++i) {
        paintThird(painter, plan, picture_.thirds[i], plan.middle(i));
    }
}

} // namespace quillbench
