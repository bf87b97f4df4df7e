#include "app/places/instrument/compass_view.hpp"

#include "app/paint/scale_map.hpp"
#include "app/paint/theme.hpp"
#include "app/views/screen_reader.hpp"

#include <QKeyEvent>
#include <QLocale>
#include <QMouseEvent>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr double kCompassLeft = 52.0;
constexpr double kCompassRight = 14.0;
constexpr double kCompassBottom = 24.0; // note names
constexpr double kCompassTitle = 22.0;  // above each panel
constexpr double kCompassMargin = 0.06; // of the span, above and below
constexpr double kCompassDots = 2.6;
constexpr int kCompassType = 13;
constexpr std::size_t kCoursesAPage = 12;

struct PanelPlan {
    QRectF area;
    LinearScale across{0.0, 1.0, 0.0, 1.0}; ///< course to pixel
    LinearScale up{0.0, 1.0, 0.0, 1.0};     ///< value, or its logarithm, to pixel
    bool logarithmic = false;
    Theme theme;

    [[nodiscard]] double y(double value) const {
        return up.pixel(logarithmic ? std::log10(value) : value);
    }
};

/// The range of the values, with room, on the panel's own scale.
std::pair<double, double> reach(const CompassPanel& panel) {
    double low = panel.dangerBelow.value_or(panel.lines.front().points.front().low);
    double high = panel.dangerAbove.value_or(low);
    for (const CompassLine& line : panel.lines) {
        for (const CompassPoint& point : line.points) {
            low = std::min(low, point.low);
            high = std::max(high, point.high);
        }
    }
    if (panel.logarithmic) {
        low = std::log10(low);
        high = std::log10(high);
    }
    const double room = std::max(1e-6, (high - low) * kCompassMargin);
    return {low - room, high + room};
}

/// Round values to rule: 1, 2 or 5 times a power of ten; on a logarithmic scale those themselves.
std::vector<double> ruled(double low, double high, bool logarithmic) {
    std::vector<double> values;
    if (logarithmic) {
        for (int decade = static_cast<int>(std::floor(low)); decade <= high; ++decade) {
            for (const double step : {1.0, 2.0, 5.0}) {
                const double value = step * std::pow(10.0, decade);
                if (std::log10(value) > low && std::log10(value) < high) {
                    values.push_back(value);
                }
            }
        }
        return values;
    }
    const double rough = (high - low) / 4.0;
    const double decade = std::pow(10.0, std::floor(std::log10(rough)));
    const double step =
        decade * (rough / decade < 1.5
                      ? 1.0
                      : (rough / decade < 3.5 ? 2.0 : (rough / decade < 7.5 ? 5.0 : 10.0)));
    const auto from = static_cast<int>(std::ceil(low / step));
    const auto to = static_cast<int>(std::floor(high / step));
    for (int i = from; i <= to; ++i) {
        values.push_back(i * step);
    }
    return values;
}

void rulePanel(QPainter& painter,
               const PanelPlan& plan,
               const CompassPanel& panel,
               const CompassPicture& picture) {
    const auto [low, high] = reach(panel);
    QColor red = plan.theme.danger;
    red.setAlphaF(0.14F);
    if (panel.dangerBelow) {
        painter.fillRect(
            QRectF(QPointF(plan.area.left(), plan.y(*panel.dangerBelow)), plan.area.bottomRight()),
            red);
    }
    if (panel.dangerAbove) {
        painter.fillRect(
            QRectF(plan.area.topLeft(), QPointF(plan.area.right(), plan.y(*panel.dangerAbove))),
            red);
    }
    painter.setPen(QPen(plan.theme.faint, 1.0, Qt::DotLine));
    for (const CompassTick& tick : picture.ticks) {
        const double x = plan.across.pixel(tick.course);
        painter.drawLine(QPointF(x, plan.area.top()), QPointF(x, plan.area.bottom()));
    }
    for (const double value : ruled(low, high, panel.logarithmic)) {
        painter.setPen(QPen(plan.theme.faint, 1.0, Qt::DotLine));
        painter.drawLine(QPointF(plan.area.left(), plan.y(value)),
                         QPointF(plan.area.right(), plan.y(value)));
        painter.setPen(plan.theme.quiet);
        painter.drawText(QRectF(0.0, plan.y(value) - 10.0, kCompassLeft - 8.0, 20.0),
                         Qt::AlignRight | Qt::AlignVCenter,
                         QLocale().toString(value, 'g', 4));
    }
    painter.setPen(plan.theme.ink);
    painter.drawText(
        QRectF(plan.area.left(), plan.area.top() - kCompassTitle, plan.area.width(), kCompassTitle),
        Qt::AlignLeft | Qt::AlignVCenter,
        panel.title);
}

void paintLine(QPainter& painter, const PanelPlan& plan, const CompassLine& line) {
    const QColor colour = line.chosen ? plan.theme.target : plan.theme.quiet;
    const bool range = std::any_of(line.points.begin(),
                                   line.points.end(),
                                   [](const CompassPoint& one) { return one.high > one.low; });
    if (range) {
        QPolygonF band;
        for (const CompassPoint& point : line.points) {
            band << QPointF(plan.across.pixel(point.course), plan.y(point.high));
        }
        for (auto point = line.points.rbegin(); point != line.points.rend(); ++point) {
            band << QPointF(plan.across.pixel(point->course), plan.y(point->low));
        }
        QColor soft = colour;
        soft.setAlphaF(line.chosen ? 0.30F : 0.12F);
        painter.setPen(QPen(colour, line.chosen ? 1.5 : 0.8));
        painter.setBrush(soft);
        painter.drawPolygon(band);
        return;
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    for (const CompassPoint& point : line.points) {
        const QPointF at(plan.across.pixel(point.course), plan.y(point.low));
        const double size = line.chosen ? kCompassDots : kCompassDots * 0.6;
        painter.drawEllipse(at, size, size);
    }
}

} // namespace

CompassView::CompassView(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("compassPlots"));
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    presentAsPicture(this, tr("Strings over the compass"));
    setToolTip(tr("Blue: the choir chosen; grey: the others. Left and right go from string to "
                  "string, page up and "
                  "down by octaves."));
}

void CompassView::show(const CompassPicture& picture) {
    picture_ = picture;
    if (!picture_.wordsOfCourse.empty()) {
        course_ = std::min(course_, picture_.wordsOfCourse.size() - 1);
    }
    describe();
    update();
}

void CompassView::describe() {
    setAccessibleDescription(course_ < picture_.wordsOfCourse.size()
                                 ? picture_.description + QLatin1Char(' ') +
                                       picture_.wordsOfCourse[course_]
                                 : picture_.description);
}

void CompassView::choose(std::size_t course) {
    if (course >= picture_.wordsOfCourse.size() || course == course_) {
        return;
    }
    course_ = course;
    describe();
    update();
    Q_EMIT courseChosen(course);
}

QSize CompassView::sizeHint() const {
    return {700, 400};
}

QSize CompassView::minimumSizeHint() const {
    return {360, 340};
}

void CompassView::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setLayoutDirection(layoutDirection()); // Qt takes the application's
    painter.setRenderHint(QPainter::Antialiasing);
    const Theme theme = themeOf(palette());
    painter.fillRect(rect(), theme.paper);
    if (picture_.panels.empty()) {
        return;
    }
    QFont type = font();
    type.setPixelSize(kCompassType);
    painter.setFont(type);
    const double each = (height() - kCompassBottom) / static_cast<double>(picture_.panels.size());
    const double right = width() - kCompassRight;
    const LinearScale across(-0.5, picture_.courses - 0.5, kCompassLeft, right);
    for (std::size_t i = 0; i < picture_.panels.size(); ++i) {
        const CompassPanel& panel = picture_.panels[i];
        const QRectF area(kCompassLeft,
                          each * static_cast<double>(i) + kCompassTitle,
                          right - kCompassLeft,
                          each - kCompassTitle - 4.0);
        const auto [low, high] = reach(panel);
        const PanelPlan plan{area,
                             across,
                             LinearScale(low, high, area.bottom(), area.top()),
                             panel.logarithmic,
                             theme};
        rulePanel(painter, plan, panel, picture_);
        for (const CompassLine& line : panel.lines) {
            if (!line.points.empty()) {
                paintLine(painter, plan, line);
            }
        }
    }
    const double x = across.pixel(static_cast<double>(course_));
    painter.setPen(QPen(theme.sound, hasFocus() ? 2.0 : 1.0));
    painter.drawLine(QPointF(x, kCompassTitle), QPointF(x, height() - kCompassBottom));
    painter.setPen(theme.quiet);
    for (const CompassTick& tick : picture_.ticks) {
        painter.drawText(
            QRectF(
                across.pixel(tick.course) - 30.0, height() - kCompassBottom, 60.0, kCompassBottom),
            Qt::AlignCenter,
            tick.note);
    }
}

void CompassView::keyPressEvent(QKeyEvent* event) {
    const std::size_t count = picture_.wordsOfCourse.size();
    if (count == 0) {
        return;
    }
    switch (event->key()) {
    case Qt::Key_Right:
        return choose(std::min(course_ + 1, count - 1));
    case Qt::Key_Left:
        return choose(course_ - std::min<std::size_t>(course_, 1));
    case Qt::Key_PageUp:
        return choose(std::min(course_ + kCoursesAPage, count - 1));
    case Qt::Key_PageDown:
        return choose(course_ - std::min(course_, kCoursesAPage));
    case Qt::Key_Home:
        return choose(0);
    case Qt::Key_End:
        return choose(count - 1);
    default:
        QWidget::keyPressEvent(event);
    }
}

void CompassView::mousePressEvent(QMouseEvent* event) {
    const LinearScale across(-0.5, picture_.courses - 0.5, kCompassLeft, width() - kCompassRight);
    const double course = std::round(across.value(event->position().x()));
    if (course >= 0.0) {
        choose(static_cast<std::size_t>(course));
    }
}

void CompassView::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    update();
}

void CompassView::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

} // namespace quillbench
