#include "app/text/position_text.hpp"

#include "app/text/format.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <QStringList>
#include <algorithm>
#include <cstdlib>

namespace quillbench {

namespace {

struct PositionWords {
    Q_DECLARE_TR_FUNCTIONS(PositionWords)
};

constexpr std::size_t kThirdsNamed = 2;

QString placeText(int position) {
    if (position == 0) {
        return PositionWords::tr("as built");
    }
    const QString steps = std::abs(position) == 1
                              ? PositionWords::tr("a semitone")
                              : PositionWords::tr("%1 semitones").arg(std::abs(position));
    return (position > 0 ? PositionWords::tr("%1 up") : PositionWords::tr("%1 down")).arg(steps);
}

} // namespace

QString positionText(const PositionReport& report, bool here) {
    QStringList thirds;
    for (std::size_t i = 0; i < std::min(kThirdsNamed, report.majorThirds.size()); ++i) {
        const ThirdSize& third = report.majorThirds[i];
        thirds << PositionWords::tr("%1–%2 %3")
                      .arg(noteText(third.lower), noteText(third.upper), signedCents(third.width));
    }
    return PositionWords::tr("%1 Hz, %2%3; widest thirds %4 cents")
        .arg(QLocale().toString(report.a4.value(), 'f', 1),
             placeText(report.position),
             here ? PositionWords::tr(", tuned here") : QString(),
             thirds.join(QStringLiteral(", ")));
}

} // namespace quillbench
