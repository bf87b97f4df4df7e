#include "app/places/practise/practise_actions.hpp"

#include "app/places/practise/practise_model.hpp"
#include "app/places/practise/practise_rows.hpp"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSlider>

namespace quillbench {

PractiseActions::PractiseActions(PractiseModel& model, QWidget* parent)
    : QWidget(parent),
      model_(model) {
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(16, 0, 16, 0);
    row->setSpacing(8);
    buildHints(row);
    buildTaps(row);
    buildAnswers(row);
    row->addStretch(1);
    buildLoudness(row);
    onward_ = addButton(this, row, "onward", tr("Play (Return)"));
    connect(onward_, &QPushButton::clicked, this, &PractiseActions::onwardWanted);
    refresh();
}

void PractiseActions::buildHints(QHBoxLayout* row) {
    again_ = addButton(this, row, "playAgain", tr("Play again (F5)"));
    alone_ = addButton(this, row, "partialAlone", tr("Partial alone (F6)"));
    slowly_ = addButton(this, row, "breathSlowly", tr("Breath slowly (F7)"));
    again_->setAccessibleName(tr("Play again"));
    alone_->setAccessibleName(tr("Partial alone"));
    slowly_->setAccessibleName(tr("Breath slowly"));
    alone_->setCheckable(true);
    slowly_->setCheckable(true);
    connect(again_, &QPushButton::clicked, &model_, &PractiseModel::play);
    connect(alone_, &QPushButton::clicked, &model_, &PractiseModel::hearPartialAlone);
    connect(slowly_, &QPushButton::clicked, &model_, &PractiseModel::showSlowly);
}

void PractiseActions::buildTaps(QHBoxLayout* row) {
    group_ = addBox(this, row, tr("A &tap is"), "beatsPerTap", tapCaptions_);
    group_->setAccessibleName(tr("Beats for each tap"));
    for (int beats = 1; beats <= 4; ++beats) {
        group_->addItem(beats == 1 ? tr("1 beat") : tr("%1 beats").arg(beats), beats);
    }
    group_->setToolTip(
        tr("Faster than four a second: tap every second or fourth beat. Keys 1 to 4"));
    connect(group_, &QComboBox::activated, this, [this](int index) {
        model_.setBeatsPerTap(index + 1);
        Q_EMIT chosen();
    });
}

void PractiseActions::buildAnswers(QHBoxLayout* row) {
    wide_ = addButton(this, row, "answerWide", tr("Wide (W)"));
    narrowAnswer_ = addButton(this, row, "answerNarrow", tr("Narrow (N)"));
    first_ = addButton(this, row, "answerFirst", tr("First (1)"));
    second_ = addButton(this, row, "answerSecond", tr("Second (2)"));
    handOff_ = addButton(this, row, "letGo", tr("Hand off the hammer (L)"));
    connect(wide_, &QPushButton::clicked, this, [this] { model_.answer(BeatDirection::Wide); });
    connect(narrowAnswer_, &QPushButton::clicked, this, [this] {
        model_.answer(BeatDirection::Narrow);
    });
    connect(first_, &QPushButton::clicked, this, [this] { model_.answerFaster(false); });
    connect(second_, &QPushButton::clicked, this, [this] { model_.answerFaster(true); });
    connect(handOff_, &QPushButton::clicked, &model_, &PractiseModel::letGo);
}

void PractiseActions::buildLoudness(QHBoxLayout* row) {
    loudCaption_ = new QLabel(tr("Loudn&ess"), this);
    loudness_ = new QSlider(Qt::Horizontal, this);
    loudness_->setObjectName(QStringLiteral("practiseLoudness"));
    loudness_->setAccessibleName(tr("Loudness"));
    loudness_->setRange(static_cast<int>(kQuietestDb), static_cast<int>(kLoudestDb));
    loudness_->setPageStep(6);
    loudness_->setValue(static_cast<int>(model_.level()));
    loudness_->setFixedWidth(110);
    loudness_->setToolTip(tr("Every sitting starts quiet; the loudest is limited"));
    loudCaption_->setBuddy(loudness_);
    row->addWidget(loudCaption_);
    row->addWidget(loudness_);
    connect(loudness_, &QSlider::valueChanged, this, [this](int decibels) {
        model_.setLevel(decibels);
    });
}

/// What is not hidden, by name.
QString PractiseActions::whatStands() const {
    QString what = onward_->text().section(QLatin1Char(' '), 0, 0);
    for (const QWidget* widget : findChildren<QWidget*>()) {
        what += widget->isHidden() ? QString() : widget->objectName();
    }
    return what;
}

void PractiseActions::fit(int room) {
    fit_.fit(*this, whatStands(), room, [this](bool narrow) { arrange(narrow); });
}

void PractiseActions::arrange(bool narrow) {
    narrow_ = narrow;
    again_->setText(narrow ? tr("Again (F5)") : tr("Play again (F5)"));
    alone_->setText(narrow ? tr("Alone (F6)") : tr("Partial alone (F6)"));
    slowly_->setText(narrow ? tr("Slow (F7)") : tr("Breath slowly (F7)"));
    handOff_->setText(narrow ? tr("Hand off (L)") : tr("Hand off the hammer (L)"));
    loudCaption_->setVisible(!narrow);
    loudness_->setFixedWidth(narrow ? 60 : 110);
    refresh();
}

void PractiseActions::refresh() {
    const ExerciseKind kind = model_.wished().kind;
    const PractisePhase phase = model_.phase();
    const bool works = phase == PractisePhase::Listening;
    const bool asked = model_.exercise().has_value();
    const bool own = model_.own().has_value();
    const bool count = kind == ExerciseKind::Count;
    const bool compare = kind == ExerciseKind::Compare;
    const bool direction = kind == ExerciseKind::WhichWay;
    again_->setVisible(!own);
    again_->setEnabled(asked && phase != PractisePhase::Measuring);
    alone_->setVisible(!own);
    alone_->setEnabled(asked);
    alone_->setChecked(model_.partialAlone());
    slowly_->setVisible(!own);
    slowly_->setEnabled(asked && model_.measured().has_value());
    slowly_->setChecked(model_.shownSlowly());
    group_->setVisible(count);
    group_->setCurrentIndex(model_.beatsPerTap() - 1);
    for (QLabel* caption : tapCaptions_) {
        caption->setVisible(count && !narrow_);
    }
    first_->setVisible(compare);
    second_->setVisible(compare);
    first_->setEnabled(model_.bothHeard() && works);
    second_->setEnabled(first_->isEnabled());
    wide_->setVisible(direction);
    narrowAnswer_->setVisible(direction);
    wide_->setEnabled(works);
    narrowAnswer_->setEnabled(works);
    handOff_->setVisible(!count && !compare && !direction && !own && !model_.atCheck());
    handOff_->setEnabled(works);
    loudness_->setEnabled(!own);
    onward_->setEnabled(asked || model_.bearings());
    showOnward();
}

void PractiseActions::showOnward() {
    if (model_.bearings() && model_.phase() == PractisePhase::Listening) {
        onward_->setText(narrow_ ? tr("Next step") : tr("Next step (Return)"));
        return;
    }
    const PractisePhase phase = model_.phase();
    const bool own = model_.own().has_value();
    const QString word = phase == PractisePhase::Asked       ? own ? tr("Begin") : tr("Play")
                               : phase == PractisePhase::Uncovered ? tr("Next")
                                                             : tr("Show");
    onward_->setText(narrow_ ? word : tr("%1 (Return)").arg(word));
}

} // namespace quillbench
