#include "app/dialogs/hear_pitch_dialog.hpp"

#include "app/dialogs/fit_dialog.hpp"
#include "app/dialogs/sound_picker.hpp"
#include "app/paint/theme.hpp"
#include "app/text/core_text.hpp"
#include "app/text/heard_pitch_text.hpp"
#include "app/views/screen_reader.hpp"

#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <utility>

namespace quillbench {

namespace {

constexpr int kHearPitchWidth = 560;
constexpr int kFigurePixels = 34;
constexpr int kLookAtItEvery = 100; // milliseconds

QLabel* wordsIn(QWidget* parent, const char* name, int lines) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setAlignment(Qt::AlignHCenter | Qt::AlignTop);
    label->setMinimumHeight(lines * label->fontMetrics().lineSpacing()); // nothing jumps
    return label;
}

} // namespace

HearPitchDialog::HearPitchDialog(const SourceChoice& source,
                                 const QStringList& devices,
                                 OpenSound open,
                                 const Temperament& temperament,
                                 double standardHz,
                                 QWidget* parent)
    : QDialog(parent),
      open_(std::move(open)),
      temperament_(temperament),
      standardHz_(standardHz) {
    setObjectName(QStringLiteral("hearPitch"));
    setWindowTitle(tr("The pitch of another instrument"));
    build(devices, source);
    timer_.setInterval(kLookAtItEvery);
    connect(&timer_, &QTimer::timeout, this, &HearPitchDialog::look);
    connect(source_, &SoundPicker::picked, this, &HearPitchDialog::sourcePicked);
    connect(listen_, &QPushButton::clicked, this, [this] { listen(listener_ == nullptr); });
    sourcePicked();
    fitToWords(*this, kHearPitchWidth);
}

HearPitchDialog::~HearPitchDialog() = default;

void HearPitchDialog::build(const QStringList& devices, const SourceChoice& source) {
    auto* column = new QVBoxLayout(this);
    auto* intro = new QLabel(
        tr("Have its A held for some seconds, in any octave: an organ, an oboe, or a fork near the "
           "microphone. If all twelve notes are held one after another, A first, their mean "
           "counts."),
        this);
    intro->setWordWrap(true);
    column->addWidget(intro);
    auto* form = new QFormLayout;
    source_ = new SoundPicker(source, devices, tr("A recording of the instrument"), this);
    source_->setObjectName(QStringLiteral("hearPitchSource"));
    form->addRow(tr("Listen &with"), source_);
    column->addLayout(form);
    figure_ = new QLabel(this);
    figure_->setObjectName(QStringLiteral("hearPitchFigure"));
    QFont large = font();
    large.setPixelSize(kFigurePixels);
    figure_->setFont(large);
    figure_->setAlignment(Qt::AlignCenter);
    column->addWidget(figure_);
    state_ = wordsIn(this, "hearPitchState", 2);
    presentAsAnnouncement(state_);
    notes_ = wordsIn(this, "hearPitchNotes", 2);
    from_ = wordsIn(this, "hearPitchFrom", 4);
    column->addWidget(state_);
    column->addWidget(notes_);
    column->addWidget(from_, 1);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    listen_ = buttons->addButton(tr("&Listen"), QDialogButtonBox::ActionRole);
    keep_ = buttons->addButton(tr("&Keep for the first look"), QDialogButtonBox::ActionRole);
    tune_ = buttons->addButton(tr("&Tune at it"), QDialogButtonBox::ActionRole);
    listen_->setObjectName(QStringLiteral("hearPitchListen"));
    keep_->setObjectName(QStringLiteral("hearPitchKeep"));
    tune_->setObjectName(QStringLiteral("hearPitchTune"));
    keep_->setAccessibleDescription(
        tr("It stands among the pitches that are offered after a first look, for twelve hours"));
    tune_->setAccessibleDescription(tr("Begins a session at this pitch"));
    listen_->setDefault(true);
    column->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(keep_, &QPushButton::clicked, this, &QDialog::accept);
    connect(tune_, &QPushButton::clicked, this, [this] {
        atOnce_ = true;
        accept();
    });
}

void HearPitchDialog::sourcePicked() {
    listen(false);
    heard_.reset();
    listen_->setEnabled(source_->ready());
    state_->setText(source_->ready()
                        ? tr("Let the note sound, then listen.")
                        : tr("The virtual instrument is no other one: choose a microphone, or a "
                             "recording."));
    showHeard();
}

void HearPitchDialog::listen(bool on) {
    timer_.stop();
    if (listener_) {
        hear(listener_->hearing());
        listener_.reset();
    }
    listen_->setText(on ? tr("&Stop") : tr("&Listen"));
    if (!on) {
        return;
    }
    heard_.reset();
    Result<Sound> sound = open_(source_->chosen());
    if (!sound) {
        listen_->setText(tr("&Listen"));
        state_->setText(errorText(sound.error()));
        return;
    }
    listener_ = std::make_unique<PitchListener>(std::move(sound->source), sound->clock);
    timer_.start();
    look();
}

void HearPitchDialog::look() {
    const PitchHearing hearing = listener_->hearing();
    hear(hearing);
    if (hearing.source.phase == EnginePhase::Ended || hearing.source.phase == EnginePhase::Failed) {
        listen(false);
    }
}

void HearPitchDialog::hear(const PitchHearing& hearing) {
    std::vector<HeardTone> tones;
    tones.reserve(hearing.before.size() + 1);
    for (const SteadyPitch& tone : hearing.before) {
        tones.push_back({tone.pitch, tone.uncertainty});
    }
    if (hearing.tone) {
        tones.push_back({hearing.tone->pitch, hearing.tone->uncertainty});
    }
    heard_ =
        heardStandard(tones, temperament_, Hertz(kLowestStandardHz), Hertz(kHighestStandardHz));
    sayIn(state_, hearingText(hearing, !tones.empty() && !heard_));
    showHeard();
}

void HearPitchDialog::showHeard() {
    keep_->setEnabled(heard_.has_value());
    tune_->setEnabled(heard_.has_value());
    figure_->setText(heard_ ? heardFigure(*heard_) : QStringLiteral("\u2013"));
    notes_->setText(heard_ ? heardNotes(*heard_) : QString());
    from_->setText(heard_ ? heardAgainst(*heard_, standardHz_) : QString());
    QPalette colours = palette();
    if (heard_ && raisesFar(*heard_, standardHz_)) {
        colours.setColor(QPalette::WindowText, themeOf(palette()).danger);
    }
    from_->setPalette(colours);
}

} // namespace quillbench
