#include "app/text/guidance_text.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/step_text.hpp"

#include <QCoreApplication>
#include <QStringList>

namespace quillbench {

namespace {

struct GuidanceText {
    Q_DECLARE_TR_FUNCTIONS(GuidanceText)
};

/// A plan of fewer steps is one octave.
constexpr std::size_t kFewSteps = 20;

/// "12.3 cents (2.5° of the pin)", as far as known.
QString wayText(const Guidance& guidance) {
    QString cents = GuidanceText::tr("%1 cents").arg(sizeInCents(guidance.amount));
    if (!guidance.degrees) {
        return cents;
    }
    return GuidanceText::tr("%1 (%2 of the pin)").arg(cents, degreesText(*guidance.degrees));
}

QString slippedText(const QString& note, Cents by) {
    return (by < Cents(0.0)
                ? GuidanceText::tr("%1 was done and has sunk by %2 cents. Tune it again.")
                : GuidanceText::tr("%1 was done and has risen by %2 cents. Tune it again."))
        .arg(note, sizeInCents(by));
}

QString doneText(const Session& session) {
    QStringList parts;
    parts << GuidanceText::tr("%1 settled").arg(session.countOf(StepState::Settled));
    if (const std::size_t kept = session.countOf(StepState::Kept); kept > 0) {
        parts << GuidanceText::tr("%1 kept as they are").arg(kept);
    }
    if (const std::size_t skipped = session.countOf(StepState::Skipped); skipped > 0) {
        parts << GuidanceText::tr("%1 skipped").arg(skipped);
    }
    const bool octave = session.plan->steps.size() < kFewSteps;
    return (octave ? GuidanceText::tr(
                         "The octave is done: %1. Play any of its keys to look at it again.")
                   : GuidanceText::tr("The plan is done: %1. Play any key to look at it again."))
        .arg(parts.join(GuidanceText::tr(", ")));
}

/// What to do at a step that was not touched yet; with how the instrument shall stand where that is new.
QString
beginText(const Session& session, const Instrument& instrument, std::size_t step, bool registers) {
    const TuningStep& one = session.plan->steps[step];
    QString what;
    if (one.work == StepWork::Sweep) {
        what = sweepText(instrument, session, step);
    } else if (one.work == StepWork::Check) {
        what = GuidanceText::tr("Only listen to %1.").arg(pairText(instrument, one));
    } else if (session.byEar(step)) {
        what = GuidanceText::tr("Tune %1.").arg(pairText(instrument, one));
    } else {
        what = GuidanceText::tr("Play %1.").arg(noteText(one.note));
    }
    return registers ? GuidanceText::tr("%1. %2").arg(
                           drawingText(instrument, session.drawingOf(step)), what)
                     : what;
}

/// "A3 has settled." and where to go from there.
QString nextText(const Guidance& guidance,
                 const Session& session,
                 const Instrument& instrument,
                 const QString& said) {
    if (!guidance.next) {
        return said;
    }
    const TuningStep& next = session.plan->steps[*guidance.next];
    const bool newDrawing = session.drawingOf(*guidance.next) != session.drawingOf(guidance.step);
    const bool plain = !newDrawing && next.work != StepWork::Sweep &&
                       next.work != StepWork::Check && !(session.way == Way::ByEar && next.pair);
    if (plain) {
        return GuidanceText::tr("%1 Now play %2.").arg(said, noteText(next.note));
    }
    if (newDrawing) {
        // How the instrument shall stand and what to play: two sentences are enough.
        return beginText(session, instrument, *guidance.next, true);
    }
    return GuidanceText::tr("%1 %2").arg(said,
                                         beginText(session, instrument, *guidance.next, false));
}

QString keptText(const Guidance& guidance, const Session& session, const QString& note) {
    if (session.progress[guidance.step].state == StepState::Skipped) {
        return GuidanceText::tr("%1 is skipped.").arg(note);
    }
    if (guidance.outside) {
        return GuidanceText::tr("%1 is kept, %2 cents %3 of its place.")
            .arg(note, sizeInCents(guidance.amount), sharpOrFlat(guidance.amount));
    }
    return GuidanceText::tr("%1 is kept as it is.").arg(note);
}

/// What is played first stands first.
QString referenceFirstText(const Guidance& guidance,
                           const Session& session,
                           const Instrument& instrument,
                           bool registers) {
    const TuningStep& step = session.plan->steps[guidance.step];
    const QString said =
        (guidance.referenceBeats
             ? GuidanceText::tr(
                   "Play %1 alone once more: it seems to beat by itself. Then tune %2.")
             : GuidanceText::tr("First play %1 once alone: the beat is then told finer. Then tune "
                                "%2."))
            .arg(noteText(step.pair->note), pairText(instrument, step));
    return registers ? GuidanceText::tr("%1. %2").arg(
                           drawingText(instrument, session.drawingOf(guidance.step)), said)
                     : said;
}

QString listenText(const Guidance& guidance,
                   const Session& session,
                   const Instrument& instrument,
                   bool registers) {
    if (guidance.referenceFirst) {
        return referenceFirstText(guidance, session, instrument, registers);
    }
    return registers ? beginText(session, instrument, guidance.step, true)
                     : GuidanceText::tr("Tune %1. Accept it when you are content.")
                           .arg(pairText(instrument, session.plan->steps[guidance.step]));
}

QString degreesOf(const Guidance& guidance) {
    return guidance.degrees
               ? GuidanceText::tr(" (about %1 of the pin)").arg(degreesText(*guidance.degrees))
               : QString();
}

} // namespace

QString sentenceFor(const Guidance& guidance,
                    const Session& session,
                    const Instrument& instrument,
                    bool registers) {
    const TuningStep& step = session.plan->steps[guidance.step];
    const QString note = noteText(step.note);
    switch (guidance.ask) {
    case Ask::PlayKey:
    case Ask::PlayEach:
    case Ask::HearCheck:
        return beginText(session, instrument, guidance.step, registers);
    case Ask::ListenPair:
        if (guidance.meterUnsure) {
            return GuidanceText::tr(
                       "No number is sure enough for %1: its partials beat by themselves. "
                       "By ear: %2")
                .arg(note, beginText(session, instrument, guidance.step, registers));
        }
        return listenText(guidance, session, instrument, registers);
    case Ask::AsNear:
        return GuidanceText::tr("%1 is as near as it can be heard here. Accept it as it is.")
            .arg(note);
    case Ask::EitherWay:
        return GuidanceText::tr(
                   "It beats, but to which side is not heard. Turn %1 a hair: does it slow down?")
            .arg(note);
    case Ask::OtherMoved:
        return GuidanceText::tr("Stop: the hammer sits on the pin of %1, not of %2. It has moved "
                                "by %3 cents.")
            .arg(stringText(instrument, guidance.string, step.alone.registration.position),
                 note,
                 signedCents(guidance.amount));
    case Ask::PressNow:
        return GuidanceText::tr("Pluck %1 and press its string lightly between nut and pin with a "
                                "wooden stick, eyes away from it.")
            .arg(note);
    case Ask::PressMissed:
        return GuidanceText::tr(
                   "%1 did not sharpen: another string was pressed. Look along the string again.")
            .arg(note);
    case Ask::LowerFirst:
        return GuidanceText::tr(
                   "Make sure of the pin: turn %1 down by 2 to 5 cents%2 and pluck it.")
            .arg(note, degreesOf(guidance));
    case Ask::LowerHeard:
        return GuidanceText::tr("That is the pin of %1. Now up by %2, to a little above.")
            .arg(note, wayText(guidance));
    case Ask::BringUp:
        return GuidanceText::tr("Up by %1, to a little above, and pluck %2.")
            .arg(wayText(guidance), note);
    case Ask::HairUp:
        return GuidanceText::tr("%1 a hair up: %2.").arg(note, wayText(guidance));
    case Ask::LetDown:
        return GuidanceText::tr("Let %1 down by %2 and pluck it.").arg(note, wayText(guidance));
    case Ask::SettleDown:
        return GuidanceText::tr("Settle %1 down into the target: %2.").arg(note, wayText(guidance));
    case Ask::HearAgain:
        return GuidanceText::tr(
                   "%1 was not heard well. Pluck it once more before the pin is turned.")
            .arg(note);
    case Ask::PluckAgain:
        return guidance.plucksWanted > 1
                   ? GuidanceText::tr(
                         "%1 is there. Hand off the hammer, and pluck it briskly %2 times more.")
                         .arg(note)
                         .arg(guidance.plucksWanted)
                   : GuidanceText::tr("%1 is there. Hand off the hammer, and pluck it once more.")
                         .arg(note);
    case Ask::NotMoving:
        return GuidanceText::tr("Stop: %1 is not moving. See whether the hammer sits on its pin.")
            .arg(note);
    case Ask::TooHigh:
        return GuidanceText::tr("Stop: %1 stands %2 cents above its target. Eyes away from the "
                                "string; let it down now.")
            .arg(note, sizeInCents(guidance.amount));
    case Ask::SettledNext:
        return nextText(guidance,
                        session,
                        instrument,
                        step.work == StepWork::Sweep
                            ? GuidanceText::tr("All were heard.")
                            : GuidanceText::tr("%1 has settled.").arg(note));
    case Ask::KeptNext:
        return nextText(guidance, session, instrument, keptText(guidance, session, note));
    case Ask::Slipped:
        return slippedText(note, guidance.amount);
    case Ask::RepeatChoir:
        return GuidanceText::tr(
                   "The %1 moved by %2 cents on average and pulls the rest along. F12 goes "
                   "through it once more%3.")
            .arg(choirText(instrument.choirs[guidance.string.choir]),
                 sizeInCents(guidance.amount),
                 guidance.next ? GuidanceText::tr("; the next key goes on") : QString());
    case Ask::AllDone:
        return doneText(session);
    case Ask::Paused:
        return GuidanceText::tr("Paused: nothing that sounds is counted.");
    }
    return {};
}

QString hearingText(Hearing hearing) {
    switch (hearing) {
    case Hearing::Good:
        return {};
    case Hearing::Weak:
        return GuidanceText::tr("The last pluck was too weak or too short to count.");
    case Hearing::Noisy:
        return GuidanceText::tr("Too much noise: the last pluck does not count.");
    case Hearing::TwoStrings:
        return GuidanceText::tr("Two strings sound: is another register on?");
    case Hearing::OtherNote:
        return GuidanceText::tr("That key is not in this plan; nothing is kept of it.");
    case Hearing::Nothing:
        return GuidanceText::tr("No string of this choir was recognised in the last pluck.");
    }
    return {};
}

QString stateText(StepState state) {
    switch (state) {
    case StepState::Untouched:
        return GuidanceText::tr("not yet");
    case StepState::Working:
        return GuidanceText::tr("at work");
    case StepState::Settled:
        return GuidanceText::tr("settled");
    case StepState::Kept:
        return GuidanceText::tr("kept");
    case StepState::Skipped:
        return GuidanceText::tr("skipped");
    }
    return {};
}

} // namespace quillbench
