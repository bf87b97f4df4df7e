#pragma once

#include "core/instrument/limits.hpp"

#include <QStringList>
#include <QStyledItemDelegate>
#include <QVariant>
#include <map>

class QTableWidget;

namespace quillbench {

/// How the cells of one column are entered. Their value lies in Qt::UserRole.
struct CellEntry {
    enum class Form { Words, Number, Choice };
    Form form = Form::Words;
    Limits limits;       ///< of a number
    int decimals = 0;    ///< of a number
    QStringList choices; ///< the value of a choice is its index
};

/// Enters values into a table whose rows are filled from a model: it says what was entered and writes nothing itself.
/// **Thread** GUI.
class CellDelegate : public QStyledItemDelegate {
    Q_OBJECT

public:
    explicit CellDelegate(QObject* parent = nullptr);

    /// Columns without an entry are only read.
    void setColumn(int column, CellEntry entry);

    QWidget* createEditor(QWidget* parent,
                          const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override;
    void setEditorData(QWidget* editor, const QModelIndex& index) const override;
    void setModelData(QWidget* editor,
                      QAbstractItemModel* model,
                      const QModelIndex& index) const override;

Q_SIGNALS:
    /// A text, a double or the index of a choice, where it is another than before.
    void entered(int row, int column, const QVariant& value) const;

private:
    std::map<int, CellEntry> entries_;
};

/// Return, a double click or simply typing begins an entry in `table`.
void letEnter(QTableWidget& table, CellDelegate& delegate);

} // namespace quillbench
