#pragma once

#include "app/places/instrument/instrument_model.hpp"

#include <QWidget>
#include <utility>

class QPushButton;
class QTableWidget;

namespace quillbench {

class CellDelegate;

/// The strings of one choir as a table that takes entries. **Thread** GUI.
class StringsPanel : public QWidget {
    Q_OBJECT

public:
    explicit StringsPanel(InstrumentModel& model, QWidget* parent = nullptr);

    /// The strings of a choir as they are now. **Range** choir < choirs.
    void showChoir(std::size_t choir);

    /// **Range** course < strings of the choir.
    void markString(std::size_t course);

Q_SIGNALS:
    /// Whether what was entered could be, and why not.
    void entered(const Result<void>& done);

private:
    void enterString(int row, int column, const QVariant& value);
    using Change = Result<Instrument> (*)(Instrument, std::size_t, std::size_t, std::size_t);

    void enterMarked(Change change);
    [[nodiscard]] std::pair<std::size_t, std::size_t> marked() const;

    InstrumentModel& model_;
    CellDelegate* cells_;
    QTableWidget* strings_;
    std::size_t choir_ = 0;
};

} // namespace quillbench
