#include "app/places/practise/bearing_table.hpp"

#include "app/places/practise/practise_pictures.hpp"

#include <QAbstractButton>
#include <QHeaderView>

namespace quillbench {

BearingTable::BearingTable(QWidget* parent) : QTableWidget(0, 5, parent) {
    setObjectName(QStringLiteral("bearingSteps"));
    setAccessibleName(tr("What came of each step"));
    setHorizontalHeaderLabels({tr("Step"),
                               tr("Wanted, a second"),
                               tr("Left, a second"),
                               tr("Left, cents"),
                               tr("Note, cents")});
    horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    horizontalHeader()->setStretchLastSection(true);
    verticalHeader()->hide();
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setSelectionBehavior(QAbstractItemView::SelectRows);
    setTabKeyNavigation(false);
    setFocusPolicy(Qt::TabFocus);
    for (QAbstractButton* corner : findChildren<QAbstractButton*>()) {
        corner->setAccessibleName(tr("All steps"));
    }
}

void BearingTable::fill(const std::vector<BearingRow>& rows) {
    setRowCount(static_cast<int>(rows.size()));
    for (std::size_t i = 0; i < rows.size(); ++i) {
        int column = 0;
        for (const QString& text :
             {rows[i].step, rows[i].wanted, rows[i].left, rows[i].interval, rows[i].note}) {
            auto* one = new QTableWidgetItem(text);
            one->setTextAlignment(Qt::AlignVCenter |
                                  (column == 0 ? Qt::AlignLeft : Qt::AlignRight));
            setItem(static_cast<int>(i), column++, one);
        }
    }
}

} // namespace quillbench
