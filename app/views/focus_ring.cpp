#include "app/views/focus_ring.hpp"

#include <QApplication>
#include <QFocusFrame>
#include <QMenuBar>

namespace quillbench {

FocusRing::FocusRing(QObject* parent) : QObject(parent) {
    connect(
        qApp, &QApplication::focusChanged, this, [this](QWidget*, QWidget* now) { follow(now); });
}

void FocusRing::follow(QWidget* now) {
    const bool wanted =
        now != nullptr && !now->isWindow() && now->window()->windowType() != Qt::Popup &&
        qobject_cast<QMenuBar*>(now) == nullptr && !now->property(kShownItself).toBool();
    if (!wanted) {
        if (frame_) {
            frame_->setWidget(nullptr);
        }
        return;
    }
    if (!frame_) {
        frame_ = new QFocusFrame; // whose parent is the window of what it is put around
    }
    frame_->setWidget(now);
}

} // namespace quillbench
