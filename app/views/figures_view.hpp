#pragma once

#include "app/models/pictures.hpp"

#include <QWidget>

class QLabel;

namespace quillbench {

/// The note and its deviation, to be read at two metres. Ordinary labels, so that a screen reader reads their text.
/// **Thread** GUI.
class FiguresView : public QWidget {
    Q_OBJECT

public:
    explicit FiguresView(QWidget* parent = nullptr);

    void show(const FiguresPicture& picture);
    using QWidget::show;

    /// Pixel size of the large figures; smaller where a narrow window has no room for them. The height stays.
    void setFigureSize(int pixels);

protected:
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void colour();
    void align();
    void fit();
    [[nodiscard]] int widthAt(int pixels) const;

    FiguresPicture picture_;
    QLabel* note_;
    QLabel* choir_;
    QLabel* deviation_;
    QLabel* words_;
    QLabel* remark_;
    int size_ = 0;
};

} // namespace quillbench
