#include "app/dialogs/calibration_dialog.hpp"

#include "app/dialogs/fit_dialog.hpp"
#include "app/dialogs/sound_picker.hpp"
#include "app/text/calibration_text.hpp"
#include "app/text/core_text.hpp"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QVBoxLayout>
#include <utility>

namespace quillbench {

namespace {

constexpr int kCalibrationWidth = 560;

constexpr int kLookMilliseconds = 200;
constexpr double kLowestToneHz = 100.0;
constexpr double kHighestToneHz = 5000.0;
constexpr double kLeastClaimPpm = 0.001;
constexpr double kMostClaimPpm = 100.0;

QDoubleSpinBox* number(QWidget* parent, const char* name, double low, double high, int decimals) {
    auto* box = new QDoubleSpinBox(parent);
    box->setObjectName(QString::fromLatin1(name));
    box->setRange(low, high);
    box->setDecimals(decimals);
    return box;
}

QLabel* paragraph(QWidget* parent, const QString& text) {
    auto* label = new QLabel(text, parent);
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    return label;
}

} // namespace

CalibrationDialog::CalibrationDialog(const SourceChoice& source,
                                     const QStringList& devices,
                                     OpenSource open,
                                     QWidget* parent)
    : QDialog(parent),
      first_(source),
      open_(std::move(open)) {
    setWindowTitle(tr("Calibrate the clock of a microphone"));
    build(devices);
    timer_.setInterval(kLookMilliseconds);
    connect(&timer_, &QTimer::timeout, this, [this] { show(listener_->hearing()); });
    connect(source_, &SoundPicker::picked, this, &CalibrationDialog::sourcePicked);
    connect(listen_, &QPushButton::clicked, this, [this] { listen(listener_ == nullptr); });
    for (QDoubleSpinBox* box : {hertz_, claimed_}) {
        // Another tone: what was measured against the former one no longer holds.
        connect(box, &QDoubleSpinBox::valueChanged, this, [this] {
            listen(false);
            heard_ = ClockHearing{};
            showSource();
        });
    }
    showSource();
    fitToWords(*this, kCalibrationWidth);
}

CalibrationDialog::~CalibrationDialog() = default;

void CalibrationDialog::build(const QStringList& devices) {
    auto* column = new QVBoxLayout(this);
    column->addWidget(paragraph(
        this,
        tr("A sound card's clock may be off by 50 parts per million, 0.09 cent. A tone whose pitch "
           "is known better than that shows by how much: the tone of a radio time signal, received "
           "by an ordinary radio in AM, or a generator locked to satellite time.")));
    column->addWidget(paragraph(
        this,
        tr("No trusted tone: what a phone or this computer plays (their clocks are no better), a "
           "tuning fork (a degree of warmth shifts it by about 100 ppm), the hum of the mains.")));
    auto* form = new QFormLayout;
    source_ = new SoundPicker(first_, devices, tr("A recording of the tone"), this);
    source_->setObjectName(QStringLiteral("calibrationSource"));
    owner_ = new QComboBox(this);
    owner_->setObjectName(QStringLiteral("calibrationOwner"));
    addMicrophones(owner_, devices, first_.device);
    owner_->setCurrentIndex(owner_->findData(first_.device));
    hertz_ = number(this, "toneHz", kLowestToneHz, kHighestToneHz, 4);
    hertz_->setValue(440.0);
    hertz_->setSuffix(tr(" Hz"));
    claimed_ = number(this, "tonePpm", kLeastClaimPpm, kMostClaimPpm, 3);
    claimed_->setValue(0.1);
    claimed_->setPrefix(tr("± "));
    claimed_->setSuffix(tr(" ppm"));
    form->addRow(tr("&Listen with"), source_);
    form->addRow(tr("&Recorded with"), owner_);
    form->addRow(tr("&Tone is stated to be"), hertz_);
    form->addRow(tr("&and to be true to"), claimed_);
    column->addLayout(form);
    figure_ = new QLabel(this);
    figure_->setObjectName(QStringLiteral("calibrationFigure"));
    QFont large = font();
    large.setPixelSize(34);
    figure_->setFont(large);
    figure_->setAlignment(Qt::AlignCenter);
    column->addWidget(figure_);
    state_ = paragraph(this, QString());
    state_->setObjectName(QStringLiteral("calibrationState"));
    state_->setAlignment(Qt::AlignHCenter | Qt::AlignTop);
    state_->setMinimumHeight(3 * fontMetrics().lineSpacing()); // nothing jumps as it is rewritten
    column->addWidget(state_, 1);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    listen_ = buttons->addButton(tr("&Listen"), QDialogButtonBox::ActionRole);
    keep_ = buttons->addButton(tr("&Keep"), QDialogButtonBox::AcceptRole);
    listen_->setObjectName(QStringLiteral("calibrationListen"));
    keep_->setObjectName(QStringLiteral("calibrationKeep"));
    listen_->setDefault(true);
    column->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
}

QString CalibrationDialog::device() const {
    const SourceChoice chosen = source_->chosen();
    return chosen.kind == SourceKind::Microphone ? chosen.device : owner_->currentData().toString();
}

ClockCalibration CalibrationDialog::calibration() const {
    return heard_.best.value_or(ClockCalibration{});
}

void CalibrationDialog::sourcePicked() {
    listen(false);
    heard_ = ClockHearing{};
    showSource();
}

void CalibrationDialog::showSource() {
    const SourceChoice chosen = source_->chosen();
    owner_->setEnabled(chosen.kind == SourceKind::File);
    if (chosen.kind == SourceKind::Microphone) {
        owner_->setCurrentIndex(owner_->findData(chosen.device));
    }
    listen_->setEnabled(source_->ready());
    keep_->setEnabled(heard_.best.has_value());
    figure_->setText(calibrationFigure(heard_));
    state_->setText(chosen.kind == SourceKind::Virtual ? virtualNeedsNoCalibration()
                                                       : calibrationBefore());
}

void CalibrationDialog::listen(bool on) {
    timer_.stop();
    if (listener_) {
        heard_ = listener_->hearing();
        listener_.reset();
    }
    listen_->setText(on ? tr("&Stop") : tr("&Listen"));
    if (!on) {
        return;
    }
    heard_ = ClockHearing{};
    const auto sound = open_(source_->chosen());
    if (!sound) {
        listen_->setText(tr("&Listen"));
        state_->setText(errorText(sound.error()));
        return;
    }
    listener_ = std::make_unique<ClockListener>(
        *sound, TrustedTone{Hertz(hertz_->value()), claimed_->value()});
    timer_.start();
    show(listener_->hearing());
}

void CalibrationDialog::show(const ClockHearing& hearing) {
    heard_ = hearing;
    keep_->setEnabled(hearing.best.has_value());
    figure_->setText(calibrationFigure(hearing));
    state_->setText(calibrationState(hearing, hertz_->value()));
    if (hearing.source.phase == EnginePhase::Ended || hearing.source.phase == EnginePhase::Failed) {
        listen(false);
    }
}

} // namespace quillbench
