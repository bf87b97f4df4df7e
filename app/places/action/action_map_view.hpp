#pragma once

#include "app/places/action/action_pictures.hpp"

#include <QWidget>
#include <optional>
#include <vector>

namespace quillbench {

/// The map over the keyboard: a column for each key with what was measured, a sign and a word where it is worth a look,
/// the keys below. Keys can be pressed with the mouse where that plays (the virtual instrument). **Thread** GUI.
class ActionMapView : public QWidget {
    Q_OBJECT

public:
    explicit ActionMapView(QWidget* parent = nullptr);

    void show(const ActionMapPicture& picture);
    using QWidget::show;

    [[nodiscard]] const ActionMapPicture& picture() const { return picture_; }

    /// Whether a press on the keys plays or chooses.
    void setPlayable(bool playable);

    /// The key drawn under a point of the widget.
    [[nodiscard]] std::optional<std::size_t> keyUnder(QPointF point) const;

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

Q_SIGNALS:
    void keyPressed(std::size_t key);
    void keyReleased(std::size_t key);
    void keyChosen(std::size_t key);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    bool event(QEvent* event) override;

private:
    struct Layout;
    [[nodiscard]] Layout layout() const;
    void paintBand(QPainter& painter, const Layout& where) const;
    void paintColumns(QPainter& painter, const Layout& where) const;
    void paintLegend(QPainter& painter, const Layout& where) const;

    ActionMapPicture picture_;
    std::vector<KeyShown> keys_; ///< of its columns
    bool playable_ = false;
    std::optional<std::size_t> pressed_;
};

} // namespace quillbench
