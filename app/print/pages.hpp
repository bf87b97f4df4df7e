#pragma once

#include "core/support/result.hpp"

#include <QFont>
#include <QPageSize>
#include <QString>
#include <functional>

class QPagedPaintDevice;
class QWidget;

namespace quillbench {

/// Resolution of everything that is printed, in dots an inch.
inline constexpr int kPrintDots = 300;

/// Paints all of its pages on a device whose resolution is kPrintDots: a printer or a PDF file. **Errors** Environment.
using PaintPages = std::function<Result<void>(QPagedPaintDevice&)>;

/// What is printed is set in the type of the window, whatever the device.
[[nodiscard]] QFont printType();

struct Printout {
    QString title; ///< of the document
    QPageSize::PageSizeId size = QPageSize::A4;
    PaintPages paint;
};

/// What a PaintPages answers where the device does not begin, and where it stops before the end.
[[nodiscard]] Unexpected<Error> nothingPrints();
[[nodiscard]] Unexpected<Error> printingStopped();

/// Into a PDF file, as vectors. **Errors** Environment where it cannot be written.
[[nodiscard]] Result<void> writePdf(const QString& file, const Printout& printout);

/// Where a PDF file is offered to be written: that folder where it is there, else the home folder.
[[nodiscard]] QString folderForPdf(const QString& documents);

/// Asks by the desktop's own dialog for a printer or a PDF file, and prints there. Gives what came of it in words,
/// empty where the person gave up. **Thread** GUI.
[[nodiscard]] QString print(QWidget* parent, const Printout& printout);

} // namespace quillbench
