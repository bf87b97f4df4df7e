#include "app/application.hpp"
#include "app/places/action/action_page.hpp"
#include "app/places/instrument/instrument_page.hpp"
#include "app/places/logbook/logbook_page.hpp"
#include "app/places/recheck/recheck_page.hpp"
#include "app/places/temperament/temperament_page.hpp"
#include "app/text/format.hpp"
#include "audio/analysis_engine.hpp"

#include <QDir>
#include <QTimer>

namespace quillbench {

namespace {

constexpr Seconds kFadesWithin{0.5}; // what was played to be heard
constexpr int kLoudspeakerOpensWithinMs = 1500;

} // namespace

/// Where the person was when they plucked: the last word comes seconds later.
Place Application::placeOf(FrameIndex pluck) const {
    return pluck < placeSince_ ? placeBefore_ : place_;
}

void Application::hear(const StringReading& reading) {
    const Seconds at = bench_.rate().duration(reading.pluck - FrameIndex(0));
    instrument_.hear(reading);
    const Place place = placeOf(reading.pluck);
    if (place == Place::Action) {
        action_.hear(reading);
    } else if (place != Place::Recheck) {
        tuning_.hear(reading, at);
    } else if (recheck_.entered()) {
        recheck_.hear(reading, at);
    }
}

void Application::addInstrumentPlace() {
    auto* page = new InstrumentPage(instrument_, tuning_);
    window_.addPlace(Place::Instrument, page);
    connect(page, &InstrumentPage::tuneWanted, this, [this](const QString& instrument) {
        TuningChoice choice = tuning_.choice();
        choice.instrument = instrument;
        if (!(choice == tuning_.choice())) {
            chooseTuning(choice);
        }
        window_.goToPlace(Place::Tune);
    });
    connect(&window_, &MainWindow::placeChanged, this, &Application::readNewStrings);
    connect(&instrument_, &InstrumentModel::changed, this, &Application::readNewStrings);
}

void Application::addTemperamentPlace() {
    auto* page = new TemperamentPage(temperament_, tuning_);
    window_.addPlace(Place::Temperament, page);
    connect(
        page, &TemperamentPage::tuneWanted, this, [this](const QString& temperament, double a4Hz) {
            TuningChoice choice = tuning_.choice();
            choice.temperament = temperament;
            choice.a4Hz = a4Hz;
            if (!(choice == tuning_.choice())) {
                chooseTuning(choice);
            }
            window_.goToPlace(Place::Tune);
        });
    connect(&window_, &MainWindow::placeChanged, this, [this](Place place) {
        if (place == Place::Temperament) {
            journal_
                .settle(); // what was just settled in Tune must be in the file before it is read
            readLeft();
        }
    });
    connect(&temperament_, &TemperamentModel::leftChanged, this, &Application::tellLookFacts);
    connect(&tuning_, &TuningModel::chosen, this, [this] {
        temperament_.setLeft({}); // may be of another instrument
        readLeftForLook();
    });
    connect(&journal_, &SessionJournal::opened, this, &Application::readLeftForLook);
    connect(page, &TemperamentPage::stepWanted, this, [this, page](const BearingStep& step) {
        audition(*page, step);
    });
}

void Application::addActionPlace() {
    auto* page = new ActionPage(tuning_, live_, player_, action_);
    if (const Result<std::filesystem::path> logbook = logbookFile()) {
        page->keepIn(QDir(toQString(logbook->parent_path().string()))
                         .filePath(QStringLiteral("worksheets")));
    }
    window_.addPlace(Place::Action, page);
    action_.setSound([this](FrameIndex from, FrameIndex to) {
        return bench_.engine() != nullptr ? bench_.engine()->sound(from, to) : KeptSound{};
    });
    connect(&live_, &LiveModel::updated, this, [this] {
        if (window_.place() == Place::Action) {
            action_.advance(*live_.snapshot());
        }
    });
    connect(page, &ActionPage::faultsWanted, this, [this](bool wanted) {
        faultsToFind_ = wanted;
        chooseSource(source_);
    });
}

void Application::audition(TemperamentPage& page, const BearingStep& step) {
    if (!audition_.playing()) {
        auditionFrom_ = live_.heardUpTo();
    }
    page.tell(audition_.play(temperament_.scale(), step));
    QTimer::singleShot(kLoudspeakerOpensWithinMs, &page, [this, &page] {
        if (const QString trouble = audition_.trouble(); !trouble.isEmpty()) {
            page.tell(trouble);
        }
    });
}

void Application::leaveAudition(Place next) {
    if (audition_.playing()) {
        auditionTo_ = live_.heardUpTo() + bench_.rate().frames(kFadesWithin);
        audition_.leave(next == Place::Practise);
    }
}

/// In the places Action, Recheck and Practise every string is listened for alike; elsewhere as the session wants.
void Application::renewTarget() {
    if (bench_.engine() == nullptr) {
        return;
    }
    if (practise_.target() != nullptr) {
        bench_.engine()->setTarget(practise_.target());
    } else if (window_.place() == Place::Action) {
        bench_.engine()->setTarget(action_.target());
    } else if (recheck_.entered() && recheck_.target() != nullptr) {
        bench_.engine()->setTarget(recheck_.target());
    } else {
        bench_.engine()->setTarget(tuning_.target());
    }
}

void Application::addPlaces() {
    auto* recheck = new RecheckPage(recheck_, live_, player_, &window_);
    window_.addPlace(Place::Recheck, recheck);
    connect(recheck, &RecheckPage::daysWanted, this, &Application::letDaysPass);
    window_.addPlace(Place::Logbook, new LogbookPage(logbook_, &window_));
    connect(&window_, &MainWindow::placeChanged, this, [this](Place place) {
        if (place == Place::Recheck) {
            recheck_.enter();
        } else {
            recheck_.leave();
        }
        renewTarget();
    });
}

} // namespace quillbench
