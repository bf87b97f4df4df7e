#include "app/dialogs/preferences_dialog.hpp"

#include "app/dialogs/fit_dialog.hpp"
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
constexpr int kPreferencesWidth = 440;

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
      language_(new QComboBox(this)),
      words_(new QComboBox(this)),
      octaves_(new QComboBox(this)),
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
    fillLanguages();
    fillNaming();
    auto* form = new QFormLayout(this);
    form->addRow(tr("&Language"), language_);
    form->addRow(tr("&Names of notes"), words_);
    form->addRow(tr("&Octaves"), octaves_);
    auto* later = new QLabel(
        tr("Language and names of notes change when Quillbench is started the next time."), this);
    later->setWordWrap(true);
    form->addRow(later);
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
    fitToWords(*this, kPreferencesWidth);
}

void PreferencesDialog::fillLanguages() {
    language_->setObjectName(QStringLiteral("language"));
    language_->addItem(tr("as the system"), static_cast<int>(Language::AsSystem));
    // Each in itself, so that it is found by whoever reads no other.
    language_->addItem(QStringLiteral("English"), static_cast<int>(Language::English));
    language_->addItem(QStringLiteral("Deutsch"), static_cast<int>(Language::German));
    language_->setCurrentIndex(language_->findData(static_cast<int>(settings_.language())));
}

void PreferencesDialog::fillNaming() {
    words_->setObjectName(QStringLiteral("noteWords"));
    octaves_->setObjectName(QStringLiteral("octaves"));
    words_->addItem(tr("as usual in the language"));
    words_->addItem(QStringLiteral("C, F\u266f, E\u266d, B\u266d, B"),
                    static_cast<int>(NoteWords::Letters));
    words_->addItem(QStringLiteral("C, Fis, Es, B, H"), static_cast<int>(NoteWords::German));
    words_->addItem(QStringLiteral("do, fa\u266f, mi\u266d, si\u266d, si"),
                    static_cast<int>(NoteWords::Solfege));
    const auto kept = settings_.noteNaming();
    words_->setCurrentIndex(kept ? words_->findData(static_cast<int>(kept->words)) : 0);
    showOctaves();
    if (kept) {
        octaves_->setCurrentIndex(octaves_->findData(static_cast<int>(kept->octaves)));
    }
    connect(words_, &QComboBox::currentIndexChanged, this, &PreferencesDialog::showOctaves);
}

/// The octaves as they look with the names chosen.
void PreferencesDialog::showOctaves() {
    const bool usual = !words_->currentData().isValid();
    const NoteNaming asUsual = usualNaming();
    const NoteWords words =
        usual ? asUsual.words : static_cast<NoteWords>(words_->currentData().toInt());
    const int before = octaves_->currentIndex();
    octaves_->clear();
    for (const OctaveSigns signs : {OctaveSigns::Scientific, OctaveSigns::Helmholtz}) {
        QStringList names;
        for (std::int8_t octave = 1; octave <= 6; ++octave) {
            names << nameOf(Note{PitchClass{Letter::F, 0}, octave}, NoteNaming{words, signs});
        }
        octaves_->addItem(names.join(QStringLiteral(", ")), static_cast<int>(signs));
    }
    octaves_->setCurrentIndex(usual ? octaves_->findData(static_cast<int>(asUsual.octaves))
                                    : std::max(0, before));
    octaves_->setEnabled(!usual);
}

Language PreferencesDialog::language() const {
    return static_cast<Language>(language_->currentData().toInt());
}

std::optional<NoteNaming> PreferencesDialog::noteNaming() const {
    const QVariant words = words_->currentData();
    if (!words.isValid()) {
        return std::nullopt;
    }
    return NoteNaming{static_cast<NoteWords>(words.toInt()),
                      static_cast<OctaveSigns>(octaves_->currentData().toInt())};
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
