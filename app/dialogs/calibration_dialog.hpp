#pragma once

#include "app/models/choices.hpp"
#include "audio/clock_listener.hpp"
#include "core/support/result.hpp"
#include "core/units/frames.hpp"

#include <QDialog>
#include <QStringList>
#include <QTimer>
#include <functional>
#include <memory>

class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QPushButton;

namespace quillbench {

class SoundPicker;

/// Measures how fast a device's clock runs, by a tone whose pitch is known from elsewhere: heard live, or in a
/// recording that the device made. Nothing is kept before the person says so. **Thread** GUI; the listening has one of
/// its own.
class CalibrationDialog : public QDialog {
    Q_OBJECT

public:
    using OpenSource = std::function<Result<std::shared_ptr<AudioSource>>(const SourceChoice&)>;

    /// `source`: what is listened to now. `devices`: names of the inputs. `open` gives the sound of a microphone or a
    /// recording.
    CalibrationDialog(const SourceChoice& source,
                      const QStringList& devices,
                      OpenSource open,
                      QWidget* parent = nullptr);
    ~CalibrationDialog() override;

    /// The device that the reading belongs to; empty: the default microphone.
    [[nodiscard]] QString device() const;

    /// What was measured. **Range** after it was accepted.
    [[nodiscard]] ClockCalibration calibration() const;

    /// Begins to listen, or ends it.
    void listen(bool on);

private:
    void build(const QStringList& devices);
    void sourcePicked();
    void showSource();
    void show(const ClockHearing& hearing);

    SourceChoice first_;
    OpenSource open_;
    std::unique_ptr<ClockListener> listener_;
    ClockHearing heard_;
    QTimer timer_;
    SoundPicker* source_ = nullptr;
    QComboBox* owner_ = nullptr;
    QDoubleSpinBox* hertz_ = nullptr;
    QDoubleSpinBox* claimed_ = nullptr;
    QPushButton* listen_ = nullptr;
    QPushButton* keep_ = nullptr;
    QLabel* figure_ = nullptr;
    QLabel* state_ = nullptr;
};

} // namespace quillbench
