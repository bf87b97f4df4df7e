#include "app/places/temperament/catalogue_delegate.hpp"

#include "app/paint/theme.hpp"

#include <QApplication>
#include <QListView>
#include <QPainter>
#include <algorithm>

namespace quillbench {

namespace {

constexpr int kCatalogueEdge = 4; // pixels around an entry

struct Entry {
    QString name;
    QString year;
};

Entry entryOf(const QModelIndex& index) {
    const QString text = index.data(Qt::DisplayRole).toString();
    return {text.section(QLatin1Char('\n'), 0, 0), text.section(QLatin1Char('\n'), 1)};
}

int heightOf(const QFontMetrics& type, const QString& words, int width) {
    constexpr int kHigh = 1000;
    return type.boundingRect(QRect(0, 0, width, kHigh), Qt::TextWordWrap, words).height();
}

} // namespace

QSize CatalogueDelegate::sizeHint(const QStyleOptionViewItem& option,
                                  const QModelIndex& index) const {
    // As wide as it is painted: the list spreads its entries from spacing to spacing.
    const auto* list = qobject_cast<const QListView*>(option.widget);
    const int spacing = 2 * kCatalogueEdge;
    const int row = list != nullptr ? list->viewport()->width() - 2 * list->spacing() : 0;
    const int width = std::max(1, row - spacing);
    const Entry entry = entryOf(index);
    const QFontMetrics type(option.font);
    return {width, heightOf(type, entry.name, width) + heightOf(type, entry.year, width) + spacing};
}

void CatalogueDelegate::paint(QPainter* painter,
                              const QStyleOptionViewItem& option,
                              const QModelIndex& index) const {
    QStyleOptionViewItem empty = option;
    initStyleOption(&empty, index);
    empty.text.clear();
    const QStyle* style = option.widget != nullptr ? option.widget->style() : QApplication::style();
    style->drawControl(QStyle::CE_ItemViewItem, &empty, painter, option.widget);
    const Entry entry = entryOf(index);
    const QRect area = option.rect.adjusted(kCatalogueEdge, kCatalogueEdge, -kCatalogueEdge, 0);
    const bool chosen = option.state.testFlag(QStyle::State_Selected);
    const QColor ink = option.palette.color(chosen ? QPalette::HighlightedText : QPalette::Text);
    painter->save();
    painter->setFont(option.font);
    painter->setPen(ink);
    painter->drawText(area, Qt::TextWordWrap, entry.name);
    painter->setPen(chosen ? ink : themeOf(option.palette).quiet);
    const int name = heightOf(QFontMetrics(option.font), entry.name, area.width());
    painter->drawText(area.adjusted(0, name, 0, 0), Qt::TextWordWrap, entry.year);
    painter->restore();
}

} // namespace quillbench
