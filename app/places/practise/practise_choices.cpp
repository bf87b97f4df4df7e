#include "app/places/practise/practise_choices.hpp"

#include "app/places/practise/practise_model.hpp"
#include "app/places/practise/practise_rows.hpp"
#include "app/places/practise/practise_text.hpp"

#include <QComboBox>
#include <QHBoxLayout>
#include <QKeySequence>
#include <QLabel>
#include <QShortcut>
#include <QSignalBlocker>
#include <QToolButton>
#include <algorithm>

namespace quillbench {

namespace {

constexpr int kAnyRegister = -1;

} // namespace

PractiseChoices::PractiseChoices(const PractiseModel& model, QWidget* parent)
    : QWidget(parent),
      model_(model) {
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(16, 6, 16, 2);
    row->setSpacing(8);
    buildKinds(row);
    row->addStretch(1);
    buildSwitches(row);
    interval_ = addBox(this, row, tr("&Interval"), "practiseInterval", captions_);
    for (std::size_t i = 0; i < kPracticeIntervals; ++i) {
        const auto interval = static_cast<PracticeInterval>(i);
        if (!registersFor(model_.instrument(), interval).empty()) {
            interval_->addItem(intervalName(interval), static_cast<int>(i));
        }
    }
    register_ = addBox(this, row, tr("&Register"), "practiseRegister", captions_);
    connect(interval_, &QComboBox::activated, this, [this] {
        fillRegisters();
        wish();
    });
    connect(register_, &QComboBox::activated, this, &PractiseChoices::wish);
    keepMnemonics();
    fillRegisters();
    refresh();
}

/// What is not seen has no mnemonic: where there is little room these take its place.
void PractiseChoices::keepMnemonics() {
    const auto keep = [this](const QString& text) {
        auto* key = new QShortcut(QKeySequence::mnemonic(text), this);
        key->setEnabled(false);
        hiddenKeys_.push_back(key);
        return key;
    };
    for (QToolButton* button : kinds_) {
        connect(keep(button->text()), &QShortcut::activated, button, [button] { button->click(); });
    }
    for (QLabel* caption : captions_) {
        QWidget* box = caption->buddy();
        connect(keep(caption->text()), &QShortcut::activated, box, [box] {
            box->setFocus(Qt::ShortcutFocusReason);
        });
    }
}

void PractiseChoices::buildKinds(QHBoxLayout* row) {
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
        connect(button, &QToolButton::clicked, this, &PractiseChoices::wish);
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
}

void PractiseChoices::buildSwitches(QHBoxLayout* row) {
    own_ = addSwitch(row, "ownInstrument", tr("On my instrument (F8)"));
    own_->setToolTip(tr("You play and judge; the program listens, then uncovers what it measured"));
    plan_ = addSwitch(row, "wholePlan", tr("Whole plan (F9)"));
    plan_->setToolTip(tr("Lay the bearings of the session's temperament, all steps by ear"));
    connect(own_, &QToolButton::clicked, this, &PractiseChoices::ownWanted);
    connect(plan_, &QToolButton::clicked, this, &PractiseChoices::planWanted);
}

QToolButton* PractiseChoices::addSwitch(QHBoxLayout* row, const char* name, const QString& text) {
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

void PractiseChoices::fillRegisters() {
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

void PractiseChoices::wish() {
    ExerciseWish wanted;
    for (std::size_t i = 0; i < kinds_.size(); ++i) {
        if (kinds_[i]->isChecked()) {
            wanted.kind = static_cast<ExerciseKind>(i);
        }
    }
    wanted.interval = static_cast<PracticeInterval>(interval_->currentData().toInt());
    if (wanted.kind == ExerciseKind::LeaveALittle && model_.wished().kind != wanted.kind &&
        !isTempered(wanted.interval)) {
        // Who comes from a unison would find nothing to leave.
        wanted.interval = PracticeInterval::Fifth;
        interval_->setCurrentIndex(interval_->findData(static_cast<int>(wanted.interval)));
        fillRegisters();
    }
    const int where = register_->currentData().toInt();
    if (where != kAnyRegister) {
        wanted.earRegister = static_cast<EarRegister>(where);
    }
    Q_EMIT wished(wanted);
}

void PractiseChoices::refresh() {
    const ExerciseKind kind = model_.wished().kind;
    const bool own = model_.own().has_value();
    const bool plan = model_.bearings().has_value();
    kinds_[static_cast<std::size_t>(kind)]->setChecked(true);
    kind_->setCurrentIndex(static_cast<int>(kind));
    kinds_[static_cast<std::size_t>(ExerciseKind::Compare)]->setEnabled(!own);
    own_->setChecked(own);
    plan_->setVisible(kind == ExerciseKind::LeaveALittle && !own);
    plan_->setChecked(plan);
    interval_->setEnabled(!plan);
    register_->setEnabled(!plan);
}

void PractiseChoices::fit(int room) {
    fit_.fit(*this, plan_->isHidden() ? QString() : plan_->objectName(), room, [this](bool narrow) {
        arrange(narrow);
    });
}

void PractiseChoices::arrange(bool narrow) {
    for (QToolButton* button : kinds_) {
        button->setVisible(!narrow);
    }
    kind_->setVisible(narrow);
    for (QLabel* caption : captions_) {
        caption->setVisible(!narrow);
    }
    for (QShortcut* key : hiddenKeys_) {
        key->setEnabled(narrow);
    }
    own_->setText(narrow ? tr("Own (F8)") : tr("My instrument (F8)"));
    plan_->setText(narrow ? tr("Plan (F9)") : tr("Whole plan (F9)"));
}

} // namespace quillbench
