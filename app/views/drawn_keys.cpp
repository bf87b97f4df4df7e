#include "app/views/drawn_keys.hpp"

#include <QPainter>
#include <algorithm>

namespace quillbench {

namespace {

constexpr double kSharpLength = 0.62; // of a natural's
constexpr double kSharpWidth = 0.58;  // of a natural's

} // namespace

double DrawnKeys::centre(const KeyShown& key) const {
    return left + (key.column - firstColumn + 0.5) * keyWidth;
}

QRectF DrawnKeys::rect(const KeyShown& key) const {
    if (!key.sharp) {
        return {centre(key) - keyWidth / 2.0, top, keyWidth, height};
    }
    const double length = height * kSharpLength;
    const double width = keyWidth * kSharpWidth;
    const bool half = key.front || key.back;
    return {centre(key) - width / 2.0,
            top + (key.front ? length / 2.0 : 0.0),
            width,
            half ? length / 2.0 : length};
}

std::optional<std::size_t> DrawnKeys::under(QPointF point,
                                            const std::vector<KeyShown>& keys) const {
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < keys.size(); ++i) {
        if (rect(keys[i]).contains(point) && (!found || keys[i].sharp)) {
            found = i;
        }
    }
    return found;
}

DrawnKeys fitKeys(const std::vector<KeyShown>& keys, double left, double room, double widest) {
    DrawnKeys where;
    double last = 1.0;
    if (!keys.empty()) {
        const auto [low, high] =
            std::minmax_element(keys.begin(), keys.end(), [](const KeyShown& a, const KeyShown& b) {
                return a.column < b.column;
            });
        where.firstColumn = low->column;
        last = high->column;
    }
    const double columns = last - where.firstColumn + 1.0;
    where.keyWidth = std::min(room / columns, widest);
    where.left = left + (room - where.keyWidth * columns) / 2.0;
    return where;
}

void paintKeys(QPainter& painter,
               const Theme& theme,
               const DrawnKeys& where,
               const std::vector<KeyShown>& keys,
               const KeysMarked& marked) {
    const QColor dark = theme.night ? theme.paper : theme.ink;
    for (const bool sharps : {false, true}) {
        for (std::size_t i = 0; i < keys.size(); ++i) {
            if (keys[i].sharp != sharps) {
                continue;
            }
            const bool down = marked.pressed == i || marked.heard == i;
            const QRectF rect = where.rect(keys[i]);
            painter.setPen(QPen(theme.ink, 1.0));
            painter.setBrush(down ? theme.sound : sharps ? dark : theme.sheet);
            painter.drawRect(rect.adjusted(0.5, 0.5, -0.5, -0.5));
            if (marked.asked == i) {
                painter.setPen(QPen(theme.target, 3.0));
                painter.setBrush(Qt::NoBrush);
                painter.drawRect(rect.adjusted(2.0, 2.0, -2.0, -2.0));
            }
        }
    }
}

} // namespace quillbench
