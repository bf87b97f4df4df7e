#pragma once

#include "app/models/pictures.hpp"

#include <QWidget>

namespace quillbench {

/// The breath: how the loudness of two strings together swells and sinks, from the pluck on, with its crests marked, and
/// as a fine second line what the target wants. It grows from left to right and stands still otherwise.
/// **Thread** GUI.
class BreathView : public QWidget {
    Q_OBJECT

public:
    explicit BreathView(QWidget* parent = nullptr);

    void show(const BreathPicture& picture);
    using QWidget::show;

    [[nodiscard]] const BreathPicture& picture() const { return picture_; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    BreathPicture picture_;
};

} // namespace quillbench
