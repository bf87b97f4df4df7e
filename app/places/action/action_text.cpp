#include "app/places/action/action_text.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct ActionText {
    Q_DECLARE_TR_FUNCTIONS(ActionText)
};

QString oneDigit(double value) {
    return QLocale().toString(std::abs(value), 'f', 1);
}

QString percent(double part) {
    return QLocale().toString(std::round(100.0 * part), 'f', 0);
}

QString milliseconds(double seconds) {
    return QLocale().toString(std::round(1000.0 * seconds), 'f', 0);
}

QString screwText(bool adjusters, JackTurn turn) {
    if (!adjusters) {
        return ActionText::tr("There is no screw for it: see that the jack slides freely and falls "
                              "back; work on the jack is for a maker.");
    }
    switch (turn) {
    case JackTurn::Earlier:
        return ActionText::tr("Its end screw, in steps of an eighth of a turn, so that the jack "
                              "stands higher; stop at resistance, old screws break. Then hear its "
                              "damper: it stands higher too.");
    case JackTurn::Later:
        return ActionText::tr("Its end screw, in steps of an eighth of a turn, so that the jack "
                              "stands lower; stop at resistance, old screws break.");
    case JackTurn::Either:
        break;
    }
    return ActionText::tr("See which of the two jacks stands unlike its neighbours, and turn that "
                          "one's end screw, an eighth of a turn at a time; stop at resistance.");
}

QString staggerWords(const ActionModel& model, const StaggerFinding& finding) {
    const QString first = registerName(model, finding.first);
    const QString second = registerName(model, finding.second);
    switch (finding.fault) {
    case StaggerFault::Together:
        return ActionText::tr("%1 and %2 pluck as one: a heavy key.").arg(first, second);
    case StaggerFault::WrongOrder:
        return ActionText::tr("%2 plucks before %1: the wrong way round.").arg(first, second);
    case StaggerFault::LastTooLate:
        return ActionText::tr("%1 comes too late, %2 times the usual gap: it may fail when the key "
                              "is not pressed right down.")
            .arg(second, oneDigit(finding.parts));
    case StaggerFault::PluckNotHeard:
        break;
    }
    return ActionText::tr("%1 was not heard: it does not pluck, or plucks with another.")
        .arg(first);
}

QString turnWords(const ActionModel& model, const StaggerFinding& finding) {
    if (finding.fault == StaggerFault::PluckNotHeard) {
        return ActionText::tr("Play it with that register alone first.");
    }
    if (!finding.jack) {
        return screwText(finding.adjusters, JackTurn::Either);
    }
    const QString jack = registerName(model, *finding.jack);
    const QString way = finding.turn == JackTurn::Earlier
                            ? ActionText::tr("Bring the jack of %1 earlier.").arg(jack)
                            : ActionText::tr("Bring the jack of %1 later.").arg(jack);
    return way + QLatin1Char(' ') + screwText(finding.adjusters, finding.turn);
}

QString symptomOf(StaggerFault fault) {
    switch (fault) {
    case StaggerFault::Together:
    case StaggerFault::WrongOrder:
        return QStringLiteral("heavy");
    case StaggerFault::LastTooLate:
        return QStringLiteral("late-pluck");
    case StaggerFault::PluckNotHeard:
        break;
    }
    return QStringLiteral("silent");
}

QString voiceWords(const VoiceFinding& finding) {
    switch (finding.fault) {
    case VoiceFault::Weak:
        return ActionText::tr("weak by %1 dB.").arg(oneDigit(finding.amount));
    case VoiceFault::Loud:
        return ActionText::tr("loud by %1 dB.").arg(oneDigit(finding.amount));
    case VoiceFault::Dull:
        return ActionText::tr("dull: its partials lie %1 octaves lower than the neighbours'.")
            .arg(oneDigit(finding.amount));
    case VoiceFault::Bright:
        return ActionText::tr("bright: its partials lie %1 octaves higher than the neighbours'.")
            .arg(oneDigit(finding.amount));
    case VoiceFault::NoisyAttack:
        return ActionText::tr("a noisy pluck, %1 dB more than the neighbours.")
            .arg(oneDigit(finding.amount));
    case VoiceFault::ShortSustain:
        break;
    }
    return ActionText::tr("dies away too soon, in %1 % of the usual time.")
        .arg(percent(std::pow(10.0, finding.amount / 10.0)));
}

QString voicerWords(const VoiceFinding& finding) {
    const bool weak = finding.fault == VoiceFault::Weak;
    if (weak || finding.fault == VoiceFault::Loud) {
        if (finding.cause == VoiceCause::Place) {
            return ActionText::tr(
                "The string moves like its neighbours': it is the board, the room "
                "or the microphone. Leave the plectrum.");
        }
        const QString cause = finding.cause == VoiceCause::Plectrum
                                  ? ActionText::tr("The string is displaced unlike its neighbours "
                                                   "too: the plectrum.")
                                  : ActionText::tr("Plectrum or place cannot be told yet.");
        const QString cure =
            weak ? ActionText::tr("See that the register is fully on and the jack free; a voicer "
                                  "would set it forward, or replace it.")
                 : ActionText::tr("A voicer would thin it from below where it bends least, last of "
                                  "all, and not on one day's evidence.");
        return cause + QLatin1Char(' ') + cure;
    }
    switch (finding.fault) {
    case VoiceFault::NoisyAttack:
        return ActionText::tr("Look at the tip and whether the tongue slaps.");
    case VoiceFault::ShortSustain:
        return ActionText::tr("See whether damper or buff touches while the key is down.");
    case VoiceFault::Weak:
    case VoiceFault::Loud:
    case VoiceFault::Dull:
    case VoiceFault::Bright:
        break;
    }
    return ActionText::tr("Compare the tip with its neighbours' before anything is cut.");
}

QString againWords(const VoiceFinding& finding) {
    return finding.heardTwice ? ActionText::tr("Heard again with the microphone elsewhere.")
           : finding.contradicted
               ? ActionText::tr("Not so with the microphone elsewhere: leave it.")
               : ActionText::tr("Move the microphone half a metre and play it again first.");
}

QString voiceSymptom(VoiceFault fault) {
    switch (fault) {
    case VoiceFault::Weak:
    case VoiceFault::Dull:
        return QStringLiteral("weak");
    case VoiceFault::Loud:
    case VoiceFault::Bright:
        return QStringLiteral("loud");
    case VoiceFault::NoisyAttack:
        return QStringLiteral("buzz");
    case VoiceFault::ShortSustain:
        break;
    }
    return QStringLiteral("short");
}

QString dampingWords(const DampingFinding& finding) {
    switch (finding.fault) {
    case DampingFault::NotAtAll:
        return ActionText::tr("rings on when the key is let go. The jack stays up, or its damper "
                              "does not reach the string.");
    case DampingFault::Slow:
        return ActionText::tr("stops %1 ms later than its neighbours: the damper grips badly. Look "
                              "at its felt, then at its height.")
            .arg(milliseconds(finding.amount));
    case DampingFault::Partial:
        return ActionText::tr(
                   "something sounds on under the damper, %1 dB more than beside it. See "
                   "whether the felt lies flat on the string.")
            .arg(oneDigit(finding.amount));
    case DampingFault::Early:
        return ActionText::tr(
                   "dies away while the key is still down, %1 dB a second faster than its "
                   "neighbours: damped early. See first that the buff is off and no neighbour's "
                   "damper touches; then this damper touches in play: raise it a hair. Cut nothing "
                   "on one day's evidence; an old damper is for its maker or a conservator.")
            .arg(oneDigit(finding.amount));
    case DampingFault::Late:
        break;
    }
    return ActionText::tr(
               "the damper takes hold %1 ms later than its neighbours', if the touch was "
               "even. It stands high, or the jack falls slowly.")
        .arg(milliseconds(finding.amount));
}

QString repetitionWords(const RepetitionReading& reading) {
    if (reading.hangs) {
        return ActionText::tr("plucked %1 of %2 times and then no more: the jack hangs.")
            .arg(reading.plucks.size())
            .arg(reading.asked);
    }
    QString words =
        ActionText::tr("%1 of %2 strokes plucked.").arg(reading.plucks.size()).arg(reading.asked);
    if (reading.missesFrom) {
        words += ActionText::tr(" It begins to miss at %1 strokes a second.")
                     .arg(oneDigit(*reading.missesFrom));
    }
    return words;
}

void addStaggerJobs(const ActionModel& model, const StaggerMap& map, std::vector<ActionJob>& jobs) {
    for (const StaggerFinding& finding : map.findings) {
        ActionJob job;
        job.key = finding.key;
        job.id = QStringLiteral("stagger-%1-%2-%3")
                     .arg(finding.key)
                     .arg(finding.first)
                     .arg(static_cast<int>(finding.fault));
        job.what = ActionText::tr("%1: %2 %3")
                       .arg(keyName(model, finding.key),
                            staggerWords(model, finding),
                            turnWords(model, finding));
        job.symptom = symptomOf(finding.fault);
        job.confidence = finding.confidence;
        jobs.push_back(job);
    }
}

void addVoiceJobs(const ActionModel& model,
                  const EvennessReport& report,
                  std::vector<ActionJob>& jobs) {
    const auto reg = model.registerAlone();
    for (const VoiceFinding& finding : report.findings) {
        ActionJob job;
        job.key = finding.key;
        job.id = QStringLiteral("voice-%1-%2-%3")
                     .arg(reg.value_or(0))
                     .arg(finding.key)
                     .arg(static_cast<int>(finding.fault));
        job.what = ActionText::tr("%1, %2: %3 %4 %5")
                       .arg(keyName(model, finding.key),
                            reg ? registerName(model, *reg) : QString(),
                            voiceWords(finding),
                            voicerWords(finding),
                            againWords(finding));
        job.symptom = voiceSymptom(finding.fault);
        job.confidence = finding.confidence;
        jobs.push_back(job);
    }
}

void addDamperJobs(const ActionModel& model,
                   const ActionFindings& findings,
                   std::vector<ActionJob>& jobs) {
    const auto reg = model.registerAlone();
    const QString name = reg ? registerName(model, *reg) : QString();
    for (const DampingFinding& finding : findings.damping.findings) {
        ActionJob job;
        job.key = finding.key;
        job.id = QStringLiteral("damper-%1-%2-%3")
                     .arg(reg.value_or(0))
                     .arg(finding.key)
                     .arg(static_cast<int>(finding.fault));
        job.what = ActionText::tr("%1, %2: %3")
                       .arg(keyName(model, finding.key), name, dampingWords(finding));
        job.symptom = finding.fault == DampingFault::Early ? QStringLiteral("short")
                                                           : QStringLiteral("rings-on");
        job.confidence = finding.confidence;
        jobs.push_back(job);
    }
    for (const auto& [key, reading] : findings.repetition) {
        if (reading.missed == 0) {
            continue;
        }
        ActionJob job;
        job.key = key;
        job.id = QStringLiteral("repeat-%1-%2").arg(reg.value_or(0)).arg(key);
        job.what =
            ActionText::tr("%1, %2: %3").arg(keyName(model, key), name, repetitionWords(reading));
        job.symptom = QStringLiteral("hangs");
        job.confidence = reading.hangs ? 0.95 : 0.8;
        jobs.push_back(job);
    }
}

} // namespace

QString keyName(const ActionModel& model, std::size_t key) {
    return noteText(model.tuning().instrument().compass.keys[key].note);
}

QString registerName(const ActionModel& model, std::size_t reg) {
    return coreText(model.tuning().instrument().registers[reg].name);
}

ActionFindings findingsOf(const ActionModel& model) {
    ActionFindings findings;
    if (!model.tuning().ready()) {
        return findings;
    }
    switch (model.task()) {
    case ActionTask::Stagger:
        findings.stagger = model.stagger();
        break;
    case ActionTask::Evenness:
        findings.evenness = model.evenness();
        break;
    case ActionTask::Dampers:
        findings.damping = model.damping();
        break;
    case ActionTask::Repetition:
        findings.repetition = model.repetition();
        break;
    }
    return findings;
}

QString actionSentence(const ActionModel& model, const ActionFindings& findings) {
    if (!model.tuning().ready()) {
        return {};
    }
    const std::size_t keys = model.tuning().instrument().compass.keys.size();
    const auto alone = model.registerAlone();
    if (model.task() == ActionTask::Stagger) {
        if (alone || model.rowsOn().empty()) {
            return ActionText::tr("Draw each register alone and play the keys once, so that it is "
                                  "known by its voice. Then draw them all.");
        }
        return ActionText::tr("Press each key three times, as slowly as you can, right down. %1 of "
                              "%2 keys heard; %3 known register by register.")
            .arg(findings.stagger.keys.size())
            .arg(keys)
            .arg(model.keysKnownAlone());
    }
    if (!alone) {
        return ActionText::tr("Draw one register alone.");
    }
    QString name = registerName(model, *alone);
    name[0] = name[0].toUpper();
    switch (model.task()) {
    case ActionTask::Evenness:
        return ActionText::tr("%1: play every key three times with the same touch, held a second. "
                              "%2 of %3 keys heard.")
            .arg(name)
            .arg(findings.evenness.keys)
            .arg(keys);
    case ActionTask::Dampers:
        return ActionText::tr("%1: strike every key three times, short and all alike, a second of "
                              "silence after each. %2 of %3 keys heard.")
            .arg(name)
            .arg(findings.damping.keys.size())
            .arg(keys);
    case ActionTask::Repetition:
        return ActionText::tr("%1: play one key ten times, as quickly as you can, then wait two "
                              "seconds. %2 keys heard.")
            .arg(name)
            .arg(findings.repetition.size());
    case ActionTask::Stagger:
        break;
    }
    return {};
}

std::vector<ActionJob> jobsOf(const ActionModel& model, const ActionFindings& findings) {
    std::vector<ActionJob> jobs;
    addStaggerJobs(model, findings.stagger, jobs);
    addVoiceJobs(model, findings.evenness, jobs);
    addDamperJobs(model, findings, jobs);
    return jobs;
}

} // namespace quillbench
