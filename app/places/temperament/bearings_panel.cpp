#include "app/places/temperament/bearings_panel.hpp"

#include "app/places/temperament/temperament_model.hpp"
#include "app/places/temperament/temperament_text.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"

#include <QComboBox>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

namespace quillbench {

BearingsPanel::BearingsPanel(const TemperamentModel& model, QWidget* parent)
    : QWidget(parent),
      model_(model),
      plan_(new QComboBox(this)),
      list_(new QListWidget(this)) {
    plan_->setObjectName(QStringLiteral("bearingPlan"));
    plan_->setAccessibleName(tr("Bearing plan"));
    list_->setObjectName(QStringLiteral("bearingSteps"));
    list_->setAccessibleName(tr("Steps of the bearing plan"));
    list_->setWordWrap(true);
    auto* hear = new QPushButton(tr("Hear this step (Return)"), this);
    hear->setObjectName(QStringLiteral("hearStep"));
    hear->setToolTip(tr("Its two strings on the virtual instrument, as they sound when the step is "
                        "done"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(8, 8, 8, 8);
    column->addWidget(plan_);
    column->addWidget(list_, 1);
    column->addWidget(hear);
    connect(plan_, &QComboBox::activated, this, &BearingsPanel::showSteps);
    connect(list_, &QListWidget::itemActivated, this, &BearingsPanel::askForStep);
    connect(hear, &QPushButton::clicked, this, &BearingsPanel::askForStep);
}

void BearingsPanel::showModel() {
    const QString before = plan_->currentData().toString();
    plan_->clear();
    plan_->addItem(tr("computed: the least counting"), QStringLiteral("computed"));
    for (const PublishedPlan& one : publishedPlansFor(model_.temperament())) {
        plan_->addItem(coreText(one.name), toQString(one.id));
        plan_->setItemData(plan_->count() - 1, coreText(one.source), Qt::ToolTipRole);
    }
    plan_->setCurrentIndex(std::max(0, plan_->findData(before)));
    showSteps();
}

void BearingsPanel::showSteps() {
    const QString id = plan_->currentData().toString();
    const TunedScale scale = model_.scale();
    const Result<BearingPlan> published = publishedPlan(scale, id.toStdString());
    steps_ =
        id != QLatin1String("computed") && published ? published->steps : computedPlan(scale).steps;
    const int before = list_->currentRow();
    list_->clear();
    int number = 0;
    for (const BearingStep& one : steps_) {
        list_->addItem(tr("%1. %2").arg(++number).arg(bearingText(one)));
    }
    list_->setCurrentRow(std::clamp(before, 0, list_->count() - 1));
}

void BearingsPanel::askForStep() {
    const int row = list_->currentRow();
    if (row >= 0) {
        Q_EMIT stepWanted(steps_[static_cast<std::size_t>(row)]);
    }
}

} // namespace quillbench
