#include "app/places/logbook/row_table.hpp"

#include "app/text/written_text.hpp"

#include <QHeaderView>
#include <QSignalBlocker>
#include <QStyledItemDelegate>
#include <algorithm>

namespace quillbench {

namespace {

constexpr QChar kLeftToRight(0x200e);
constexpr int kNarrowestColumn = 60; // pixels
constexpr int kBetweenColumns = 8;
constexpr int kMostWrapped = 400; // rows: of a longer list every row is one line high
constexpr int kMostLines = 4;
constexpr QChar kGap(0x2002); // en space

bool holds(const std::vector<int>& columns, int column) {
    return std::find(columns.begin(), columns.end(), column) != columns.end();
}

/// Words beside figures: those end where these begin.
bool followsNumbers(const std::vector<int>& numbers, int column) {
    return holds(numbers, column - 1) && !holds(numbers, column);
}

/// Keeps words apart from the figures before them; a cell whose words wrap is as high as they are in its column.
class GapDelegate : public QStyledItemDelegate {
public:
    GapDelegate(const std::vector<int>& numbers, QTreeWidget* table)
        : QStyledItemDelegate(table),
          numbers_(numbers),
          table_(*table) {}

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override {
        QSize size = QStyledItemDelegate::sizeHint(option, index);
        if (table_.wordWrap()) {
            const int width = table_.columnWidth(index.column()) - kBetweenColumns;
            const QString text = index.data(Qt::DisplayRole).toString();
            const int line = option.fontMetrics.lineSpacing();
            const int high =
                option.fontMetrics
                    .boundingRect(QRect(0, 0, width, kMostLines * line), Qt::TextWordWrap, text)
                    .height();
            if (high > line) {
                size.setHeight(std::min(high, kMostLines * line) + kBetweenColumns);
            }
        }
        return size;
    }

protected:
    void initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const override {
        QStyledItemDelegate::initStyleOption(option, index);
        if (followsNumbers(numbers_, index.column())) {
            option->text.prepend(kGap);
        }
    }

private:
    const std::vector<int>& numbers_;
    const QTreeWidget& table_;
};

constexpr int kAfterNumbers = 12; // before words that begin where the figures end

} // namespace

RowTable::RowTable(const QString& name,
                   const QString& about,
                   const QStringList& captions,
                   QWidget* parent)
    : QTreeWidget(parent) {
    setObjectName(name);
    setAccessibleName(about);
    setColumnCount(static_cast<int>(captions.size()));
    setHeaderLabels(captions);
    setRootIsDecorated(false);
    setUniformRowHeights(true);
    setAllColumnsShowFocus(true);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setTextElideMode(Qt::ElideRight);
    setItemDelegate(new GapDelegate(numbers_, this));
    header()->setStretchLastSection(true);
    header()->setSectionsMovable(false);
    connect(this, &QTreeWidget::currentItemChanged, this, [this](QTreeWidgetItem* item) {
        if (item != nullptr) {
            Q_EMIT rowChosen(indexOfTopLevelItem(item));
        }
    });
}

void RowTable::setNumbers(const std::vector<int>& columns) {
    numbers_ = columns;
    for (const int column : columns) {
        headerItem()->setTextAlignment(column, Qt::AlignRight | Qt::AlignVCenter);
        if (column + 1 == columnCount()) {
            header()->setStretchLastSection(false); // figures stay beside each other
        } else if (followsNumbers(numbers_, column + 1)) {
            headerItem()->setText(column + 1, kGap + headerItem()->text(column + 1));
        }
    }
}

void RowTable::setRows(const std::vector<QStringList>& rows) {
    const QSignalBlocker quiet(this);
    const int before = currentRow();
    clear();
    QList<QTreeWidgetItem*> items;
    items.reserve(static_cast<qsizetype>(rows.size()));
    for (const QStringList& row : rows) {
        auto* item = new QTreeWidgetItem;
        for (int column = 0; column < row.size(); ++column) {
            const QString cell = cellText(row[column]);
            // Figures, signs and words of the other direction keep their order.
            item->setText(column,
                          isRightToLeft() && !cell.isRightToLeft() ? kLeftToRight + cell : cell);
            item->setToolTip(column, tipText(row[column]));
        }
        for (const int column : numbers_) {
            item->setTextAlignment(column, Qt::AlignRight | Qt::AlignVCenter);
        }
        items.push_back(item);
    }
    addTopLevelItems(items);
    fitColumns();
    showCurrent(before);
}

void RowTable::fitColumns() {
    std::vector<int> widths(static_cast<std::size_t>(columnCount()));
    int all = 0;
    for (int column = 0; column < columnCount(); ++column) {
        int& width = widths[static_cast<std::size_t>(column)];
        width = std::max(sizeHintForColumn(column), header()->sectionSizeHint(column)) +
                kBetweenColumns;
        all += width;
    }
    // Not the first, by which a row is known.
    const auto widest = [&] {
        return std::max_element(widths.begin() + (widths.size() > 1 ? 1 : 0), widths.end());
    };
    // Words that find no place beside each other stand below each other.
    const bool tight = all > viewport()->width() && topLevelItemCount() <= kMostWrapped;
    setWordWrap(tight);
    setUniformRowHeights(!tight);
    for (; all > viewport()->width() && *widest() > kNarrowestColumn; --all) {
        --*widest();
    }
    // The last one too: where it is stretched, it never becomes narrower than it was made.
    for (int column = columnCount() - 1; column >= 0; --column) {
        setColumnWidth(column, widths[static_cast<std::size_t>(column)]);
    }
    scheduleDelayedItemsLayout();
}

void RowTable::resizeEvent(QResizeEvent* event) {
    QTreeWidget::resizeEvent(event);
    fitColumns();
}

int RowTable::currentRow() const {
    return currentItem() == nullptr ? -1 : indexOfTopLevelItem(currentItem());
}

void RowTable::showCurrent(int row) {
    const QSignalBlocker quiet(this);
    if (row >= 0 && row < topLevelItemCount()) {
        setCurrentItem(topLevelItem(row));
    }
}

} // namespace quillbench
