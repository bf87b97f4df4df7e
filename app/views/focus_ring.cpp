#include "app/views/focus_ring.hpp"

#include <QAbstractScrollArea>
#include <QApplication>
#include <QEvent>
#include <QMenuBar>
#include <QPainter>

namespace quillbench {

namespace {

constexpr int kRing = 2; // pixels

/// Cut out to a ring by its mask.
class Ring : public QWidget {
public:
    explicit Ring(QWidget* window) : QWidget(window) {
        setObjectName(QStringLiteral("focusRing"));
        setAttribute(Qt::WA_TransparentForMouseEvents);
        setFocusPolicy(Qt::NoFocus);
    }

protected:
    void paintEvent(QPaintEvent* /*event*/) override {
        QPainter(this).fillRect(rect(), palette().color(QPalette::Highlight));
    }
};

QRect inWindow(const QWidget& widget) {
    return {widget.mapTo(widget.window(), QPoint(0, 0)), widget.size()};
}

/// What of the window a widget can be seen in: not beyond the views that scroll it.
QRect seenIn(const QWidget& widget) {
    QRect seen = widget.window()->rect();
    for (const QWidget* one = widget.parentWidget(); one != nullptr && !one->isWindow();
         one = one->parentWidget()) {
        const auto* area = qobject_cast<const QAbstractScrollArea*>(one->parentWidget());
        if (area != nullptr && area->viewport() == one) {
            seen &= inWindow(*one);
        }
    }
    return seen;
}

} // namespace

FocusRing::FocusRing(QObject* parent) : QObject(parent) {
    connect(
        qApp, &QApplication::focusChanged, this, [this](QWidget*, QWidget* now) { follow(now); });
}

FocusRing::~FocusRing() {
    delete ring_;
}

void FocusRing::follow(QWidget* now) {
    const bool wanted =
        now != nullptr && !now->isWindow() && now->window()->windowType() != Qt::Popup &&
        qobject_cast<QMenuBar*>(now) == nullptr && !now->property(kShownItself).toBool();
    watch(wanted ? now : nullptr);
    place();
}

void FocusRing::watch(QWidget* around) {
    for (const QPointer<QWidget>& one : watched_) {
        if (one) {
            one->removeEventFilter(this);
        }
    }
    watched_.clear();
    around_ = around;
    for (QWidget* one = around; one != nullptr;
         one = one->isWindow() ? nullptr : one->parentWidget()) {
        one->installEventFilter(this);
        watched_.emplace_back(one);
    }
}

bool FocusRing::eventFilter(QObject* watched, QEvent* event) {
    const QEvent::Type type = event->type();
    if (type == QEvent::Move || type == QEvent::Resize || type == QEvent::Show ||
        type == QEvent::Hide) {
        place();
    }
    return QObject::eventFilter(watched, event);
}

void FocusRing::place() {
    if (!around_ || !around_->isVisible()) {
        if (ring_) {
            ring_->hide();
        }
        return;
    }
    QWidget* window = around_->window();
    if (ring_ && ring_->parentWidget() != window) {
        delete ring_;
    }
    if (!ring_) {
        ring_ = new Ring(window);
    }
    const QRect inner = inWindow(*around_);
    const QRect outer = inner.adjusted(-kRing, -kRing, kRing, kRing);
    const QRegion seen = (QRegion(outer) - QRegion(inner)) & seenIn(*around_);
    if (seen.isEmpty()) {
        ring_->hide();
        return;
    }
    ring_->setGeometry(outer);
    ring_->setMask(seen.translated(-outer.topLeft()));
    ring_->raise();
    ring_->show();
}

} // namespace quillbench
