#pragma once

#include <QStringList>
#include <QTreeWidget>
#include <vector>

namespace quillbench {

class WrappingDelegate;

/// Rows of text under captions; sorted by none but the order given. Where they do not fit side by side the widest columns
/// but the first give way, and their words stand below each other; of the longest words only where nothing else gives
/// way. Heights are worked out for the rows that come into view, so a list may be long. **Thread** GUI.
class RowTable : public QTreeWidget {
    Q_OBJECT

public:
    RowTable(const QString& name,
             const QString& about,
             const QStringList& captions,
             QWidget* parent = nullptr);

    /// Columns whose texts are numbers stand to the right.
    void setNumbers(const std::vector<int>& columns);

    /// Replaces all rows; the row that is current stays so where it is still there.
    void setRows(const std::vector<QStringList>& rows);

    /// Index of the current row; -1: none.
    [[nodiscard]] int currentRow() const;

    /// Makes a row current without a signal.
    void showCurrent(int row);

    [[nodiscard]] QSize minimumSizeHint() const override { return {120, 60}; }

Q_SIGNALS:
    /// The person went to another row.
    void rowChosen(int row);

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    /// Pixels.
    struct ColumnNeeds {
        int whole = 0; ///< every cell on one line
        int least = 0; ///< no word broken
    };

    void measureColumns();
    void fitColumns();

    std::vector<int> numbers_;
    std::vector<ColumnNeeds> columns_;
    WrappingDelegate* cells_;
};

} // namespace quillbench
