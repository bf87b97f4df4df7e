#pragma once

#include "app/models/pictures.hpp"

#include <QWidget>

namespace quillbench {

class CentsScale;
struct Theme;

/// The sign of the program: the target's wire lies still across the window, the sounding string's wire above it
/// (sharp) or below (flat), its blur the uncertainty; a knot closes them when the string has settled. The marks of the
/// last plucks stand on the same scale. **Thread** GUI.
class WiresView : public QWidget {
    Q_OBJECT

public:
    explicit WiresView(QWidget* parent = nullptr);

    void show(const WiresPicture& picture);
    using QWidget::show;

    [[nodiscard]] const WiresPicture& picture() const { return picture_; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    WiresPicture picture_;
};

} // namespace quillbench
