#pragma once

#include <QObject>
#include <QPointer>

class QFocusFrame;
class QWidget;

namespace quillbench {

/// A ring around whatever in the program's windows has the keyboard, in the colour of what is wanted, so that it is
/// found at a glance whatever the thing draws of itself. Pages that take the keys as a whole are left to their edge.
/// **Thread** GUI.
class FocusRing : public QObject {
    Q_OBJECT

public:
    explicit FocusRing(QObject* parent);

    /// A widget with this property (true) shows its focus itself.
    static constexpr const char* kShownItself = "showsItsFocus";

private:
    void follow(QWidget* now);

    QPointer<QFocusFrame> frame_; // goes with the window that it was last in
};

} // namespace quillbench
