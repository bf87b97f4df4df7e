#include "app/views/figures_view.hpp"

#include "app/paint/theme.hpp"

#include <QEvent>
#include <QGridLayout>
#include <QLabel>

namespace quillbench {

namespace {

QLabel* label(QWidget* parent, const char* name, Qt::Alignment alignment) {
    auto* result = new QLabel(parent);
    result->setObjectName(QString::fromLatin1(name));
    result->setAlignment(alignment);
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
      note_(label(this, "note", Qt::AlignLeft | Qt::AlignBottom)),
      choir_(label(this, "choir", Qt::AlignLeft | Qt::AlignTop)),
      deviation_(label(this, "deviation", Qt::AlignRight | Qt::AlignBottom)),
      words_(label(this, "uncertainty", Qt::AlignRight | Qt::AlignTop)),
      remark_(label(this, "remark", Qt::AlignHCenter | Qt::AlignVCenter)) {
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(16, 0, 16, 0);
    grid->setVerticalSpacing(0);
    grid->addWidget(note_, 0, 0);
    grid->addWidget(choir_, 1, 0);
    grid->addWidget(remark_, 0, 1, 2, 1);
    grid->addWidget(deviation_, 0, 2);
    grid->addWidget(words_, 1, 2);
    grid->setColumnStretch(1, 1);
    remark_->setWordWrap(true);
    setFigureSize(96);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void FiguresView::setFigureSize(int pixels) {
    if (pixels == size_) {
        return;
    }
    size_ = pixels;
    setSize(note_, pixels, true);
    setSize(deviation_, pixels, true);
    const int small = std::max(14, pixels / 4);
    setSize(choir_, small, false);
    setSize(words_, small, false);
    setSize(remark_, std::max(14, pixels / 5), false);
    deviation_->setMinimumHeight(pixels * 11 / 10);
}

void FiguresView::colour() {
    const Theme theme = themeOf(palette());
    setColour(deviation_, picture_.danger ? theme.danger : theme.ink);
    setColour(note_, theme.ink);
    setColour(choir_, theme.quiet);
}

/// What is shown may stay the same for long after the light was changed.
void FiguresView::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
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
}

} // namespace quillbench
