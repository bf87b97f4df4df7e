#include "app/places/action/worksheet.hpp"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QLocale>
#include <QPagedPaintDevice>
#include <QPainter>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct SheetText {
    Q_DECLARE_TR_FUNCTIONS(SheetText)
};

constexpr double kPoint = kPrintDots / 72.0;

/// Writes text into a box and says how high it became.
double writeText(QPainter& painter, QRectF box, const QString& text) {
    QRectF used;
    painter.drawText(box, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, text, &used);
    return used.height();
}

double heightOf(QPainter& painter, double width, const QString& text) {
    return painter
        .boundingRect(QRectF(0.0, 0.0, width, 1e6), Qt::AlignLeft | Qt::TextWordWrap, text)
        .height();
}

/// The rows of the table, set smaller until they fit on the page.
void writeLines(QPainter& painter, QRectF page, const std::vector<WorksheetLine>& lines) {
    const double box = 12.0 * kPoint;
    const double what = page.width() * 0.62;
    const double remarkLeft = page.left() + box + what + 24.0 * kPoint;
    const double remarkWidth = page.right() - remarkLeft;
    QFont type = painter.font();
    constexpr int kLargestHalfPoints = 20;
    constexpr int kSmallestHalfPoints = 10;
    for (int halves = kLargestHalfPoints; halves >= kSmallestHalfPoints; --halves) {
        type.setPointSizeF(halves / 2.0);
        painter.setFont(type);
        double needed = 0.0;
        for (const WorksheetLine& line : lines) {
            needed += std::max({heightOf(painter, what, line.job.what),
                                heightOf(painter, remarkWidth, line.remark),
                                box}) +
                      6.0 * kPoint;
        }
        if (needed <= page.height()) {
            break;
        }
    }
    double y = page.top();
    for (const WorksheetLine& line : lines) {
        const QRectF square(page.left(), y + 1.0 * kPoint, 9.0 * kPoint, 9.0 * kPoint);
        painter.drawRect(square);
        if (line.done) {
            painter.drawLine(square.topLeft(), square.bottomRight());
            painter.drawLine(square.topRight(), square.bottomLeft());
        }
        const double written =
            writeText(painter,
                      QRectF(page.left() + box + 6.0 * kPoint, y, what, page.bottom() - y),
                      line.job.what);
        const double remark =
            writeText(painter, QRectF(remarkLeft, y, remarkWidth, page.bottom() - y), line.remark);
        y += std::max({written, remark, box}) + 3.0 * kPoint;
        painter.drawLine(QPointF(page.left(), y), QPointF(page.right(), y));
        y += 3.0 * kPoint;
    }
}

} // namespace

void Worksheet::renew(const QString& about, const std::vector<ActionJob>& jobs) {
    std::vector<WorksheetLine> kept;
    for (const ActionJob& job : jobs) {
        const auto before = std::find_if(lines_.begin(), lines_.end(), [&](const WorksheetLine& l) {
            return l.job.id == job.id;
        });
        kept.push_back({job,
                        before != lines_.end() && before->done,
                        before == lines_.end() ? QString() : before->remark,
                        false});
    }
    for (const WorksheetLine& line : lines_) {
        const bool again = std::any_of(
            jobs.begin(), jobs.end(), [&](const ActionJob& job) { return job.id == line.job.id; });
        const bool others = !line.job.id.startsWith(about);
        if (!again && (others || line.done || line.earlier || !line.remark.isEmpty())) {
            kept.push_back(line);
        }
    }
    lines_ = std::move(kept);
}

void Worksheet::setDone(std::size_t line, bool done) {
    if (line < lines_.size()) {
        lines_[line].done = done;
    }
}

void Worksheet::setRemark(std::size_t line, const QString& remark) {
    if (line < lines_.size()) {
        lines_[line].remark = remark;
    }
}

void Worksheet::removeDone() {
    lines_.erase(std::remove_if(lines_.begin(),
                                lines_.end(),
                                [](const WorksheetLine& line) { return line.done; }),
                 lines_.end());
}

namespace {

Result<void> paintWorksheet(const WorksheetHead& head,
                            const std::vector<WorksheetLine>& lines,
                            QPagedPaintDevice& device) {
    device.setPageMargins(QMarginsF(15.0, 15.0, 15.0, 15.0), QPageLayout::Millimeter);
    QPainter painter;
    if (!painter.begin(&device)) {
        return nothingPrints();
    }
    painter.setPen(QPen(Qt::black, 0.5 * kPoint));
    const QRectF page(0.0, 0.0, device.width(), device.height());
    QFont type = printType();
    type.setPointSizeF(15.0);
    painter.setFont(type);
    double y = writeText(painter, page, SheetText::tr("Jacks to do: %1").arg(head.instrument));
    type.setPointSizeF(9.0);
    painter.setFont(type);
    const auto note = [&](const QString& text) {
        if (!text.isEmpty()) {
            y += 4.0 * kPoint;
            y += writeText(painter, page.adjusted(0.0, y, 0.0, 0.0), text);
        }
    };
    note(QLocale().toString(head.date, QLocale::LongFormat));
    note(head.whole);
    note(SheetText::tr("Climate, register travel, keyboard height and cleaning come before any "
                       "jack; a plectrum "
                       "is cut last and never on one day's evidence. Keep your eyes away from "
                       "the strings. Stop "
                       "at resistance: adjusting screws are brittle. A historical instrument "
                       "is for a maker or "
                       "conservator."));
    if (lines.empty()) {
        note(SheetText::tr("Nothing stood out among the keys that were heard."));
    }
    const std::size_t shown = std::min(lines.size(), kWorksheetLines);
    if (shown < lines.size()) {
        note(SheetText::tr("%1 more are left out: so many are no fault of single jacks.")
                 .arg(lines.size() - shown));
    }
    y += 10.0 * kPoint;
    writeLines(painter,
               page.adjusted(0.0, y, 0.0, 0.0),
               {lines.begin(), lines.begin() + static_cast<std::ptrdiff_t>(shown)});
    return {};
}

} // namespace

Printout worksheetPrintout(const WorksheetHead& head, const std::vector<WorksheetLine>& lines) {
    return {
        SheetText::tr("Worksheet, %1").arg(head.instrument),
        QPageSize::A4,
        [head, lines](QPagedPaintDevice& device) { return paintWorksheet(head, lines, device); }};
}

} // namespace quillbench
