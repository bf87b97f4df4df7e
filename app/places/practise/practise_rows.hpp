#pragma once

#include <QString>
#include <functional>
#include <map>
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

/// Decides whether the words of a row have to be short. **Thread** GUI.
class RowFit {
public:
    /// `arrange(short)` words the row; `what` is what stands in it now: its width with whole words is found out once.
    void fit(QWidget& row, const QString& what, int room, const std::function<void(bool)>& arrange);

private:
    std::map<QString, int> wide_; ///< with whole words
};

} // namespace quillbench
