#pragma once

#include <QProxyStyle>

namespace quillbench {

/// The style of every widget: Fusion, but words of one line that do not fit end in "…" instead of being cut, and a tool
/// button that is on has a bar below it; fields and boxes have an outline that is seen in every light. The buttons of a
/// dialog are words alone.
class WindowStyle : public QProxyStyle {
    Q_OBJECT

public:
    WindowStyle();

    void drawItemText(QPainter* painter,
                      const QRect& area,
                      int flags,
                      const QPalette& palette,
                      bool enabled,
                      const QString& text,
                      QPalette::ColorRole role) const override;
    void drawControl(ControlElement element,
                     const QStyleOption* option,
                     QPainter* painter,
                     const QWidget* widget) const override;
    void drawPrimitive(PrimitiveElement element,
                       const QStyleOption* option,
                       QPainter* painter,
                       const QWidget* widget) const override;
    void drawComplexControl(ComplexControl control,
                            const QStyleOptionComplex* option,
                            QPainter* painter,
                            const QWidget* widget) const override;
    int styleHint(StyleHint hint,
                  const QStyleOption* option,
                  const QWidget* widget,
                  QStyleHintReturn* data) const override;
};

} // namespace quillbench
