#include "app/places/recheck/recheck_model.hpp"

#include "app/formats/instrument_file.hpp"
#include "app/formats/reading_names.hpp"
#include "app/formats/session_events.hpp"
#include "core/support/contract.hpp"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

/// A string left further from what is wanted now was left at another pitch: it is looked for where it is wanted.
constexpr Cents kOtherPitch(50.0);
/// Fewer settled strings tell nothing of the parts of a drift.
constexpr std::size_t kFewestToFit = 5;
constexpr double kRecheckLn2Over1200 = 0.6931471805599453 / 1200.0;

/// The choir that moves most is heard first: the 4′ where there is one.
std::size_t firstToHear(const Instrument& instrument) {
    const auto four =
        std::find_if(instrument.choirs.begin(), instrument.choirs.end(), [](const Choir& choir) {
            return choir.footage == Footage::Four;
        });
    return four == instrument.choirs.end()
               ? 0
               : static_cast<std::size_t>(four - instrument.choirs.begin());
}

/// A number for each string of the instrument.
int ordinalOf(const Instrument& instrument, StringId string) {
    std::size_t before = 0;
    for (std::size_t choir = 0; choir < string.choir; ++choir) {
        before += instrument.choirs[choir].strings.size();
    }
    return static_cast<int>(before + string.course);
}

} // namespace

RecheckModel::RecheckModel(TuningModel& tuning,
                           SessionJournal& journal,
                           LogbookModel& logbook,
                           QObject* parent)
    : QObject(parent),
      tuning_(tuning),
      journal_(journal),
      logbook_(logbook) {
    connect(&tuning_, &TuningModel::chosen, this, [this] {
        const bool seen = entered();
        end();
        history_ = StringHistory();
        historyRead_ = false;
        choir_ = firstToHear(instrument());
        daysPassed_ = 0.0;
        recheck_ = Recheck();
        lastKey_.reset();
        before_.reset();
        if (seen) {
            enter();
        }
    });
}

void RecheckModel::enter() {
    EXPECTS(tuning_.ready());
    if (!before_) {
        before_ = tuning_.registration();
    }
    readHistory();
    startChoir();
}

void RecheckModel::leave() {
    if (before_) {
        const Registration before = *before_;
        before_.reset();
        tuning_.draw(before);
    }
}

void RecheckModel::beginAgain() {
    end();
    recheck_ = Recheck();
    lastKey_.reset();
    hearing_ = Hearing::Good;
    readHistory();
    compare();
}

void RecheckModel::letPass(double days) {
    daysPassed_ += days;
    beginAgain();
}

void RecheckModel::end() {
    if (!uid_.empty()) {
        journal_.post([uid = uid_, at = instantNow()](Logbook& logbook) {
            return logbook.end(uid, "done", at);
        });
    }
    uid_.clear();
    place_ = 0;
}

void RecheckModel::chooseChoir(std::size_t choir) {
    EXPECTS(choir < instrument().choirs.size());
    choir_ = choir;
    lastKey_.reset();
    hearing_ = Hearing::Good;
    if (entered()) {
        startChoir();
    }
}

void RecheckModel::setTolerance(Cents tolerance) {
    tolerance_ = tolerance;
    workOut();
}

void RecheckModel::setMinutes(int minutes) {
    EXPECTS(minutes >= 0 && minutes <= 600);
    minutes_ = minutes;
    workOut();
}

void RecheckModel::startChoir() {
    drawing_ = drawingFor(instrument(), {choir_}, tuning_.position());
    tuning_.draw(drawing_.registration);
    compare();
}

void RecheckModel::readHistory() {
    historyRead_ = false;
    const std::string id = instrument().id;
    // What was just settled in Tune must be in the file before it is read.
    journal_.settle();
    logbook_.withContents([this, id](const std::shared_ptr<const LogbookContents>& contents) {
        if (id != instrument().id) {
            return;
        }
        historyRead_ = true;
        history_ = contents ? historyOf(*contents, instrument(), journal_.sound().virtualInstrument)
                            : StringHistory();
        compare();
    });
}

/// Renews what every string is compared with.
void RecheckModel::compare() {
    std::map<StringId, RecheckReference> references;
    for (std::size_t choir = 0; choir < instrument().choirs.size(); ++choir) {
        for (std::size_t course = 0; course < instrument().choirs[choir].strings.size(); ++course) {
            const StringId string{choir, course};
            const Hertz wanted = tuning_.targetOf(string);
            const auto left = history_.settled.find(string);
            const bool settled = left != history_.settled.end() &&
                                 abs(interval(wanted, left->second.pitch)) < kOtherPitch;
            references[string] =
                settled ? RecheckReference{left->second.pitch, left->second.uncertainty, true}
                        : RecheckReference{wanted, Cents(0.0), false};
        }
    }
    recheck_.compareWith(std::move(references));
    renewTarget();
    workOut();
}

void RecheckModel::renewTarget() {
    AnalysisTarget target;
    for (std::size_t course = 0; course < instrument().choirs[choir_].strings.size(); ++course) {
        const StringId string{choir_, course};
        target.strings.push_back({string,
                                  recheck_.references().at(string).pitch,
                                  tuning_.factsOf(string).inharmonicity});
    }
    target_ = std::make_shared<const AnalysisTarget>(std::move(target));
    Q_EMIT targetChanged();
}

void RecheckModel::hear(const StringReading& reading, Seconds at) {
    EXPECTS(entered());
    if (reading.standing != Standing::Ok || reading.string.choir != choir_) {
        hearing_ = reading.standing == Standing::Weak ? Hearing::Weak
                   : reading.has(Warning::TwoStrings) ? Hearing::TwoStrings
                                                      : Hearing::Nothing;
        Q_EMIT changed();
        return;
    }
    hearing_ = Hearing::Good;
    const Cents uncertainty =
        std::max(tuning_.withClock(reading.deviationUncertainty), Cents(0.01));
    lastKey_ = keyAt(instrument(), reading.string.course, tuning_.position());
    recheck_.hear(reading.string, reading.deviation, uncertainty);
    keep(reading, uncertainty, at);
    workOut();
}

void RecheckModel::workOut() {
    const std::vector<Movement> movements = recheck_.movements(instrument());
    fit_.reset();
    if (movements.size() >= kFewestToFit) {
        fit_ = fitDrift(instrument(), movements);
    }
    if (work_.busy()) {
        adviseAgain_ = true;
    } else {
        advise();
    }
    Q_EMIT changed();
}

/// The short list takes long where much is wrong: worked out beside, the newest question last.
void RecheckModel::advise() {
    adviseAgain_ = false;
    const auto factsOf = [this](StringId string) { return tuning_.factsOf(string); };
    std::map<StringId, Cents> deviations = recheck_.deviations(factsOf);
    const std::size_t leftOut = leaveOutUnsettled(deviations);
    use_ = bestUseOf(deviations);
    std::vector<HeardInterval> intervals =
        intervalsAmong(instrument(), factsOf, deviations, tolerance_, tuning_.position());
    if (intervals.empty()) {
        advice_.reset();
        leftOut_ = leftOut;
        return;
    }
    work_.begin(
        [this, leftOut, deviations = std::move(deviations), intervals = std::move(intervals)] {
            auto found = std::make_shared<RecheckAdvice>(adviceFor(deviations, intervals));
            return [this, found, leftOut, judged = deviations.size()] {
                advice_ = std::move(*found);
                leftOut_ = leftOut;
                judged_ = judged;
                if (adviseAgain_) {
                    advise();
                }
                Q_EMIT changed();
            };
        });
}

std::optional<UseOfMinutes>
RecheckModel::bestUseOf(const std::map<StringId, Cents>& deviations) const {
    if (minutes_ == 0 || deviations.empty()) {
        return std::nullopt;
    }
    Programme programme;
    programme.position = tuning_.position();
    for (const auto& [string, deviation] : deviations) {
        if (programme.choirs.empty() || programme.choirs.back() != string.choir) {
            programme.choirs.push_back(string.choir);
        }
    }
    return quillbench::bestUse(
        Seconds(60.0 * minutes_),
        instrument(),
        [this](StringId string) { return tuning_.factsOf(string); },
        deviations,
        programme,
        speedFrom(timesPerString(history_.settled)));
}

/// Strings that nobody has set yet are no work for a short list; where hardly any was set, all count as they stand.
std::size_t RecheckModel::leaveOutUnsettled(std::map<StringId, Cents>& deviations) const {
    const auto isSettled = [this](const auto& one) {
        return recheck_.references().at(one.first).settled;
    };
    const auto settled =
        static_cast<std::size_t>(std::count_if(deviations.begin(), deviations.end(), isSettled));
    return settled < kFewestToFit
               ? 0
               : std::erase_if(deviations, [&](const auto& one) { return !isSettled(one); });
}

std::optional<StringId> RecheckModel::stringAt(std::size_t key) const {
    const StringId string{choir_, courseOf(instrument(), key, tuning_.position())};
    return string.course < instrument().choirs[choir_].strings.size()
               ? std::optional<StringId>(string)
               : std::nullopt;
}

std::vector<std::size_t> RecheckModel::playAgain() const {
    std::vector<std::size_t> keys;
    for (std::size_t i = 0; fit_ && i < fit_->strings.size(); ++i) {
        const StringVerdict& verdict = fit_->strings[i];
        const auto key = keyAt(instrument(), verdict.string.course, tuning_.position());
        if (verdict.string.choir == choir_ && verdict.drift == StringDrift::PlayAgain && key) {
            keys.push_back(*key);
        }
    }
    return keys;
}

std::vector<std::size_t> RecheckModel::unheardKeys() const {
    std::vector<std::size_t> keys;
    for (std::size_t key = 0; key < instrument().compass.keys.size(); ++key) {
        const auto string = stringAt(key);
        if (string && recheck_.heard().count(*string) == 0) {
            keys.push_back(key);
        }
    }
    return keys;
}

std::optional<std::size_t> RecheckModel::nextKey() const {
    const std::vector<std::size_t> unheard = unheardKeys();
    if (unheard.empty()) {
        const std::vector<std::size_t> again = playAgain();
        return again.empty() ? std::nullopt : std::optional<std::size_t>(again.front());
    }
    const auto above = std::find_if(unheard.begin(), unheard.end(), [this](std::size_t key) {
        return !lastKey_ || key > *lastKey_;
    });
    return above == unheard.end() ? unheard.front() : *above;
}

std::size_t RecheckModel::strings() const {
    std::size_t count = 0;
    for (std::size_t key = 0; key < instrument().compass.keys.size(); ++key) {
        count += stringAt(key) ? 1U : 0U;
    }
    return count;
}

std::size_t RecheckModel::heardOfChoir() const {
    return static_cast<std::size_t>(
        std::count_if(recheck_.heard().begin(), recheck_.heard().end(), [this](const auto& one) {
            return one.first.choir == choir_;
        }));
}

KeptReading RecheckModel::keptReading(const StringReading& reading) const {
    const RecheckReference& reference = recheck_.references().at(reading.string);
    const HeardAgain& heard = recheck_.heard().at(reading.string);
    const Cents uncertainty(std::hypot(heard.uncertainty.value(), reference.uncertainty.value()));
    KeptReading kept;
    kept.string = StringName{instrument().choirs[reading.string.choir].id,
                             static_cast<int>(reading.string.course),
                             toAscii(keyNote(instrument(), reading.string))};
    ReadingRecord& record = kept.reading;
    record.note = toAscii(keyNote(instrument(), reading.string, tuning_.position()));
    record.position = tuning_.position();
    record.plucks = heard.plucks;
    record.usedS = reading.used.count();
    record.targetHz = reference.pitch.value();
    record.deviationCents = heard.moved.value();
    record.deviationCentsU = uncertainty.value();
    record.pitchHz = transpose(reference.pitch, heard.moved).value();
    record.pitchHzU = record.pitchHz * kRecheckLn2Over1200 * heard.uncertainty.value();
    record.startCents = reading.startSharpness.value();
    record.startCentsU = reading.startSharpnessUncertainty.value();
    record.inharmonicity = reading.inharmonicity;
    record.inharmonicityU = reading.inharmonicityUncertainty;
    if (reading.ownBeat) {
        record.ownBeatHz = reading.ownBeat->perSecond();
    }
    for (const std::string& name : warningNames(reading)) {
        record.warnings += (record.warnings.empty() ? "" : ", ") + name;
    }
    record.source = journal_.sound().source.toStdString();
    record.rateHz = journal_.sound().rateHz;
    record.clockPpm = journal_.sound().clock.ppm;
    record.clockPpmU = journal_.sound().clock.ppmUncertainty;
    const auto left = history_.settled.find(reading.string);
    record.settings = formatCompared(
        reference.settled
            ? std::optional<ComparedWith>({left->second.at, reference.uncertainty, heard.plucks})
            : std::nullopt);
    record.engine = QCoreApplication::applicationVersion().toStdString();
    record.at = instantNow();
    return kept;
}

void RecheckModel::keep(const StringReading& reading, Cents uncertainty, Seconds at) {
    if (uid_.empty()) {
        uid_ = newUid();
        SessionRecord session;
        session.uid = uid_;
        session.kind = kRecheckKind;
        session.method = "meter";
        const TuningChoice& choice = tuning_.choice();
        session.inputs = formatRecheckInputs({instrument().choirs[choir_].id,
                                              choice.temperament.toStdString(),
                                              choice.a4Hz,
                                              journal_.sound().virtualInstrument});
        session.engine = QCoreApplication::applicationVersion().toStdString();
        session.at = instantNow();
        journal_.post([state = InstrumentState{instrument().id,
                                               instrument().name,
                                               formatInstrument({tuning_.instrumentAsBuilt(), ""})},
                       session](Logbook& logbook) { return logbook.begin(state, session); });
    }
    SessionEntry entry;
    entry.event.place = place_++;
    entry.event.schema = kSessionEventSchema;
    entry.event.content = formatSessionEvent(Heard{reading, uncertainty, at});
    entry.event.at = instantNow();
    ReachedStep reached;
    reached.step.step = ordinalOf(instrument(), reading.string);
    reached.step.state = "heard";
    reached.reading = keptReading(reading);
    reached.string = reached.reading->string;
    entry.steps.push_back(std::move(reached));
    journal_.post([uid = uid_, entry = std::move(entry)](Logbook& logbook) {
        return logbook.keep(uid, entry);
    });
}

void RecheckModel::finish() {
    logbook_.finish();
    work_.finish();
}

} // namespace quillbench
