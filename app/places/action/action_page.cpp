#include "app/places/action/action_page.hpp"

#include "app/places/action/action_map_view.hpp"
#include "app/places/action/action_tools.hpp"
#include "app/places/action/fault_panel.hpp"
#include "app/places/action/history_text.hpp"
#include "app/places/action/worksheet_table.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/views/computer_keys.hpp"
#include "app/views/register_bar.hpp"
#include "app/views/screen_reader.hpp"
#include "app/views/sentence.hpp"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QScrollArea>
#include <QSignalBlocker>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>

namespace quillbench {

namespace {

constexpr double kSlowSpeed = 0.1; // of the fastest: 20 mm of key travel a second
constexpr int kLeastMap = 200;
constexpr int kSpaceBar = -1;

QLabel* lineOf(QWidget* parent, const char* name) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    return label;
}

/// The beginning of the ids of what a task finds with the registers that are on.
QString aboutOf(const ActionModel& model) {
    const auto alone = model.registerAlone();
    switch (model.task()) {
    case ActionTask::Stagger:
        return QStringLiteral("stagger-");
    case ActionTask::Evenness:
        return QStringLiteral("voice-%1-").arg(alone.value_or(kMostRegisters));
    case ActionTask::Dampers:
        return QStringLiteral("damper-%1-").arg(alone.value_or(kMostRegisters));
    case ActionTask::Repetition:
        break;
    }
    return QStringLiteral("repeat-%1-").arg(alone.value_or(kMostRegisters));
}

} // namespace

ActionPage::ActionPage(TuningModel& tuning,
                       LiveModel& live,
                       VirtualPlayer& player,
                       ActionModel& action,
                       QWidget* parent)
    : QWidget(parent),
      tuning_(tuning),
      live_(live),
      player_(player),
      action_(action),
      registers_(new RegisterBar(this)),
      sentence_(new Sentence(this, "actionSentence")),
      whole_(lineOf(this, "actionWhole")),
      told_(lineOf(this, "actionTold")),
      map_(new ActionMapView(this)),
      table_(new WorksheetTable(this)),
      finder_(new FaultPanel(action, this)),
      heldKeys_(new HeldKeys(this)) {
    setAccessibleName(tr("Action"));
    setFocusPolicy(Qt::StrongFocus);
    auto* scroll = new QScrollArea(this);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, 0, 0, 0);
    outer->addWidget(scroll);
    auto* sheet = new QWidget(scroll);
    scroll->setWidget(sheet);
    auto* column = new QVBoxLayout(sheet);
    column->setContentsMargins(16, 8, 16, 4);
    column->setSpacing(4);
    auto* tasks = new QHBoxLayout;
    buildTasks(tasks);
    buildTools();
    column->addLayout(tasks);
    registers_->layout()->setContentsMargins(0, 0, 0, 0); // the page's edge is there already
    column->addWidget(registers_);
    presentAsAnnouncement(told_);
    column->addWidget(sentence_);
    column->addWidget(whole_);
    column->addWidget(map_, 3);
    auto* bottom = new QHBoxLayout;
    bottom->addWidget(table_, 3);
    bottom->addWidget(finder_, 2);
    column->addLayout(bottom, 2);
    column->addWidget(tools_);
    map_->setMinimumHeight(kLeastMap);
    whole_->setAccessibleDescription(tr("What the whole register does"));
    connectTable();
    connect(registers_, &RegisterBar::drawn, &tuning_, &TuningModel::draw);
    connect(&tuning_, &TuningModel::registrationChanged, this, [this] {
        registers_->show(tuning_.instrument(), tuning_.registration());
    });
    connect(&action_, &ActionModel::changed, this, [this] {
        if (isVisible()) {
            showAll();
        }
    });
    connect(heldKeys_, &HeldKeys::pressed, this, [this](int held) {
        if (const auto key = playedBy(held)) {
            player_.keyDown(*key);
        }
    });
    connect(heldKeys_, &HeldKeys::released, this, [this](int held) {
        if (const auto key = playedBy(held)) {
            player_.keyUp(*key);
        }
    });
    connect(map_, &ActionMapView::keyPressed, &player_, &VirtualPlayer::keyDown);
    connect(map_, &ActionMapView::keyReleased, &player_, &VirtualPlayer::keyUp);
    connect(map_, &ActionMapView::keyChosen, this, &ActionPage::chooseKey);
    choose(ActionTask::Evenness);
}

void ActionPage::buildTasks(QHBoxLayout* row) {
    const auto task =
        [&](ActionTask which, const QString& text, const QString& help, const QKeySequence& key) {
            QToolButton* made = actionButton(this, text, help, key);
            row->addWidget(made);
            made->setCheckable(true);
            tasks_[which] = made;
            connect(made, &QToolButton::clicked, this, [this, which] { choose(which); });
        };
    task(ActionTask::Stagger,
         tr("Stagger"),
         tr("Which register plucks when, as a key goes down slowly"),
         QKeySequence(Qt::Key_F5));
    task(ActionTask::Evenness,
         tr("Evenness"),
         tr("How loud and bright each key of one register is"),
         QKeySequence(Qt::Key_F6));
    task(ActionTask::Dampers,
         tr("Dampers"),
         tr("How soon each string stops when its key is let go"),
         QKeySequence(Qt::Key_F7));
    task(ActionTask::Repetition,
         tr("Repetition"),
         tr("Whether a key plucks every time it is struck"),
         QKeySequence(Qt::SHIFT | Qt::Key_F7));
    row->addStretch(1);
}

void ActionPage::buildTools() {
    tools_ = new ActionTools(told_, this);
    connect(tools_, &ActionTools::microphoneMoved, &action_, &ActionModel::setMicrophoneMoved);
    connect(tools_, &ActionTools::keepWanted, this, &ActionPage::keepPass);
    connect(tools_, &ActionTools::faultsWanted, this, &ActionPage::faultsWanted);
    connect(tools_, &ActionTools::againWanted, &action_, &ActionModel::beginAgain);
    connect(tools_, &ActionTools::printWanted, this, &ActionPage::printSheet);
    connect(tools_, &ActionTools::tidyWanted, this, [this] {
        sheet_.removeDone();
        keepSheet();
        table_->show(sheet_.lines());
    });
}

void ActionPage::connectTable() {
    connect(table_, &WorksheetTable::doneSet, this, [this](std::size_t line, bool done) {
        sheet_.setDone(line, done);
        keepSheet();
    });
    connect(
        table_, &WorksheetTable::remarkSet, this, [this](std::size_t line, const QString& remark) {
            sheet_.setRemark(line, remark);
            keepSheet();
        });
    connect(table_, &WorksheetTable::lineChosen, this, [this](std::size_t line) {
        if (line < sheet_.lines().size()) {
            finder_->showSymptom(sheet_.lines()[line].job.symptom);
            chooseKey(sheet_.lines()[line].job.key);
        }
    });
}

void ActionPage::choose(ActionTask task) {
    for (const auto& [which, button] : tasks_) {
        button->setChecked(which == task);
    }
    action_.choose(task);
    tools_->showEvenness(task == ActionTask::Evenness);
    setSpeed();
    showAll();
}

void ActionPage::chooseKey(std::size_t key) {
    // A worksheet of another day may name a key that the instrument has no more.
    if (!tuning_.ready() || key >= tuning_.instrument().compass.keys.size()) {
        return;
    }
    chosen_ = key;
    finder_->showKey(key);
    showMap();
}

void ActionPage::tell(const QString& text) {
    sayIn(told_, text);
}

void ActionPage::showAll() {
    if (!tuning_.ready()) {
        return;
    }
    if (instrument_ != tuning_.choice().instrument) {
        instrument_ = tuning_.choice().instrument;
        chosen_.reset();
        takeUpSheet();
    }
    registers_->show(tuning_.instrument(), tuning_.registration());
    tools_->showFaults(player_.playing());
    map_->setPlayable(player_.playing());
    findings_ = findingsOf(action_);
    const std::vector<WorksheetLine> before = sheet_.lines();
    sheet_.renew(aboutOf(action_), jobsOf(action_, findings_));
    if (sheet_.lines() != before) {
        keepSheet();
    }
    sayIn(sentence_, actionSentence(action_, findings_));
    fitWords();
    QStringList all{wholeText(action_, findings_)};
    if (action_.task() == ActionTask::Evenness) {
        all << historyText(action_, findings_.evenness, kept_, QDate::currentDate());
        tools_->setKeepable(voices_.keeps() && action_.registerAlone() &&
                            findings_.evenness.enough);
    }
    all.removeAll(QString());
    const QString whole = all.join(QLatin1Char(' '));
    whole_->setText(whole);
    whole_->setVisible(!whole.isEmpty());
    sayIn(told_, trouble_.isEmpty() ? action_.lastWords() : trouble_);
    showMap();
    table_->show(sheet_.lines());
    finder_->showKey(chosen_ ? chosen_ : action_.heardKey());
}

void ActionPage::showMap() {
    map_->show(actionMap(action_, findings_, chosen_));
}

void ActionPage::keepIn(const QString& folder) {
    store_ = WorksheetStore(folder);
    voices_ = VoiceStore(folder);
    instrument_.clear();
    showAll();
}

void ActionPage::takeUpSheet() {
    const auto lines = store_.read(instrument_);
    sheet_.takeUp(lines ? *lines : std::vector<WorksheetLine>());
    trouble_ = lines ? QString() : errorText(lines.error());
    auto kept = voices_.read(instrument_);
    if (!kept && trouble_.isEmpty()) {
        trouble_ = errorText(kept.error());
    }
    kept_ = kept ? std::move(*kept) : std::vector<StoredPass>();
}

void ActionPage::keepPass() {
    const auto reg = action_.registerAlone();
    if (!reg || !findings_.evenness.enough) {
        return;
    }
    const QDate today = QDate::currentDate();
    const StoredPass pass{*reg, today, passOf(findings_.evenness, dayNumber(today))};
    if (const Result<void> done = voices_.add(instrument_, pass); !done) {
        tell(errorText(done.error()));
        return;
    }
    if (auto kept = voices_.read(instrument_)) {
        kept_ = std::move(*kept);
    }
    tell(tr("Kept: %1, %2 keys.").arg(registerName(action_, *reg)).arg(pass.pass.keys.size()));
}

void ActionPage::keepSheet() {
    if (const Result<void> kept = store_.keep(instrument_, sheet_.lines()); !kept) {
        trouble_ = errorText(kept.error());
        tell(trouble_);
    }
}

void ActionPage::printSheet() {
    const WorksheetHead head{
        coreText(tuning_.instrument().name), whole_->text(), QDate::currentDate()};
    tell(print(this, worksheetPrintout(head, sheet_.lines())));
}

void ActionPage::setSpeed() {
    player_.setKeySpeed(isVisible() && action_.task() == ActionTask::Stagger ? kSlowSpeed : 0.0);
}

/// Of the instrument, for a note of the computer's keyboard or kSpaceBar.
std::optional<std::size_t> ActionPage::playedBy(int held) const {
    if (!tuning_.ready()) {
        return std::nullopt;
    }
    return held == kSpaceBar ? chosen_
                             : keyOf(tuning_.instrument().compass, chromaticAbove(held, tuning_));
}

/// False where the key of the computer's keyboard does not play.
bool ActionPage::takePlayed(const QKeyEvent& event) {
    const auto held =
        event.key() == Qt::Key_Space ? std::optional(kSpaceBar) : noteOfComputerKey(event);
    if (!held || !player_.playing() || !playedBy(*held)) {
        return false;
    }
    heldKeys_->take(event, *held);
    return true;
}

void ActionPage::keyPressEvent(QKeyEvent* event) {
    const bool plain = event->modifiers() == Qt::NoModifier;
    if (plain && tuning_.ready() &&
        (event->key() == Qt::Key_Left || event->key() == Qt::Key_Right)) {
        const std::size_t keys = tuning_.instrument().compass.keys.size();
        const std::size_t now = chosen_.value_or(keys / 2);
        chooseKey(event->key() == Qt::Key_Left ? (now > 0 ? now - 1 : 0)
                                               : std::min(now + 1, keys - 1));
        return;
    }
    if (!plain || !takePlayed(*event)) {
        QWidget::keyPressEvent(event);
    }
}

void ActionPage::keyReleaseEvent(QKeyEvent* event) {
    if (!takePlayed(*event)) {
        QWidget::keyReleaseEvent(event);
    }
}

QSize ActionPage::minimumSizeHint() const {
    return {560, 340};
}

void ActionPage::fitWords() {
    sentence_->fit(std::clamp(height() / 30, 15, 36));
}

void ActionPage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitWords();
    tools_->arrange(width());
}

void ActionPage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    setSpeed();
    showAll();
}

void ActionPage::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    player_.setKeySpeed(0.0);
}

} // namespace quillbench
