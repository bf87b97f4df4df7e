#include "app/places/practise/practise_place.hpp"

#include "app/models/live_model.hpp"
#include "app/models/session_journal.hpp"
#include "app/models/settings_store.hpp"
#include "app/models/sound_bench.hpp"
#include "app/models/tuning_model.hpp"
#include "app/places/logbook/logbook_model.hpp"
#include "app/places/practise/practise_memory.hpp"
#include "app/places/practise/practise_page.hpp"
#include "app/text/format.hpp"
#include "app/text/sound_text.hpp"
#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"

#include <QDateTime>
#include <algorithm>

namespace quillbench {

namespace {

/// Two manuals, 8′ 8′ 4′: of our own invention, with every choir that is practised on.
constexpr const char* kPractisedOn = "double-8-8-4";

QString headphones() {
    return QStringLiteral("headphones");
}

QString practisePhaseName(PractisePhase phase) {
    switch (phase) {
    case PractisePhase::Asked:
        return QStringLiteral("asked");
    case PractisePhase::Listening:
        return QStringLiteral("listening");
    case PractisePhase::Measuring:
        return QStringLiteral("measuring");
    case PractisePhase::Uncovered:
        break;
    }
    return QStringLiteral("uncovered");
}

/// Before a session was chosen.
TunedScale firstScale() {
    return TunedScale{catalogue().front(), ReferencePitch{}};
}

} // namespace

PractisePlace::PractisePlace(SoundBench& bench,
                             SettingsStore& settings,
                             const TuningModel& tuning,
                             SessionJournal& journal,
                             LogbookModel& logbook,
                             LiveModel& live,
                             QObject* parent)
    : QObject(parent),
      bench_(bench),
      settings_(settings),
      tuning_(tuning),
      journal_(journal),
      logbook_(logbook),
      sound_(bench.worker()),
      model_(sound_,
             *findExample(kPractisedOn),
             firstScale(),
             static_cast<std::uint64_t>(QDateTime::currentMSecsSinceEpoch()),
             PractiseModel::threads()),
      page_(new PractisePage(model_)) {
    connect(&tuning_, &TuningModel::chosen, this, &PractisePlace::followTuning);
    connect(&model_, &PractiseModel::changed, this, &PractisePlace::showLoudspeaker);
    connect(&model_, &PractiseModel::changed, this, &PractisePlace::followPhase);
    connect(&model_, &PractiseModel::practised, this, &PractisePlace::keep);
    connect(page_, &PractisePage::seen, this, [this](bool here) {
        seen_ = here;
        bench_.hush(here);
        if (here) {
            readBefore();
        }
        Q_EMIT targetChanged();
        if (here && !settings_.wasRead(headphones())) {
            page_->showCaution();
        }
    });
    connect(page_, &PractisePage::ownWanted, this, &PractisePlace::useOwn);
    connect(&model_, &PractiseModel::targetChanged, this, &PractisePlace::targetChanged);
    listen(live);
    connect(page_, &PractisePage::cautionRead, this, [this] { settings_.keepRead(headphones()); });
}

void PractisePlace::readBefore() {
    // Own records of this sitting are known already, whether they were written yet or not.
    logbook_.withContents([this](const std::shared_ptr<const LogbookContents>& contents) {
        if (contents == nullptr) {
            return;
        }
        std::vector<PractiseRecord> records = contents->practised;
        std::erase_if(records, [this](const PractiseRecord& record) {
            return std::any_of(
                ownRecords_.begin(), ownRecords_.end(), [&](const PractiseRecord& own) {
                    return own.at.milliseconds == record.at.milliseconds;
                });
        });
        model_.remember({trialsOf(std::move(records)), settingsByEar(leftByEar(*contents))});
    });
}

std::shared_ptr<const AnalysisTarget> PractisePlace::target() const {
    return seen_ && model_.own() ? model_.own()->target() : nullptr;
}

void PractisePlace::listen(LiveModel& live) {
    connect(&live, &LiveModel::updated, this, [this, &live] {
        if (seen_ && live.snapshot()->pair) {
            model_.followOwn(*live.snapshot()->pair);
        }
    });
    connect(&live, &LiveModel::pairFinished, this, [this](const PairReading& reading) {
        if (seen_) {
            model_.hearOwn(reading);
        }
    });
}

/// The instrument of the session, as it should sound there.
void PractisePlace::useOwn(bool own) {
    if (!own) {
        model_.setOwn(std::nullopt);
        return;
    }
    model_.setOwn(OwnStrings(tuning_.instrument(), [this](StringId string) {
        return ExpectedString{
            string, tuning_.targetOf(string), tuning_.factsOf(string).inharmonicity};
    }));
}

void PractisePlace::keep(const PracticeTrial& trial, const Note& lowerKey) {
    const PractiseRecord record = recordOf(trial, lowerKey, instantNow());
    ownRecords_.push_back(record);
    journal_.post([record](Logbook& logbook) { return logbook.practised(record); });
}

void PractisePlace::followPhase() {
    if (!model_.exercise()) {
        return;
    }
    const Exercise& exercise = *model_.exercise();
    const auto now = std::pair(exercise.seed, model_.phase());
    if (told_ == now) {
        return;
    }
    told_ = now;
    const auto named = [this](const StringId string) {
        const Instrument& instrument = model_.instrument();
        return toQString(instrument.choirs[string.choir].id + ":" +
                         toAscii(keyNote(instrument, string)));
    };
    Q_EMIT cameTo(practisePhaseName(model_.phase()),
                  named(exercise.lower),
                  named(exercise.upper),
                  exercise.multiple);
}

void PractisePlace::followTuning() {
    if (model_.own()) {
        useOwn(true);
    }
    const Temperament* temperament = findTemperament(tuning_.choice().temperament.toStdString());
    if (temperament != nullptr) {
        model_.setScale(TunedScale{*temperament, ReferencePitch{Hertz(tuning_.choice().a4Hz)}});
    }
}

void PractisePlace::showLoudspeaker() {
    const EngineState state = sound_.state();
    const bool plays = state.phase == EnginePhase::Running || state.phase == EnginePhase::Idle ||
                       state.phase == EnginePhase::Starting;
    if (model_.own()) {
        page_->tell(bench_.virtualSource() == nullptr
                        ? QString()
                        : tr("No microphone: choose one at Tune, Sound from"));
        return;
    }
    page_->tell(plays ? QString() : sourceText(tr("Loudspeaker"), state));
}

} // namespace quillbench
