#pragma once

#include "app/models/settings_store.hpp"

#include <QDialog>
#include <QStringList>

class QComboBox;
class QDoubleSpinBox;

namespace quillbench {

/// Device and calibration of its clock. Nothing is kept before OK. **Thread** GUI.
class PreferencesDialog : public QDialog {
    Q_OBJECT

public:
    /// `devices`: names of the inputs that are there now.
    PreferencesDialog(const SettingsStore& settings,
                      const SourceChoice& source,
                      const QStringList& devices,
                      QWidget* parent = nullptr);

    /// The device chosen; empty: the default microphone.
    [[nodiscard]] QString device() const;

    /// Of the chosen device.
    [[nodiscard]] ClockCalibration calibration() const;

private:
    void showCalibration();

    const SettingsStore& settings_;
    QComboBox* device_;
    QDoubleSpinBox* ppm_;
    QDoubleSpinBox* uncertainty_;
};

} // namespace quillbench
