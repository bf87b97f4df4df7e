#include "app/paint/theme.hpp"

namespace quillbench {

namespace {

constexpr int kMiddleLightness = 128;

} // namespace

Theme Theme::light() {
    return Theme{QColor(0xf6, 0xf0, 0xe4),
                 QColor(0xfd, 0xfa, 0xf3),
                 QColor(0x2b, 0x26, 0x20),
                 QColor(0x69, 0x60, 0x53),
                 QColor(0xd9, 0xcf, 0xbd),
                 QColor(0x1f, 0x5a, 0x9c),
                 QColor(0xb4, 0x68, 0x00),
                 QColor(0xb0, 0x1e, 0x1e),
                 false};
}

Theme Theme::dark() {
    return Theme{QColor(0x23, 0x1f, 0x1a),
                 QColor(0x2f, 0x2a, 0x24),
                 QColor(0xee, 0xe6, 0xd6),
                 QColor(0xb0, 0xa5, 0x94),
                 QColor(0x4a, 0x43, 0x3a),
                 QColor(0x7d, 0xb4, 0xf0),
                 QColor(0xf0, 0xb0, 0x48),
                 QColor(0xff, 0x6b, 0x60),
                 true};
}

QPalette Theme::palette() const {
    QPalette palette(ink, sheet, sheet.lighter(110), faint, quiet, ink, ink, sheet, paper);
    palette.setColor(QPalette::Button, sheet);
    palette.setColor(QPalette::Highlight, target);
    palette.setColor(QPalette::HighlightedText, paper);
    palette.setColor(QPalette::ToolTipBase, sheet);
    palette.setColor(QPalette::ToolTipText, ink);
    palette.setColor(QPalette::PlaceholderText, quiet);
    palette.setColor(QPalette::Link, target);
    for (const QPalette::ColorRole role :
         {QPalette::Text, QPalette::WindowText, QPalette::ButtonText}) {
        palette.setColor(QPalette::Disabled, role, quiet);
    }
    return palette;
}

Theme themeOf(const QPalette& palette) {
    return palette.color(QPalette::Window).lightness() < kMiddleLightness ? Theme::dark()
                                                                          : Theme::light();
}

} // namespace quillbench
