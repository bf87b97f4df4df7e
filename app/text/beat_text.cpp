#include "app/text/beat_text.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/step_text.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct BeatText {
    Q_DECLARE_TR_FUNCTIONS(BeatText)
};

/// Known to better than this, a rate is shown to a hundredth.
constexpr double kFineFrom = 0.03;

int placesFor(double uncertainty) {
    return uncertainty < kFineFrom ? 2 : 1;
}

QString plain(double value, int places) {
    return QLocale().toString(value, 'f', places);
}

} // namespace

QString rateText(BeatRate beat, double uncertainty) {
    return plain(std::abs(beat.perSecond()), placesFor(uncertainty));
}

QString rateUncertainty(double uncertainty) {
    const int places = placesFor(uncertainty);
    const double unit = places == 2 ? 100.0 : 10.0;
    const double up = std::max(1.0, std::ceil(uncertainty * unit - 1e-9)) / unit;
    return QStringLiteral("±") + QChar(0x00a0) + plain(up, places);
}

QString directionText(BeatDirection direction) {
    switch (direction) {
    case BeatDirection::Wide:
        return BeatText::tr("wide");
    case BeatDirection::Narrow:
        return BeatText::tr("narrow");
    case BeatDirection::Pure:
        return BeatText::tr("still");
    case BeatDirection::Unknown:
        break;
    }
    return BeatText::tr("wide or narrow?");
}

QString pairText(const Instrument& instrument, StringId lower, StringId upper, int position) {
    const QString one = noteText(keyNote(instrument, lower, position));
    const QString other = noteText(keyNote(instrument, upper, position));
    return one == other ? one : QStringLiteral("%1\u2013%2").arg(one, other);
}

QString
pairDetail(const Instrument& instrument, IntervalKind kind, StringId lower, StringId upper) {
    const QString one = choirText(instrument.choirs[lower.choir]);
    const QString other = choirText(instrument.choirs[upper.choir]);
    return lower.choir == upper.choir
               ? BeatText::tr("%1, %2").arg(intervalText(kind), one)
               : BeatText::tr("%1, %2 and %3").arg(intervalText(kind), one, other);
}

QString wantedText(BeatRate target) {
    constexpr double kStill = 0.005;
    const double beat = target.perSecond();
    if (std::abs(beat) < kStill) {
        return BeatText::tr("wanted: still");
    }
    return BeatText::tr("wanted: %1 %2")
        .arg(plain(std::abs(beat), 2),
             directionText(beat > 0.0 ? BeatDirection::Wide : BeatDirection::Narrow));
}

QString pairSentence(const Instrument& instrument,
                     const PairReading& reading,
                     BeatRate target,
                     int position,
                     PairTuned tuned) {
    const bool upper = tuned == PairTuned::Upper;
    const QString string = stringText(instrument, upper ? reading.upper : reading.lower, position);
    const double off = reading.beat.perSecond() - target.perSecond();
    const bool sharp =
        (off > 0.0) == upper; // wide: the upper string is sharp, or the lower one flat
    const double near = std::max(reading.stillLimit.perSecond(), 2.0 * reading.uncertainty);
    if (reading.lowerOwnBeat && std::abs(off) < *reading.lowerOwnBeat) {
        return BeatText::tr("%1 beats by itself, %2 a second: no unison with it gets stiller.")
            .arg(stringText(instrument, reading.lower, position), plain(*reading.lowerOwnBeat, 1));
    }
    if (reading.direction == BeatDirection::Unknown) {
        return BeatText::tr(
                   "Which way is not known: let %1 down a little. Faster, and it was flat; "
                   "slower, and it was sharp.")
            .arg(string);
    }
    if (std::abs(off) <= near) {
        return BeatText::tr("As wanted. Hand off the hammer, and pluck again to be sure of %1.")
            .arg(string);
    }
    if (sharp) {
        return BeatText::tr("%1 is too sharp: let it down.").arg(string);
    }
    return BeatText::tr(
               "%1 is too flat. First a little down: when its beat changes, the hammer is on "
               "the right pin. Then up, a little past, and settle down.")
        .arg(string);
}

} // namespace quillbench
