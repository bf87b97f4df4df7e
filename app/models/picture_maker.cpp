#include "app/models/picture_maker.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/guidance_text.hpp"
#include "app/text/sound_text.hpp"
#include "app/text/step_text.hpp"

#include <QCoreApplication>
#include <cmath>

namespace quillbench {

namespace {

struct PictureText {
    Q_DECLARE_TR_FUNCTIONS(PictureText)
};

/// What is shown of one string now: a growing reading, else the last mark of the current step.
struct Shown {
    StringId string;
    std::optional<std::size_t> step;
    std::optional<SoundingWire> wire;
    const StringReading* reading = nullptr; ///< the growing one
};

/// The last heard of a sweep, in the order of its plan where several were heard at once; it has no step of its own.
void showLastSwept(Shown& shown, const Session& session) {
    const auto& swept = session.here().swept;
    Seconds latest{0};
    for (const StringId string : session.step().sweep) {
        const auto found = swept.find(string);
        if (found != swept.end() && found->second.at >= latest) {
            const Mark& mark = found->second;
            latest = mark.at;
            shown.string = string;
            shown.wire = SoundingWire{mark.deviation, mark.uncertainty, false, mark.good};
        }
    }
}

Shown shownNow(const TuningModel& model, const Session& session, const AnalysisSnapshot* snapshot) {
    Shown shown{session.stringToPlay(session.current), session.current, std::nullopt, nullptr};
    if (snapshot != nullptr && snapshot->sounding && snapshot->reading &&
        snapshot->reading->standing != Standing::Nothing &&
        session.follows(snapshot->reading->pluck)) {
        const StringReading& reading = *snapshot->reading;
        shown.string = reading.string;
        const bool here = session.step().setsString() && session.step().string == reading.string;
        shown.step = here ? session.current : session.plan->stepOf(reading.string);
        shown.reading = &reading;
        shown.wire = SoundingWire{reading.deviation,
                                  model.withClock(reading.deviationUncertainty),
                                  true,
                                  reading.standing == Standing::Ok};
        return shown;
    }
    if (!session.here().marks.empty()) {
        const Mark& mark = session.here().marks.back();
        shown.wire = SoundingWire{mark.deviation, mark.uncertainty, false, mark.good};
    } else if (session.done(session.current)) {
        showLastSwept(shown, session);
    }
    return shown;
}

bool unknownPluck(const AnalysisSnapshot* snapshot) {
    return snapshot != nullptr && snapshot->sounding && snapshot->reading &&
           snapshot->reading->standing == Standing::Nothing &&
           snapshot->reading->used > Seconds(0.3);
}

QString wordsFor(const SoundingWire& wire) {
    return PictureText::tr("%1 cents, %2")
        .arg(plusMinus(wire.uncertainty), sharpOrFlat(wire.deviation));
}

/// In tenths of a cent, so that a picture changes only when its figures do.
Cents asShown(Cents cents) {
    return Cents(std::round(cents.value() * 20.0) / 20.0);
}

bool isBlackKey(const Key& key) {
    return key.shape.rfind("sharp", 0) == 0;
}

QString describeKeyboard(const TuningModel& model, const Session& session) {
    std::size_t total = 0;
    std::size_t settled = 0;
    for (std::size_t step = 0; step < session.progress.size(); ++step) {
        if (session.plan->steps[step].work == StepWork::Set) {
            ++total;
            settled += session.progress[step].state == StepState::Settled ? 1U : 0U;
        }
    }
    QString text = PictureText::tr("%1 of %2 strings settled").arg(settled).arg(total);
    if (const auto asked = session.asked()) {
        text += PictureText::tr("; %1 is asked for")
                    .arg(noteText(keyNote(
                        model.instrument(), session.stringToPlay(*asked), model.position())));
    }
    return text;
}

/// By ear the numbers of a string are covered until it is accepted.
bool isCovered(const Session& session, const std::optional<std::size_t>& step) {
    return step && session.covered(*step);
}

/// The keys' states in the lanes of their choirs. What a later pass sets for good is what counts.
void fillLanes(KeyboardPicture& picture,
               const Session& session,
               int position,
               const Instrument& instrument) {
    for (std::size_t index = 0; index < session.progress.size(); ++index) {
        const TuningStep& step = session.plan->steps[index];
        if (!step.setsString()) {
            continue;
        }
        const auto key = keyAt(instrument, step.string.course, position);
        auto& states = picture.lanes[step.string.choir].states;
        if (!key || *key >= states.size()) {
            continue;
        }
        const StepState state = session.progress[index].state;
        std::optional<StepState>& shown = states[*key];
        if (step.work == StepWork::Set) {
            const bool begun = shown && *shown != StepState::Untouched;
            shown = state == StepState::Untouched && begun ? StepState::Working : state;
        } else {
            shown = state == StepState::Untouched ? StepState::Untouched : StepState::Working;
        }
    }
}

} // namespace

WiresPicture
wiresPicture(const TuningModel& model, const Session& session, const AnalysisSnapshot* snapshot) {
    const Shown shown = shownNow(model, session, snapshot);
    WiresPicture picture;
    picture.tolerance = session.step().tolerance;
    if (!isCovered(session, shown.step)) {
        picture.sounding = shown.wire;
    }
    if (picture.sounding) {
        picture.sounding->deviation = asShown(picture.sounding->deviation);
        picture.sounding->uncertainty = asShown(picture.sounding->uncertainty);
    }
    if (shown.step && !isCovered(session, shown.step)) {
        const StepProgress& progress = session.progress[*shown.step];
        for (const Mark& mark : progress.marks) {
            picture.marks.push_back({mark.deviation, mark.uncertainty, mark.good});
        }
        const bool away =
            shown.wire && abs(shown.wire->deviation) > picture.tolerance + shown.wire->uncertainty;
        const bool done = progress.state == StepState::Kept || progress.state == StepState::Settled;
        const bool sets = session.plan->steps[*shown.step].work != StepWork::Sweep;
        picture.knotted = done && sets && !away;
        picture.danger = guide(session).danger && *shown.step == session.current;
    }
    const QString note = noteText(keyNote(model.instrument(), shown.string, model.position()));
    picture.description =
        isCovered(session, shown.step) ? PictureText::tr("%1: by ear, covered").arg(note)
        : !shown.wire                  ? PictureText::tr("%1: nothing heard yet").arg(note)
        : picture.knotted
            ? PictureText::tr("%1 has settled: the two wires lie together, tied").arg(note)
            : PictureText::tr("%1: %2 cents %3")
                  .arg(note, signedCents(shown.wire->deviation), wordsFor(*shown.wire));
    return picture;
}

FiguresPicture
figuresPicture(const TuningModel& model, const Session& session, const AnalysisSnapshot* snapshot) {
    const Shown shown = shownNow(model, session, snapshot);
    FiguresPicture picture;
    picture.ringing = snapshot != nullptr && snapshot->sounding;
    if (unknownPluck(snapshot)) {
        picture.note = QStringLiteral("?");
        picture.words = PictureText::tr("not recognised");
        picture.remark = warningText(*snapshot->reading);
        return picture;
    }
    const Choir& choir = model.instrument().choirs[shown.string.choir];
    picture.note = noteText(keyNote(model.instrument(), shown.string, model.position()));
    picture.choir = PictureText::tr("%1, target %2")
                        .arg(choirText(choir), hertzText(model.targetOf(shown.string)));
    if (model.choice().extent == Extent::Whole) {
        picture.choir =
            PictureText::tr("%1: %2").arg(phaseText(session.step().phase), picture.choir);
    }
    if (isCovered(session, shown.step)) {
        picture.words = PictureText::tr("by ear: covered until you accept it");
    } else if (shown.wire) {
        picture.deviation = signedCents(shown.wire->deviation);
        picture.words = wordsFor(*shown.wire);
    } else {
        picture.words = PictureText::tr("not heard yet");
    }
    picture.remark =
        shown.reading != nullptr ? warningText(*shown.reading) : hearingText(session.hearing);
    picture.danger = guide(session).danger && shown.step == session.current;
    return picture;
}

KeyboardPicture keyboardPicture(const TuningModel& model,
                                const Session& session,
                                const AnalysisSnapshot* snapshot) {
    const Instrument& instrument = model.instrument();
    KeyboardPicture picture;
    for (const Key& key : instrument.compass.keys) {
        KeyShown shown;
        shown.name = noteText(key.note);
        shown.column = key.column;
        shown.sharp = isBlackKey(key);
        shown.front = key.shape == "sharp-front";
        shown.back = key.shape == "sharp-back";
        picture.keys.push_back(shown);
    }
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        LaneShown lane;
        lane.choir = choirText(instrument.choirs[choir]);
        lane.states.resize(picture.keys.size());
        picture.lanes.push_back(std::move(lane));
    }
    fillLanes(picture, session, model.position(), instrument);
    if (const auto asked = session.asked(); asked && !session.paused) {
        picture.asked = keyAt(instrument, session.stringToPlay(*asked).course, model.position());
    }
    picture.heard = heardKey(model, snapshot);
    picture.description = describeKeyboard(model, session);
    return picture;
}

std::optional<std::size_t> heardKey(const TuningModel& model, const AnalysisSnapshot* snapshot) {
    if (snapshot == nullptr || !snapshot->sounding || !snapshot->reading ||
        snapshot->reading->standing == Standing::Nothing) {
        return std::nullopt;
    }
    return keyAt(model.instrument(), snapshot->reading->string.course, model.position());
}

LevelPicture levelPicture(const AnalysisSnapshot* snapshot) {
    LevelPicture picture;
    if (snapshot != nullptr) {
        picture.level = std::round(snapshot->microphone.level.value());
        picture.peak = std::round(snapshot->microphone.peak.value());
        picture.trouble = microphoneText(snapshot->microphone);
    }
    return picture;
}

} // namespace quillbench
