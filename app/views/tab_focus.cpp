#include "app/views/tab_focus.hpp"

#include <QApplication>
#include <QTabBar>
#include <QTabWidget>

namespace quillbench {

namespace {

/// The sheet's first control that the Tab key would reach; null: none.
QWidget* firstIn(const QWidget& sheet) {
    for (QWidget* one = sheet.nextInFocusChain(); one != nullptr && one != &sheet;
         one = one->nextInFocusChain()) {
        const bool reached = (one->focusPolicy() & Qt::TabFocus) == Qt::TabFocus &&
                             one->focusProxy() == nullptr && one->isVisibleTo(&sheet) &&
                             one->isEnabled();
        if (reached && sheet.isAncestorOf(one)) {
            return one;
        }
    }
    return nullptr;
}

} // namespace

void leadFocusWith(QTabWidget* tabs) {
    QObject::connect(tabs, &QTabWidget::currentChanged, tabs, [tabs] {
        const QWidget* sheet = tabs->currentWidget();
        const QWidget* now = QApplication::focusWidget();
        if (sheet == nullptr || !tabs->isVisible() || tabs->tabBar()->hasFocus() ||
            (now != nullptr && sheet->isAncestorOf(now))) {
            return;
        }
        QWidget* first = firstIn(*sheet);
        (first != nullptr ? first : tabs->tabBar())->setFocus(Qt::ShortcutFocusReason);
    });
}

} // namespace quillbench
