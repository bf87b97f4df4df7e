#include "app/places/practise/practise_page.hpp"

#include "app/places/practise/bearing_table.hpp"
#include "app/places/practise/practise_actions.hpp"
#include "app/places/practise/practise_choices.hpp"
#include "app/places/practise/practise_pictures.hpp"
#include "app/places/practise/practise_text.hpp"
#include "app/places/practise/progress_view.hpp"
#include "app/views/breath_view.hpp"
#include "app/views/figures_view.hpp"
#include "app/views/pin_view.hpp"
#include "app/views/screen_reader.hpp"
#include "app/views/sentence.hpp"

#include <QFontMetrics>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

namespace quillbench {

namespace {

/// Narrower than this the progress stands aside while an exercise is done.
constexpr int kRoomForProgress = 760;
/// Lower than this the pin is turned by keys alone.
constexpr int kRoomForPin = 420;
constexpr int kSentenceEdge = 16;

QLabel* plainLine(QWidget* parent, const char* name) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    return label;
}

bool isLetter(int key) {
    return key >= Qt::Key_A && key <= Qt::Key_Z;
}

} // namespace

PractisePage::PractisePage(PractiseModel& model, QWidget* parent)
    : QWidget(parent),
      model_(model),
      choices_(new PractiseChoices(model, this)),
      sentence_(new Sentence(this, "practiseSentence")),
      figures_(new FiguresView(this)),
      breath_(new BreathView(this)),
      pin_(new PinView(this)),
      progress_(new ProgressView(this)),
      listen_(plainLine(this, "listenAt")),
      told_(plainLine(this, "practiseTold")),
      steps_(new BearingTable(this)),
      caution_(new QWidget(this)),
      actions_(new PractiseActions(model, this)) {
    setObjectName(QStringLiteral("practise"));
    setAccessibleName(tr("Practise"));
    setFocusPolicy(Qt::StrongFocus);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 6);
    column->setSpacing(4);
    column->addWidget(choices_);
    auto* words = new QVBoxLayout;
    words->setContentsMargins(kSentenceEdge, 4, kSentenceEdge, 0);
    presentAsAnnouncement(told_);
    words->addWidget(sentence_);
    column->addLayout(words);
    auto* middle = new QHBoxLayout;
    auto* pictures = new QVBoxLayout;
    pictures->addWidget(figures_);
    auto* sound = new QHBoxLayout;
    sound->addWidget(breath_, 1);
    sound->addWidget(steps_, 1);
    sound->addWidget(pin_);
    pictures->addLayout(sound, 1);
    middle->addLayout(pictures, 3);
    middle->addWidget(progress_, 2);
    column->addLayout(middle, 1);
    auto* hints = new QHBoxLayout;
    hints->setContentsMargins(16, 0, 16, 0);
    hints->setSpacing(16);
    hints->addWidget(listen_, 3);
    hints->addWidget(told_, 2);
    told_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    column->addLayout(hints);
    buildCaution();
    column->addWidget(caution_);
    column->addWidget(actions_);
    connectAll();
    nameApart();
    showModel();
}

void PractisePage::connectAll() {
    connect(choices_, &PractiseChoices::wished, this, [this](const ExerciseWish& wish) {
        model_.wish(wish);
        setFocus();
    });
    connect(choices_, &PractiseChoices::ownWanted, this, [this](bool own) {
        Q_EMIT ownWanted(own);
        setFocus();
    });
    connect(choices_, &PractiseChoices::planWanted, this, [this](bool plan) {
        model_.setPlan(plan);
        setFocus();
    });
    connect(actions_, &PractiseActions::onwardWanted, this, &PractisePage::goOn);
    connect(actions_, &PractiseActions::chosen, this, [this] { setFocus(); });
    connect(&model_, &PractiseModel::changed, this, &PractisePage::showModel);
    connect(pin_, &PinView::turnedBy, &model_, &PractiseModel::turnPin);
    connect(pin_, &PinView::stepped, this, [this](bool coarse, int direction) {
        model_.stepPin(coarse ? PractiseStep::Well : PractiseStep::Hair, direction);
    });
    connect(pin_, &PinView::letGo, &model_, &PractiseModel::letGo);
}

/// The views are those of the session's page too: each is found by a name of its own.
void PractisePage::nameApart() {
    QList<QWidget*> shared = figures_->findChildren<QWidget*>();
    shared << breath_ << pin_;
    for (QWidget* widget : shared) {
        widget->setObjectName(QStringLiteral("practise.") + widget->objectName());
    }
}

void PractisePage::buildCaution() {
    caution_->setObjectName(QStringLiteral("headphones"));
    auto* row = new QHBoxLayout(caution_);
    row->setContentsMargins(16, 2, 16, 2);
    auto* text = plainLine(caution_, "headphonesText");
    text->setText(
        tr("With headphones: put them on after the first sound, and turn up only as far as "
           "you need. Beats are heard best when it is quiet. Rest your ears every quarter "
           "of an hour."));
    auto* read = new QPushButton(tr("&Understood"), caution_);
    read->setObjectName(QStringLiteral("headphonesRead"));
    read->setFocusPolicy(Qt::TabFocus);
    row->addWidget(text, 1);
    row->addWidget(read);
    caution_->hide();
    connect(read, &QPushButton::clicked, this, [this] {
        caution_->hide();
        fit();
        setFocus();
        Q_EMIT cautionRead();
    });
}

void PractisePage::showCaution() {
    caution_->show();
    fit();
}

void PractisePage::tell(const QString& text) {
    sayIn(told_, text);
    fit();
}

bool PractisePage::isNarrow() const {
    return width() < kRoomForProgress;
}

/// Where there is little room words are shorter and what can be done without stands aside.
void PractisePage::fit() {
    const bool narrow = isNarrow();
    choices_->fit(width());
    actions_->fit(width());
    listen_->setVisible(!narrow || (told_->text().isEmpty() && caution_->isHidden()));
    told_->setVisible(!told_->text().isEmpty() && (!narrow || caution_->isHidden()));
    progress_->setVisible(!narrow);
}

void PractisePage::fitWords() {
    sentence_->fit(std::clamp(height() / 27, 15, 40));
}

void PractisePage::goOn() {
    switch (model_.phase()) {
    case PractisePhase::Asked:
        model_.play();
        break;
    case PractisePhase::Listening:
        (void)model_.content(); // the sentence says what is still wanted
        break;
    case PractisePhase::Measuring:
        break;
    case PractisePhase::Uncovered:
        if (model_.bearings()) {
            model_.setPlan(true);
        } else {
            model_.ask();
        }
        model_.play();
        break;
    }
}

bool PractisePage::takes(const QKeyEvent& event) const {
    const Qt::KeyboardModifiers with = event.modifiers() & ~Qt::KeypadModifier;
    const int key = event.key();
    const ExerciseKind kind = model_.wished().kind;
    const bool pin = kind != ExerciseKind::Count && kind != ExerciseKind::Compare;
    if (key == Qt::Key_Up || key == Qt::Key_Down) {
        return pin && (with == Qt::NoModifier || with == Qt::ShiftModifier);
    }
    if (with != Qt::NoModifier && with != Qt::ShiftModifier) {
        return false;
    }
    return key == Qt::Key_F5 || key == Qt::Key_F6 || key == Qt::Key_F7 || key == Qt::Key_F8 ||
           key == Qt::Key_F9 || (key == Qt::Key_Backspace && model_.bearings()) ||
           key == Qt::Key_Space || key == Qt::Key_Return || key == Qt::Key_Enter || isLetter(key) ||
           (key >= Qt::Key_1 && key <= Qt::Key_4);
}

bool PractisePage::take(const QKeyEvent& event) {
    const int key = event.key();
    const ExerciseKind kind = model_.wished().kind;
    if (key == Qt::Key_Up || key == Qt::Key_Down) {
        model_.stepPin(event.modifiers().testFlag(Qt::ShiftModifier) ? PractiseStep::Well
                                                                     : PractiseStep::Hair,
                       key == Qt::Key_Up ? 1 : -1);
        return true;
    }
    if (event.isAutoRepeat() || repeatsLast(event)) {
        return true;
    }
    if (key == Qt::Key_F5 || (key == Qt::Key_Space && model_.phase() == PractisePhase::Asked)) {
        model_.play();
    } else if (key == Qt::Key_F6) {
        model_.hearPartialAlone(!model_.partialAlone());
    } else if (key == Qt::Key_F9) {
        model_.setPlan(!model_.bearings());
    } else if (key == Qt::Key_Backspace) {
        model_.stepBack();
    } else if (kind == ExerciseKind::Compare && (key == Qt::Key_1 || key == Qt::Key_2)) {
        model_.answerFaster(key == Qt::Key_2);
    } else if (key == Qt::Key_F8) {
        Q_EMIT ownWanted(!model_.own());
    } else if (key == Qt::Key_F7) {
        model_.showSlowly(!model_.shownSlowly());
    } else if (key == Qt::Key_Return || key == Qt::Key_Enter) {
        goOn();
    } else if (kind == ExerciseKind::Count && key >= Qt::Key_1 && key <= Qt::Key_4) {
        model_.setBeatsPerTap(key - Qt::Key_0);
    } else if (kind == ExerciseKind::Count) {
        model_.tap();
    } else if (key == Qt::Key_Space && kind == ExerciseKind::Compare) {
        model_.playSecond();
    } else if (key == Qt::Key_Space) {
        model_.pluck();
    } else if (key == Qt::Key_W) {
        model_.answer(BeatDirection::Wide);
    } else if (key == Qt::Key_N) {
        model_.answer(BeatDirection::Narrow);
    } else if (key == Qt::Key_L) {
        model_.letGo();
    }
    return true;
}

bool PractisePage::event(QEvent* event) {
    // Commands of the window that have the same key give way.
    if (event->type() == QEvent::ShortcutOverride && takes(*static_cast<QKeyEvent*>(event))) {
        event->accept();
        return true;
    }
    return QWidget::event(event);
}

void PractisePage::keyPressEvent(QKeyEvent* event) {
    if (!takes(*event) || !take(*event)) {
        QWidget::keyPressEvent(event);
    }
}

/// X11 tells a held key's repeats as let go and pressed at the same instant, and Qt does not always know.
bool PractisePage::repeatsLast(const QKeyEvent& event) const {
    constexpr quint64 kNoHandIsFasterMs = 8;
    const auto [key, at] = lastLetGo_;
    return at != 0 && event.key() == key && event.timestamp() - at < kNoHandIsFasterMs;
}

void PractisePage::keyReleaseEvent(QKeyEvent* event) {
    lastLetGo_ = {event->key(), event->timestamp()};
    QWidget::keyReleaseEvent(event);
}

void PractisePage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    model_.enter();
    setFocus();
    Q_EMIT seen(true);
}

void PractisePage::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    model_.leave();
    Q_EMIT seen(false);
}

void PractisePage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    figures_->setFigureSize(std::clamp(height() / 9, 36, 140));
    fitWords();
    fit();
    showPin();
}

QSize PractisePage::minimumSizeHint() const {
    return {560, 340};
}

void PractisePage::showModel() {
    sayIn(sentence_, practiseSentence(model_));
    fitWords();
    figures_->show(practiseFigures(model_));
    breath_->show(practiseBreath(model_));
    progress_->show(practiseProgress(model_));
    const QString doubt = judgedByText(model_);
    listen_->setText(doubt.isEmpty() ? listenAt(model_) : doubt);
    choices_->refresh();
    actions_->refresh();
    fit();
    const std::vector<BearingRow> rows = bearingRows(model_);
    steps_->fill(rows);
    steps_->setVisible(!rows.empty());
    breath_->setVisible(rows.empty());
    figures_->setVisible(rows.empty());
    showPin();
}

void PractisePage::showPin() {
    const ExerciseKind kind = model_.wished().kind;
    const bool turns = kind != ExerciseKind::Count && kind != ExerciseKind::Compare &&
                       model_.exercise() && !model_.own();
    pin_->setVisible(turns && !model_.atCheck() && height() >= kRoomForPin);
    if (turns) {
        pin_->show(pinName(model_), model_.turned(), model_.centsPerDegree().value());
    }
}

} // namespace quillbench
