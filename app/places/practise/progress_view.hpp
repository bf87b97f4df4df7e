#pragma once

#include "app/places/practise/practise_pictures.hpp"

#include <QWidget>

namespace quillbench {

/// Where the ear stands: one line for each interval and register, easy to the left, hard to the right, with the
/// stretch in which the truth lies in nine cases of ten; below it one interval week by week, a mark a week over its date, harder
/// upwards; what was published of other people's ears as hatched stretches with their source below. **Thread** GUI.
class ProgressView : public QWidget {
    Q_OBJECT

public:
    explicit ProgressView(QWidget* parent = nullptr);

    void show(const ProgressPicture& picture);
    using QWidget::show;

    [[nodiscard]] const ProgressPicture& picture() const { return picture_; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    ProgressPicture picture_;
};

} // namespace quillbench
