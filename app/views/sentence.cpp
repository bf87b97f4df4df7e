#include "app/views/sentence.hpp"

#include "app/views/screen_reader.hpp"

#include <QFontMetrics>
#include <algorithm>

namespace quillbench {

namespace {

constexpr int kSmallestSentence = 11; // pixels

int heightOf(const QString& text, const QFont& type, int width) {
    const QRect lines(0, 0, std::max(1, width), 1000 * type.pixelSize());
    return QFontMetrics(type).boundingRect(lines, Qt::TextWordWrap, text).height();
}

} // namespace

Sentence::Sentence(QWidget* parent, const char* name) : QLabel(parent) {
    presentAsAnnouncement(this); // before anything asks what it is
    setObjectName(QString::fromLatin1(name));
    setTextFormat(Qt::PlainText);
    setWordWrap(true);
    setAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    setAccessibleDescription(tr("What to do now"));
}

void Sentence::fit(int pixels) {
    pixels_ = pixels;
    QFont type = font();
    type.setPixelSize(pixels);
    const int room = QFontMetrics(type).lineSpacing() * 2;
    while (pixels > kSmallestSentence && heightOf(text(), type, width()) > room) {
        type.setPixelSize(--pixels);
    }
    setFont(type);
    setFixedHeight(room);
    const int aside = width() - narrowedTo(type);
    setContentsMargins(isRightToLeft() ? aside : 0, 0, isRightToLeft() ? 0 : aside, 0);
}

/// The width in which the last line has more than one word: the least that takes no line more.
int Sentence::narrowedTo(const QFont& type) const {
    const int high = heightOf(text(), type, width());
    const auto lastWord = text().lastIndexOf(QLatin1Char(' '));
    if (lastWord < 0 || heightOf(text().left(lastWord), type, width()) == high) {
        return width();
    }
    int tooNarrow = 0;
    int enough = width();
    while (enough - tooNarrow > 1) {
        const int between = (tooNarrow + enough) / 2;
        (heightOf(text(), type, between) > high ? tooNarrow : enough) = between;
    }
    return enough;
}

/// Without what stands aside: a sentence may be made as narrow as its words are.
QSize Sentence::minimumSizeHint() const {
    const QMargins aside = contentsMargins();
    return QLabel::minimumSizeHint() - QSize(aside.left() + aside.right(), 0);
}

void Sentence::resizeEvent(QResizeEvent* event) {
    QLabel::resizeEvent(event);
    fit(pixels_);
}

} // namespace quillbench
