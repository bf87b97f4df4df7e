#include "app/places/logbook/row_table.hpp"

#include "app/places/logbook/wrapping_delegate.hpp"
#include "app/text/written_text.hpp"

#include <QEvent>
#include <QHeaderView>
#include <QSignalBlocker>
#include <algorithm>
#include <optional>

namespace quillbench {

namespace {

constexpr QChar kLeftToRight(0x200e);
constexpr int kNarrowestColumn = 60; // pixels
constexpr int kBetweenColumns = 8;
constexpr int kMeasuredRows = 1000; // the columns are made for these; what is longer below wraps

} // namespace

RowTable::RowTable(const QString& name,
                   const QString& about,
                   const QStringList& captions,
                   QWidget* parent)
    : QTreeWidget(parent),
      cells_(new WrappingDelegate(numbers_, this)) {
    setObjectName(name);
    setAccessibleName(about);
    setColumnCount(static_cast<int>(captions.size()));
    setHeaderLabels(captions);
    setRootIsDecorated(false);
    setWordWrap(true);
    setAllColumnsShowFocus(true);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setItemDelegate(cells_);
    header()->setStretchLastSection(true);
    header()->setSectionsMovable(false);
    measureColumns();
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
            headerItem()->setText(column + 1, kGapAfterNumbers + headerItem()->text(column + 1));
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
    measureColumns();
    fitColumns();
    showCurrent(before);
}

void RowTable::measureColumns() {
    columns_.assign(static_cast<std::size_t>(columnCount()), {});
    const int rows = std::min(topLevelItemCount(), kMeasuredRows);
    for (int column = 0; column < columnCount(); ++column) {
        ColumnNeeds& needs = columns_[static_cast<std::size_t>(column)];
        needs.whole = header()->sectionSizeHint(column);
        needs.least = std::max(kNarrowestColumn, needs.whole);
        for (int row = 0; row < rows; ++row) {
            const QModelIndex cell = model()->index(row, column);
            const int width = cells_->widthOnOneLine(cell);
            needs.whole = std::max(needs.whole, width);
            if (width > needs.least) {
                needs.least = std::max(needs.least, cells_->widthOfLongestWord(cell));
            }
        }
        needs.whole += kBetweenColumns;
        needs.least = column == 0 ? needs.whole : std::min(needs.least, needs.whole);
    }
}

void RowTable::fitColumns() {
    std::vector<int> widths;
    widths.reserve(columns_.size());
    int all = 0;
    for (const ColumnNeeds& needs : columns_) {
        widths.push_back(needs.whole);
        all += needs.whole;
    }
    const int room = viewport()->width();
    const auto widestAbove = [&](auto least) {
        std::optional<std::size_t> widest;
        for (std::size_t i = 0; i < widths.size(); ++i) {
            if (widths[i] > least(i) && (!widest || widths[i] > widths[*widest])) {
                widest = i;
            }
        }
        return widest;
    };
    const auto giveWay = [&](auto least) {
        for (auto widest = widestAbove(least); all > room && widest; widest = widestAbove(least)) {
            --widths[*widest];
            --all;
        }
    };
    giveWay([&](std::size_t i) { return columns_[i].least; });
    // Where that is not enough words break; not in the first column, by which a row is known.
    giveWay([&](std::size_t i) { return i == 0 ? columns_[i].whole : kNarrowestColumn; });
    // The last one too: where it is stretched, it never becomes narrower than it was made.
    for (int column = static_cast<int>(widths.size()) - 1; column >= 0; --column) {
        setColumnWidth(column, widths[static_cast<std::size_t>(column)]);
    }
    scheduleDelayedItemsLayout();
}

void RowTable::changeEvent(QEvent* event) {
    QTreeWidget::changeEvent(event);
    if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange) {
        measureColumns();
        fitColumns();
    }
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
