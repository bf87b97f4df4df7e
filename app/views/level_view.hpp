#pragma once

#include "app/models/pictures.hpp"

#include <QWidget>

namespace quillbench {

/// How loud the microphone hears the room, with the loudest of the last moment. **Thread** GUI.
class LevelView : public QWidget {
    Q_OBJECT

public:
    explicit LevelView(QWidget* parent = nullptr);

    void show(const LevelPicture& picture);
    using QWidget::show;

    [[nodiscard]] QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    LevelPicture picture_;
    int words_ = -1; ///< which description is set, so that it changes only when the words do
};

} // namespace quillbench
