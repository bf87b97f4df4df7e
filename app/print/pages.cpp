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
    return QString(title)
               .replace(QStringLiteral(": "), QStringLiteral(", "))
               .replace(kForbidden, QStringLiteral("-"))
               .simplified() +
           QStringLiteral(".pdf");
}

Unexpected<Error> notWritten(const QSaveFile& file) {
    return failure(ErrorCode::Environment,
                   PrintText::tr("%1: cannot be written (%2); choose another place")
                       .arg(file.fileName(), file.errorString())
                       .toStdString());
}

} // namespace

Unexpected<Error> nothingPrints() {
    return failure(ErrorCode::Environment,
                   PrintText::tr("Nothing can be printed there: choose another printer or file.")
                       .toStdString());
}

Unexpected<Error> printingStopped() {
    return failure(ErrorCode::Environment,
                   PrintText::tr("The paper or the disk ran out while printing: print it again.")
                       .toStdString());
}

QFont printType() {
    QFont type(QStringList{QStringLiteral("DejaVu Serif"), QStringLiteral("Noto Serif")});
    type.setStyleHint(QFont::Serif);
    return type;
}

Result<void> writePdf(const QString& file, const Printout& printout) {
    QSaveFile out(file);
    if (!out.open(QIODevice::WriteOnly)) {
        return notWritten(out);
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
        return notWritten(out);
    }
    return {};
}

QString folderForPdf(const QString& documents) {
    return QDir(documents).exists() ? documents : QDir::homePath();
}

QString print(QWidget* parent, const Printout& printout) {
    QPrinter printer(QPrinter::HighResolution);
    printer.setResolution(kPrintDots);
    printer.setPageSize(QPageSize(printout.size));
    printer.setDocName(printout.title);
    if (printer.outputFormat() == QPrinter::PdfFormat) {
        const QDir folder(
            folderForPdf(QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation)));
        printer.setOutputFileName(folder.filePath(fileNameOf(printout.title)));
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
