#include "app/views/level_view.hpp"

#include "app/paint/scale_map.hpp"
#include "app/paint/theme.hpp"
#include "app/views/screen_reader.hpp"

#include <QPainter>

namespace quillbench {

namespace {

constexpr double kQuietest = -80.0; // dB re full scale at the left end
constexpr double kLoud = -3.0;      // from here on the peak is near clipping

} // namespace

LevelView::LevelView(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("level"));
    presentAsPicture(this, tr("Level of the sound"));
    setFixedHeight(22);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void LevelView::show(const LevelPicture& picture) {
    if (picture == picture_) {
        return;
    }
    picture_ = picture;
    const int words = picture.peak > kLoud ? 2 : (picture.level > -60.0 ? 1 : 0);
    if (words != words_) {
        words_ = words;
        setAccessibleDescription(words == 2   ? tr("too loud")
                                 : words == 1 ? tr("sound is heard")
                                              : tr("quiet"));
    }
    update();
}

QSize LevelView::sizeHint() const {
    return {130, 22};
}

void LevelView::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setLayoutDirection(layoutDirection()); // Qt takes the application's
    const Theme theme = themeOf(palette());
    const QRectF box(0.5, 5.5, width() - 1.0, height() - 11.0);
    const LinearScale scale(kQuietest, 0.0, box.left(), box.right());
    painter.setPen(theme.quiet);
    painter.setBrush(theme.sheet);
    painter.drawRect(box);
    painter.setPen(Qt::NoPen);
    painter.setBrush(theme.sound);
    const double level = scale.pixelInside(picture_.level);
    painter.drawRect(
        QRectF(box.left() + 1.0, box.top() + 2.0, level - box.left(), box.height() - 4.0));
    const double peak = scale.pixelInside(picture_.peak);
    painter.setPen(QPen(theme.ink, picture_.peak > kLoud ? 4.0 : 2.0));
    painter.drawLine(QPointF(peak, box.top()), QPointF(peak, box.bottom()));
}

} // namespace quillbench
