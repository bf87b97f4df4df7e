#include "app/models/session_journal.hpp"

#include "app/formats/instrument_file.hpp"
#include "app/formats/logbook_history.hpp"
#include "app/formats/reading_names.hpp"
#include "app/formats/session_events.hpp"
#include "app/models/session_inputs.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"

#include <QCoreApplication>
#include <QJsonDocument>
#include <QJsonObject>
#include <QKeySequence>
#include <algorithm>
#include <utility>

namespace quillbench {

namespace {

constexpr double kLn2Over1200 = 0.6931471805599453 / 1200.0;
constexpr int kLookMilliseconds = 100;

std::string compact(const QJsonObject& json) {
    return QJsonDocument(json).toJson(QJsonDocument::Compact).toStdString();
}

const char* plannerOf(const TuningChoice& choice) {
    return choice.extent == Extent::Whole ? "whole" : "first-octave";
}

std::string engineVersion() {
    return QCoreApplication::applicationVersion().toStdString();
}

bool isDone(StepState state) {
    return state == StepState::Settled || state == StepState::Kept;
}

/// Whether an event alone is a reason to begin a session.
bool begins(const SessionEvent& event) {
    return std::holds_alternative<Heard>(event.what) ||
           std::holds_alternative<HeardPair>(event.what) ||
           std::holds_alternative<Accept>(event.what) || std::holds_alternative<Skip>(event.what) ||
           std::holds_alternative<Remark>(event.what);
}

/// Whether an event may change what the session is.
bool counts(const SessionEvent& event) {
    const auto* heard = std::get_if<Heard>(&event.what);
    return heard == nullptr || heard->reading.standing != Standing::Nothing;
}

/// What the ear left of a step that was accepted with its number covered; nothing otherwise.
std::optional<LeftByEar>
leftByEarOf(const Session& session, std::size_t index, const Instrument& instrument) {
    const TuningStep& step = session.plan->steps[index];
    const StepProgress& progress = session.progress[index];
    if (!session.byEar(index) || progress.state != StepState::Kept || !progress.kept->signKnown) {
        return std::nullopt;
    }
    const bool fourFoot = instrument.choirs[step.string.choir].footage == Footage::Four &&
                          instrument.choirs[step.pair->against.choir].footage == Footage::Eight;
    LeftByEar left;
    left.interval =
        fourFoot ? std::string("four-foot") : std::string(intervalOf(step.pair->interval).id);
    left.left = step.pair->tunedIsUpper ? progress.kept->deviation : -progress.kept->deviation;
    return left;
}

std::string reasonOf(const SessionEvent& event, StepState before, StepState now) {
    if (const auto* skip = std::get_if<Skip>(&event.what)) {
        return skip->reason;
    }
    if (std::holds_alternative<Undo>(event.what)) {
        return "undone";
    }
    return isDone(before) && now == StepState::Working ? "slipped" : "";
}

} // namespace

SessionJournal::SessionJournal(TuningModel& tuning, QObject* parent)
    : QObject(parent),
      tuning_(tuning) {
    connect(&tuning_, &TuningModel::chosen, this, &SessionJournal::leave);
    connect(&tuning_, &TuningModel::applied, this, &SessionJournal::note);
    timer_.setInterval(kLookMilliseconds);
    connect(&timer_, &QTimer::timeout, this, &SessionJournal::look);
}

SessionJournal::~SessionJournal() = default;

Result<SessionJournal::Found> SessionJournal::find(const std::filesystem::path& file,
                                                   const std::string& planner) {
    Found found;
    Result<Logbook> logbook = Logbook::open({file, true, {}});
    const bool damaged = logbook ? !logbook->damages().empty() : saysDamaged(logbook.error());
    if (damaged) {
        const std::string what = logbook ? logbook->damages().front() : logbook.error().text;
        const Result<RepairReport> repaired = repairLogbook(file, instantNow());
        if (!repaired) {
            return Unexpected<Error>(repaired.error());
        }
        logbook = Logbook::open({file, true, {}});
        found.remarks.push_back(
            tr("The logbook was damaged (%1). %2 readings were saved; the damaged file is "
               "%3. A backup may hold more.")
                .arg(coreText(what))
                .arg(repaired->readings)
                .arg(QString::fromStdString(repaired->damaged.string())));
    }
    if (!logbook) {
        return Unexpected<Error>(logbook.error());
    }
    if (!logbook->writable()) {
        return failure(ErrorCode::Environment, logbook->trouble());
    }
    if (!logbook->trouble().empty()) {
        found.remarks.push_back(coreText(logbook->trouble()));
    }
    // Looking at every row takes long with a large file: it is opened once.
    auto unfinished = logbook->unfinished(planner);
    found.unfinished = unfinished ? std::move(unfinished).value() : std::nullopt;
    found.logbook = std::move(logbook).value();
    return found;
}

Result<void> SessionJournal::adopt(Result<Found> found) {
    if (!found) {
        early_.clear();
        beforeEarly_.reset();
        earlyChanges_.clear();
        return Unexpected<Error>(found.error());
    }
    for (const QString& remark : found->remarks) {
        Q_EMIT told(remark);
    }
    unfinished_ = std::move(found->unfinished);
    file_ = found->logbook->file();
    writer_ = std::make_unique<LogWriter>(std::move(*found->logbook));
    keepEarly();
    return {};
}

Result<void> SessionJournal::open(const std::filesystem::path& file) {
    return adopt(find(file, plannerOf(tuning_.choice())));
}

void SessionJournal::openInBackground(const std::filesystem::path& file) {
    opening_ = std::async(
        std::launch::async, [this, file, planner = std::string(plannerOf(tuning_.choice()))] {
            Result<Found> found = find(file, planner);
            QMetaObject::invokeMethod(this, &SessionJournal::arrive, Qt::QueuedConnection);
            return found;
        });
}

void SessionJournal::arrive() {
    if (opening_.valid()) {
        const Result<void> adopted = adopt(opening_.get());
        Q_EMIT opened(adopted ? QString() : errorText(adopted.error()));
    }
}

/// What happened while the logbook was being opened.
void SessionJournal::keepEarly() {
    for (LogWriter::Change& change : std::exchange(earlyChanges_, {})) {
        post(std::move(change));
    }
    const std::vector<SessionEvent> events = std::exchange(early_, {});
    const std::optional<Session> before = std::exchange(beforeEarly_, std::nullopt);
    for (std::size_t i = 0; i < events.size(); ++i) {
        // What they brought about together is kept with the last.
        keepNow(events[i], i + 1 < events.size() ? tuning_.session() : *before);
    }
    if (!uid_.empty()) {
        unfinished_.reset(); // another session was begun in the meantime
    }
}

void SessionJournal::close() {
    arrive();
    leave();
    settle();
    writer_.reset();
    file_.clear();
    keptBefore_ = 0; // a writer counts from nothing
}

void SessionJournal::post(LogWriter::Change change) {
    if (writer_) {
        writer_->post(std::move(change));
        timer_.start();
    } else if (opening_.valid()) {
        earlyChanges_.push_back(std::move(change));
    }
}

void SessionJournal::setSound(const SoundFacts& sound) {
    const bool other = sound.virtualInstrument != sound_.virtualInstrument;
    sound_ = sound;
    if (other && !uid_.empty()) {
        beginAfresh();
    }
}

void SessionJournal::beginAfresh() {
    // The same choice was accepted before; chosen() then leaves the session.
    static_cast<void>(tuning_.chooseAgain());
}

void SessionJournal::leave() {
    if (writer_ && !uid_.empty()) {
        writer_->post([uid = uid_,
                       how = std::string(allDone_ ? "done" : "left"),
                       at = instantNow()](Logbook& logbook) { return logbook.end(uid, how, at); });
        timer_.start();
    }
    uid_.clear();
    if (std::exchange(goesOn_, false)) {
        Q_EMIT told({}); // it no longer goes on with that session
    }
    place_ = 0;
    before_.clear();
    early_.clear();
    beforeEarly_.reset();
    heard_.clear();
    keptReadings_.clear();
}

bool SessionJournal::takeUp() {
    if (!writer_) {
        return false;
    }
    const std::optional<SavedSession> found = std::exchange(unfinished_, std::nullopt);
    if (!found) {
        return false;
    }
    const SavedSession& saved = *found;
    TuningChoice then = withPitchIn(saved.session.inputs, tuning_.choice());
    then.options = optionsIn(saved.session.inputs);
    if (saved.session.inputs != inputsOf(then, sound_.virtualInstrument)) {
        return false;
    }
    std::vector<SessionEvent> events;
    for (const EventRecord& record : saved.events) {
        Result<SessionEvent> event = parseSessionEvent(record.schema, record.content);
        if (!event || record.place != static_cast<int>(events.size())) {
            Q_EMIT told(
                tr("The session of %1 cannot be gone on with: %2")
                    .arg(toQString(wallClockText(saved.session.at)),
                         event ? tr("events of it are missing") : errorText(event.error())));
            return false;
        }
        events.push_back(std::move(event).value());
    }
    if (!before_.empty() || !(then == tuning_.choice())) {
        // What was chosen in the meantime is no session yet; the plan is made with the options of its time.
        if (!tuning_.choose(then, tuning_.instrumentAsBuilt())) {
            return false;
        }
    }
    uid_ = saved.session.uid;
    place_ = static_cast<int>(events.size());
    for (const SessionEvent& event : events) {
        const Session before = tuning_.session();
        tuning_.replay(event);
        remember(event);
        static_cast<void>(stepsReached(event, before));
    }
    if (!tuning_.session().asked()) {
        writer_->post(
            [uid = uid_, at = instantNow()](Logbook& book) { return book.end(uid, "done", at); });
        uid_.clear();
        beginAfresh();
        return false;
    }
    const Session& session = tuning_.session();
    const std::size_t done = session.countOf(StepState::Settled) +
                             session.countOf(StepState::Kept) + session.countOf(StepState::Skipped);
    goesOn_ = true;
    Q_EMIT takenUp(done);
    Q_EMIT told(tr("Going on with the session of %1: %2 of %3 strings done. %4 begins it again.")
                    .arg(toQString(wallClockText(saved.session.at)))
                    .arg(done)
                    .arg(session.progress.size())
                    .arg(QKeySequence(QKeySequence::New).toString(QKeySequence::NativeText)));
    return true;
}

void SessionJournal::remember(const SessionEvent& event) {
    if (const auto* heard = std::get_if<Heard>(&event.what);
        heard != nullptr && heard->reading.standing != Standing::Nothing) {
        heard_[heard->reading.string] = heard->reading;
    }
}

KeptReading SessionJournal::keptReading(std::size_t index) const {
    const Session& session = tuning_.session();
    const TuningStep& step = session.plan->steps[index];
    const StepProgress& progress = session.progress[index];
    KeptReading kept;
    kept.string = StringName{tuning_.instrument().choirs[step.string.choir].id,
                             static_cast<int>(step.string.course),
                             toAscii(keyNote(tuning_.instrument(), step.string))};
    ReadingRecord& reading = kept.reading;
    reading.note = toAscii(step.note);
    reading.position = tuning_.position();
    reading.plucks = progress.state == StepState::Settled ? static_cast<int>(kPlucksToSettle) : 1;
    reading.targetHz = step.facts.target.value();
    const Cents fromTarget = progress.kept->deviation + progress.aim;
    reading.deviationCents = fromTarget.value();
    reading.deviationCentsU = progress.kept->uncertainty.value();
    reading.pitchHz = transpose(step.facts.target, fromTarget).value();
    reading.pitchHzU = reading.pitchHz * kLn2Over1200 * reading.deviationCentsU;
    if (const auto last = heard_.find(step.string); last != heard_.end()) {
        const StringReading& heard = last->second;
        reading.usedS = heard.used.count();
        reading.startCents = heard.startSharpness.value();
        reading.startCentsU = heard.startSharpnessUncertainty.value();
        reading.inharmonicity = heard.inharmonicity;
        reading.inharmonicityU = heard.inharmonicityUncertainty;
        if (heard.ownBeat) {
            reading.ownBeatHz = heard.ownBeat->perSecond();
        }
        for (const std::string& name : warningNames(heard)) {
            reading.warnings += (reading.warnings.empty() ? "" : ", ") + name;
        }
    }
    reading.source = sound_.source.toStdString();
    reading.rateHz = sound_.rateHz;
    reading.clockPpm = sound_.clock.ppm;
    reading.clockPpmU = sound_.clock.ppmUncertainty;
    const auto byEar = leftByEarOf(session, index, tuning_.instrument());
    reading.settings = byEar
                           ? formatLeftByEar(step.tolerance, *byEar)
                           : compact({{QStringLiteral("tolerance_cents"), step.tolerance.value()}});
    reading.engine = engineVersion();
    reading.at = instantNow();
    return kept;
}

std::vector<ReachedStep> SessionJournal::stepsReached(const SessionEvent& event,
                                                      const Session& before) {
    const Session& now = tuning_.session();
    std::vector<ReachedStep> steps;
    for (std::size_t i = 0; i < now.progress.size(); ++i) {
        const StepState was = before.progress[i].state;
        const StepState is = now.progress[i].state;
        // Accepted again: another reading.
        const bool again = i == now.current && std::holds_alternative<Accept>(event.what) &&
                           isDone(is) && now.decisions != before.decisions;
        if (was == is && !again) {
            continue;
        }
        ReachedStep reached;
        reached.step.step = static_cast<int>(i);
        reached.step.state = stepStateName(is);
        reached.step.reason = reasonOf(event, was, is);
        const TuningStep& step = now.plan->steps[i];
        reached.string = StringName{tuning_.instrument().choirs[step.string.choir].id,
                                    static_cast<int>(step.string.course),
                                    toAscii(keyNote(tuning_.instrument(), step.string))};
        if (isDone(is) && now.progress[i].kept) {
            const auto earlier = keptReadings_.find(i);
            const bool back =
                std::holds_alternative<Undo>(event.what) && earlier != keptReadings_.end();
            reached.reading = back ? earlier->second : keptReading(i);
            keptReadings_[i] = *reached.reading;
        }
        if (was != StepState::Untouched || is != StepState::Working) {
            steps.push_back(std::move(reached));
        }
    }
    return steps;
}

void SessionJournal::note(const SessionEvent& event, const Session& before) {
    remember(event);
    allDone_ = !tuning_.session().asked();
    if (!counts(event)) {
        return;
    }
    if (writer_) {
        keepNow(event, before);
    } else if (opening_.valid()) {
        beforeEarly_ = beforeEarly_ ? beforeEarly_ : before;
        early_.push_back(event);
    }
}

void SessionJournal::keepNow(const SessionEvent& event, const Session& before) {
    std::vector<ReachedStep> steps = stepsReached(event, before);
    if (uid_.empty()) {
        if (!begins(event)) {
            before_.push_back(event);
            return;
        }
        uid_ = newUid();
        SessionRecord session;
        session.uid = uid_;
        session.kind = plannerOf(tuning_.choice());
        session.method = "meter";
        session.inputs = inputsOf(tuning_.choice(), sound_.virtualInstrument);
        session.engine = engineVersion();
        session.at = instantNow();
        const Instrument& instrument = tuning_.instrumentAsBuilt();
        writer_->post([state = InstrumentState{instrument.id,
                                               instrument.name,
                                               formatInstrument({instrument, ""})},
                       session](Logbook& logbook) { return logbook.begin(state, session); });
        for (const SessionEvent& earlier : before_) {
            write(earlier, {});
        }
        before_.clear();
    }
    write(event, std::move(steps));
}

void SessionJournal::write(const SessionEvent& event, std::vector<ReachedStep> steps) {
    SessionEntry entry;
    entry.event.place = place_++;
    entry.event.schema = kSessionEventSchema;
    entry.event.content = formatSessionEvent(event);
    entry.event.at = instantNow();
    entry.steps = std::move(steps);
    writer_->post([uid = uid_, entry = std::move(entry)](Logbook& logbook) {
        return logbook.keep(uid, entry);
    });
    timer_.start();
}

LogWriter::State SessionJournal::state() const {
    return writer_ ? writer_->state() : LogWriter::State{};
}

void SessionJournal::settle() {
    arrive();
    if (writer_) {
        writer_->waitUntilKept(std::chrono::seconds(2));
        look();
    }
}

void SessionJournal::look() {
    const LogWriter::State now = state();
    const bool nothingLeft = now.kept + now.refused == now.asked;
    if (nothingLeft && now.kept != keptBefore_) {
        keptBefore_ = now.kept;
        Q_EMIT kept(now.kept);
    }
    const std::string trouble = now.trouble ? now.trouble->text : std::string();
    if (trouble != troubleBefore_) {
        troubleBefore_ = trouble;
        Q_EMIT told(trouble.empty() ? tr("The logbook is written again; nothing was lost.")
                                    : tr("Not kept yet: %1").arg(coreText(trouble)));
    }
    if (nothingLeft) {
        timer_.stop();
    }
}

} // namespace quillbench
