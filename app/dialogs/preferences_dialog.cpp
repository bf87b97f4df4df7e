#include "app/dialogs/preferences_dialog.hpp"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLabel>

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
                                     const QStringList& devices,
                                     QWidget* parent)
    : QDialog(parent),
      settings_(settings),
      device_(new QComboBox(this)),
      ppm_(ppmBox(this, "ppm", -kMostPpm)),
      uncertainty_(ppmBox(this, "ppmUncertainty", 0.0)) {
    setWindowTitle(tr("Preferences"));
    device_->setObjectName(QStringLiteral("device"));
    device_->addItem(tr("default microphone"), QString());
    for (const QString& name : devices) {
        device_->addItem(name, name);
    }
    if (device_->findData(source.device) < 0) {
        device_->addItem(tr("%1 (not there now)").arg(source.device), source.device);
    }
    device_->setCurrentIndex(device_->findData(source.device));
    auto* form = new QFormLayout(this);
    form->addRow(tr("&Microphone"), device_);
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
    connect(device_, &QComboBox::currentIndexChanged, this, &PreferencesDialog::showCalibration);
    showCalibration();
}

QString PreferencesDialog::device() const {
    return device_->currentData().toString();
}

ClockCalibration PreferencesDialog::calibration() const {
    return ClockCalibration{ppm_->value(), uncertainty_->value()};
}

void PreferencesDialog::showCalibration() {
    const ClockCalibration known = settings_.calibration(device());
    ppm_->setValue(known.ppm);
    uncertainty_->setValue(known.ppmUncertainty);
}

} // namespace quillbench
