#include "app/print/report.hpp"

#include "app/print/pages.hpp"

#include <QAbstractTextDocumentLayout>
#include <QCoreApplication>
#include <QFont>
#include <QLocale>
#include <QPagedPaintDevice>
#include <QPainter>
#include <QTextDocument>

namespace quillbench {

namespace {

struct ReportText {
    Q_DECLARE_TR_FUNCTIONS(ReportText)
};

constexpr double kMarginMillimetres = 15.0;
constexpr double kDotsAPoint = kPrintDots / 72.0;
constexpr double kTypePoints = 8.5;
constexpr double kCellPoints = 0.7;
constexpr int kBetween = 7; // columns; pixels of a style sheet, 96 an inch on any device
constexpr int kAround = 12; // tables
constexpr double kFootPoints = 18.0;

QString cells(const ReportTable& table, const QStringList& texts, const char* tag) {
    QString row = QStringLiteral("<tr>");
    for (int column = 0; column < texts.size(); ++column) {
        const bool number = table.numbers.contains(column);
        QString text = texts[column];
        if (number && QLatin1String(tag) == QLatin1String("td")) {
            text = onOneLine(text);
        }
        // Without this Qt gives a column a hair less than its longest word, and breaks that.
        const bool whole = text.contains(QChar::Nbsp);
        row += QStringLiteral("<%1 align=\"%2\" style=\"padding-left: %4px;%5\">%3</%1>")
                   .arg(QLatin1String(tag),
                        number ? QStringLiteral("right") : QStringLiteral("left"),
                        text.toHtmlEscaped())
                   .arg(column == 0 ? 0 : kBetween)
                   .arg(whole ? QStringLiteral(" white-space: nowrap") : QString());
    }
    return row + QStringLiteral("</tr>");
}

} // namespace

QString onOneLine(QString words) {
    return words.replace(QLatin1Char(' '), QChar::Nbsp);
}

QString reportHtml(const Report& report) {
    QString html = QStringLiteral("<h2>%1</h2>").arg(report.title.toHtmlEscaped());
    if (!report.facts.isEmpty()) {
        QStringList facts;
        for (const QString& fact : report.facts) {
            facts << fact.toHtmlEscaped();
        }
        html += QStringLiteral("<p>%1</p>").arg(facts.join(QStringLiteral("<br>")));
    }
    for (const ReportTable& table : report.tables) {
        if (!table.title.isEmpty()) {
            html += QStringLiteral("<h4>%1</h4>").arg(table.title.toHtmlEscaped());
        }
        html += QStringLiteral("<table width=\"100%\" style=\"margin-top: %2px; margin-bottom: "
                               "%3px\" cellspacing=\"0\" "
                               "cellpadding=\"%1\" "
                               "border=\"0\"><thead>")
                    .arg(static_cast<int>(kCellPoints * kDotsAPoint))
                    .arg(table.title.isEmpty() ? kAround : 0)
                    .arg(kAround);
        html += cells(table, table.columns, "th") + QStringLiteral("</thead>");
        for (const QStringList& row : table.rows) {
            html += cells(table, row, "td");
        }
        html += QStringLiteral("</table>");
    }
    for (const QString& note : report.notes) {
        html += QStringLiteral("<p>%1</p>").arg(note.toHtmlEscaped());
    }
    return html;
}

Result<void> paintReport(const Report& report, QPagedPaintDevice& device) {
    device.setPageMargins(
        QMarginsF(kMarginMillimetres, kMarginMillimetres, kMarginMillimetres, kMarginMillimetres),
        QPageLayout::Millimeter);
    QPainter painter;
    if (!painter.begin(&device)) {
        return nothingPrints();
    }
    const QSizeF page(device.width(), device.height() - kFootPoints * kDotsAPoint);
    QTextDocument document;
    document.documentLayout()->setPaintDevice(&device);
    QFont type = printType();
    type.setPointSizeF(kTypePoints);
    document.setDefaultFont(type);
    document.setDocumentMargin(0.0);
    document.setDefaultStyleSheet(QStringLiteral("* { color: black; }"));
    document.setHtml(reportHtml(report));
    document.setPageSize(page);
    const int pages = document.pageCount();
    for (int number = 0; number < pages; ++number) {
        if (number > 0 && !device.newPage()) {
            return printingStopped();
        }
        const double top = number * page.height();
        painter.save();
        painter.translate(0.0, -top);
        QAbstractTextDocumentLayout::PaintContext context;
        context.palette.setColor(QPalette::Text, Qt::black);
        context.clip = QRectF(0.0, top, page.width(), page.height());
        painter.setClipRect(context.clip);
        document.documentLayout()->draw(&painter, context);
        painter.restore();
        painter.setFont(type);
        painter.setPen(Qt::black);
        painter.drawText(
            QRectF(0.0, page.height(), page.width(), kFootPoints * kDotsAPoint),
            Qt::AlignRight | Qt::AlignBottom,
            ReportText::tr("%1, page %2 of %3").arg(report.title).arg(number + 1).arg(pages));
    }
    return {};
}

} // namespace quillbench
