#include "app/places/temperament/catalogue_panel.hpp"

#include "app/places/temperament/catalogue_delegate.hpp"
#include "app/places/temperament/temperament_model.hpp"
#include "app/places/temperament/temperament_text.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "core/temperament/catalogue.hpp"

#include <QLabel>
#include <QListWidget>
#include <QSignalBlocker>
#include <QVBoxLayout>

namespace quillbench {

CataloguePanel::CataloguePanel(const TemperamentModel& model, QWidget* parent)
    : QWidget(parent),
      model_(model),
      list_(new QListWidget(this)),
      about_(new QLabel(this)) {
    list_->setObjectName(QStringLiteral("catalogue"));
    list_->setAccessibleName(tr("Catalogue of temperaments"));
    list_->setMinimumSize(220, 180);
    list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list_->setSpacing(2);
    list_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn); // names wrap at a width that stays
    list_->setItemDelegate(new CatalogueDelegate(list_));
    list_->setResizeMode(QListView::Adjust);
    for (const Temperament& one : catalogue()) {
        const TemperamentDescription& about = one.description();
        auto* item = new QListWidgetItem(
            tr("%1\n%2").arg(coreText(about.name), coreText(about.year)), list_);
        item->setToolTip(temperamentTitle(about));
        item->setData(Qt::UserRole, toQString(one.id()));
    }
    about_->setObjectName(QStringLiteral("aboutTemperament"));
    about_->setTextFormat(Qt::PlainText);
    about_->setWordWrap(true);
    about_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    about_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    column->addWidget(list_, 1);
    column->addWidget(about_);
    setFocusProxy(list_);
    // Not the current item: a list that is given the keyboard makes its first one current.
    connect(list_, &QListWidget::itemSelectionChanged, this, [this] {
        const QList<QListWidgetItem*> marked = list_->selectedItems();
        if (!marked.isEmpty()) {
            Q_EMIT chosen(marked.front()->data(Qt::UserRole).toString());
        }
    });
}

void CataloguePanel::showModel() {
    const TemperamentDescription& about = model_.temperament().description();
    const QSignalBlocker quiet(list_);
    QListWidgetItem* found = nullptr;
    for (int i = 0; i < list_->count() && !model_.unsaved() && model_.file().isEmpty(); ++i) {
        if (list_->item(i)->data(Qt::UserRole).toString() == toQString(about.id)) {
            found = list_->item(i);
        }
    }
    list_->setCurrentItem(found);
    if (found == nullptr) {
        list_->clearSelection();
    }
    about_->setText(aboutText(about).join(QLatin1Char('\n')));
}

} // namespace quillbench
