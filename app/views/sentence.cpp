#include "app/views/sentence.hpp"

#include "app/views/screen_reader.hpp"

#include <QFontMetrics>
#include <algorithm>

namespace quillbench {

namespace {

constexpr int kSmallestSentence = 11; // pixels

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
    const QRect lines(0, 0, std::max(1, width()), 10 * room);
    const auto tooTall = [&] {
        return QFontMetrics(type).boundingRect(lines, Qt::TextWordWrap, text()).height() > room;
    };
    while (pixels > kSmallestSentence && tooTall()) {
        type.setPixelSize(--pixels);
    }
    setFont(type);
    setFixedHeight(room);
}

void Sentence::resizeEvent(QResizeEvent* event) {
    QLabel::resizeEvent(event);
    fit(pixels_);
}

} // namespace quillbench
