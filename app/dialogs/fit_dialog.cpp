#include "app/dialogs/fit_dialog.hpp"

#include <QDialog>
#include <QLayout>
#include <algorithm>

namespace quillbench {

void fitToWords(QDialog& dialog, int least) {
    const int wide = std::max(least, dialog.sizeHint().width());
    const int high =
        std::max(dialog.sizeHint().height(), dialog.layout()->totalHeightForWidth(wide));
    dialog.setMinimumSize(wide, high);
    dialog.resize(wide, high);
}

} // namespace quillbench
