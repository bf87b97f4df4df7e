#include "app/places/instrument/cell_delegate.hpp"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QLineEdit>
#include <QTableWidget>
#include <QTimer>

namespace quillbench {

namespace {

constexpr int kLongestWords = 60;

} // namespace

CellDelegate::CellDelegate(QObject* parent) : QStyledItemDelegate(parent) {
}

void CellDelegate::setColumn(int column, CellEntry entry) {
    entries_[column] = std::move(entry);
}

QWidget* CellDelegate::createEditor(QWidget* parent,
                                    const QStyleOptionViewItem& /*option*/,
                                    const QModelIndex& index) const {
    const auto entry = entries_.find(index.column());
    if (entry == entries_.end()) {
        return nullptr;
    }
    switch (entry->second.form) {
    case CellEntry::Form::Words: {
        auto* line = new QLineEdit(parent);
        line->setMaxLength(kLongestWords);
        return line;
    }
    case CellEntry::Form::Number: {
        auto* number = new QDoubleSpinBox(parent);
        number->setDecimals(entry->second.decimals);
        number->setRange(entry->second.limits.low, entry->second.limits.high);
        number->setButtonSymbols(QAbstractSpinBox::NoButtons);
        return number;
    }
    case CellEntry::Form::Choice: {
        auto* box = new QComboBox(parent);
        box->addItems(entry->second.choices);
        // Taking one is enough: nobody should have to confirm it once more.
        auto* self =
            const_cast<CellDelegate*>(this); // NOLINT(cppcoreguidelines-pro-type-const-cast)
        connect(box, &QComboBox::activated, self, [self, box] {
            Q_EMIT self->commitData(box);
            Q_EMIT self->closeEditor(box);
        });
        QTimer::singleShot(0, box, &QComboBox::showPopup);
        return box;
    }
    }
    return nullptr;
}

void CellDelegate::setEditorData(QWidget* editor, const QModelIndex& index) const {
    const QVariant value = index.data(Qt::UserRole);
    if (auto* line = qobject_cast<QLineEdit*>(editor)) {
        line->setText(value.toString());
        line->selectAll();
    } else if (auto* number = qobject_cast<QDoubleSpinBox*>(editor)) {
        number->setValue(value.toDouble());
        number->selectAll();
    } else if (auto* box = qobject_cast<QComboBox*>(editor)) {
        box->setCurrentIndex(value.toInt());
    }
}

void CellDelegate::setModelData(QWidget* editor,
                                QAbstractItemModel* /*model*/,
                                const QModelIndex& index) const {
    const QVariant before = index.data(Qt::UserRole);
    if (const auto* line = qobject_cast<QLineEdit*>(editor)) {
        if (line->text() != before.toString()) {
            Q_EMIT entered(index.row(), index.column(), line->text());
        }
    } else if (auto* number = qobject_cast<QDoubleSpinBox*>(editor)) {
        const double shown = number->value();
        number->setValue(before.toDouble());
        const bool same = qFuzzyCompare(1.0 + number->value(), 1.0 + shown);
        if (!same) {
            Q_EMIT entered(index.row(), index.column(), shown);
        }
    } else if (const auto* box = qobject_cast<QComboBox*>(editor)) {
        if (box->currentIndex() != before.toInt()) {
            Q_EMIT entered(index.row(), index.column(), box->currentIndex());
        }
    }
}

void letEnter(QTableWidget& table, CellDelegate& delegate) {
    table.setItemDelegate(&delegate);
    table.setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::AnyKeyPressed);
    QObject::connect(&table, &QTableWidget::activated, &table, [&table](const QModelIndex& index) {
        if ((index.flags() & Qt::ItemIsEditable) != 0) {
            table.edit(index);
        }
    });
}

} // namespace quillbench
