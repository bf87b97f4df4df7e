#include "app/print/pages.hpp"

#include "app/text/core_text.hpp"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>
#include <QPdfWriter>
#include <QPrintDialog>
#include <QPrinter>
#include <QRegularExpression>
#include <QSaveFile>
#include <QStandardPaths>

namespace quillbench {

namespace {

struct PrintText {
    Q_DECLARE_TR_FUNCTIONS(PrintText)
};

/// A title as the name of a file.
QString fileNameOf(const QString& title) {
    static const QRegularExpression kForbidden(QStringLiteral("[/\\\\:*?\"<>|]+"));
    return QString(title).replace(kForbidden, QStringLiteral("-")).simplified() +
           QStringLiteral(".pdf");
}

} // namespace

Result<void> writePdf(const QString& file, const Printout& printout) {
    QSaveFile out(file);
    if (!out.open(QIODevice::WriteOnly)) {
        return failure(ErrorCode::Environment,
                       file.toStdString() + " cannot be written: " +
                           out.errorString().toStdString() + "; choose another place");
    }
    {
        QPdfWriter pdf(&out);
        pdf.setResolution(kPrintDots);
        pdf.setPageSize(QPageSize(printout.size));
        pdf.setTitle(printout.title);
        if (Result<void> painted = printout.paint(pdf); !painted) {
            return painted;
        }
    }
    if (!out.commit()) {
        return failure(ErrorCode::Environment,
                       file.toStdString() + " cannot be written: " +
                           out.errorString().toStdString() + "; choose another place");
    }
    return {};
}

QString print(QWidget* parent, const Printout& printout) {
    QPrinter printer(QPrinter::HighResolution);
    printer.setResolution(kPrintDots);
    printer.setPageSize(QPageSize(printout.size));
    printer.setDocName(printout.title);
    const QDir documents(QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation));
    if (printer.outputFormat() == QPrinter::PdfFormat) {
        printer.setOutputFileName(documents.filePath(fileNameOf(printout.title)));
    }
    QPrintDialog dialog(&printer, parent);
    dialog.setWindowTitle(printout.title);
    if (dialog.exec() != QDialog::Accepted) {
        return {};
    }
    printer.setResolution(kPrintDots);
    if (const Result<void> painted = printout.paint(printer); !painted) {
        return errorText(painted.error());
    }
    return printer.outputFileName().isEmpty()
               ? PrintText::tr("Sent to the printer %1.").arg(printer.printerName())
               : PrintText::tr("Written: %1").arg(printer.outputFileName());
}

} // namespace quillbench
