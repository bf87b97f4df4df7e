#include "app/places/action/worksheet_table.hpp"

#include "app/paint/theme.hpp"

#include <QHeaderView>
#include <QPainter>

namespace quillbench {

namespace {

constexpr QSize kLeastTable(300, 150);
constexpr int kDoneColumn = 0;
constexpr int kWhatColumn = 1;
constexpr int kRemarkColumn = 2;
constexpr int kRemarkWidth = 110;

} // namespace

WorksheetTable::WorksheetTable(QWidget* parent) : QTableWidget(0, 3, parent) {
    setObjectName(QStringLiteral("worksheet"));
    setAccessibleName(tr("Jacks to do"));
    setHorizontalHeaderLabels({tr("Done"), tr("To do"), tr("Remarks")});
    verticalHeader()->hide();
    verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    horizontalHeader()->setSectionResizeMode(kDoneColumn, QHeaderView::ResizeToContents);
    horizontalHeader()->setSectionResizeMode(kWhatColumn, QHeaderView::Stretch);
    horizontalHeader()->setDefaultSectionSize(kRemarkWidth);
    setSelectionBehavior(QAbstractItemView::SelectRows);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setWordWrap(true);
    setTabKeyNavigation(false);
    setMinimumSize(kLeastTable);
    connect(this, &QTableWidget::cellChanged, this, &WorksheetTable::take);
    connect(this, &QTableWidget::currentCellChanged, this, [this](int row) {
        if (!filling_ && row >= 0) {
            Q_EMIT lineChosen(static_cast<std::size_t>(row));
        }
    });
}

QTableWidgetItem*
WorksheetTable::fill(int row, int column, const QString& text, Qt::ItemFlags flags) {
    QTableWidgetItem* cell = item(row, column);
    if (cell == nullptr) {
        cell = new QTableWidgetItem;
        setItem(row, column, cell);
    }
    if (cell->text() != text) {
        cell->setText(text);
    }
    cell->setFlags(flags);
    return cell;
}

void WorksheetTable::show(const std::vector<WorksheetLine>& lines) {
    filling_ = true;
    setRowCount(static_cast<int>(lines.size()));
    constexpr Qt::ItemFlags kPlain = Qt::ItemIsEnabled | Qt::ItemIsSelectable;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const int row = static_cast<int>(i);
        fill(row, kDoneColumn, {}, kPlain | Qt::ItemIsUserCheckable)
            ->setCheckState(lines[i].done ? Qt::Checked : Qt::Unchecked);
        fill(row, kWhatColumn, lines[i].job.what, kPlain);
        fill(row, kRemarkColumn, lines[i].remark, kPlain | Qt::ItemIsEditable);
    }
    filling_ = false;
}

/// A list without lines says what will stand there.
void WorksheetTable::paintEvent(QPaintEvent* event) {
    QTableWidget::paintEvent(event);
    if (rowCount() > 0) {
        return;
    }
    constexpr int kAside = 12; // pixels
    QPainter painter(viewport());
    painter.setPen(themeOf(palette()).quiet);
    painter.drawText(viewport()->rect().adjusted(kAside, kAside, -kAside, -kAside),
                     Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap,
                     tr("Nothing to do yet. What stands out among the keys is listed here, to be "
                        "ticked off and printed."));
}

void WorksheetTable::take(int row, int column) {
    if (filling_) {
        return;
    }
    const auto line = static_cast<std::size_t>(row);
    if (column == kDoneColumn) {
        Q_EMIT doneSet(line, item(row, column)->checkState() == Qt::Checked);
    } else if (column == kRemarkColumn) {
        Q_EMIT remarkSet(line, item(row, column)->text());
    }
}

} // namespace quillbench
