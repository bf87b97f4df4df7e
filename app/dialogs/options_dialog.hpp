#pragma once

#include "app/models/choices.hpp"
#include "core/instrument/instrument.hpp"

#include <QDialog>
#include <vector>

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QFormLayout;

namespace quillbench {

/// How a whole session goes about its strings: choirs left alone, order outward, way to the target, tolerances, felt.
/// Nothing holds before OK. **Thread** GUI.
class OptionsDialog : public QDialog {
    Q_OBJECT

public:
    /// **Range** first, the choir that is tuned first, is one of the instrument's.
    OptionsDialog(const SessionOptions& options,
                  const Instrument& instrument,
                  std::size_t first,
                  QWidget* parent = nullptr);

    [[nodiscard]] SessionOptions options() const;

private:
    void addChoirs(QFormLayout& form, const Instrument& instrument, std::size_t first);
    void addWays(QFormLayout& form);
    void addTolerances(QFormLayout& form);
    void addFelt(QFormLayout& form);
    void orderTabs();
    void show(const SessionOptions& options);

    std::vector<QCheckBox*> choirs_; ///< each named by its choir's id
    QComboBox* outward_;
    QComboBox* approach_;
    QDoubleSpinBox* bearings_;
    QDoubleSpinBox* extremes_;
    QDoubleSpinBox* unisons_;
    QCheckBox* felt_;
};

} // namespace quillbench
