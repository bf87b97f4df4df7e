#pragma once

#include "app/models/settings_store.hpp"
#include "audio/device_list.hpp"

#include <QDialog>

class QComboBox;
class QDoubleSpinBox;
class QSpinBox;

namespace quillbench {

/// Language and names of notes; device, which of its channels at which rate, and calibration of its clock. Nothing is kept before OK. **Thread** GUI.
class PreferencesDialog : public QDialog {
    Q_OBJECT

public:
    /// `devices`: what is there now.
    PreferencesDialog(const SettingsStore& settings,
                      const SourceChoice& source,
                      const DeviceList& devices,
                      QWidget* parent = nullptr);

    /// The device chosen; empty: the default microphone.
    [[nodiscard]] QString device() const;

    /// What the window shall speak.
    [[nodiscard]] Language language() const;

    /// How notes shall be named; nothing: as is usual in the language.
    [[nodiscard]] std::optional<NoteNaming> noteNaming() const;

    /// Of the chosen device.
    [[nodiscard]] InputChoice input() const;

    /// Of the chosen device.
    [[nodiscard]] ClockCalibration calibration() const;

private:
    void fillLanguages();
    void fillNaming();
    void showOctaves();
    void showDevice();

    const SettingsStore& settings_;
    DeviceList devices_;
    QComboBox* language_;
    QComboBox* words_;   ///< what notes are called
    QComboBox* octaves_; ///< how their octaves are told
    QComboBox* device_;
    QSpinBox* channel_;
    QComboBox* rate_;
    QDoubleSpinBox* ppm_;
    QDoubleSpinBox* uncertainty_;
};

} // namespace quillbench
