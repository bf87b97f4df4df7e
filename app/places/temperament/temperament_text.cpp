#include "app/places/temperament/temperament_text.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/step_text.hpp"
#include "core/temperament/beat_table.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct TemperamentText {
    Q_DECLARE_TR_FUNCTIONS(TemperamentText)
};

constexpr QChar kMinusSign(0x2212);
constexpr double kPureHere = 0.005; // cents
constexpr double kNoBeatBelow = 0.005;
constexpr double kAllButStill = 0.15; // beats a second; the note dies before the second beat
constexpr int kLowestThird = 53;      // F3

QString commaPart(const Fraction& fraction, const QString& comma) {
    if (fraction.isZero()) {
        return {};
    }
    QString text = toQString(toText(fraction));
    text.replace(QLatin1Char('-'), kMinusSign);
    return (fraction.numerator() > 0 ? QStringLiteral("+") : QString()) + text + QChar(0x00a0) +
           comma;
}

QString beatsPhrase(BeatRate beat) {
    const double rate = abs(beat).perSecond();
    const bool wide = beat.perSecond() > 0.0;
    if (rate < kNoBeatBelow) {
        return TemperamentText::tr("beatless");
    }
    if (rate < kAllButStill) {
        return wide ? TemperamentText::tr("all but beatless, a hair wide")
                    : TemperamentText::tr("all but beatless, a hair narrow");
    }
    const QString number = QLocale().toString(rate, 'f', 1);
    if (rate < 1.0) {
        const QString each = QLocale().toString(1.0 / rate, 'f', 1);
        return (wide ? TemperamentText::tr("%1 beats a second wide (one in %2 s)")
                     : TemperamentText::tr("%1 beats a second narrow (one in %2 s)"))
            .arg(number, each);
    }
    return (wide ? TemperamentText::tr("%1 beats a second wide")
                 : TemperamentText::tr("%1 beats a second narrow"))
        .arg(number);
}

bool tunesTheUpper(const BearingStep& step) {
    return step.tune.midiNumber() >= step.against.midiNumber();
}

QString tuneSentence(const BearingStep& step) {
    const QString note = noteText(step.tune);
    const QString other = noteText(step.against);
    if (step.fromStandard) {
        return step.interval == IntervalKind::Unison
                   ? TemperamentText::tr("Set %1 to the pitch standard, %2, without beats.")
                         .arg(note, hertzText(step.pitch))
                   : TemperamentText::tr("Set %1, %2, from %3 of the pitch standard (%4), without "
                                         "beats.")
                         .arg(note, hertzText(step.pitch), other, intervalText(step.interval));
    }
    const QString head = (tunesTheUpper(step) ? TemperamentText::tr("Tune %1 above %2 (%3)")
                                              : TemperamentText::tr("Tune %1 below %2 (%3)"))
                             .arg(note, other, intervalText(step.interval));
    if (abs(step.beat).perSecond() < kNoBeatBelow) {
        return TemperamentText::tr("%1: beatless.").arg(head);
    }
    if (abs(step.beat) > kFastestCountable) {
        return TemperamentText::tr("%1: it beats too fast to count; set it by the meter.")
            .arg(head);
    }
    const bool higher = (step.beat.perSecond() > 0.0) == tunesTheUpper(step);
    return (higher ? TemperamentText::tr("%1: %2. First pure, then %3 a little higher.")
                   : TemperamentText::tr("%1: %2. First pure, then %3 a little lower."))
        .arg(head, beatsPhrase(step.beat), note);
}

Note lowerOfThird(PitchClass lower) {
    Note note{lower, 3};
    while (note.midiNumber() < kLowestThird) {
        ++note.octave;
    }
    return note;
}

/// The key of the upper note within the octave above the lower one.
Note upperOfThird(const Note& lower, PitchClass upper) {
    Note note{upper, lower.octave};
    while (note.midiNumber() <= lower.midiNumber()) {
        ++note.octave;
    }
    return note;
}

/// Width of the same keys in another temperament.
std::optional<Cents> widthIn(const Temperament* other, const ThirdSize& third) {
    if (other == nullptr) {
        return std::nullopt;
    }
    for (const ThirdSize& one : thirdsOf(*other, third.major)) {
        if (one.lower.chroma() == third.lower.chroma()) {
            return one.width;
        }
    }
    return std::nullopt;
}

QString statusText(DefinitionStatus status) {
    switch (status) {
    case DefinitionStatus::Verified:
        return TemperamentText::tr("Checked against a text that quotes the source.");
    case DefinitionStatus::PartlyVerified:
        return TemperamentText::tr("Checked in part; the rest from memory.");
    case DefinitionStatus::FromMemory:
        return TemperamentText::tr("Written down from memory, not looked up.");
    case DefinitionStatus::Own:
        return TemperamentText::tr("Made at this bench.");
    }
    return {};
}

} // namespace

QString pitchClassText(PitchClass note) {
    return noteText(note);
}

QString fractionText(const Tempering& tempering) {
    QStringList parts;
    for (const QString& part : {commaPart(tempering.pythagorean, TemperamentText::tr("P")),
                                commaPart(tempering.syntonic, TemperamentText::tr("S"))}) {
        if (!part.isEmpty()) {
            parts << part;
        }
    }
    if (!(tempering.ratio == Fraction(1))) {
        parts << toQString(toText(tempering.ratio));
    }
    if (std::abs(tempering.plain.value()) >= kPureHere) {
        parts << TemperamentText::tr("%1 ct").arg(signedCents(tempering.plain));
    }
    return parts.isEmpty() ? TemperamentText::tr("pure") : parts.join(QLatin1Char(' '));
}

CirclePicture circlePicture(const TemperamentModel& model) {
    const Temperament& temperament = model.temperament();
    CirclePicture picture;
    picture.closed = temperament.isCircle();
    picture.firstPlace = temperament.notes().front().fifthsFromC();
    picture.name = coreText(temperament.description().name);
    picture.lastNote = pitchClassText(temperament.notes().back());
    const auto notes = temperament.notes();
    const Temperament* other = model.compared();
    QStringList words;
    for (std::size_t i = 0; i < model.fifths().size(); ++i) {
        const Tempering& tempering = model.fifths()[i];
        FifthShown shown;
        shown.lower = pitchClassText(notes[i]);
        shown.fraction = fractionText(tempering);
        shown.width = tempering.cents();
        const PitchClass upper = notes[(i + 1) % notes.size()];
        if (std::abs(shown.width.value()) >= kPureHere) {
            shown.cents = signedCents(shown.width);
        }
        if (other != nullptr && other->isCircle()) {
            const Cents between = other->offsetFromEqual(upper) - other->offsetFromEqual(notes[i]);
            shown.compared = between + Cents(700.0) - pureFifth();
        }
        words << TemperamentText::tr("%1\u2013%2 %3")
                     .arg(shown.lower,
                          pitchClassText(upper),
                          shown.cents.isEmpty() ? shown.fraction : shown.cents);
        picture.fifths.push_back(shown);
    }
    if (abs(model.openBy()) > Cents()) {
        picture.closing =
            TemperamentText::tr("does not close: %1 ct").arg(signedCents(model.openBy()));
        words << picture.closing;
    }
    picture.description = words.join(TemperamentText::tr(", "));
    return picture;
}

ThirdsPicture thirdsPicture(const TemperamentModel& model, bool major) {
    const TunedScale scale = model.scale();
    ThirdsPicture picture;
    // Four fifths make a major third, three less an octave leave a minor one.
    const Cents tone = pureFifth() * 2.0 - Cents(1200.0);
    picture.pythagorean = major ? tone * 2.0 - intervalOf(IntervalKind::MajorThird).pureSize()
                                : Cents(1200.0) - pureFifth() - tone + Cents(1200.0) - pureFifth() -
                                      intervalOf(IntervalKind::MinorThird).pureSize();
    QStringList words;
    for (const ThirdSize& third : thirdsOf(model.temperament(), major)) {
        const Note lower = lowerOfThird(third.lower);
        const BeatEntry entry = beatEntry(scale, lower, upperOfThird(lower, third.upper));
        ThirdShown shown;
        shown.lower = pitchClassText(third.lower);
        shown.upper = pitchClassText(third.upper);
        shown.name = QStringLiteral("%1\u2013%2").arg(shown.lower, shown.upper);
        shown.width = third.width;
        shown.beat = entry.beat;
        shown.asSpelled = third.asSpelled;
        shown.compared = widthIn(model.compared(), third);
        words << TemperamentText::tr("%1 %2 cents, %3 beats a second")
                     .arg(shown.name, signedCents(shown.width), signedBeats(shown.beat));
        picture.thirds.push_back(shown);
    }
    picture.description = words.join(TemperamentText::tr("; "));
    return picture;
}

QStringList aboutText(const TemperamentDescription& about) {
    QStringList text;
    text << (about.year.empty()
                 ? coreText(about.source)
                 : TemperamentText::tr("%1. %2").arg(coreText(about.year), coreText(about.source)));
    if (!about.disagreement.empty()) {
        text << TemperamentText::tr("Disputed: %1").arg(coreText(about.disagreement));
    }
    text << TemperamentText::tr("%1 %2")
                .arg(statusText(about.status), coreText(about.statusNote))
                .trimmed();
    text.removeAll(QString());
    return text;
}

QString bearingText(const BearingStep& step) {
    switch (step.kind) {
    case StepKind::Tune:
        return tuneSentence(step);
    case StepKind::Temporary:
        return (tunesTheUpper(step)
                    ? TemperamentText::tr(
                          "For now, tune %1 above %2 (%3), beatless; it is corrected "
                          "later.")
                    : TemperamentText::tr(
                          "For now, tune %1 below %2 (%3), beatless; it is corrected "
                          "later."))
            .arg(noteText(step.tune), noteText(step.against), intervalText(step.interval));
    case StepKind::Share:
        return TemperamentText::tr(
                   "Set %1 so that the %2 with %3 and the %4 with %5 feel alike: %6, "
                   "and %7.")
            .arg(noteText(step.tune),
                 intervalText(step.interval),
                 noteText(step.against),
                 intervalText(step.alike->interval),
                 noteText(step.alike->with),
                 beatsPhrase(step.beat),
                 beatsPhrase(step.alike->beat));
    case StepKind::Check:
        return TemperamentText::tr("Check %1\u2013%2 (%3): %4.")
            .arg(noteText(tunesTheUpper(step) ? step.against : step.tune),
                 noteText(tunesTheUpper(step) ? step.tune : step.against),
                 intervalText(step.interval),
                 beatsPhrase(step.beat));
    }
    return {};
}

QString signedBeats(BeatRate beat) {
    const double shown = std::round(beat.perSecond() * 10.0) / 10.0;
    if (std::abs(beat.perSecond()) < kNoBeatBelow) {
        return QStringLiteral("0");
    }
    return (beat.perSecond() < 0.0 ? QString(kMinusSign) : QStringLiteral("+")) +
           QLocale().toString(std::abs(shown), 'f', 1);
}

QString temperamentTitle(const TemperamentDescription& about) {
    return about.year.empty()
               ? coreText(about.name)
               : TemperamentText::tr("%1 (%2)").arg(coreText(about.name), coreText(about.year));
}

QStringList recognitionText(const Recognition& recognition) {
    if (recognition.matches.empty()) {
        return {};
    }
    const TemperamentMatch& best = recognition.matches.front();
    const auto good = std::count_if(recognition.matches.begin(),
                                    recognition.matches.end(),
                                    [](const TemperamentMatch& one) { return one.asGoodAsBest; });
    const QString title = temperamentTitle(best.temperament->description());
    QStringList text;
    if (!recognition.known) {
        text << TemperamentText::tr("None of the catalogue. The nearest is %1.").arg(title);
    } else if (good > 1) {
        text << TemperamentText::tr(
                    "%1, or another one that cannot be told from it: those written in ink below.")
                    .arg(title);
    } else {
        text << TemperamentText::tr("%1.").arg(title);
    }
    text << TemperamentText::tr(
                "At a\u2032 = %1 %2 cents, the twelve notes lie %3 %4 cents from it in "
                "the mean; furthest is %5, %6 cents.")
                .arg(hertzText(best.a4),
                     plusMinus(best.a4Uncertainty),
                     sizeInCents(best.distance),
                     plusMinus(best.distanceUncertainty),
                     pitchClassText(best.furthest),
                     signedCents(best.furthestBy));
    return text;
}

} // namespace quillbench
