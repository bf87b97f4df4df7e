#pragma once

#include <QStyledItemDelegate>

namespace quillbench {

/// An entry of two parts, "name\nyear": the name whole, on as many lines as it needs, the year quiet below it.
class CatalogueDelegate : public QStyledItemDelegate {
    Q_OBJECT

public:
    using QStyledItemDelegate::QStyledItemDelegate;

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;
    void paint(QPainter* painter,
               const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
};

} // namespace quillbench
