#pragma once

#include "app/places/instrument/compass_pictures.hpp"

#include <QWidget>

namespace quillbench {

/// Quantities of the strings over the compass, one panel over the other; the arrow keys lead a line from string to
/// string. **Thread** GUI.
class CompassView : public QWidget {
    Q_OBJECT

public:
    explicit CompassView(QWidget* parent = nullptr);

    void show(const CompassPicture& picture);
    using QWidget::show;

    [[nodiscard]] const CompassPicture& picture() const { return picture_; }

    [[nodiscard]] std::size_t course() const { return course_; }

    void choose(std::size_t course);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

Q_SIGNALS:
    void courseChosen(std::size_t course);

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    void describe();

    CompassPicture picture_;
    std::size_t course_ = 0;
};

} // namespace quillbench
