#include "app/models/tuning_model.hpp"

#include "app/formats/instrument_file.hpp"
#include "app/formats/temperament_file.hpp"
#include "app/text/format.hpp"
#include "core/support/contract.hpp"
#include "core/workflow/whole_plan.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <tuple>
#include <utility>

namespace quillbench {

namespace {

constexpr double kCentsPerSemitone = 100.0;
constexpr double kCentsPerPpm = 1200.0 / 0.6931471805599453 * 1e-6; // 1 ppm of a frequency

/// The position wanted, where the instrument has it; else as built; else its first.
int positionOf(const Instrument& instrument, int wanted) {
    const std::vector<int>& all = instrument.positions;
    for (const int position : {wanted, 0}) {
        if (std::find(all.begin(), all.end(), position) != all.end()) {
            return position;
        }
    }
    return all.empty() ? 0 : all.front();
}

/// How far the pitch lies from the standard that a session was begun at.
Cents shiftOf(const TuningChoice& choice) {
    return choice.afterLook ? interval(Hertz(choice.afterLook->standardHz), Hertz(choice.a4Hz))
                            : Cents(0.0);
}

PlanOptions optionsOf(const TuningChoice& choice,
                      const Instrument& instrument,
                      std::size_t reference,
                      Note lowest,
                      int position) {
    PlanOptions options;
    options.reference = reference;
    options.position = position;
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        if (choir != reference &&
            choice.options.leftAlone.contains(toQString(instrument.choirs[choir].id))) {
            options.leaveAlone.push_back(choir);
        }
    }
    options.outward = choice.options.outward;
    options.approach = choice.options.approach;
    options.tolerances = choice.options.tolerances;
    options.feltOnSilenced = choice.options.felt;
    options.runThrough = choice.parts.runThrough;
    options.warmUp = choice.parts.warmUp;
    options.firstLook = choice.parts.firstLook;
    options.recheck = choice.parts.recheck;
    options.bearingsFrom = lowest;
    options.bearingsOrder = choice.order;
    if (choice.afterLook) {
        options.runThrough = options.warmUp = options.firstLook = false;
        options.expectedMove = expectedMoves(instrument, choice.afterLook->found, shiftOf(choice));
    }
    return options;
}

/// Where strings stand that were heard before the session went on at another pitch.
std::map<StringId, Mark> knownBefore(const TuningChoice& choice) {
    std::map<StringId, Mark> known;
    if (choice.afterLook) {
        for (const FoundString& found : choice.afterLook->found) {
            known[found.string] = Mark{found.deviation - shiftOf(choice), found.uncertainty};
        }
    }
    return known;
}

/// The instrument with its keys named by the temperament: every note of it may be read by its other name where no fifth is
/// a wolf, and of split sharps each key has its own.
Instrument namedBy(const Temperament& temperament, Instrument instrument) {
    std::vector<Key>& keys = instrument.compass.keys;
    const bool split =
        std::adjacent_find(keys.begin(), keys.end(), [](const Key& one, const Key& next) {
            return one.note.midiNumber() == next.note.midiNumber();
        }) != keys.end();
    if (!split && !temperament.closesWithoutWolf()) {
        for (Key& key : keys) {
            key.note = playedKey(temperament, key.note);
        }
    }
    return instrument;
}

bool fits(const TuningChoice& choice, const Instrument& instrument) {
    const auto isThere = [&](const FoundString& found) {
        return found.string.choir < instrument.choirs.size() &&
               found.string.course < instrument.choirs[found.string.choir].strings.size();
    };
    return !choice.afterLook ||
           std::all_of(choice.afterLook->found.begin(), choice.afterLook->found.end(), isThere);
}

/// What the analysis is asked for: it is told anew when this changes.
auto listensFor(const Session& session) {
    const auto asked = session.asked();
    return std::make_tuple(asked,
                           session.chosenByHand,
                           session.way,
                           asked ? session.stringToPlay(*asked) : StringId{},
                           asked ? session.aimOf(*asked) : Cents(0.0),
                           heardFar(session));
}

bool listensToPair(const TuningStep& step, const PairReading& reading) {
    return step.pair && ((step.string == reading.lower && step.pair->against == reading.upper) ||
                         (step.string == reading.upper && step.pair->against == reading.lower));
}

} // namespace

double standardAfterSliding(double a4Hz, int semitones) {
    constexpr double kNearCents = 10.0;
    const Hertz moved = transpose(Hertz(a4Hz), Cents(kCentsPerSemitone * semitones));
    for (const double standard : kStandardsHz) {
        if (std::abs(interval(moved, Hertz(standard)).value()) < kNearCents) {
            return standard;
        }
    }
    return moved.value();
}

double standardShifted(double a4Hz, Cents shift) {
    constexpr double kShownPerHz = 100.0;
    return std::round(transpose(Hertz(a4Hz), shift).value() * kShownPerHz) / kShownPerHz;
}

bool HeardPitch::holds(const QDateTime& now) const {
    constexpr qint64 kHalfADay = 43200; // s
    const qint64 since = at.secsTo(now);
    return since >= 0 && since < kHalfADay;
}

TuningModel::TuningModel(QObject* parent) : QObject(parent) {
}

Result<void> TuningModel::choose(const TuningChoice& choice) {
    const Result<Instrument> instrument = loadInstrument(choice.instrument.toStdString());
    if (!instrument) {
        return failure(
            instrument.error().code, instrument.error().text, instrument.error().context);
    }
    return choose(choice, *instrument);
}

Result<void> TuningModel::choose(const TuningChoice& choice, const Instrument& asBuilt) {
    const Result<Temperament> temperament = loadTemperament(choice.temperament.toStdString());
    if (!temperament) {
        return Unexpected<Error>(temperament.error());
    }
    if (!(choice.a4Hz >= kLowestStandardHz && choice.a4Hz <= kHighestStandardHz)) {
        return failure(ErrorCode::BadArgument,
                       "the pitch standard is " + std::to_string(choice.a4Hz) +
                           " Hz; it may be 370 to 570 Hz");
    }
    const Instrument instrument = namedBy(*temperament, asBuilt);
    const auto choir = choirOf(instrument, choice.choir.toStdString());
    if (!choir) {
        return failure(ErrorCode::BadArgument,
                       "this instrument has no choir \"" + choice.choir.toStdString() + "\"");
    }
    if (!fits(choice, instrument)) {
        return failure(ErrorCode::BadArgument,
                       "the first look heard strings that this instrument has not");
    }
    const Result<Note> lowest = parseNote(choice.lowest.toStdString());
    if (!lowest) {
        return failure(ErrorCode::BadArgument, lowest.error().text, "lowest key of the octave");
    }
    const TunedScale scale{*temperament, ReferencePitch{Hertz(choice.a4Hz), {{Letter::A, 0}, 4}}};
    const int position = positionOf(instrument, choice.position);
    const auto pitchOfKey = [&](const Note& note) { return scale.pitchOf(note); };
    const auto factsOf = [&](StringId string) {
        return factsAt(instrument.choirs[string.choir].strings[string.course],
                       targetPitch(instrument, string, pitchOfKey, position));
    };
    const PlanOptions options = optionsOf(choice, instrument, *choir, *lowest, position);
    Result<TuningPlan> plan = choice.extent == Extent::Whole
                                  ? planSession(instrument, scale, options, factsOf)
                                  : planFirstOctave(instrument, options, factsOf);
    if (!plan) {
        return failure(plan.error().code, plan.error().text);
    }
    choice_ = choice;
    choice_.position = position;
    asBuilt_ = asBuilt;
    instrument_ = instrument;
    scale_ = scale;
    position_ = position;
    heardToItsEnd_.reset();
    history_.emplace(
        begin(std::make_shared<const TuningPlan>(std::move(*plan)), knownBefore(choice)));
    registration_ = Registration{{}, false, position_};
    if (const auto solo = soloRegister(instrument_, *choir)) {
        registration_.on.set(*solo);
    }
    listStrings();
    renewTarget();
    Q_EMIT chosen();
    Q_EMIT registrationChanged();
    standAsPlanned();
    Q_EMIT sessionChanged();
    return {};
}

Result<void> TuningModel::chooseAgain() {
    EXPECTS(ready());
    TuningChoice again = choice_;
    again.options = optionsOfNext_;
    if (again.afterLook) {
        again.a4Hz = again.afterLook->standardHz;
        again.afterLook.reset();
    }
    return choose(again, asBuilt_);
}

Result<void> TuningModel::goOnAt(Cents shift) {
    EXPECTS(ready());
    const Session before = session();
    TuningChoice then = choice_;
    then.afterLook = AfterLook{choice_.a4Hz, {}};
    then.a4Hz = standardShifted(choice_.a4Hz, shift);
    then.afterLook->found.reserve(before.known.size());
    for (const auto& [string, mark] : before.known) {
        if (mark.good && mark.signKnown) {
            then.afterLook->found.push_back({string, mark.deviation, mark.uncertainty});
        }
    }
    if (Result<void> chosen = choose(then, asBuilt_); !chosen) {
        return chosen;
    }
    if (before.way != session().way) {
        act(GoBy{before.way});
    }
    // It also has the logbook begin the session: it is taken up at this pitch.
    act(Remark{session().step().string,
               tr("goes on at %1 after a first look at %2")
                   .arg(hertzText(Hertz(then.a4Hz)), hertzText(Hertz(then.afterLook->standardHz)))
                   .toStdString()});
    return {};
}

std::vector<PositionReport> TuningModel::positions() const {
    EXPECTS(ready());
    return positionReports(*scale_, position_, instrument_.positions);
}

std::size_t TuningModel::keyToPlay() const {
    EXPECTS(ready());
    const std::size_t step = session().asked().value_or(session().current);
    return keyAt(instrument_, session().stringToPlay(step).course, position_)
        .value_or(session().plan->steps[step].key);
}

Hertz TuningModel::targetOf(StringId string) const {
    EXPECTS(ready());
    return targetPitch(
        instrument_, string, [this](const Note& note) { return scale_->pitchOf(note); }, position_);
}

StringFacts TuningModel::factsOf(StringId string) const {
    return factsAt(instrument_.choirs[string.choir].strings[string.course], targetOf(string));
}

Cents TuningModel::withClock(Cents uncertainty) const {
    return Cents(std::hypot(uncertainty.value(), clock_.ppmUncertainty * kCentsPerPpm));
}

Session TuningModel::provisional(const AnalysisSnapshot* snapshot) const {
    const bool adds = snapshot != nullptr && snapshot->sounding && snapshot->reading &&
                      snapshot->reading->standing == Standing::Ok &&
                      heardToItsEnd_ != snapshot->reading->pluck;
    if (!adds) {
        return session();
    }
    const StringReading& reading = *snapshot->reading;
    return apply(session(), Heard{reading, withClock(reading.deviationUncertainty), Seconds(0.0)});
}

void TuningModel::keepShown(const AnalysisSnapshot* snapshot) {
    if (!ready()) {
        return;
    }
    const bool byEar = session().byEar(session().current);
    if (!byEar && provisional(snapshot).current != session().current) {
        const StringReading& reading = *snapshot->reading;
        act(Heard{reading,
                  withClock(reading.deviationUncertainty),
                  SampleRate().duration(reading.pluck - FrameIndex(0))});
    }
    act(Accept{});
}

void TuningModel::hear(const StringReading& reading, Seconds at) {
    heardToItsEnd_ = reading.pluck;
    act(Heard{reading, withClock(reading.deviationUncertainty), at});
}

void TuningModel::hear(const PairReading& reading, Seconds at) {
    if (!ready() || reading.moving) {
        return;
    }
    const auto& steps = session().plan->steps;
    if (std::any_of(steps.begin(), steps.end(), [&](const TuningStep& step) {
            return listensToPair(step, reading);
        })) {
        act(heardPair(reading, at));
    }
}

void TuningModel::act(const SessionEvent& event) {
    if (!ready()) {
        return;
    }
    const Session before = session();
    history_->apply(event);
    Q_EMIT applied(event, before);
    changeTo(before);
}

void TuningModel::replay(const SessionEvent& event) {
    EXPECTS(ready());
    const Session before = session();
    std::holds_alternative<Undo>(event.what) ? history_->undo() : history_->apply(event);
    changeTo(before);
}

void TuningModel::undo() {
    if (!canUndo()) {
        return;
    }
    const Session before = session();
    history_->undo();
    Q_EMIT applied(Undo{}, before);
    changeTo(before);
}

void TuningModel::changeTo(const Session& before) {
    const Session& now = session();
    if (listensFor(before) != listensFor(now)) {
        standAsPlanned();
        renewTarget();
    }
    for (std::size_t step = 0; step < now.progress.size(); ++step) {
        if (before.progress[step].state != now.progress[step].state) {
            Q_EMIT stepChanged(step, now.progress[step].state);
        }
    }
    Q_EMIT sessionChanged();
}

/// In a whole session the registers are those that the step asks for.
void TuningModel::standAsPlanned() {
    if (const auto asked = session().asked(); asked && choice_.extent == Extent::Whole) {
        draw(session().drawingOf(*asked).registration);
    }
}

void TuningModel::draw(const Registration& registration) {
    if (!ready()) {
        return;
    }
    const Registration before = registration_;
    registration_ = registration;
    registration_.position = position_;
    if (registration_ == before) {
        return;
    }
    for (std::size_t reg = instrument_.registers.size(); reg < kMostRegisters; ++reg) {
        registration_.on.reset(reg);
    }
    listStrings();
    renewTarget();
    Q_EMIT registrationChanged();
}

std::size_t TuningModel::manual() const {
    std::size_t lowest = instrument_.manuals.size();
    for (std::size_t reg = 0; reg < instrument_.registers.size(); ++reg) {
        if (registration_.on[reg]) {
            lowest = std::min(lowest, instrument_.registers[reg].manual);
        }
    }
    return registration_.coupled || lowest == instrument_.manuals.size() ? 0 : lowest;
}

std::vector<StringId> TuningModel::stringsOf(std::size_t key) const {
    std::vector<StringId> strings = soundingStrings(instrument_, registration_, manual(), key);
    const StringId alone{choir(), courseOf(instrument_, key, position_)};
    if (registration_.on.none() && alone.course < instrument_.choirs[choir()].strings.size()) {
        strings.push_back(alone);
    }
    return strings;
}

/// Every string that may sound, those of the choir that is tuned first.
void TuningModel::listStrings() {
    std::vector<std::size_t> choirs;
    for (std::size_t key = 0; key < instrument_.compass.keys.size(); ++key) {
        for (const StringId string : stringsOf(key)) {
            if (std::find(choirs.begin(), choirs.end(), string.choir) == choirs.end()) {
                choirs.push_back(string.choir);
            }
        }
    }
    std::stable_sort(choirs.begin(), choirs.end(), [this](std::size_t a, std::size_t b) {
        return (a == choir()) > (b == choir());
    });
    strings_.clear();
    for (const std::size_t one : choirs) {
        for (std::size_t course = 0; course < instrument_.choirs[one].strings.size(); ++course) {
            const StringFacts facts = factsOf(StringId{one, course});
            strings_.push_back({StringId{one, course}, facts.target, facts.inharmonicity});
        }
    }
}

void TuningModel::renewTarget() {
    target_ = std::make_shared<const AnalysisTarget>(listenFor(session(), strings_));
    Q_EMIT targetChanged();
}

} // namespace quillbench
