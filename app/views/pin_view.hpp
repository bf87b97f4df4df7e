#pragma once

#include <QPointF>
#include <QString>
#include <QWidget>

namespace quillbench {

/// The pin of the virtual string at hand, seen from above with its hammer. Drag to the right or upwards sharpens; the
/// wheel and the arrow keys go in steps; Shift makes all of it coarse. **Thread** GUI.
class PinView : public QWidget {
    Q_OBJECT

public:
    explicit PinView(QWidget* parent = nullptr);

    /// `turned` degrees since the instrument was set, `centsPerDegree` of this string.
    void show(const QString& note, double turned, double centsPerDegree);
    using QWidget::show;

    [[nodiscard]] QSize sizeHint() const override;

Q_SIGNALS:
    void turnedBy(double degrees);
    void stepped(bool coarse, int direction);
    void letGo();

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;

private:
    QString note_;
    double turned_ = 0;
    double centsPerDegree_ = 10;
    QPointF grip_;
    bool held_ = false;
    int wheel_ = 0;
};

} // namespace quillbench
