#include "app/views/figures_view.hpp"

#include "app/paint/theme.hpp"

#include <QEvent>
#include <QGridLayout>
#include <QLabel>
#include <algorithm>

namespace quillbench {

namespace {

constexpr int kFiguresEdge = 16; // pixels, as all of these
constexpr int kBetween = 24;
constexpr int kSmallestFigure = 28;
constexpr int kSmallestWord = 14;

int wordSize(int figures) {
    return std::max(kSmallestWord, figures / 4);
}

QLabel* label(QWidget* parent, const char* name) {
    auto* result = new QLabel(parent);
    result->setObjectName(QString::fromLatin1(name));
    result->setTextFormat(Qt::PlainText);
    return result;
}

void setColour(QLabel* label, const QColor& colour) {
    QPalette palette = label->palette();
    if (palette.color(QPalette::WindowText) != colour) {
        palette.setColor(QPalette::WindowText, colour);
        label->setPalette(palette);
    }
}

void setSize(QLabel* label, int pixels, bool bold) {
    QFont font = label->font();
    font.setPixelSize(pixels);
    font.setBold(bold);
    label->setFont(font);
}

} // namespace

FiguresView::FiguresView(QWidget* parent)
    : QWidget(parent),
      note_(label(this, "note")),
      choir_(label(this, "choir")),
      deviation_(label(this, "deviation")),
      words_(label(this, "uncertainty")),
      remark_(label(this, "remark")) {
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(kFiguresEdge, 0, kFiguresEdge, 0);
    grid->setVerticalSpacing(0);
    grid->addWidget(note_, 0, 0);
    grid->addWidget(choir_, 1, 0);
    grid->addWidget(remark_, 0, 1, 2, 1);
    grid->addWidget(deviation_, 0, 2);
    grid->addWidget(words_, 1, 2);
    grid->setColumnStretch(1, 1);
    remark_->setWordWrap(true);
    remark_->setAlignment(Qt::AlignCenter);
    align();
    setFigureSize(96);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void FiguresView::setFigureSize(int pixels) {
    if (pixels == size_) {
        return;
    }
    size_ = pixels;
    deviation_->setMinimumHeight(pixels * 11 / 10);
    words_->setMinimumHeight(wordSize(pixels) * 4 / 3);
    fit();
}

/// What both columns take at a size of the figures, without what stands between.
int FiguresView::widthAt(int pixels) const {
    QFont figures = note_->font();
    figures.setPixelSize(pixels);
    figures.setBold(true);
    QFont words = choir_->font();
    words.setPixelSize(wordSize(pixels));
    const QFontMetrics large(figures);
    const QFontMetrics small(words);
    return std::max(large.horizontalAdvance(note_->text()),
                    small.horizontalAdvance(choir_->text())) +
           std::max(large.horizontalAdvance(deviation_->text()),
                    small.horizontalAdvance(words_->text()));
}

void FiguresView::fit() {
    const int between = remark_->text().isEmpty() ? kBetween : std::max(kBetween, width() / 5);
    const int room = width() - 2 * kFiguresEdge - between;
    int pixels = size_;
    while (pixels > kSmallestFigure && widthAt(pixels) > room) {
        --pixels;
    }
    setSize(note_, pixels, true);
    setSize(deviation_, pixels, true);
    setSize(choir_, wordSize(pixels), false);
    setSize(words_, wordSize(pixels), false);
    setSize(remark_, std::max(kSmallestWord, pixels / 5), false);
}

void FiguresView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fit();
}

void FiguresView::colour() {
    const Theme theme = themeOf(palette());
    setColour(deviation_, picture_.danger ? theme.danger : theme.ink);
    setColour(note_, theme.ink);
    setColour(choir_, theme.quiet);
}

/// By the window's direction: a label by itself goes by that of its text, and figures have none.
void FiguresView::align() {
    const auto first = Qt::AlignAbsolute | (isRightToLeft() ? Qt::AlignRight : Qt::AlignLeft);
    const auto last = Qt::AlignAbsolute | (isRightToLeft() ? Qt::AlignLeft : Qt::AlignRight);
    note_->setAlignment(first | Qt::AlignBottom);
    choir_->setAlignment(first | Qt::AlignTop);
    deviation_->setAlignment(last | Qt::AlignBottom);
    words_->setAlignment(last | Qt::AlignTop);
}

/// What is shown may stay the same for long after the light was changed.
void FiguresView::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::LayoutDirectionChange) {
        align();
    }
    if (event->type() == QEvent::PaletteChange) {
        colour();
    }
}

void FiguresView::show(const FiguresPicture& picture) {
    const bool same = picture == picture_;
    picture_ = picture;
    colour();
    if (same) {
        return;
    }
    note_->setText(picture.note);
    choir_->setText(picture.choir);
    deviation_->setText(picture.deviation);
    words_->setText(picture.words);
    remark_->setText(picture.remark);
    fit();
}

} // namespace quillbench
