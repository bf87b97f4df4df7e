#include "app/views/wires_view.hpp"

#include "app/paint/scale_map.hpp"
#include "app/paint/theme.hpp"
#include "app/text/format.hpp"
#include "app/views/screen_reader.hpp"

#include <QLinearGradient>
#include <QLocale>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kEdge = 56.0;      // pixels kept at the left for the scale
constexpr double kOuterEdge = 16.0; // free at the right, as beside everything else on the page
constexpr double kWordGap = 8.0;    // from a wire's end to what stands beside it
constexpr double kPadding = 16.0;   // above and below the outermost line
constexpr double kWire = 3.0;       // thickness of a wire
constexpr double kLeastBlur = 1.5;  // so that a very sure wire is still soft
constexpr double kMarkSize = 5.0;   // half a diamond
constexpr double kNewestMarkSize = 8.0;
constexpr double kNarrowestMark = 64.0; // pixels that one mark with its figures wants
constexpr double kFiguresHeight = 42.0; // two lines below the wires
constexpr double kFiguresFrom = 170.0;  // a lower view has no room for them
constexpr double kTickRatio = 3.0;      // from one ruled line to the next, about
constexpr double kTickLabelPitch = 14.0;
constexpr double kKnotWidth = 52.0;
constexpr double kKnotHeight = 26.0;
constexpr double kTogether = 3.0; // half the distance of two wires that lie together

struct Frame {
    Frame(const QRectF& inside, const Theme& colours)
        : area(inside),
          scale(inside.center().y(), inside.height() / 2.0),
          theme(colours) {}

    QRectF area;
    CentsScale scale;
    Theme theme;

    [[nodiscard]] double y(Cents deviation) const { return scale.pixel(deviation); }
};

QFont sized(const QFont& font, int pixels, bool bold = false) {
    QFont result = font;
    result.setPixelSize(pixels);
    result.setBold(bold);
    return result;
}

void paintRuling(QPainter& painter, const Frame& frame, Cents tolerance) {
    QColor band = frame.theme.target;
    band.setAlphaF(0.12F);
    const double top = frame.y(tolerance);
    painter.fillRect(QRectF(frame.area.left(), top, frame.area.width(), frame.y(-tolerance) - top),
                     band);
    double labelled = frame.y(Cents(0.0));
    for (const Cents tick : CentsScale::ticks()) {
        for (const double side : {1.0, -1.0}) {
            painter.setPen(QPen(frame.theme.faint, 1.0, Qt::DotLine));
            const double y = frame.y(tick * side);
            painter.drawLine(QPointF(frame.area.left(), y), QPointF(frame.area.right(), y));
        }
        const double above = frame.y(tick);
        if (labelled - above < kTickLabelPitch) {
            continue; // no room for the figures of this line
        }
        labelled = above;
        painter.setPen(frame.theme.quiet);
        for (const double side : {1.0, -1.0}) {
            painter.drawText(QRectF(0.0, frame.y(tick * side) - 10.0, kEdge - 12.0, 20.0),
                             Qt::AlignRight | Qt::AlignVCenter,
                             (side > 0.0 ? QStringLiteral("+") : QStringLiteral("\u2212")) +
                                 QLocale().toString(tick.value()));
        }
    }
}

/// A string between its two pins.
void paintWire(
    QPainter& painter, const Frame& frame, double y, const QColor& colour, double width) {
    painter.setPen(QPen(colour, width));
    painter.drawLine(QPointF(frame.area.left(), y), QPointF(frame.area.right(), y));
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    painter.drawEllipse(QPointF(frame.area.left(), y), 5.0, 5.0);
    painter.drawEllipse(QPointF(frame.area.right(), y), 5.0, 5.0);
}

void paintSounding(QPainter& painter,
                   const Frame& frame,
                   const SoundingWire& wire,
                   const QColor& colour) {
    const double y = frame.y(wire.deviation);
    const double top = std::min(frame.y(wire.deviation + wire.uncertainty), y - kLeastBlur);
    const double bottom = std::max(frame.y(wire.deviation - wire.uncertainty), y + kLeastBlur);
    // A soft edge: the wire is most likely in the middle of its blur.
    QLinearGradient blur(0.0, top - (y - top), 0.0, bottom + (bottom - y));
    QColor clear = colour;
    clear.setAlphaF(0.0F);
    QColor dense = colour;
    dense.setAlphaF(wire.ringing ? 0.55F : 0.3F);
    blur.setColorAt(0.0, clear);
    blur.setColorAt(
        std::clamp((y - blur.start().y()) / (blur.finalStop().y() - blur.start().y()), 0.01, 0.99),
        dense);
    blur.setColorAt(1.0, clear);
    painter.fillRect(QRectF(QPointF(frame.area.left(), blur.start().y()),
                            QPointF(frame.area.right(), blur.finalStop().y())),
                     blur);
    paintWire(painter, frame, y, colour, wire.ringing ? kWire + 1.0 : kWire);
}

/// One strand of the knot: from the left pin along the target, through a pretzel of its own, to the right pin.
/// `side` 1 or −1 turns it over.
QPointF strandAt(const Frame& frame, double t, double side) {
    const double x = kKnotWidth * (1.6 * t - 0.95 * std::sin(std::numbers::pi * t));
    const double y = kKnotHeight * std::sin(2.0 * std::numbers::pi * t) * (1.0 - t * t);
    return {frame.area.center().x() + x, frame.y(Cents(0.0)) + side * (y + kTogether)};
}

QPainterPath strand(const Frame& frame, double from, double to, double side) {
    constexpr int kSteps = 40;
    QPainterPath path(strandAt(frame, from, side));
    for (int i = 1; i <= kSteps; ++i) {
        path.lineTo(strandAt(frame, from + (to - from) * i / kSteps, side));
    }
    return path;
}

/// The two wires lie together, tied in the middle.
void paintKnotted(QPainter& painter, const Frame& frame) {
    const auto colourOf = [&](double side) {
        return side > 0.0 ? frame.theme.target : frame.theme.sound;
    };
    painter.setBrush(Qt::NoBrush);
    for (const double side : {1.0, -1.0}) {
        const QColor colour = colourOf(side);
        const QPointF left = strandAt(frame, -1.0, side);
        const QPointF right = strandAt(frame, 1.0, side);
        painter.setPen(QPen(colour, kWire));
        painter.drawLine(QPointF(frame.area.left(), left.y()), left);
        painter.drawLine(right, QPointF(frame.area.right(), right.y()));
        painter.setPen(Qt::NoPen);
        painter.setBrush(colour);
        painter.drawEllipse(QPointF(frame.area.left(), left.y()), 5.0, 5.0);
        painter.drawEllipse(QPointF(frame.area.right(), left.y()), 5.0, 5.0);
        painter.setBrush(Qt::NoBrush);
    }
    // Piece by piece, so that each strand now lies over and now under the other.
    constexpr int kPieces = 6;
    for (int piece = 0; piece < kPieces; ++piece) {
        const double from = -1.0 + 2.0 * piece / kPieces;
        for (const double side : {1.0, -1.0}) {
            const QPainterPath path = strand(frame, from, from + 2.0 / kPieces, side);
            painter.setPen(QPen(frame.theme.paper, kWire + 5.0, Qt::SolidLine, Qt::FlatCap));
            painter.drawPath(path);
            painter.setPen(QPen(colourOf(side), kWire + 1.0, Qt::SolidLine, Qt::RoundCap));
            painter.drawPath(path);
        }
    }
}

void paintMark(
    QPainter& painter, const Frame& frame, double x, const MarkShown& mark, bool newest) {
    const QColor colour = mark.good ? frame.theme.ink : frame.theme.quiet;
    const double y = frame.y(mark.deviation);
    painter.setPen(QPen(colour, newest ? 2.5 : 1.5));
    const double top = frame.y(mark.deviation + mark.uncertainty);
    const double bottom = frame.y(mark.deviation - mark.uncertainty);
    painter.drawLine(QPointF(x, top), QPointF(x, bottom));
    painter.drawLine(QPointF(x - 5.0, top), QPointF(x + 5.0, top));
    painter.drawLine(QPointF(x - 5.0, bottom), QPointF(x + 5.0, bottom));
    const double size = newest ? kNewestMarkSize : kMarkSize;
    painter.setBrush(mark.good ? QBrush(newest ? frame.theme.sound : frame.theme.sheet)
                               : QBrush(Qt::NoBrush));
    painter.drawPolygon(QPolygonF(
        {QPointF(x, y - size), QPointF(x + size, y), QPointF(x, y + size), QPointF(x - size, y)}));
}

/// The newest marks that fit, the newest at the right, each with its figures below the wires.
void paintMarks(QPainter& painter,
                const Frame& frame,
                const std::vector<MarkShown>& marks,
                std::optional<double> figuresTop) {
    const double pitch = std::max(kNarrowestMark, frame.area.width() / 12.0);
    const auto fit = static_cast<std::size_t>((frame.area.width() - pitch * 0.5) / pitch);
    const std::size_t shown = std::min(marks.size(), std::max<std::size_t>(fit, 1));
    for (std::size_t i = 0; i < shown; ++i) {
        const MarkShown& mark = marks[marks.size() - shown + i];
        const bool newest = i + 1 == shown;
        const double x = frame.area.right() - pitch * (static_cast<double>(shown - i) - 0.4);
        paintMark(painter, frame, x, mark, newest);
        if (!figuresTop) {
            continue;
        }
        painter.setPen(newest ? frame.theme.ink : frame.theme.quiet);
        const QRectF figures(x - pitch / 2.0, *figuresTop, pitch, kFiguresHeight - 2.0);
        painter.drawText(figures, Qt::AlignHCenter | Qt::AlignTop, signedCents(mark.deviation));
        painter.drawText(figures, Qt::AlignHCenter | Qt::AlignBottom, plusMinus(mark.uncertainty));
    }
}

} // namespace

WiresView::WiresView(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("wires"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    presentAsPicture(this, tr("The two wires"));
}

void WiresView::show(const WiresPicture& picture) {
    if (picture == picture_) {
        return;
    }
    const bool worded = picture.description != picture_.description;
    picture_ = picture;
    if (worded) {
        setAccessibleDescription(picture.description);
    }
    update();
}

QSize WiresView::sizeHint() const {
    return {900, 300};
}

QSize WiresView::minimumSizeHint() const {
    return {320, 96};
}

void WiresView::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setLayoutDirection(layoutDirection()); // Qt takes the application's
    painter.setRenderHint(QPainter::Antialiasing);
    const Theme theme = themeOf(palette());
    painter.fillRect(rect(), theme.paper);
    const double below = height() < kFiguresFrom ? 0.0 : kFiguresHeight;
    painter.setFont(sized(font(), 13));
    const QString sharp = tr("sharp");
    const QString flat = tr("flat");
    const QFontMetrics type = painter.fontMetrics();
    const double words = std::max(type.horizontalAdvance(sharp), type.horizontalAdvance(flat));
    const double beside = kWordGap + words + kOuterEdge;
    const QRectF area(kEdge, kPadding, width() - kEdge - beside, height() - 2.0 * kPadding - below);
    const Frame frame(area, theme);
    paintRuling(painter, frame, picture_.tolerance);
    painter.setPen(theme.quiet);
    const QRectF right(area.right() + kWordGap, area.top() - 12.0, words, area.height() + 24.0);
    painter.drawText(right, Qt::AlignTop | Qt::AlignRight | Qt::TextDontClip, sharp);
    painter.drawText(right, Qt::AlignBottom | Qt::AlignRight | Qt::TextDontClip, flat);
    if (picture_.knotted) {
        paintKnotted(painter, frame);
    } else {
        paintWire(painter, frame, frame.y(Cents(0.0)), theme.target, kWire);
        if (picture_.sounding) {
            paintSounding(
                painter, frame, *picture_.sounding, picture_.danger ? theme.danger : theme.sound);
        }
    }
    painter.setFont(sized(font(), 15));
    paintMarks(painter,
               frame,
               picture_.marks,
               below > 0.0 ? std::optional(height() - below) : std::nullopt);
}

} // namespace quillbench
