#pragma once

#include <QTableWidget>
#include <vector>

namespace quillbench {

struct BearingRow;

/// What came of each step of a whole plan. **Thread** GUI.
class BearingTable : public QTableWidget {
    Q_OBJECT

public:
    explicit BearingTable(QWidget* parent = nullptr);

    void fill(const std::vector<BearingRow>& rows);
};

} // namespace quillbench
