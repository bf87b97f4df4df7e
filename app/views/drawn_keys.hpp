#pragma once

#include "app/models/pictures.hpp"
#include "app/paint/theme.hpp"

#include <QRectF>
#include <cstddef>
#include <optional>
#include <vector>

class QPainter;

namespace quillbench {

/// Where the keys of a keyboard lie in a widget, in pixels: naturals side by side, sharps over them, split sharps in
/// halves.
struct DrawnKeys {
    double left = 0;        ///< of the first key
    double keyWidth = 0;    ///< of a natural
    double firstColumn = 0; ///< KeyShown::column of the leftmost key
    double top = 0;
    double height = 0;

    [[nodiscard]] double centre(const KeyShown& key) const;
    [[nodiscard]] QRectF rect(const KeyShown& key) const;

    /// A height at which sharps and naturals are told apart: where a press above the keys counts.
    [[nodiscard]] double besideSharps() const { return top + height * 0.3; }

    /// The key under a point; sharps lie above naturals.
    [[nodiscard]] std::optional<std::size_t> under(QPointF point,
                                                   const std::vector<KeyShown>& keys) const;
};

/// Keys side by side between `left` and `left + room`, none wider than `widest`, in the middle where there is room
/// left. Top and height are not set.
[[nodiscard]] DrawnKeys
fitKeys(const std::vector<KeyShown>& keys, double left, double room, double widest);

/// Which keys are drawn otherwise than the rest.
struct KeysMarked {
    std::optional<std::size_t> pressed; ///< by the mouse
    std::optional<std::size_t> heard;   ///< sounds now
    std::optional<std::size_t> asked;   ///< framed: to be played next, or chosen
};

void paintKeys(QPainter& painter,
               const Theme& theme,
               const DrawnKeys& where,
               const std::vector<KeyShown>& keys,
               const KeysMarked& marked);

} // namespace quillbench
