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
                 QColor(0xa0, 0x5c, 0x00),
                 QColor(0xa8, 0x0f, 0x2a),
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

Theme Theme::boldLight() {
    return Theme{QColor(0xff, 0xff, 0xff),
                 QColor(0xfb, 0xfb, 0xfb),
                 QColor(0x00, 0x00, 0x00),
                 QColor(0x33, 0x33, 0x33),
                 QColor(0x77, 0x77, 0x77),
                 QColor(0x00, 0x3c, 0x8c),
                 QColor(0x7a, 0x4a, 0x00),
                 QColor(0x90, 0x00, 0x3a),
                 false};
}

Theme Theme::boldDark() {
    return Theme{QColor(0x00, 0x00, 0x00),
                 QColor(0x12, 0x12, 0x12),
                 QColor(0xff, 0xff, 0xff),
                 QColor(0xdd, 0xdd, 0xdd),
                 QColor(0x8a, 0x8a, 0x8a),
                 QColor(0x8c, 0xc4, 0xff),
                 QColor(0xff, 0xc8, 0x4a),
                 QColor(0xff, 0x8a, 0x80),
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
    const QColor paper = palette.color(QPalette::Window);
    for (const Theme& bold : {Theme::boldLight(), Theme::boldDark()}) {
        if (paper == bold.paper) {
            return bold;
        }
    }
    return paper.lightness() < kMiddleLightness ? Theme::dark() : Theme::light();
}

} // namespace quillbench
