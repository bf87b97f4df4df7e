#pragma once

#include "app/places/temperament/temperament_pictures.hpp"

#include <QWidget>

namespace quillbench {

/// All thirds of one kind as spans between two wires: the pure third lies still across the picture, each third of the
/// temperament above it (wide) or below (narrow), with its beats. **Thread** GUI.
class ThirdsView : public QWidget {
    Q_OBJECT

public:
    explicit ThirdsView(QWidget* parent = nullptr);

    void show(const ThirdsPicture& picture);
    using QWidget::show;

    [[nodiscard]] const ThirdsPicture& picture() const { return picture_; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    ThirdsPicture picture_;
};

} // namespace quillbench
