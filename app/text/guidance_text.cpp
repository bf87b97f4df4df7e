#include "app/text/guidance_text.hpp"

#include "app/text/format.hpp"

#include <QCoreApplication>
#include <QStringList>

namespace quillbench {

namespace {

struct GuidanceText {
    Q_DECLARE_TR_FUNCTIONS(GuidanceText)
};

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
                ? GuidanceText::tr("%1 had settled and has sunk by %2 cents. Tune it again.")
                : GuidanceText::tr("%1 had settled and has risen by %2 cents. Tune it again."))
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
    return GuidanceText::tr("The octave is done: %1. Play any of its keys to look at it again.")
        .arg(parts.join(GuidanceText::tr(", ")));
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
    const QString next =
        guidance.next ? noteText(session.plan->steps[*guidance.next].note) : QString();
    switch (guidance.ask) {
    case Ask::PlayKey:
        return registers ? GuidanceText::tr("%1. Play %2.")
                               .arg(registrationText(instrument, session.plan->choir), note)
                         : GuidanceText::tr("Play %1.").arg(note);
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
        return GuidanceText::tr("%1 has settled. Now play %2.").arg(note, next);
    case Ask::KeptNext:
        return session.progress[guidance.step].state == StepState::Skipped
                   ? GuidanceText::tr("%1 is skipped. Now play %2.").arg(note, next)
                   : GuidanceText::tr("%1 is kept as it is. Now play %2.").arg(note, next);
    case Ask::Slipped:
        return slippedText(note, guidance.amount);
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
        return GuidanceText::tr("That key is not in this octave; nothing is kept of it.");
    case Hearing::Nothing:
        return GuidanceText::tr("No string of this choir was recognised in the last pluck.");
    }
    return {};
}

QString registrationText(const Instrument& instrument, std::size_t choir) {
    const auto solo = soloRegister(instrument, choir);
    QString name = solo ? toQString(instrument.registers[*solo].name)
                        : toQString(choirLabel(instrument.choirs[choir]));
    if (!name.isEmpty()) {
        name[0] = name[0].toUpper();
    }
    QStringList along;
    for (const std::size_t other : unsilenced(instrument, choir)) {
        along << toQString(choirLabel(instrument.choirs[other]));
    }
    if (!along.isEmpty()) {
        return GuidanceText::tr("%1 on, everything else off; felt between the strings of %2")
            .arg(name, along.join(GuidanceText::tr(" and ")));
    }
    return instrument.registers.size() > 1
               ? GuidanceText::tr("%1 on, everything else off").arg(name)
               : GuidanceText::tr("%1 on").arg(name);
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
