#pragma once

#include "app/places/instrument/instrument_model.hpp"

#include <QWidget>

class QPushButton;
class QTableWidget;

namespace quillbench {

class CellDelegate;

/// The registers and choirs of an instrument as tables that take entries. **Thread** GUI.
class RegistersPanel : public QWidget {
    Q_OBJECT

public:
    explicit RegistersPanel(InstrumentModel& model, QWidget* parent = nullptr);

    /// The instrument as it is now.
    void showInstrument();

Q_SIGNALS:
    /// Whether what was entered could be, and why not.
    void entered(const Result<void>& done);

private:
    void buildRegisters();
    void buildChoirs();
    void enterRegister(int row, int column, const QVariant& value);
    void enterChoir(int row, int column, const QVariant& value);
    void enter(const Result<Instrument>& wanted);

    InstrumentModel& model_;
    CellDelegate* registerCells_;
    CellDelegate* choirCells_;
    QTableWidget* registers_ = nullptr;
    QTableWidget* choirs_ = nullptr;
};

} // namespace quillbench
