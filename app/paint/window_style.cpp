#include "app/paint/window_style.hpp"

#include <QPainter>
#include <QStyleOptionComboBox>

namespace quillbench {

namespace {

constexpr float kOutlineStrength = 0.8F;

/// Fusion's own outline is a darker paper, which in the dark is no outline.
void outline(QPainter& painter, const QStyleOption& option) {
    QColor line = option.palette.color(QPalette::Mid);
    line.setAlphaF(kOutlineStrength);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(line, 1.0));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(QRectF(option.rect).adjusted(0.5, 0.5, -0.5, -0.5), 2.0, 2.0);
    painter.restore();
}

} // namespace

WindowStyle::WindowStyle() : QProxyStyle(QStringLiteral("Fusion")) {
}

void WindowStyle::drawItemText(QPainter* painter,
                               const QRect& area,
                               int flags,
                               const QPalette& palette,
                               bool enabled,
                               const QString& text,
                               QPalette::ColorRole role) const {
    QString shown = text;
    if ((flags & Qt::TextWordWrap) == 0 && !text.contains(QLatin1Char('\n'))) {
        const QFontMetrics font = painter->fontMetrics();
        const int mnemonic = flags & (Qt::TextShowMnemonic | Qt::TextHideMnemonic);
        if (font.size(Qt::TextSingleLine | mnemonic, text).width() > area.width()) {
            shown = font.elidedText(text, Qt::ElideRight, area.width(), mnemonic);
        }
    }
    QProxyStyle::drawItemText(painter, area, flags, palette, enabled, shown, role);
}

void WindowStyle::drawControl(ControlElement element,
                              const QStyleOption* option,
                              QPainter* painter,
                              const QWidget* widget) const {
    if (element == CE_ComboBoxLabel) {
        if (const auto* box = qstyleoption_cast<const QStyleOptionComboBox*>(option)) {
            constexpr int kBesideWords = 4; // what the style leaves free on both sides
            QStyleOptionComboBox fitting = *box;
            const int room =
                subControlRect(CC_ComboBox, box, SC_ComboBoxEditField, widget).width() -
                kBesideWords;
            fitting.currentText =
                painter->fontMetrics().elidedText(box->currentText, Qt::ElideRight, room);
            QProxyStyle::drawControl(element, &fitting, painter, widget);
            return;
        }
    }
    QProxyStyle::drawControl(element, option, painter, widget);
}

int WindowStyle::styleHint(StyleHint hint,
                           const QStyleOption* option,
                           const QWidget* widget,
                           QStyleHintReturn* data) const {
    return hint == SH_DialogButtonBox_ButtonsHaveIcons
               ? 0
               : QProxyStyle::styleHint(hint, option, widget, data);
}

void WindowStyle::drawPrimitive(PrimitiveElement element,
                                const QStyleOption* option,
                                QPainter* painter,
                                const QWidget* widget) const {
    QProxyStyle::drawPrimitive(element, option, painter, widget);
    const auto* frame = qstyleoption_cast<const QStyleOptionFrame*>(option);
    const bool field = element == PE_PanelLineEdit && frame != nullptr && frame->lineWidth > 0;
    if (field || element == PE_IndicatorCheckBox || element == PE_IndicatorItemViewItemCheck) {
        outline(*painter, *option);
    }
}

void WindowStyle::drawComplexControl(ComplexControl control,
                                     const QStyleOptionComplex* option,
                                     QPainter* painter,
                                     const QWidget* widget) const {
    QProxyStyle::drawComplexControl(control, option, painter, widget);
    if (control == CC_SpinBox || control == CC_ComboBox) {
        outline(*painter, *option);
    }
    if (control == CC_ToolButton && option->state.testFlag(State_On)) {
        constexpr int kThick = 3; // pixels
        constexpr int kShorter = 4;
        const QRect& area = option->rect;
        painter->fillRect(area.left() + kShorter,
                          area.bottom() + 1 - kThick,
                          area.width() - 2 * kShorter,
                          kThick,
                          option->palette.color(QPalette::Highlight));
    }
}

} // namespace quillbench
