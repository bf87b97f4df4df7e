#pragma once

#include <QDialog>

class QMenuBar;

namespace quillbench {

/// Every command of the menus with its keys, menu by menu, in a text that scrolls. **Thread** GUI.
class KeysDialog : public QDialog {
    Q_OBJECT

public:
    explicit KeysDialog(const QMenuBar& menus, QWidget* parent = nullptr);
};

} // namespace quillbench
