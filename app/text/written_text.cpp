#include "app/text/written_text.hpp"

#include <QTextDocument>
#include <algorithm>

namespace quillbench {

namespace {

QString cutAfter(const QString& text, qsizetype most) {
    return text.size() > most ? text.left(most) + QStringLiteral("\u2026") : text;
}

} // namespace

QString tipText(const QString& text) {
    const QString shown = cutAfter(text, 500);
    return Qt::mightBeRichText(shown) ? Qt::convertFromPlainText(shown) : shown;
}

QString cellText(const QString& text) {
    QString shown = cutAfter(text, 2000);
    std::replace_if(
        shown.begin(),
        shown.end(),
        [](QChar c) { return c.category() == QChar::Other_Control; },
        QLatin1Char(' '));
    return shown;
}

} // namespace quillbench
