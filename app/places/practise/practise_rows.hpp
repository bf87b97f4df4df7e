#pragma once

#include <QString>
#include <vector>

class QComboBox;
class QHBoxLayout;
class QLabel;
class QPushButton;
class QWidget;

namespace quillbench {

/// A box with its caption, at the end of a row; `name` is the object's.
QComboBox* addBox(QWidget* parent,
                  QHBoxLayout* row,
                  const QString& caption,
                  const char* name,
                  std::vector<QLabel*>& captions);

/// A button at the end of a row, reached by Tab and never pressed by Return.
QPushButton* addButton(QWidget* parent, QHBoxLayout* row, const char* name, const QString& text);

} // namespace quillbench
