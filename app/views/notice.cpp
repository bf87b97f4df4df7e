#include "app/views/notice.hpp"

#include "app/paint/theme.hpp"

#include <QAccessible>
#include <QEvent>
#include <QPainter>
#include <algorithm>

namespace quillbench {

namespace {

constexpr int kNoticeForMs = 12000;
constexpr int kNoticeMargin = 14;
constexpr double kWidestNotice = 0.8; // of the window

} // namespace

Notice::Notice(QWidget& window) : QLabel(&window) {
    setObjectName(QStringLiteral("notice"));
    setTextFormat(Qt::PlainText);
    setWordWrap(true);
    setAlignment(Qt::AlignCenter);
    setMargin(kNoticeMargin);
    setToolTip(tr("Click to put it away"));
    gone_.setSingleShot(true);
    connect(&gone_, &QTimer::timeout, this, &QWidget::hide);
    window.installEventFilter(this);
    hide();
}

void Notice::say(const QString& text) {
    setText(text);
    setAccessibleName(text);
    lay();
    raise();
    show();
    gone_.start(kNoticeForMs);
    QAccessibleEvent alert(this, QAccessible::Alert);
    QAccessible::updateAccessibility(&alert);
}

void Notice::lay() {
    const QWidget& window = *parentWidget();
    QFont larger = window.font();
    larger.setPixelSize(std::max(15, window.height() / 44));
    setFont(larger);
    const int most = static_cast<int>(window.width() * kWidestNotice);
    const int asked = fontMetrics().size(Qt::TextSingleLine, text()).width() + 4 * kNoticeMargin;
    const int width = std::min(most, std::max(asked, 120));
    const int height = std::min(heightForWidth(width), window.height());
    setGeometry(
        (window.width() - width) / 2, window.height() - height - 2 * kNoticeMargin, width, height);
}

bool Notice::eventFilter(QObject* watched, QEvent* event) {
    if (watched == parentWidget() && event->type() == QEvent::Resize && isVisible()) {
        lay();
    }
    return QLabel::eventFilter(watched, event);
}

void Notice::mousePressEvent(QMouseEvent* /*event*/) {
    hide();
}

void Notice::paintEvent(QPaintEvent* event) {
    const Theme theme = themeOf(palette());
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(theme.ink, 1.5));
    painter.setBrush(theme.sheet);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 6, 6);
    painter.end();
    QLabel::paintEvent(event);
}

} // namespace quillbench
