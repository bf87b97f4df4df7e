#pragma once

#include "app/places/temperament/temperament_pictures.hpp"

#include <QRectF>
#include <QWidget>

class QPainter;

namespace quillbench {

struct Theme;

/// The circle of fifths: each fifth is a wire between two notes, which lies inside the pure circle where it is narrow and
/// outside where it is wide. A fifth is chosen and changed by dragging or by keys. **Thread** GUI.
class CircleView : public QWidget {
    Q_OBJECT

public:
    explicit CircleView(QWidget* parent = nullptr);

    void show(const CirclePicture& picture);
    using QWidget::show;

    [[nodiscard]] const CirclePicture& picture() const { return picture_; }

    [[nodiscard]] std::size_t chosen() const { return chosen_; }

    void choose(std::size_t fifth);

    /// Where the handle of a fifth lies, in pixels.
    [[nodiscard]] QPointF handleOf(std::size_t fifth) const;

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

Q_SIGNALS:
    void chosenChanged(std::size_t fifth);
    /// By so many steps from where it is: coarse ones, or fine ones.
    void stepped(std::size_t fifth, int steps, bool fine);
    /// While it is dragged: so many steps from where it was when the drag began.
    void dragged(std::size_t fifth, int stepsFromStart, bool fine);
    void dragEnded();
    void pureWanted(std::size_t fifth);
    void closeWanted(std::size_t fifth);

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    [[nodiscard]] std::size_t placeIn(const CirclePicture& picture) const;
    [[nodiscard]] std::size_t fifthAt(const QPointF& point) const;
    void tellChosen();

    CirclePicture picture_;
    std::size_t chosen_ = 0;
    bool dragging_ = false;
    double dragFrom_ = 0; ///< distance from the middle where the drag began
    int draggedSteps_ = 0;
};

/// Paints the circle into a rectangle; `chosen` beyond the last fifth marks none. Also for paper.
void paintCircle(QPainter& painter,
                 const QRectF& area,
                 const CirclePicture& picture,
                 const Theme& theme,
                 std::size_t chosen,
                 bool focus);

} // namespace quillbench
