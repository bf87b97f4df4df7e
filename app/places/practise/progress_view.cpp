#include "app/places/practise/progress_view.hpp"

#include "app/paint/scale_map.hpp"
#include "app/paint/theme.hpp"
#include "app/views/screen_reader.hpp"

#include <QPainter>
#include <algorithm>

namespace quillbench {

namespace {

constexpr double kProgressEdge = 16.0;
constexpr double kLineHeight = 40.0;
constexpr double kAxisHeight = 22.0;
constexpr double kDot = 5.0;

/// Draws wrapped text and says how much room it took.
double paintText(QPainter& painter, const QRectF& area, const QString& text) {
    if (text.isEmpty()) {
        return 0.0;
    }
    QRectF used;
    painter.drawText(area, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, text, &used);
    return used.height() + 4.0;
}

void paintAxis(QPainter& painter,
               const Theme& theme,
               const ProgressPicture& picture,
               const QRectF& area,
               const LinearScale& x) {
    for (std::size_t i = 0; i < picture.published.size(); ++i) {
        const AxisMark& mark = picture.published[i];
        const QRectF stretch(QPointF(x.pixel(mark.from) - 1.0, area.top()),
                             QPointF(x.pixel(mark.to) + 1.0, area.bottom()));
        QColor fill = theme.target;
        fill.setAlphaF(0.45F);
        painter.fillRect(stretch, QBrush(fill, Qt::BDiagPattern));
        painter.setPen(theme.target);
        painter.drawText(QRectF(stretch.center().x() - 12.0, area.top() - 17.0, 24.0, 16.0),
                         Qt::AlignCenter,
                         QString(QChar(u'a' + static_cast<int>(i))));
    }
    for (const AxisMark& tick : picture.ticks) {
        const double at = x.pixel(tick.from);
        painter.setPen(QPen(theme.faint, 1.0));
        painter.drawLine(QPointF(at, area.top()), QPointF(at, area.bottom()));
        painter.setPen(theme.quiet);
        painter.drawText(
            QRectF(at - 24.0, area.bottom() + 2.0, 48.0, 16.0), Qt::AlignCenter, tick.text);
    }
}

/// A line of text that stays legible whatever was drawn there.
void paintOver(QPainter& painter,
               const Theme& theme,
               const QRectF& line,
               Qt::Alignment side,
               const QString& text) {
    const Qt::Alignment where = side | Qt::AlignVCenter;
    const QRectF taken = painter.boundingRect(line, static_cast<int>(where), text);
    painter.fillRect(
        QRectF(taken.left() - 3.0, line.top() - 1.0, taken.width() + 6.0, line.height()),
        theme.paper);
    painter.drawText(line, static_cast<int>(where), text);
}

void paintStanding(QPainter& painter,
                   const Theme& theme,
                   const StandingShown& standing,
                   const QRectF& area,
                   const LinearScale& x) {
    painter.setPen(theme.ink);
    const QRectF words(area.left(), area.top(), area.width(), 18.0);
    paintOver(painter, theme, words, Qt::AlignLeft, standing.name);
    painter.setPen(theme.quiet);
    paintOver(painter, theme, words, Qt::AlignRight, standing.words);
    if (!standing.tells) {
        return;
    }
    const double y = area.top() + 28.0;
    painter.setPen(QPen(theme.sound, 3.0, standing.small ? Qt::DotLine : Qt::SolidLine));
    painter.drawLine(QPointF(x.pixel(standing.low), y), QPointF(x.pixel(standing.high), y));
    painter.setPen(QPen(theme.ink, 1.5));
    painter.setBrush(standing.small ? QBrush(theme.paper) : QBrush(theme.sound));
    painter.drawEllipse(QPointF(x.pixel(standing.at), y), kDot, kDot);
}

void paintWeek(QPainter& painter,
               const Theme& theme,
               const WeekShown& week,
               const QRectF& area,
               const LinearScale& x,
               const LinearScale& y) {
    const double at = x.pixel(week.day);
    painter.setPen(QPen(theme.sound, 3.0, week.small ? Qt::DotLine : Qt::SolidLine));
    painter.drawLine(QPointF(at, y.pixel(week.low)), QPointF(at, y.pixel(week.high)));
    painter.setPen(QPen(theme.ink, 1.5));
    painter.setBrush(week.small ? QBrush(theme.paper) : QBrush(theme.sound));
    painter.drawEllipse(QPointF(at, y.pixel(week.at)), kDot, kDot);
    if (!week.date.isEmpty()) {
        painter.setPen(theme.quiet);
        const double left = std::clamp(at - 40.0, area.left() - 8.0, area.right() - 72.0);
        const Qt::Alignment side = week.day <= 0.0 ? Qt::AlignLeft : Qt::AlignHCenter;
        painter.drawText(QRectF(left, area.bottom() + 2.0, 80.0, 16.0),
                         static_cast<int>(side | Qt::AlignVCenter),
                         week.date);
    }
}

/// The same axis upright, harder upwards; what was published as hatched bands; one mark a week.
void paintWeeks(QPainter& painter,
                const Theme& theme,
                const ProgressPicture& picture,
                const QRectF& area) {
    const LinearScale x(0.0, 1.0, area.left() + 44.0, area.right() - 12.0);
    const LinearScale y(0.0, 1.0, area.bottom(), area.top());
    for (std::size_t i = 0; i < picture.published.size(); ++i) {
        const AxisMark& mark = picture.published[i];
        const QRectF band(QPointF(area.left() + 36.0, y.pixel(mark.to) - 1.0),
                          QPointF(area.right(), y.pixel(mark.from) + 1.0));
        QColor fill = theme.target;
        fill.setAlphaF(0.45F);
        painter.fillRect(band, QBrush(fill, Qt::BDiagPattern));
    }
    for (const AxisMark& tick : picture.ticks) {
        const double at = y.pixel(tick.from);
        painter.setPen(QPen(theme.faint, 1.0));
        painter.drawLine(QPointF(area.left() + 36.0, at), QPointF(area.right(), at));
        painter.setPen(theme.quiet);
        painter.drawText(QRectF(area.left(), at - 8.0, 30.0, 16.0),
                         Qt::AlignRight | Qt::AlignVCenter,
                         tick.text);
    }
    for (const WeekShown& week : picture.weeks) {
        paintWeek(painter, theme, week, area, x, y);
    }
}

} // namespace

ProgressView::ProgressView(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("progress"));
    presentAsPicture(this, tr("Where your ear stands"));
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Expanding);
}

void ProgressView::show(const ProgressPicture& picture) {
    if (picture == picture_) {
        return;
    }
    if (picture.description != picture_.description) {
        setAccessibleDescription(picture.description);
    }
    picture_ = picture;
    update();
}

QSize ProgressView::sizeHint() const {
    return {360, 420};
}

QSize ProgressView::minimumSizeHint() const {
    return {240, 160};
}

void ProgressView::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setLayoutDirection(layoutDirection()); // Qt takes the application's
    painter.setRenderHint(QPainter::Antialiasing);
    const Theme theme = themeOf(palette());
    painter.fillRect(rect(), theme.paper);
    QFont small = font();
    small.setPixelSize(13);
    QFont title = font();
    title.setPixelSize(17);
    title.setBold(true);
    const double left = kProgressEdge;
    const double wide = width() - 2.0 * kProgressEdge;
    painter.setFont(title);
    painter.setPen(theme.ink);
    double y = 6.0 + paintText(painter, QRectF(left, 6.0, wide, height()), picture_.title);
    painter.setFont(small);
    painter.setPen(theme.quiet);
    y += paintText(painter, QRectF(left, y, wide, height()), picture_.axis) + 16.0;
    const auto lines = static_cast<double>(std::max<std::size_t>(1, picture_.standings.size()));
    const QRectF area(left, y, wide, lines * kLineHeight);
    const LinearScale x(0.0, 1.0, area.left() + 8.0, area.right() - 8.0);
    paintAxis(painter, theme, picture_, area, x);
    for (std::size_t i = 0; i < picture_.standings.size(); ++i) {
        paintStanding(painter,
                      theme,
                      picture_.standings[i],
                      QRectF(area.left(),
                             area.top() + static_cast<double>(i) * kLineHeight,
                             area.width(),
                             kLineHeight),
                      x);
    }
    y = area.bottom() + kAxisHeight;
    if (!picture_.weeks.empty()) {
        painter.setPen(theme.ink);
        y += 6.0 + paintText(painter, QRectF(left, y + 6.0, wide, height()), picture_.weeksTitle);
        const QRectF weeks(left, y + 6.0, wide, std::clamp(0.28 * height(), 70.0, 220.0));
        paintWeeks(painter, theme, picture_, weeks);
        y = weeks.bottom() + kAxisHeight + 4.0;
    }
    painter.setPen(theme.target);
    for (std::size_t i = 0; i < picture_.published.size(); ++i) {
        y += paintText(painter,
                       QRectF(left, y, wide, height()),
                       QStringLiteral("%1  %2")
                           .arg(QChar(u'a' + static_cast<int>(i)))
                           .arg(picture_.published[i].text));
    }
    painter.setPen(theme.ink);
    paintText(painter,
              QRectF(left, y + 6.0, wide, height()),
              picture_.standings.empty() ? picture_.hint : picture_.habit);
}

} // namespace quillbench
