#pragma once

#include "app/models/pictures.hpp"

#include <QWidget>
#include <optional>

namespace quillbench {

/// The keyboard with a lane for each choir above it. A string's state is told by the shape of its sign, by the words of
/// the legend and by colour. Keys can be pressed with the mouse where that is of use (the virtual instrument).
/// **Thread** GUI.
class KeyboardView : public QWidget {
    Q_OBJECT

public:
    explicit KeyboardView(QWidget* parent = nullptr);

    void show(const KeyboardPicture& picture);
    using QWidget::show;

    [[nodiscard]] const KeyboardPicture& picture() const { return picture_; }

    /// Whether a press plays the key or chooses its step.
    void setPlayable(bool playable);

    /// The key drawn under a point of the widget.
    [[nodiscard]] std::optional<std::size_t> keyUnder(QPointF point) const;

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

Q_SIGNALS:
    void keyPressed(std::size_t key);
    void keyReleased(std::size_t key);
    /// A press on a key's sign in a lane, or on a key that cannot be played.
    void keyChosen(std::size_t key);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    bool event(QEvent* event) override;

private:
    struct Layout;
    [[nodiscard]] Layout layout() const;
    void release();

    KeyboardPicture picture_;
    bool playable_ = false;
    std::optional<std::size_t> pressed_;
};

} // namespace quillbench
