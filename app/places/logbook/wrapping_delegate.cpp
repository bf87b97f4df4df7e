#include "app/places/logbook/wrapping_delegate.hpp"

#include <QFontMetrics>
#include <QTextLayout>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr int kAroundWords = 8; // pixels, left and right of them together
constexpr int kAroundLines = 8; // above and below, where there are several

/// Whole pixels that words take: on a scaled screen letters stand between them.
int widthOf(const QString& words, const QFont& type) {
    return static_cast<int>(std::ceil(QFontMetricsF(type).horizontalAdvance(words)));
}

bool holds(const std::vector<int>& columns, int column) {
    return std::find(columns.begin(), columns.end(), column) != columns.end();
}

} // namespace

bool followsNumbers(const std::vector<int>& numbers, int column) {
    return holds(numbers, column - 1) && !holds(numbers, column);
}

WrappingDelegate::WrappingDelegate(const std::vector<int>& numbers, QTreeView* table)
    : QStyledItemDelegate(table),
      numbers_(numbers),
      table_(*table) {
}

QString WrappingDelegate::wordsOf(const QModelIndex& index) const {
    QString words = index.data(Qt::DisplayRole).toString();
    if (followsNumbers(numbers_, index.column())) {
        words.prepend(kGapAfterNumbers);
    }
    return words.replace(QLatin1Char('\n'), QChar::LineSeparator);
}

QStringList WrappingDelegate::linesOf(const QString& words, const QFont& type, int column) const {
    const int width = table_.columnWidth(column) - kAroundWords;
    if (widthOf(words, type) <= width) {
        return {words};
    }
    const QFontMetrics metrics(type);
    const auto most = std::max<qsizetype>(
        1, (table_.viewport()->height() - kAroundLines) / metrics.lineSpacing());
    QTextOption wrapped;
    wrapped.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    QTextLayout layout(words, type);
    layout.setTextOption(wrapped);
    QStringList lines;
    layout.beginLayout();
    for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(width);
        if (lines.size() + 1 == most) {
            lines << metrics.elidedText(words.mid(line.textStart()), Qt::ElideRight, width);
            break;
        }
        lines << words.mid(line.textStart(), line.textLength());
    }
    layout.endLayout();
    return lines;
}

QSize WrappingDelegate::sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const {
    const QFontMetrics metrics(option.font);
    const auto lines =
        static_cast<int>(linesOf(wordsOf(index), option.font, index.column()).size());
    return {table_.columnWidth(index.column()),
            lines > 1 ? lines * metrics.lineSpacing() + kAroundLines : metrics.height()};
}

int WrappingDelegate::widthOnOneLine(const QModelIndex& index) const {
    return widthOf(wordsOf(index), table_.font()) + kAroundWords;
}

int WrappingDelegate::widthOfLongestWord(const QModelIndex& index) const {
    int longest = 0;
    for (const QString& word : wordsOf(index).split(QLatin1Char(' '))) {
        longest = std::max(longest, widthOf(word, table_.font()));
    }
    return longest + kAroundWords;
}

void WrappingDelegate::initStyleOption(QStyleOptionViewItem* option,
                                       const QModelIndex& index) const {
    QStyledItemDelegate::initStyleOption(option, index);
    option->text = linesOf(wordsOf(index), option->font, index.column()).join(QChar::LineSeparator);
}

} // namespace quillbench
