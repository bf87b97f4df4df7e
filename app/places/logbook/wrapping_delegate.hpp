#pragma once

#include <QStyledItemDelegate>
#include <QTreeView>
#include <vector>

namespace quillbench {

/// Draws the words of a table: what is longer than its column goes on in the next line, where a word begins, and a word that
/// is longer than its column breaks anywhere. Only a text that is higher than its table ends in dots. Words beside figures
/// stand a little apart from them. **Thread** GUI.
class WrappingDelegate : public QStyledItemDelegate {
    Q_OBJECT

public:
    /// `numbers`: the columns of figures; outlives the delegate, as `table` does.
    WrappingDelegate(const std::vector<int>& numbers, QTreeView* table);

    /// As high as the words are in their column, which is not asked to be wider than it is.
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;

    /// Of a column in which a cell stands on one line. Pixels.
    [[nodiscard]] int widthOnOneLine(const QModelIndex& index) const;

    /// Of a column in which no word of a cell is broken. Pixels.
    [[nodiscard]] int widthOfLongestWord(const QModelIndex& index) const;

protected:
    void initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const override;

private:
    [[nodiscard]] QString wordsOf(const QModelIndex& index) const;
    [[nodiscard]] QStringList linesOf(const QString& words, const QFont& type, int column) const;

    const std::vector<int>& numbers_;
    const QTreeView& table_;
};

/// Words beside figures: those end where these begin.
[[nodiscard]] bool followsNumbers(const std::vector<int>& numbers, int column);

/// Stands before words beside figures.
inline constexpr QChar kGapAfterNumbers(0x2002); // en space

} // namespace quillbench
