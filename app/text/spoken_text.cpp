#include "app/text/spoken_text.hpp"

#include <QCoreApplication>

namespace quillbench {

namespace {

struct SpokenText {
    Q_DECLARE_TR_FUNCTIONS(SpokenText)
};

} // namespace

QString spokenText(QString text) {
    text.replace(QStringLiteral("′"), SpokenText::tr(" foot"));
    text.replace(QStringLiteral("♯"), SpokenText::tr(" sharp "));
    text.replace(QStringLiteral("♭"), SpokenText::tr(" flat "));
    text.replace(QStringLiteral("−"), SpokenText::tr("minus "));
    text.replace(QStringLiteral("°"), SpokenText::tr(" degrees"));
    return text.simplified();
}

} // namespace quillbench
