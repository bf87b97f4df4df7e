#pragma once

#include <QLabel>
#include <QTimer>

namespace quillbench {

/// A slip of paper at the foot of a window that says what has just happened, whatever place is seen; it goes after a
/// while, at a click, or when another takes its place. Nothing under it moves. **Thread** GUI.
class Notice : public QLabel {
    Q_OBJECT

public:
    explicit Notice(QWidget& window);

    void say(const QString& text);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    void lay();

    QTimer gone_;
};

} // namespace quillbench
