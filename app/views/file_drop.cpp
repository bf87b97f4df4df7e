#include "app/views/file_drop.hpp"

#include "app/paint/theme.hpp"

#include <QApplication>
#include <QDropEvent>
#include <QFileInfo>
#include <QLabel>
#include <QMimeData>
#include <QPainter>
#include <QUrl>

namespace quillbench {

namespace {

constexpr int kCoverMargin = 24;
constexpr int kCoverOpacity = 225; // of 255: what lies under it is still known
constexpr int kMostNamed = 4;

/// What lies over the window while files hover: a dashed frame and what would be opened.
class DropCover : public QLabel {
public:
    explicit DropCover(QWidget& window) : QLabel(&window) {
        setObjectName(QStringLiteral("dropCover"));
        setTextFormat(Qt::PlainText);
        setAlignment(Qt::AlignCenter);
        setWordWrap(true);
        setMargin(2 * kCoverMargin);
        setAttribute(Qt::WA_TransparentForMouseEvents);
        hide();
    }

protected:
    void paintEvent(QPaintEvent* event) override {
        const Theme theme = themeOf(palette());
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        QColor paper = theme.paper;
        paper.setAlpha(kCoverOpacity);
        painter.fillRect(rect(), paper);
        painter.setPen(QPen(theme.target, 3.0, Qt::DashLine));
        painter.drawRoundedRect(
            rect().adjusted(kCoverMargin, kCoverMargin, -kCoverMargin, -kCoverMargin), 12, 12);
        painter.end();
        QLabel::paintEvent(event);
    }
};

QStringList localFiles(const QMimeData* data) {
    QStringList files;
    if (data != nullptr) {
        for (const QUrl& url : data->urls()) {
            if (url.isLocalFile()) {
                files << url.toLocalFile();
            }
        }
    }
    return files;
}

QString coverText(const QStringList& files) {
    QStringList names;
    for (const QString& file : files.mid(0, kMostNamed)) {
        names << QFileInfo(file).fileName();
    }
    if (files.size() > kMostNamed) {
        names << QStringLiteral("…");
    }
    return FileDrop::tr("Let go to open:") + QLatin1Char('\n') + names.join(QLatin1Char('\n'));
}

} // namespace

FileDrop::FileDrop(QWidget& window) : window_(window), cover_(new DropCover(window)) {
    window_.setAcceptDrops(true);
    qApp->installEventFilter(this);
}

void FileDrop::cover(const QStringList& files) {
    auto* label = static_cast<DropCover*>(cover_);
    QFont font = window_.font();
    font.setPixelSize(std::max(18, window_.height() / 28));
    label->setFont(font);
    label->setText(coverText(files));
    label->setGeometry(window_.rect());
    label->raise();
    label->show();
}

bool FileDrop::eventFilter(QObject* watched, QEvent* event) {
    const QEvent::Type type = event->type();
    const bool drag = type == QEvent::DragEnter || type == QEvent::DragMove || type == QEvent::Drop;
    if (!drag && type != QEvent::DragLeave) {
        return false;
    }
    auto* widget = qobject_cast<QWidget*>(watched);
    if (widget == nullptr || widget->window() != &window_) {
        return false;
    }
    if (type == QEvent::DragLeave) {
        cover_->hide();
        return false;
    }
    auto* drop = static_cast<QDropEvent*>(event); // the drags derive from it
    const QStringList files = localFiles(drop->mimeData());
    if (files.isEmpty()) {
        return false;
    }
    // Never moved away from where they lie.
    drop->setDropAction(Qt::CopyAction);
    drop->accept();
    if (type == QEvent::DragEnter) {
        cover(files);
    } else if (type == QEvent::Drop) {
        cover_->hide();
        Q_EMIT dropped(files);
    }
    return true;
}

} // namespace quillbench
