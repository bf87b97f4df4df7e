#include "app/places/practise/practise_text.hpp"

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

struct PractiseText {
    Q_DECLARE_TR_FUNCTIONS(PractiseText)
};

QString countSentence(const PractiseModel& model) {
    if (model.phase() == PractisePhase::Asked) {
        return PractiseText::tr("Return plays. Tap the space bar or any letter with every beat.");
    }
    if (model.shownSlowly()) {
        return PractiseText::tr(
            "The breath at a third of its speed: a tone swells as the beat does. "
            "F5 plays the strings; tap with them.");
    }
    if (model.taps().size() < 3) {
        return model.sounding()
                   ? PractiseText::tr("Tap with the beat: space bar or any letter.")
                   : PractiseText::tr("It has faded. F5 plays it again; tap at least three times.");
    }
    return PractiseText::tr("Taps: %1. Return when your count is steady.").arg(model.taps().size());
}

QString directionSentence(const PractiseModel& model) {
    if (model.phase() == PractisePhase::Asked) {
        return PractiseText::tr("Return plays. Is the upper string wide or narrow of pure?");
    }
    return PractiseText::tr(
        "W wide, N narrow. ↑ ↓ turn the pin a hair: raising a wide string "
        "quickens the beat, raising a narrow one slows it. Space plucks again.");
}

QString pinSentence(const PractiseModel& model) {
    const Exercise& exercise = *model.exercise();
    const bool leave = exercise.kind == ExerciseKind::LeaveALittle;
    const QString aim = leave
                            ? PractiseText::tr("Leave it %1 beats a second %2 (%3).")
                                  .arg(rateText(exercise.wanted * exercise.multiple, 0.01),
                                       exercise.wanted > BeatRate(0.0) ? PractiseText::tr("wide")
                                                                       : PractiseText::tr("narrow"),
                                       coreText(model.scale().temperament.description().name))
                            : PractiseText::tr("Bring the upper string to stillness.");
    return model.phase() == PractisePhase::Asked
               ? aim + QLatin1Char(' ') + PractiseText::tr("Return plays.")
               : aim + QLatin1Char(' ') +
                     PractiseText::tr("↑ ↓ turn the pin, Shift turns more, L lets the hammer go, "
                                      "space plucks. Come from above. Return when content.");
}

QString compareSentence(const PractiseModel& model) {
    return model.phase() == PractisePhase::Asked
               ? PractiseText::tr("Return plays two sounds. Which one beats faster?")
           : model.bothHeard()
               ? PractiseText::tr("1: the first was faster. 2: the second. F5 plays both again.")
               : PractiseText::tr("The first …");
}

/// A step of a whole plan.
QString stepSentence(const PractiseModel& model) {
    const PracticeBearings& bearings = *model.bearings();
    const BearingStep& step = bearings.steps()[bearings.at()];
    const QString count =
        PractiseText::tr("Step %1 of %2.").arg(bearings.at() + 1).arg(bearings.steps().size());
    const QString what = PractiseText::tr("%1, %2").arg(
        intervalText(step.interval), beatText(step.beat * model.exercise()->multiple));
    QString text;
    if (step.kind == StepKind::Check) {
        text = PractiseText::tr("%1 Check %2 with %3: %4. Return goes on, Backspace back.")
                   .arg(count, noteText(step.tune), noteText(step.against), what);
    } else if (step.fromStandard) {
        text = PractiseText::tr("%1 Set %2 from the fork (the second 8′ sounds it): %3.")
                   .arg(count, noteText(step.tune), what);
    } else {
        text = PractiseText::tr("%1 Set %2 with %3: %4.")
                   .arg(count, noteText(step.tune), noteText(step.against), what);
    }
    if (step.alike) {
        text +=
            QLatin1Char(' ') +
            PractiseText::tr("With %1 it shall then feel alike.").arg(noteText(step.alike->with));
    }
    return model.phase() == PractisePhase::Asked
               ? text + QLatin1Char(' ') + PractiseText::tr("Return plays.")
               : text;
}

/// What came of a whole plan.
QString planVerdict(const PractiseModel& model) {
    double worst = 0.0;
    double most = 0.0;
    std::size_t settled = 0;
    std::size_t set = 0;
    for (const BearingLeft& left : model.bearings()->left()) {
        if (model.bearings()->sets(left.step)) {
            worst = std::max(worst, std::abs(left.interval.value()));
            most = std::max(most, std::abs(left.note.value()));
            settled += std::size_t{model.stepPaths()[left.step].settled ? 1U : 0U};
            ++set;
        }
    }
    return PractiseText::tr(
               "The bearings are laid. Farthest off: a step by %1 cents, a note by %2. "
               "Pins settled: %3 of %4. Return begins another.")
        .arg(sizeInCents(Cents(worst)), sizeInCents(Cents(most)))
        .arg(settled)
        .arg(set);
}

/// What a pin should make of it.
QString aimText(const Exercise& exercise) {
    if (exercise.kind != ExerciseKind::LeaveALittle) {
        return PractiseText::tr("still");
    }
    return PractiseText::tr("%1 beats a second %2")
        .arg(rateText(exercise.wanted * exercise.multiple, 0.01),
             exercise.wanted > BeatRate(0.0) ? PractiseText::tr("wide")
                                             : PractiseText::tr("narrow"));
}

/// On the learner's own instrument.
QString ownSentence(const PractiseModel& model) {
    const Exercise& exercise = *model.exercise();
    const QString keys = keysOf(exercise);
    const QString what = pairDetail(
        model.instrument(), intervalOf(exercise.interval), exercise.lower, exercise.upper);
    if (model.phase() == PractisePhase::Asked) {
        return exercise.lowerKey == exercise.upperKey
                   ? PractiseText::tr("On your instrument: %1 (%2). The first of them alone for a "
                                      "second, then both; let them ring. Return begins.")
                         .arg(keys, what)
                   : PractiseText::tr("On your instrument: %1 (%2). The lower string alone for a "
                                      "second, then both; let them ring. Return begins.")
                         .arg(keys, what);
    }
    if (model.own()->otherPair()) {
        return PractiseText::tr("Heard two other strings. Wanted: %1 (%2).").arg(keys, what);
    }
    if (model.phase() == PractisePhase::Measuring) {
        return PractiseText::tr("Play %1 once more and let both ring for three seconds.").arg(keys);
    }
    switch (exercise.kind) {
    case ExerciseKind::Count:
        return PractiseText::tr("Play %1 and tap with the beat. Taps: %2. Return shows.")
            .arg(keys)
            .arg(model.taps().size());
    case ExerciseKind::WhichWay:
        return PractiseText::tr("Play %1. Is the upper string wide or narrow of pure? W, N.")
            .arg(keys);
    case ExerciseKind::BringTogether:
    case ExerciseKind::LeaveALittle:
    case ExerciseKind::Compare:
        break;
    }
    const QString aim = aimText(exercise);
    return PractiseText::tr("Make %1 %2, by ear, small turns, a little down first. Hand off, play "
                            "both, Return when content.")
        .arg(keys, aim);
}

QString countVerdict(const PractiseModel& model) {
    const auto tapped = model.tapped();
    const auto& score = model.score();
    if (!tapped || !score) {
        return {};
    }
    const QString counted = PractiseText::tr("You counted %1 %2")
                                .arg(rateText(BeatRate(tapped->perSecond), tapped->uncertainty),
                                     rateUncertainty(tapped->uncertainty));
    switch (score->verdict) {
    case CountVerdict::Right:
        return PractiseText::tr("%1: right.").arg(counted);
    case CountVerdict::Wrong:
        return score->error > 0.0 ? PractiseText::tr("%1: too fast.").arg(counted)
                                  : PractiseText::tr("%1: too slow.").arg(counted);
    case CountVerdict::OtherPartials:
        return PractiseText::tr("%1: a true beat, but of partials that beat %2 times as fast. Not "
                                "judged; listen lower.")
            .arg(counted)
            .arg(score->multiple);
    case CountVerdict::TooVague:
        break;
    }
    return PractiseText::tr("%1: too uneven to judge. Tap longer.").arg(counted);
}

QString settingVerdict(const PractiseModel& model) {
    QString text;
    if (model.wished().kind == ExerciseKind::LeaveALittle || model.own()) {
        text = PractiseText::tr("Wanted: %1.").arg(aimText(*model.exercise()));
    }
    if (model.own()) {
        return text;
    }
    text += text.isEmpty() ? QString() : QStringLiteral(" ");
    const PinPath& path = model.path();
    text += path.fromAbove ? PractiseText::tr("Came down into place")
                           : PractiseText::tr("Came up into place (from above it sits firmer)");
    text += path.settled
                ? PractiseText::tr("; settled.")
                : PractiseText::tr("; not settled: let the hammer go (L), pluck, then judge.");
    if (path.tooHigh) {
        text +=
            QLatin1Char(' ') +
            PractiseText::tr("It stood %1 cents above: on an old instrument a string could break.")
                .arg(sizeInCents(path.highest));
    }
    return text;
}

} // namespace

QString exerciseName(ExerciseKind kind) {
    switch (kind) {
    case ExerciseKind::Count:
        return PractiseText::tr("Count");
    case ExerciseKind::WhichWay:
        return PractiseText::tr("Which way");
    case ExerciseKind::BringTogether:
        return PractiseText::tr("Bring together");
    case ExerciseKind::Compare:
        return PractiseText::tr("Compare");
    case ExerciseKind::LeaveALittle:
        break;
    }
    return PractiseText::tr("Leave a little");
}

QString intervalName(PracticeInterval interval) {
    switch (interval) {
    case PracticeInterval::Unison:
        return PractiseText::tr("unison");
    case PracticeInterval::FourFoot:
        return PractiseText::tr("4′ to 8′");
    case PracticeInterval::Octave:
        return PractiseText::tr("octave");
    case PracticeInterval::Fifth:
        return PractiseText::tr("fifth");
    case PracticeInterval::Fourth:
        return PractiseText::tr("fourth");
    case PracticeInterval::MajorThird:
        return PractiseText::tr("major third");
    case PracticeInterval::MajorSixth:
        return PractiseText::tr("major sixth");
    case PracticeInterval::MinorThird:
        return PractiseText::tr("minor third");
    case PracticeInterval::MinorSixth:
        break;
    }
    return PractiseText::tr("minor sixth");
}

QString registerName(EarRegister earRegister) {
    switch (earRegister) {
    case EarRegister::Bass:
        return PractiseText::tr("bass");
    case EarRegister::Tenor:
        return PractiseText::tr("tenor");
    case EarRegister::Middle:
        return PractiseText::tr("middle");
    case EarRegister::Treble:
        break;
    }
    return PractiseText::tr("treble");
}

QString keysOf(const Exercise& exercise) {
    const QString lower = noteText(exercise.lowerKey);
    return exercise.lowerKey == exercise.upperKey
               ? lower
               : PractiseText::tr("%1–%2").arg(lower, noteText(exercise.upperKey));
}

QString pinName(const PractiseModel& model) {
    return stringText(model.instrument(),
                      model.pair() ? pinOf(*model.pair()) : model.exercise()->upper);
}

QString practiseSentence(const PractiseModel& model) {
    if (model.bearings()) {
        return model.bearings()->done() ? planVerdict(model) : stepSentence(model);
    }
    if (!model.exercise() && model.own()) {
        return model.wished().interval == PracticeInterval::FourFoot
                   ? PractiseText::tr("A 4′ that sounds with its 8′ from one key cannot be heard "
                                      "apart yet. Choose another interval.")
                   : PractiseText::tr("Your instrument has no strings for this. Choose another "
                                      "interval or register.");
    }
    if (!model.exercise()) {
        return PractiseText::tr(
            "Nothing to leave here in this temperament. Choose another interval, "
            "register or temperament.");
    }
    if (model.own() && model.phase() != PractisePhase::Uncovered) {
        return ownSentence(model);
    }
    switch (model.phase()) {
    case PractisePhase::Measuring:
        return PractiseText::tr("Measuring what you heard …");
    case PractisePhase::Uncovered:
        return practiseVerdict(model) + QLatin1Char(' ') +
               (model.own() ? PractiseText::tr("Return: the next one.")
                            : PractiseText::tr("F5 plays it again, Return the next one."));
    case PractisePhase::Asked:
    case PractisePhase::Listening:
        break;
    }
    switch (model.wished().kind) {
    case ExerciseKind::Count:
        return countSentence(model);
    case ExerciseKind::WhichWay:
        return directionSentence(model);
    case ExerciseKind::Compare:
        return compareSentence(model);
    case ExerciseKind::BringTogether:
    case ExerciseKind::LeaveALittle:
        break;
    }
    return pinSentence(model);
}

QString practiseVerdict(const PractiseModel& model) {
    if (model.phase() != PractisePhase::Uncovered || !model.measured()) {
        return {};
    }
    const BeatDirection heard = model.measured()->reading.direction;
    if (!model.judgedBy().sure) {
        return PractiseText::tr("The analysis was not sure of what you played: not judged.");
    }
    if (model.own() && model.wished().kind == ExerciseKind::WhichWay &&
        heard == BeatDirection::Pure) {
        return PractiseText::tr("It was still, neither wide nor narrow: not judged.");
    }
    QString text;
    switch (model.wished().kind) {
    case ExerciseKind::Count:
        text = countVerdict(model);
        break;
    case ExerciseKind::WhichWay:
        text = PractiseText::tr("You said %1: %2.")
                   .arg(directionText(model.answered()),
                        model.right().value_or(false) ? PractiseText::tr("right")
                                                      : PractiseText::tr("wrong"));
        break;
    case ExerciseKind::Compare:
        text = PractiseText::tr("%1, then %2 beats a second. You said the %3: %4.")
                   .arg(rateText(model.exercise()->beat * model.exercise()->multiple, 0.05),
                        rateText(model.exercise()->second * model.exercise()->multiple, 0.05),
                        model.saidSecond() ? PractiseText::tr("second") : PractiseText::tr("first"),
                        model.right().value_or(false) ? PractiseText::tr("right")
                                                      : PractiseText::tr("wrong"));
        break;
    case ExerciseKind::BringTogether:
    case ExerciseKind::LeaveALittle:
        text = settingVerdict(model);
        break;
    }
    return model.helped() ? text + QLatin1Char(' ') + PractiseText::tr("With a hint: not counted.")
                          : text;
}

QString judgedByText(const PractiseModel& model) {
    if (model.phase() != PractisePhase::Uncovered || !model.measured() ||
        !model.judgedBy().byMotion) {
        return {};
    }
    const BeatReading& reading = model.measured()->reading;
    const int multiple = model.exercise()->multiple;
    const double uncertainty = reading.beatUncertainty * multiple;
    return reading.found
               ? PractiseText::tr(
                     "Judged by the strings' own motion: the analysis was not sure, it "
                     "read %1.")
                     .arg(rateText(reading.beat * multiple, uncertainty) + QChar(0x00a0) +
                          rateUncertainty(uncertainty))
               : PractiseText::tr(
                     "Judged by the strings' own motion: the analysis heard no two strings.");
}

QString listenAt(const PractiseModel& model) {
    if (!model.exercise()) {
        return {};
    }
    const Exercise& exercise = *model.exercise();
    const PartialPair lowest = intervalOf(intervalOf(exercise.interval)).pair;
    const PartialPair partials{lowest.ofLower * exercise.multiple,
                               lowest.ofUpper * exercise.multiple};
    const Hertz at =
        targetPitch(model.instrument(),
                    exercise.lower,
                    [&model](const Note& note) { return model.scale().pitchOf(note); }) *
        partials.ofLower;
    const QString hertz =
        QLocale().toString(at.value(), 'f', 0) + QChar(0x00a0) + QStringLiteral("Hz");
    if (exercise.lowerKey == exercise.upperKey) {
        return PractiseText::tr(
                   "Listen at partial %1 of the 8′ with partial %2 of the other string, "
                   "near %3.")
            .arg(partials.ofLower)
            .arg(partials.ofUpper)
            .arg(hertz);
    }
    return PractiseText::tr("Listen at partial %1 of %2 with partial %3 of %4, near %5.")
        .arg(partials.ofLower)
        .arg(noteText(exercise.lowerKey))
        .arg(partials.ofUpper)
        .arg(noteText(exercise.upperKey), hertz);
}

} // namespace quillbench
