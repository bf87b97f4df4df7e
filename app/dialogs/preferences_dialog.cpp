#include "app/dialogs/preferences_dialog.hpp"

#include "app/text/format.hpp"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLabel>
#include <QLocale>
#include <QSpinBox>
#include <algorithm>

namespace quillbench {

namespace {

constexpr double kMostPpm = 1000.0;

QDoubleSpinBox* ppmBox(QWidget* parent, const char* name, double lowest) {
    auto* box = new QDoubleSpinBox(parent);
    box->setObjectName(QString::fromLatin1(name));
    box->setRange(lowest, kMostPpm);
    box->setDecimals(1);
    box->setSuffix(PreferencesDialog::tr(" ppm"));
    return box;
}

} // namespace

PreferencesDialog::PreferencesDialog(const SettingsStore& settings,
                                     const SourceChoice& source,
                                     const DeviceList& devices,
                                     QWidget* parent)
    : QDialog(parent),
      settings_(settings),
      devices_(devices),
      device_(new QComboBox(this)),
      channel_(new QSpinBox(this)),
      rate_(new QComboBox(this)),
      ppm_(ppmBox(this, "ppm", -kMostPpm)),
      uncertainty_(ppmBox(this, "ppmUncertainty", 0.0)) {
    setWindowTitle(tr("Preferences"));
    device_->setObjectName(QStringLiteral("device"));
    device_->addItem(tr("default microphone"), QString());
    for (const AudioDevice& device : devices_.devices) {
        if (device.inputChannels > 0) {
            device_->addItem(toQString(device.name), toQString(device.name));
        }
    }
    if (device_->findData(source.device) < 0) {
        device_->addItem(tr("%1 (not there now)").arg(source.device), source.device);
    }
    device_->setCurrentIndex(device_->findData(source.device));
    auto* form = new QFormLayout(this);
    form->addRow(tr("&Microphone"), device_);
    channel_->setObjectName(QStringLiteral("channel"));
    form->addRow(tr("&Channel"), channel_);
    rate_->setObjectName(QStringLiteral("rate"));
    form->addRow(tr("&Samples a second"), rate_);
    form->addRow(tr("Its clock runs &fast by"), ppm_);
    form->addRow(tr("known to ±"), uncertainty_);
    auto* note = new QLabel(tr("50 ppm are 0.09 cent. The value belongs to the device and is kept "
                               "by its name; Sound \u25b8 Calibrate the clock\u2026 measures it. "
                               "Leave 0 ± 50 where nothing is known."),
                            this);
    note->setWordWrap(true);
    form->addRow(note);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel, this);
    form->addRow(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(device_, &QComboBox::currentIndexChanged, this, &PreferencesDialog::showDevice);
    showDevice();
}

QString PreferencesDialog::device() const {
    return device_->currentData().toString();
}

ClockCalibration PreferencesDialog::calibration() const {
    return ClockCalibration{ppm_->value(), uncertainty_->value()};
}

InputChoice PreferencesDialog::input() const {
    return InputChoice{channel_->value() - 1, SampleRate(rate_->currentData().toDouble())};
}

/// A device that is away, or is held by another program, says nothing of its rates: the usual ones can be chosen.
void PreferencesDialog::showDevice() {
    const InputChoice kept = settings_.input(device());
    const AudioDevice* there = devices_.findInput(device().toStdString());
    channel_->setRange(1, there != nullptr ? std::max(1, there->inputChannels) : kept.channel + 1);
    channel_->setValue(kept.channel + 1);
    channel_->setEnabled(channel_->maximum() > 1);
    rate_->clear();
    const bool told = there != nullptr && !there->inputRates.empty();
    for (const SampleRate rate : told ? there->inputRates : usualRates()) {
        rate_->addItem(QLocale().toString(rate.hz(), 'f', 0), rate.hz());
    }
    const int keptAt = rate_->findData(kept.rate.hz());
    rate_->setCurrentIndex(
        keptAt >= 0 || there == nullptr ? keptAt : rate_->findData(there->preferredRate.hz()));
    if (rate_->currentIndex() < 0) {
        rate_->setCurrentIndex(0);
    }
    const ClockCalibration known = settings_.calibration(device());
    ppm_->setValue(known.ppm);
    uncertainty_->setValue(known.ppmUncertainty);
}

} // namespace quillbench
