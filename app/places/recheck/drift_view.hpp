#pragma once

#include "app/places/recheck/drift_picture.hpp"

#include <QWidget>
#include <optional>

namespace quillbench {

/// How each string moved, over its key: a sign with its ± above or below the line where it was left, what all strings
/// did together as a fine line, the last recheck faint behind. The keys below play the virtual instrument.
/// **Thread** GUI.
class DriftView : public QWidget {
    Q_OBJECT

public:
    explicit DriftView(QWidget* parent = nullptr);

    void show(const DriftPicture& picture);

    [[nodiscard]] const DriftPicture& picture() const { return picture_; }

    [[nodiscard]] QSize sizeHint() const override { return {760, 320}; }

    [[nodiscard]] QSize minimumSizeHint() const override { return {240, 120}; }

Q_SIGNALS:
    void keyPressed(std::size_t key);
    void keyReleased(std::size_t key);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    bool event(QEvent* event) override;

private:
    struct Layout;
    [[nodiscard]] Layout layout() const;
    [[nodiscard]] std::optional<std::size_t> keyAtPoint(QPointF point) const;
    void paintScale(QPainter& painter, const Layout& where) const;
    void paintTogether(QPainter& painter, const Layout& where) const;
    void paintMarks(QPainter& painter, const Layout& where) const;
    void paintLegend(QPainter& painter, const Layout& where) const;

    DriftPicture picture_;
    std::optional<std::size_t> pressed_;
};

} // namespace quillbench
