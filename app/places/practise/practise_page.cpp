#include "app/places/practise/practise_page.hpp"

#include "app/places/practise/practise_pictures.hpp"
#include "app/places/practise/practise_text.hpp"
#include "app/places/practise/progress_view.hpp"
#include "app/views/breath_view.hpp"
#include "app/views/figures_view.hpp"
#include "app/views/pin_view.hpp"

#include <QComboBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QSlider>
#include <QTableWidget>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>

namespace quillbench {

namespace {

constexpr int kAnyRegister = -1;
/// Narrower than this the progress stands aside while an exercise is done.
constexpr int kRoomForProgress = 760;
/// Lower than this the pin is turned by keys alone.
constexpr int kRoomForPin = 420;

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
      sentence_(plainLine(this, "practiseSentence")),
      figures_(new FiguresView(this)),
      breath_(new BreathView(this)),
      pin_(new PinView(this)),
      progress_(new ProgressView(this)),
      listen_(plainLine(this, "listenAt")),
      told_(plainLine(this, "practiseTold")),
      caution_(new QWidget(this)) {
    setObjectName(QStringLiteral("practise"));
    setAccessibleName(tr("Practise"));
    setFocusPolicy(Qt::StrongFocus);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 6);
    column->setSpacing(4);
    auto* choices = new QHBoxLayout;
    buildChoices(choices);
    column->addLayout(choices);
    auto* words = new QVBoxLayout;
    words->setContentsMargins(16, 4, 16, 0);
    words->addWidget(sentence_);
    column->addLayout(words);
    sentence_->setAccessibleDescription(tr("What to do now"));
    auto* middle = new QHBoxLayout;
    auto* pictures = new QVBoxLayout;
    pictures->addWidget(figures_);
    auto* sound = new QHBoxLayout;
    sound->addWidget(breath_, 1);
    buildSteps();
    sound->addWidget(steps_, 1);
    sound->addWidget(pin_);
    pictures->addLayout(sound, 1);
    middle->addLayout(pictures, 3);
    middle->addWidget(progress_, 2);
    column->addLayout(middle, 1);
    auto* hints = new QHBoxLayout;
    hints->setContentsMargins(16, 0, 16, 0);
    hints->addWidget(listen_, 3);
    hints->addWidget(told_, 2);
    told_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    column->addLayout(hints);
    buildCaution();
    column->addWidget(caution_);
    auto* actions = new QHBoxLayout;
    buildActions(actions);
    column->addLayout(actions);
    connect(&model_, &PractiseModel::changed, this, &PractisePage::showModel);
    connect(pin_, &PinView::turnedBy, &model_, &PractiseModel::turnPin);
    connect(pin_, &PinView::stepped, this, [this](bool coarse, int direction) {
        model_.stepPin(coarse ? PractiseStep::Well : PractiseStep::Hair, direction);
    });
    connect(pin_, &PinView::letGo, &model_, &PractiseModel::letGo);
    nameApart();
    fillRegisters();
    showModel();
}

/// The views are those of the session's page too: each is found by a name of its own.
void PractisePage::nameApart() {
    QList<QWidget*> shared = figures_->findChildren<QWidget*>();
    shared << breath_ << pin_;
    for (QWidget* widget : shared) {
        widget->setObjectName(QStringLiteral("practise.") + widget->objectName());
    }
}

void PractisePage::buildChoices(QHBoxLayout* row) {
    row->setContentsMargins(16, 6, 16, 2);
    row->setSpacing(8);
    const QString mnemonics[kExerciseKinds] = {tr("&Count"),
                                               tr("Which wa&y"),
                                               tr("&Bring together"),
                                               tr("&Leave a little"),
                                               tr("Co&mpare")};
    const QString tips[kExerciseKinds] = {
        tr("Tap along with a beat"),
        tr("Tell wide from narrow"),
        tr("Turn the pin until the beat is still"),
        tr("Turn the pin until it beats as the temperament wants"),
        tr("Tell which of two fast beats is faster")};
    for (std::size_t i = 0; i < kExerciseKinds; ++i) {
        auto* button = new QToolButton(this);
        button->setObjectName(QStringLiteral("exercise%1").arg(i));
        button->setText(mnemonics[i]);
        button->setToolTip(tips[i]);
        button->setAccessibleName(exerciseName(static_cast<ExerciseKind>(i)));
        button->setAccessibleDescription(tips[i]);
        button->setCheckable(true);
        button->setAutoExclusive(true);
        button->setAutoRaise(true);
        button->setFocusPolicy(Qt::TabFocus);
        button->setChecked(static_cast<ExerciseKind>(i) == model_.wished().kind);
        connect(button, &QToolButton::clicked, this, &PractisePage::wish);
        kinds_.push_back(button);
        row->addWidget(button);
    }
    kind_ = new QComboBox(this);
    kind_->setObjectName(QStringLiteral("practiseKind"));
    kind_->setAccessibleName(tr("Exercise"));
    for (std::size_t i = 0; i < kExerciseKinds; ++i) {
        kind_->addItem(exerciseName(static_cast<ExerciseKind>(i)));
    }
    connect(kind_, &QComboBox::activated, this, [this](int index) {
        kinds_[static_cast<std::size_t>(index)]->setChecked(true);
        wish();
    });
    row->addWidget(kind_);
    row->addStretch(1);
    own_ = addSwitch(row, "ownInstrument", tr("On my instrument (F8)"));
    own_->setToolTip(tr("You play and judge; the program listens, then uncovers what it measured"));
    plan_ = addSwitch(row, "wholePlan", tr("Whole plan (F9)"));
    plan_->setToolTip(tr("Lay the bearings of the session's temperament, all steps by ear"));
    connect(own_, &QToolButton::clicked, this, [this](bool own) {
        Q_EMIT ownWanted(own);
        setFocus();
    });
    connect(plan_, &QToolButton::clicked, this, [this](bool plan) {
        model_.setPlan(plan);
        setFocus();
    });
    interval_ = addBox(row, tr("&Interval"), "practiseInterval");
    for (std::size_t i = 0; i < kPracticeIntervals; ++i) {
        const auto interval = static_cast<PracticeInterval>(i);
        if (!registersFor(model_.instrument(), interval).empty()) {
            interval_->addItem(intervalName(interval), static_cast<int>(i));
        }
    }
    register_ = addBox(row, tr("&Register"), "practiseRegister");
    connect(interval_, &QComboBox::activated, this, [this] {
        fillRegisters();
        wish();
    });
    connect(register_, &QComboBox::activated, this, &PractisePage::wish);
}

QComboBox* PractisePage::addBox(QHBoxLayout* row, const QString& caption, const char* name) {
    auto* box = new QComboBox(this);
    box->setObjectName(QString::fromLatin1(name));
    box->setAccessibleName(QString(caption).remove(QLatin1Char('&')));
    auto* label = new QLabel(caption, this);
    label->setBuddy(box);
    row->addWidget(label);
    row->addWidget(box);
    return box;
}

QToolButton* PractisePage::addSwitch(QHBoxLayout* row, const char* name, const QString& text) {
    auto* button = new QToolButton(this);
    button->setObjectName(QString::fromLatin1(name));
    button->setText(text);
    button->setAccessibleName(text);
    button->setCheckable(true);
    button->setAutoRaise(true);
    button->setFocusPolicy(Qt::TabFocus);
    row->addWidget(button);
    return button;
}

QPushButton* PractisePage::addButton(QHBoxLayout* row, const char* name, const QString& text) {
    auto* button = new QPushButton(text, this);
    button->setObjectName(QString::fromLatin1(name));
    button->setFocusPolicy(Qt::TabFocus);
    button->setAutoDefault(false);
    row->addWidget(button);
    return button;
}

void PractisePage::buildActions(QHBoxLayout* row) {
    row->setContentsMargins(16, 0, 16, 0);
    row->setSpacing(8);
    again_ = addButton(row, "playAgain", tr("Play again (F5)"));
    alone_ = addButton(row, "partialAlone", tr("Partial alone (F6)"));
    slowly_ = addButton(row, "breathSlowly", tr("Breath slowly (F7)"));
    again_->setAccessibleName(tr("Play again"));
    alone_->setAccessibleName(tr("Partial alone"));
    slowly_->setAccessibleName(tr("Breath slowly"));
    alone_->setCheckable(true);
    slowly_->setCheckable(true);
    group_ = addBox(row, tr("A &tap is"), "beatsPerTap");
    group_->setAccessibleName(tr("Beats for each tap"));
    for (int beats = 1; beats <= 4; ++beats) {
        group_->addItem(beats == 1 ? tr("1 beat") : tr("%1 beats").arg(beats), beats);
    }
    group_->setToolTip(
        tr("Faster than four a second: tap every second or fourth beat. Keys 1 to 4"));
    wide_ = addButton(row, "answerWide", tr("Wide (W)"));
    narrow_ = addButton(row, "answerNarrow", tr("Narrow (N)"));
    first_ = addButton(row, "answerFirst", tr("First (1)"));
    second_ = addButton(row, "answerSecond", tr("Second (2)"));
    handOff_ = addButton(row, "letGo", tr("Hand off the hammer (L)"));
    row->addStretch(1);
    auto* loud = new QLabel(tr("Loudn&ess"), this);
    loudness_ = new QSlider(Qt::Horizontal, this);
    loudness_->setObjectName(QStringLiteral("practiseLoudness"));
    loudness_->setAccessibleName(tr("Loudness"));
    loudness_->setRange(static_cast<int>(kQuietestDb), static_cast<int>(kLoudestDb));
    loudness_->setPageStep(6);
    loudness_->setValue(static_cast<int>(model_.level()));
    loudness_->setFixedWidth(110);
    loudness_->setToolTip(tr("Every sitting starts quiet; the loudest is limited"));
    loud->setBuddy(loudness_);
    row->addWidget(loud);
    row->addWidget(loudness_);
    onward_ = addButton(row, "onward", tr("Play (Return)"));
    connect(again_, &QPushButton::clicked, &model_, &PractiseModel::play);
    connect(alone_, &QPushButton::clicked, &model_, &PractiseModel::hearPartialAlone);
    connect(slowly_, &QPushButton::clicked, &model_, &PractiseModel::showSlowly);
    connect(group_, &QComboBox::activated, this, [this](int index) {
        model_.setBeatsPerTap(index + 1);
        setFocus();
    });
    connect(wide_, &QPushButton::clicked, this, [this] { model_.answer(BeatDirection::Wide); });
    connect(narrow_, &QPushButton::clicked, this, [this] { model_.answer(BeatDirection::Narrow); });
    connect(first_, &QPushButton::clicked, this, [this] { model_.answerFaster(false); });
    connect(second_, &QPushButton::clicked, this, [this] { model_.answerFaster(true); });
    connect(handOff_, &QPushButton::clicked, &model_, &PractiseModel::letGo);
    connect(loudness_, &QSlider::valueChanged, this, [this](int decibels) {
        model_.setLevel(decibels);
    });
    connect(onward_, &QPushButton::clicked, this, &PractisePage::goOn);
}

void PractisePage::buildSteps() {
    steps_ = new QTableWidget(0, 5, this);
    steps_->setObjectName(QStringLiteral("bearingSteps"));
    steps_->setAccessibleName(tr("What came of each step"));
    steps_->setHorizontalHeaderLabels({tr("Step"),
                                       tr("Wanted, a second"),
                                       tr("Left, a second"),
                                       tr("Left, cents"),
                                       tr("Note, cents")});
    steps_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    steps_->horizontalHeader()->setStretchLastSection(true);
    steps_->verticalHeader()->hide();
    steps_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    steps_->setSelectionBehavior(QAbstractItemView::SelectRows);
    steps_->setTabKeyNavigation(false);
    steps_->setFocusPolicy(Qt::TabFocus);
    for (QAbstractButton* corner : steps_->findChildren<QAbstractButton*>()) {
        corner->setAccessibleName(tr("All steps"));
    }
    steps_->hide();
}

void PractisePage::showSteps() {
    const std::vector<BearingRow> rows = bearingRows(model_);
    steps_->setVisible(!rows.empty());
    breath_->setVisible(rows.empty());
    steps_->setRowCount(static_cast<int>(rows.size()));
    for (std::size_t i = 0; i < rows.size(); ++i) {
        int column = 0;
        for (const QString& text :
             {rows[i].step, rows[i].wanted, rows[i].left, rows[i].interval, rows[i].note}) {
            auto* item = new QTableWidgetItem(text);
            item->setTextAlignment(Qt::AlignVCenter |
                                   (column == 0 ? Qt::AlignLeft : Qt::AlignRight));
            steps_->setItem(static_cast<int>(i), column++, item);
        }
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
    told_->setText(text);
    fit();
}

bool PractisePage::isNarrow() const {
    return width() < kRoomForProgress;
}

/// Where there is little room words are shorter and what can be done without stands aside.
void PractisePage::fit() {
    const bool narrow = isNarrow();
    for (QToolButton* button : kinds_) {
        button->setVisible(!narrow);
    }
    kind_->setVisible(narrow);
    for (QLabel* label : findChildren<QLabel*>()) {
        if (label->buddy() == interval_ || label->buddy() == register_ ||
            label->buddy() == loudness_) {
            label->setVisible(!narrow);
        }
    }
    own_->setText(narrow ? tr("Own (F8)") : tr("My instrument (F8)"));
    plan_->setText(narrow ? tr("Plan (F9)") : tr("Whole plan (F9)"));
    again_->setText(narrow ? tr("F5") : tr("Play again (F5)"));
    alone_->setText(narrow ? tr("Alone (F6)") : tr("Partial alone (F6)"));
    slowly_->setText(narrow ? tr("Slow (F7)") : tr("Breath slowly (F7)"));
    handOff_->setText(narrow ? tr("Hand off (L)") : tr("Hand off the hammer (L)"));
    loudness_->setFixedWidth(narrow ? 60 : 110);
    listen_->setVisible(!narrow || (told_->text().isEmpty() && caution_->isHidden()));
    told_->setVisible(!told_->text().isEmpty() && (!narrow || caution_->isHidden()));
    progress_->setVisible(!narrow);
}

void PractisePage::fillRegisters() {
    const auto interval = static_cast<PracticeInterval>(interval_->currentData().toInt());
    const QVariant before = register_->currentData();
    const QSignalBlocker quiet(register_);
    register_->clear();
    register_->addItem(tr("any"), kAnyRegister);
    for (const EarRegister here : registersFor(model_.instrument(), interval)) {
        register_->addItem(registerName(here), static_cast<int>(here));
    }
    register_->setCurrentIndex(std::max(0, register_->findData(before)));
}

void PractisePage::wish() {
    ExerciseWish wish;
    for (std::size_t i = 0; i < kinds_.size(); ++i) {
        if (kinds_[i]->isChecked()) {
            wish.kind = static_cast<ExerciseKind>(i);
        }
    }
    wish.interval = static_cast<PracticeInterval>(interval_->currentData().toInt());
    const int where = register_->currentData().toInt();
    if (where != kAnyRegister) {
        wish.earRegister = static_cast<EarRegister>(where);
    }
    model_.wish(wish);
    setFocus();
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
    if (event.isAutoRepeat()) {
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
    QFont large = font();
    large.setPixelSize(std::clamp(height() / 27, 15, 40));
    sentence_->setFont(large);
    sentence_->setFixedHeight(QFontMetrics(large).lineSpacing() * 2);
    fit();
    showActions();
}

QSize PractisePage::minimumSizeHint() const {
    return {560, 340};
}

void PractisePage::showModel() {
    sentence_->setText(practiseSentence(model_));
    figures_->show(practiseFigures(model_));
    breath_->show(practiseBreath(model_));
    progress_->show(practiseProgress(model_));
    const QString doubt = judgedByText(model_);
    listen_->setText(doubt.isEmpty() ? listenAt(model_) : doubt);
    showActions();
    showSteps();
}

void PractisePage::showActions() {
    const ExerciseKind kind = model_.wished().kind;
    const bool compare = kind == ExerciseKind::Compare;
    const bool pin = kind != ExerciseKind::Count && !compare;
    const bool count = kind == ExerciseKind::Count;
    kinds_[static_cast<std::size_t>(kind)]->setChecked(true);
    kind_->setCurrentIndex(static_cast<int>(kind));
    kinds_[static_cast<std::size_t>(ExerciseKind::Compare)]->setEnabled(!model_.own());
    plan_->setVisible(kind == ExerciseKind::LeaveALittle && !model_.own());
    plan_->setChecked(model_.bearings().has_value());
    interval_->setEnabled(!model_.bearings());
    register_->setEnabled(!model_.bearings());
    first_->setVisible(compare);
    second_->setVisible(compare);
    first_->setEnabled(model_.bothHeard() && model_.phase() == PractisePhase::Listening);
    second_->setEnabled(first_->isEnabled());
    const bool direction = kind == ExerciseKind::WhichWay;
    const bool works = model_.phase() == PractisePhase::Listening;
    const bool asked = model_.exercise().has_value();
    const bool own = model_.own().has_value();
    own_->setChecked(own);
    const bool check = model_.bearings() && !model_.bearings()->done() &&
                       !model_.bearings()->sets(model_.bearings()->at());
    pin_->setVisible(pin && asked && !own && !check && height() >= kRoomForPin);
    if (pin && asked && !own) {
        pin_->show(pinName(model_), model_.turned(), model_.centsPerDegree().value());
    }
    again_->setEnabled(asked && model_.phase() != PractisePhase::Measuring);
    again_->setVisible(!own);
    alone_->setVisible(!own);
    slowly_->setVisible(!own);
    loudness_->setEnabled(!own);
    alone_->setEnabled(asked);
    alone_->setChecked(model_.partialAlone());
    slowly_->setEnabled(asked && model_.measured().has_value());
    slowly_->setChecked(model_.shownSlowly());
    group_->setVisible(count);
    group_->setCurrentIndex(model_.beatsPerTap() - 1);
    for (QLabel* label : findChildren<QLabel*>()) {
        if (label->buddy() == group_) {
            label->setVisible(count && !isNarrow());
        }
    }
    wide_->setVisible(direction);
    narrow_->setVisible(direction);
    wide_->setEnabled(works);
    narrow_->setEnabled(works);
    handOff_->setVisible(pin && !direction && !own && !check);
    handOff_->setEnabled(works);
    onward_->setEnabled(asked || model_.bearings());
    if (model_.bearings() && model_.phase() == PractisePhase::Listening) {
        onward_->setText(isNarrow() ? tr("Next step") : tr("Next step (Return)"));
        return;
    }
    const PractisePhase phase = model_.phase();
    const QString word = phase == PractisePhase::Asked       ? own ? tr("Begin") : tr("Play")
                               : phase == PractisePhase::Uncovered ? tr("Next")
                                                             : tr("Show");
    onward_->setText(isNarrow() ? word : tr("%1 (Return)").arg(word));
}

} // namespace quillbench
