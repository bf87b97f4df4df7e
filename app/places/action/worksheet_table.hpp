#pragma once

#include "app/places/action/worksheet.hpp"

#include <QTableWidget>
#include <cstddef>
#include <vector>

namespace quillbench {

/// The worksheet as a table: what is done can be ticked, remarks can be written, the rest is told. **Thread** GUI.
class WorksheetTable : public QTableWidget {
    Q_OBJECT

public:
    explicit WorksheetTable(QWidget* parent = nullptr);

    using QWidget::show;

    /// In place of what stood there; says nothing by itself.
    void show(const std::vector<WorksheetLine>& lines);

Q_SIGNALS:
    void doneSet(std::size_t line, bool done);
    void remarkSet(std::size_t line, const QString& remark);
    void lineChosen(std::size_t line);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void take(int row, int column);
    QTableWidgetItem* fill(int row, int column, const QString& text, Qt::ItemFlags flags);

    bool filling_ = false;
};

} // namespace quillbench
