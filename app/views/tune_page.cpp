#include "app/views/tune_page.hpp"

#include "app/models/picture_maker.hpp"
#include "app/paint/theme.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/guidance_text.hpp"
#include "app/text/sound_text.hpp"
#include "app/views/breath_view.hpp"
#include "app/views/choice_bar.hpp"
#include "app/views/computer_keys.hpp"
#include "app/views/figures_view.hpp"
#include "app/views/keyboard_view.hpp"
#include "app/views/level_view.hpp"
#include "app/views/look_panel.hpp"
#include "app/views/pin_view.hpp"
#include "app/views/register_bar.hpp"
#include "app/views/screen_reader.hpp"
#include "app/views/sentence.hpp"
#include "app/views/wires_view.hpp"

#include <QEvent>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeySequence>
#include <QLabel>
#include <QVBoxLayout>
#include <algorithm>

namespace quillbench {

namespace {

constexpr int kToldBesideFrom = 760; // pixels

QLabel* line(QWidget* parent, const char* name) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    return label;
}

bool isTrouble(EnginePhase phase) {
    return phase == EnginePhase::Silent || phase == EnginePhase::Lost ||
           phase == EnginePhase::Recovering || phase == EnginePhase::Failed;
}

} // namespace

TunePage::TunePage(TuningModel& tuning, LiveModel& live, VirtualPlayer& player, QWidget* parent)
    : QWidget(parent),
      tuning_(tuning),
      live_(live),
      player_(player),
      choices_(new ChoiceBar(this)),
      sentence_(new Sentence(this, "sentence")),
      look_(new LookPanel(this)),
      figures_(new FiguresView(this)),
      wires_(new WiresView(this)),
      breath_(new BreathView(this)),
      registers_(new RegisterBar(this)),
      pin_(new PinView(this)),
      keyboard_(new KeyboardView(this)),
      heldKeys_(new HeldKeys(this)),
      level_(new LevelView(this)),
      source_(line(this, "source")),
      told_(line(this, "told")),
      bottom_(new QGridLayout) {
    presentAsPlace(this, tr("Tune"));
    buildLayout();
    connectModels();
    showSource();
}

void TunePage::buildLayout() {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(4);
    column->addWidget(choices_);
    auto* words = new QVBoxLayout;
    words->setContentsMargins(16, 4, 16, 0);
    words->setSpacing(0);
    words->addWidget(sentence_);
    column->addLayout(words);
    column->addWidget(look_);
    column->addWidget(figures_);
    auto* middle = new QHBoxLayout;
    middle->setSpacing(0);
    auto* pictures = new QVBoxLayout;
    pictures->setSpacing(0);
    pictures->addWidget(wires_, 3);
    pictures->addWidget(breath_, 4);
    middle->addLayout(pictures, 1);
    middle->addWidget(pin_);
    column->addLayout(middle, 1);
    column->addWidget(registers_);
    column->addWidget(keyboard_);
    bottom_->setContentsMargins(16, 0, 16, 4);
    bottom_->setHorizontalSpacing(12);
    bottom_->setVerticalSpacing(2);
    bottom_->addWidget(level_, 1, 0);
    bottom_->addWidget(source_, 1, 1);
    bottom_->setColumnStretch(1, 2);
    column->addLayout(bottom_);
    presentAsAnnouncement(told_);
    placeTold();
    pin_->hide();
    breath_->hide();
    look_->hide();
}

void TunePage::connectModels() {
    connect(heldKeys_, &HeldKeys::pressed, this, [this](int note) { playComputerKey(note, true); });
    connect(
        heldKeys_, &HeldKeys::released, this, [this](int note) { playComputerKey(note, false); });
    connect(&tuning_, &TuningModel::sessionChanged, this, &TunePage::showSession);
    connect(look_, &LookPanel::standardChosen, this, [this] {
        standardChosen_ = true;
        showLook();
        setFocus(Qt::OtherFocusReason);
    });
    connect(look_, &LookPanel::pitchChosen, this, &TunePage::goOnAt);
    connect(&tuning_, &TuningModel::chosen, this, [this] {
        standardChosen_ = false;
        choices_->show(
            tuning_.choice(), tuning_.instrument(), tuning_.temperament(), tuning_.positions());
    });
    connect(&tuning_, &TuningModel::registrationChanged, this, [this] {
        registers_->show(tuning_.instrument(), tuning_.registration());
        showLive();
    });
    connect(registers_, &RegisterBar::drawn, &tuning_, &TuningModel::draw);
    connect(&live_, &LiveModel::updated, this, &TunePage::showLive);
    connect(&live_, &LiveModel::stateChanged, this, &TunePage::showSource);
    connect(&player_, &VirtualPlayer::pinTurned, this, &TunePage::showPin);
    connect(keyboard_, &KeyboardView::keyPressed, &player_, &VirtualPlayer::keyDown);
    connect(keyboard_, &KeyboardView::keyReleased, &player_, &VirtualPlayer::keyUp);
    connect(keyboard_, &KeyboardView::keyChosen, this, [this](std::size_t key) {
        const Session& session = tuning_.session();
        const StringId string{session.step().string.choir,
                              courseOf(tuning_.instrument(), key, tuning_.position())};
        if (const auto step = session.plan->stepOf(string)) {
            tuning_.act(GoTo{*step, live_.heardUpTo()});
        }
    });
    connect(pin_, &PinView::turnedBy, &player_, &VirtualPlayer::turnPin);
    connect(pin_, &PinView::stepped, this, [this](bool coarse, int direction) {
        player_.stepPin(coarse ? PinStep::Coarse : PinStep::Fine, direction);
    });
    connect(pin_, &PinView::letGo, &player_, &VirtualPlayer::letGo);
}

void TunePage::setSourceName(const QString& name) {
    sourceName_ = name;
    showSource();
    showPin();
}

void TunePage::setLookFacts(const PlayerSpeed& speed, const std::optional<HeardPitch>& heard) {
    speed_ = speed;
    heardPitch_ = heard;
    if (tuning_.ready()) {
        showLook();
    }
}

void TunePage::tell(const QString& text) {
    sayIn(told_, text);
}

bool TunePage::takeComputerKey(const QKeyEvent& event) {
    const auto note = noteOfComputerKey(event);
    if (!note || !player_.playing() || !tuning_.ready()) {
        return false;
    }
    heldKeys_->take(event, *note);
    return true;
}

void TunePage::playComputerKey(int semitones, bool down) {
    if (!tuning_.ready()) {
        return;
    }
    const auto played = keyOf(tuning_.instrument().compass, chromaticAbove(semitones, tuning_));
    if (played && down) {
        player_.keyDown(*played);
    } else if (played) {
        player_.keyUp(*played);
    }
}

void TunePage::showSession() {
    if (!tuning_.ready()) {
        return;
    }
    showLive();
    showPin();
    showLook();
}

/// Where the first look is done and nothing was set since: at which pitch to go on.
void TunePage::showLook() {
    const auto offers = standardChosen_ ? std::nullopt : lookOffers(tuning_, speed_, heardPitch_);
    if (offers) {
        look_->show(*offers, tuning_.choice().a4Hz);
    } else {
        look_->hide();
    }
}

void TunePage::goOnAt(Cents shift) {
    const double standard = tuning_.choice().a4Hz;
    if (const Result<void> gone = tuning_.goOnAt(shift); !gone) {
        tell(errorText(gone.error()));
        return;
    }
    setFocus(Qt::OtherFocusReason);
    tell(tr("The rest is tuned at %1. %2 begins again at %3.")
             .arg(hertzText(Hertz(tuning_.choice().a4Hz)),
                  QKeySequence(QKeySequence::New).toString(QKeySequence::NativeText),
                  hertzText(Hertz(standard))));
}

void TunePage::showLive() {
    if (!tuning_.ready()) {
        return;
    }
    const AnalysisSnapshot* snapshot = live_.snapshot().get();
    const Session session = tuning_.provisional(snapshot);
    const BreathPicture breath = breathMaker_.make(tuning_, snapshot);
    const bool pair = breathMaker_.pairAtHand(snapshot);
    breath_->setVisible(pair || tuning_.registration().on.count() > 1);
    breath_->show(breath);
    if (pair) {
        showPair();
    } else {
        showSentence(session);
        wires_->show(wiresPicture(tuning_, session, snapshot));
        figures_->show(figuresPicture(tuning_, session, snapshot));
    }
    keyboard_->show(keyboardPicture(tuning_, session, snapshot));
    const LevelPicture level = levelPicture(snapshot);
    level_->show(level);
    if (!level.trouble.isEmpty()) {
        tell(level.trouble);
    }
}

void TunePage::showSentence(const Session& session) {
    const Guidance guidance = guide(session);
    const bool first = session.countOf(StepState::Untouched) == session.progress.size();
    saySentence(sentenceFor(guidance, session, tuning_.instrument(), first), guidance.danger);
}

void TunePage::saySentence(const QString& text, bool danger) {
    if (text == sentence_->text()) {
        return;
    }
    sayIn(sentence_, text, danger);
    fitWords();
    QPalette colours = palette();
    if (danger) {
        colours.setColor(QPalette::WindowText, themeOf(palette()).danger);
    }
    sentence_->setPalette(colours);
    Q_EMIT said(text, danger);
}

void TunePage::sayAgain() {
    Q_EMIT said(sentence_->text(), false);
}

/// Two strings together: their beat in large figures, the upper one between the wires, its breath below.
void TunePage::showPair() {
    FiguresPicture figures = breathMaker_.figures();
    WiresPicture wires;
    if (tuning_.session().covered(tuning_.session().current)) {
        showSentence(tuning_.session());
        figures.deviation.clear();
        figures.words = tr("by ear: covered until you accept it");
    } else {
        saySentence(breathMaker_.sentence().isEmpty() ? tr("Listen: two strings together.")
                                                      : breathMaker_.sentence(),
                    false);
        wires.sounding = breathMaker_.wire();
    }
    wires.description = figures.words;
    wires_->show(wires);
    figures_->show(figures);
}

void TunePage::showSource() {
    source_->setText(sourceText(sourceName_, live_.state()));
    constexpr int kOnOneLine = 260; // pixels; what is longer goes on two lines
    source_->setMinimumWidth(
        std::min(source_->fontMetrics().horizontalAdvance(source_->text()) + 2, kOnOneLine));
    QPalette colours = palette();
    if (isTrouble(live_.state().phase)) {
        // What is heard no longer comes: in the colour of what is heard, and in words.
        colours.setColor(QPalette::WindowText, themeOf(palette()).sound);
    }
    source_->setPalette(colours);
}

void TunePage::showPin() {
    keyboard_->setPlayable(player_.playing());
    pin_->setVisible(player_.playing());
    if (tuning_.ready()) {
        pin_->show(stringText(tuning_.instrument(), player_.atHand(), tuning_.position()),
                   player_.turned(),
                   player_.centsPerDegree());
    }
}

QSize TunePage::minimumSizeHint() const {
    return {560, 340};
}

void TunePage::fitWords() {
    sentence_->fit(std::clamp(height() / 25, 15, 44));
}

/// Beside the source where there is room for both, else above it.
void TunePage::placeTold() {
    const bool beside = width() >= kToldBesideFrom;
    bottom_->removeWidget(told_);
    if (beside) {
        bottom_->addWidget(told_, 1, 2);
    } else {
        bottom_->addWidget(told_, 0, 0, 1, 2);
    }
    bottom_->setColumnStretch(2, beside ? 3 : 0);
    told_->setAlignment((beside ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
}

void TunePage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    if ((width() >= kToldBesideFrom) != (event->oldSize().width() >= kToldBesideFrom)) {
        placeTold();
    }
    figures_->setFigureSize(std::clamp(height() / 8, 36, 160));
    fitWords();
}

void TunePage::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange) {
        sentence_->clear(); // so that it is written again in its new colour
        showSession();
        showSource();
    }
}

} // namespace quillbench
