#include "app/application.hpp"

#include "app/dialogs/calibration_dialog.hpp"
#include "app/dialogs/first_questions_dialog.hpp"
#include "app/dialogs/hear_pitch_dialog.hpp"
#include "app/dialogs/options_dialog.hpp"
#include "app/dialogs/preferences_dialog.hpp"
#include "app/formats/instrument_file.hpp"
#include "app/formats/temperament_file.hpp"
#include "app/models/picture_maker.hpp"
#include "app/paint/theme.hpp"
#include "app/places/action/action_page.hpp"
#include "app/places/action/practice_faults.hpp"
#include "app/places/instrument/instrument_page.hpp"
#include "app/places/logbook/logbook_page.hpp"
#include "app/places/practise/practise_page.hpp"
#include "app/places/recheck/recheck_page.hpp"
#include "app/places/temperament/temperament_page.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/spoken_text.hpp"
#include "app/views/choice_bar.hpp"
#include "app/views/tune_page.hpp"
#include "audio/analysis_engine.hpp"
#include "audio/virtual_source.hpp"
#include "core/instrument/examples.hpp"
#include "core/virtual/days_pass.hpp"

#include <QApplication>
#include <QDateTime>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QKeySequence>
#include <QScreen>
#include <QTimer>
#include <cmath>
#include <cstdio>

namespace quillbench {

namespace {

constexpr Seconds kFadesWithin{0.5}; // what was played to be heard
constexpr int kLoudspeakerOpensWithinMs = 1500;
constexpr double kVirtualRateHz = 48000.0;
constexpr double kVirtualSpreadCents = 25.0;
constexpr std::uint64_t kVirtualSeed = 1716; // any number; always the same instrument

bool isDark(const QPalette& palette) {
    return palette.color(QPalette::Window).lightness() <
           palette.color(QPalette::WindowText).lightness();
}

} // namespace

Application::Application(const LaunchOptions& options)
    : options_(options),
      settings_(options.settingsFolder),
      instrument_(tuning_),
      temperament_(tuning_),
      journal_(tuning_),
      recheck_(tuning_, journal_, logbook_),
      player_(tuning_),
      action_(tuning_),
      devices_(bench_.worker()),
      log_(tuning_, live_),
      practise_(bench_, settings_, tuning_, journal_, logbook_, live_),
      audition_(bench_),
      window_(tuning_, live_, player_),
      notice_(window_),
      drop_(window_),
      files_(window_,
             instrument_,
             temperament_,
             logbook_,
             [this](const QString& file) { return listenTo(file); }),
      systemIsDark_(isDark(QApplication::palette())) {
    bench_.setPaceOfRecordings(options.hurry ? Pace::AsTaken : Pace::RealTime);
    connectAll();
    addInstrumentPlace();
    addTemperamentPlace();
    addActionPlace();
    addPlaces();
    connectLogbook();
    connectSeeing();
}

Application::~Application() {
    recheck_.end();
    journal_.settle();
    player_.setInstrument(nullptr);
    live_.watch(nullptr);
    bench_.stop();
}

void Application::connectAll() {
    window_.addPlace(Place::Practise, practise_.page());
    connect(&live_, &LiveModel::readingFinished, this, [this](const StringReading& reading) {
        if (isInstrument(reading.pluck)) {
            hear(reading);
        }
    });
    connect(&window_, &MainWindow::placeChanged, this, [this](Place place) {
        placeBefore_ = place_;
        place_ = place;
        placeSince_ = live_.heardUpTo();
        leaveAudition(place);
    });
    connect(&live_, &LiveModel::pairFinished, this, [this](const PairReading& reading) {
        const Place place = placeOf(reading.pluck);
        if (!isInstrument(reading.pluck) || place == Place::Action || place == Place::Recheck) {
            return;
        }
        tuning_.hear(reading, bench_.rate().duration(reading.pluck - FrameIndex(0)));
    });
    connect(&live_, &LiveModel::updated, this, [this] {
        speaker_.follow(live_.heardUpTo(), live_.snapshot()->sounding);
    });
    connect(&window_.tunePage(), &TunePage::said, this, [this](const QString& text, bool danger) {
        if (window_.place() == Place::Tune) {
            speaker_.say(spokenText(text), danger);
        }
    });
    connect(&window_, &MainWindow::placeChanged, this, [this](Place place) {
        place == Place::Tune ? window_.tunePage().sayAgain() : speaker_.say({}, false);
    });
    connect(&window_, &MainWindow::speechToggled, this, &Application::turnSpeech);
    connect(&live_, &LiveModel::recordingStopped, this, [this](const Error& error) {
        window_.showRecording(false);
        window_.tunePage().tell(errorText(error));
    });
    connect(&journal_, &SessionJournal::told, this, [this](const QString& text) {
        window_.tunePage().tell(text);
    });
    connect(&journal_, &SessionJournal::opened, this, &Application::goOnFrom);
    connect(&journal_, &SessionJournal::kept, &log_, &ReadingLog::writeKept);
    connect(&journal_, &SessionJournal::takenUp, &log_, &ReadingLog::writeTakenUp);
    connect(&tuning_, &TuningModel::targetChanged, this, &Application::renewTarget);
    connect(&recheck_, &RecheckModel::targetChanged, this, &Application::renewTarget);
    connect(&recheck_, &RecheckModel::changed, this, &Application::writeRecheck);
    connect(&practise_, &PractisePlace::cameTo, &log_, &ReadingLog::writePractise);
    connect(&practise_, &PractisePlace::targetChanged, this, &Application::renewTarget);
    connect(&window_, &MainWindow::placeChanged, this, &Application::renewTarget);
    ChoiceBar& choices = window_.tunePage().choices();
    connect(&choices, &ChoiceBar::tuningChosen, this, &Application::chooseTuning);
    connect(&choices, &ChoiceBar::sourceChosen, this, &Application::chooseSource);
    connect(&choices, &ChoiceBar::fileWanted, this, &Application::askForFile);
    connect(&devices_, &DeviceModel::changed, this, [this] {
        window_.tunePage().choices().setDevices(devices_.inputs());
    });
    connect(&devices_, &DeviceModel::listed, this, [this] {
        if (const AudioDevice* output = devices_.list().findOutput({})) {
            practise_.setOutputRate(output->preferredRate);
            audition_.setOutputRate(output->preferredRate);
        }
    });
    connect(&window_, &MainWindow::fileWanted, this, &Application::askForFile);
    connect(&window_, &MainWindow::preferencesWanted, this, &Application::askForPreferences);
    connect(&window_, &MainWindow::calibrationWanted, this, &Application::askForCalibration);
    connect(&window_, &MainWindow::partsChosen, this, [this](const SessionParts& parts) {
        TuningChoice choice = tuning_.choice();
        choice.parts = parts;
        chooseTuning(choice);
    });
    connect(&window_, &MainWindow::hearPitchWanted, this, &Application::askForHeardPitch);
    connect(&choices, &ChoiceBar::hearPitchWanted, this, &Application::askForHeardPitch);
    connect(&window_, &MainWindow::optionsWanted, this, &Application::askForOptions);
    connect(&choices, &ChoiceBar::optionsWanted, this, &Application::askForOptions);
    connect(&window_, &MainWindow::recordingToggled, this, &Application::record);
    connect(&window_, &MainWindow::appearanceChosen, this, [this](Appearance appearance) {
        settings_.keep(appearance);
        wear();
    });
    connect(&drop_, &FileDrop::dropped, this, &Application::comeForwardWith);
    connect(&files_, &FileOpener::told, &notice_, &Notice::say);
    connect(&window_, &MainWindow::closing, this, [this] {
        settings_.keepWindowGeometry(window_.saveGeometry());
    });
}

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

void Application::connectSeeing() {
    connect(&window_, &MainWindow::contrastToggled, this, [this](bool on) {
        settings_.keepHighContrast(on);
        wear();
    });
    connect(&window_, &MainWindow::calmToggled, this, [this](bool on) {
        settings_.keepLessMotion(on);
        wear();
    });
    connect(&wishes_, &DesktopWishes::changed, this, &Application::wear);
    connect(&window_, &MainWindow::questionsWanted, this, &Application::askQuestions);
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

/// How replaced strings of the instrument that is looked at have settled, by the logbook.
void Application::readNewStrings() {
    if (window_.place() != Place::Instrument) {
        return;
    }
    const std::string id = instrument_.instrument().id;
    journal_.settle();
    logbook_.withNewStrings(instrument_.instrument(),
                            journal_.sound().virtualInstrument,
                            [this, id](std::vector<NewString> strings) {
                                if (id == instrument_.instrument().id) {
                                    instrument_.setNewStrings(std::move(strings));
                                }
                            });
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

/// Where the strings of the instrument that is tuned were left, by the logbook.
void Application::readLeft() {
    const std::string id = tuning_.instrument().id;
    logbook_.withContents([this, id](const std::shared_ptr<const LogbookContents>& contents) {
        if (id == tuning_.instrument().id) {
            temperament_.setLeft(
                contents
                    ? historyOf(*contents, tuning_.instrument(), journal_.sound().virtualInstrument)
                    : StringHistory());
        }
    });
}

/// A first look tells minutes at this player's speed, which the logbook has.
void Application::readLeftForLook() {
    const TuningChoice& choice = tuning_.choice();
    const bool looks = choice.extent == Extent::Whole && choice.parts.firstLook;
    if (looks && !journal_.file().empty()) {
        readLeft();
    }
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

void Application::connectLogbook() {
    connect(&logbook_, &LogbookModel::restoring, this, [this] {
        recheck_.end();
        journal_.close();
    });
    connect(&logbook_, &LogbookModel::restored, this, [this] {
        if (const Result<void> opened = journal_.open(logbook_.file()); !opened) {
            goOnFrom(errorText(opened.error()));
        }
        // The session at hand is not in that file; the same choice was accepted before.
        static_cast<void>(tuning_.chooseAgain());
    });
}

void Application::letDaysPass(double days) {
    ++daysPassed_;
    for (const auto& [string, drift] :
         driftOfDays(tuning_.instrument(), days, kVirtualSeed + daysPassed_)) {
        player_.driftBy(string, drift);
    }
    recheck_.letPass(days);
}

Result<void> Application::begin() {
    wear();
    wishes_.ask();
    if (settings_.speaks()) {
        turnSpeech(true);
    }
    TuningChoice choice = settings_.tuning();
    if (options_.instrument && *options_.instrument != choice.instrument) {
        choice.options.leftAlone.clear(); // was said of the other's choirs
    }
    tuning_.setOptionsOfNext(choice.options);
    choice.instrument = options_.instrument.value_or(choice.instrument);
    choice.choir = options_.choir.value_or(choice.choir);
    choice.temperament = options_.temperament.value_or(choice.temperament);
    choice.a4Hz = options_.a4Hz.value_or(choice.a4Hz);
    if (Result<void> chosen = chooseAtStart(choice); !chosen) {
        return chosen;
    }
    temperament_.follow(tuning_.choice());
    if (!options_.readingsFile.isEmpty()) {
        if (Result<void> opened = log_.open(options_.readingsFile); !opened) {
            return opened;
        }
    }
    source_ = options_.source.value_or(settings_.source());
    openLogbook();
    if (Result<void> opened = openSource(source_); !opened) {
        return opened;
    }
    if (!window_.restoreGeometry(settings_.windowGeometry())) {
        window_.resize(QSize(1280, 800).boundedTo(window_.screen()->availableSize()));
    }
    window_.show();
    devices_.refresh();
    if (asksAtStart()) {
        askQuestions();
    }
    files_.open(options_.files);
    if (options_.screenshotAfterS > 0.0) {
        QTimer::singleShot(
            static_cast<int>(options_.screenshotAfterS * 1000.0), this, &Application::takePicture);
    }
    return {};
}

/// A file of the last session that is gone or damaged is said and does without; what the command line names must be.
Result<void> Application::chooseAtStart(TuningChoice choice) {
    Result<void> chosen = tuning_.choose(choice);
    if (chosen || (options_.instrument && options_.temperament)) {
        return chosen;
    }
    const QString trouble = errorText(chosen.error());
    if (!options_.temperament && !loadTemperament(choice.temperament.toStdString())) {
        choice.temperament = QStringLiteral("vallotti");
    }
    if (!options_.instrument && !loadInstrument(choice.instrument.toStdString())) {
        choice.instrument = toQString(exampleInstruments().front().id);
        choice.choir = toQString(exampleInstruments().front().choirs.front().id);
        choice.options.leftAlone.clear();
    }
    chosen = tuning_.choose(choice);
    window_.tunePage().tell(trouble);
    return chosen;
}

Result<std::filesystem::path> Application::logbookFile() const {
    return options_.settingsFolder.isEmpty()
               ? logbookPlace()
               : Result<std::filesystem::path>(QDir(options_.settingsFolder)
                                                   .filePath(QStringLiteral("logbook.sqlite"))
                                                   .toStdString());
}

void Application::openLogbook() {
    tellJournal(0.0, {});
    const Result<std::filesystem::path> file = logbookFile();
    if (file) {
        logbook_.setFile(*file);
        journal_.openInBackground(*file);
    } else {
        goOnFrom(errorText(file.error()));
    }
}

void Application::goOnFrom(const QString& trouble) {
    if (trouble.isEmpty()) {
        journal_.takeUp();
    } else {
        window_.tunePage().tell(tr("Nothing is kept in the logbook: %1").arg(trouble));
    }
}

void Application::writeRecheck() {
    if (!recheck_.fit() || !recheck_.advice()) {
        return;
    }
    const auto names = [this](const ShortList& list) {
        QStringList strings;
        for (const ShortListed& one : list.strings) {
            strings << toQString(toAscii(keyNote(recheck_.instrument(), one.string)));
        }
        return strings;
    };
    const ShortList& here = recheck_.advice()->here;
    const ShortList& moved = recheck_.advice()->moved ? *recheck_.advice()->moved : here;
    log_.writeRecheck(recheck_.recheck().heard().size(),
                      recheck_.fit()->whole.value,
                      names(here),
                      names(moved),
                      moved.shift.value());
}

void Application::tellJournal(double rateHz, const ClockCalibration& clock) {
    journal_.setSound({sourceName(), source_.kind == SourceKind::Virtual, rateHz, clock});
}

void Application::chooseTuning(const TuningChoice& choice) {
    const TuningChoice before = tuning_.choice();
    TuningChoice wanted = choice;
    wanted.options = tuning_.optionsOfNext();
    wanted.afterLook.reset();
    if (choice.instrument != before.instrument) {
        wanted.options.leftAlone.clear(); // was said of the other's choirs
        // A choir that the other instrument lacks gives way to its first.
        const Result<Instrument> other = loadInstrument(choice.instrument.toStdString());
        if (other && !choirOf(*other, choice.choir.toStdString())) {
            wanted.choir = toQString(other->choirs.front().id);
        }
        wanted.position = 0;
        if (before.position != 0) {
            wanted.a4Hz = standardAfterSliding(before.a4Hz, -before.position);
        }
    }
    const bool slid = choice.instrument == before.instrument && choice.position != before.position;
    if (slid) {
        // The keys move over strings that stay as they are: what the keys are tuned to moves along.
        wanted.a4Hz = standardAfterSliding(before.a4Hz, choice.position - before.position);
    }
    if (const Result<void> chosen = tuning_.choose(wanted); !chosen) {
        window_.tunePage().tell(errorText(chosen.error()));
        window_.tunePage().choices().show(
            before, tuning_.instrument(), tuning_.temperament(), tuning_.positions());
        return;
    }
    tuning_.setOptionsOfNext(wanted.options);
    settings_.keep(wanted);
    const bool otherInstrument = wanted.instrument != before.instrument ||
                                 (!slid && std::abs(wanted.a4Hz - before.a4Hz) > 1e-6);
    if (source_.kind == SourceKind::Virtual && otherInstrument) {
        chooseSource(source_);
    } else {
        player_.drawRegisters();
    }
}

void Application::chooseSource(const SourceChoice& choice) {
    if (const Result<void> opened = openSource(choice); !opened) {
        window_.tunePage().tell(errorText(opened.error()));
        return;
    }
    settings_.keep(choice);
}

Result<void> Application::openSource(const SourceChoice& choice) {
    player_.setInstrument(nullptr);
    live_.watch(nullptr);
    window_.showRecording(false);
    recordingFile_.clear();
    source_ = choice;
    window_.tunePage().choices().show(choice);
    window_.tunePage().setSourceName(sourceName());
    const bool microphone = choice.kind == SourceKind::Microphone;
    const ClockCalibration clock =
        microphone ? settings_.calibration(choice.device) : ClockCalibration{};
    tuning_.setClock(clock);
    tellJournal(0.0, clock);
    Result<void> opened = choice.kind == SourceKind::Virtual
                              ? bench_.listenTo(tuning_.instrument(), virtualStrings())
                              : bench_.listenTo(choice, settings_.input(choice.device), clock);
    if (opened) {
        tellJournal(bench_.rate().hz(), clock);
        sourceOpened();
    }
    return opened;
}

/// A recording that cannot be read leaves alone what is listened to.
Result<void> Application::listenTo(const QString& recording) {
    const SourceChoice choice{SourceKind::File, {}, recording};
    if (const auto sound = bench_.soundOf(choice, {}); !sound) {
        return failure(sound.error().code, sound.error().text, sound.error().context);
    }
    return openSource(choice);
}

void Application::comeForwardWith(const QStringList& files) {
    window_.setWindowState(window_.windowState() & ~Qt::WindowMinimized);
    window_.raise();
    window_.activateWindow();
    files_.open(files);
}

VirtualSettings Application::virtualStrings() const {
    VirtualSettings settings =
        mistuned(tuning_, SampleRate(kVirtualRateHz), kVirtualSeed, Cents(kVirtualSpreadCents));
    if (faultsToFind_) {
        settings.faults = faultsToFind(tuning_.instrument(), kVirtualSeed);
    }
    // Strings of a session that was taken up stand where they were left.
    const Session& session = tuning_.session();
    for (std::size_t step = 0; step < session.progress.size(); ++step) {
        if (const auto& kept = session.progress[step].kept) {
            const StringId string = session.plan->steps[step].string;
            settings.pitches[string.choir][string.course] =
                transpose(tuning_.targetOf(string), kept->deviation);
        }
    }
    return settings;
}

void Application::sourceOpened() {
    placeSince_ = FrameIndex(); // frames count anew
    auditionFrom_ = auditionTo_ = FrameIndex();
    if (tuning_.session().chosenByHand) {
        // Frames count anew from here.
        tuning_.act(GoTo{tuning_.session().current, FrameIndex()});
    }
    renewTarget();
    action_.sourceChanged();
    log_.setRate(bench_.rate());
    player_.setInstrument(bench_.virtualSource());
    live_.watch(bench_.engine());
    window_.tunePage().setSourceName(sourceName());
}

QString Application::sourceName() const {
    switch (source_.kind) {
    case SourceKind::Virtual:
        return tr("Virtual instrument");
    case SourceKind::Microphone:
        return source_.device.isEmpty() ? tr("Microphone") : source_.device;
    case SourceKind::File:
        return QFileInfo(source_.file).fileName();
    }
    return {};
}

void Application::askForFile() {
    const QString file =
        QFileDialog::getOpenFileName(&window_,
                                     tr("Listen to a recording"),
                                     settings_.recordingsFolder(),
                                     tr("Sound (*.wav *.flac *.aiff *.aif *.ogg);;All files (*)"));
    if (!file.isEmpty()) {
        files_.open({file});
    }
}

void Application::askForPreferences() {
    auto* dialog = new PreferencesDialog(settings_, source_, devices_.list(), &window_);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog] {
        keepCalibration(dialog->device(), dialog->calibration(), "entered by hand");
        settings_.keep(dialog->device(), dialog->input());
        settings_.keep(dialog->language());
        settings_.keep(dialog->noteNaming());
        chooseSource({SourceKind::Microphone, dialog->device(), {}});
    });
    dialog->open();
}

void Application::askForOptions() {
    auto* dialog =
        new OptionsDialog(tuning_.optionsOfNext(), tuning_.instrument(), tuning_.choir(), &window_);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog] { chooseOptions(dialog->options()); });
    dialog->open();
}

void Application::chooseOptions(const SessionOptions& options) {
    tuning_.setOptionsOfNext(options);
    settings_.keep(options);
    if (options == tuning_.choice().options) {
        return;
    }
    const Session& session = tuning_.session();
    if (session.countOf(StepState::Untouched) == session.progress.size()) {
        chooseTuning(tuning_.choice());
        return;
    }
    window_.tunePage().tell(
        tr("Counts from the next session on (%1 begins it); the one under way keeps its plan.")
            .arg(QKeySequence(QKeySequence::New).toString(QKeySequence::NativeText)));
}

void Application::askForCalibration() {
    const bool microphone = source_.kind == SourceKind::Microphone;
    if (microphone) {
        // Not every device can be opened twice.
        live_.watch(nullptr);
        bench_.stop();
    }
    auto* dialog = new CalibrationDialog(
        source_,
        devices_.inputs(),
        [this](const SourceChoice& choice) {
            return bench_.soundOf(choice, settings_.input(choice.device));
        },
        &window_);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::finished, this, [this, dialog, microphone](int result) {
        dialog->listen(false);
        if (result == QDialog::Accepted) {
            keepCalibration(
                dialog->device(), dialog->calibration(), "measured against a trusted tone");
            window_.tunePage().tell(tr("The clock's calibration is kept"));
        }
        if (microphone) {
            chooseSource(source_);
        }
    });
    dialog->open();
}

void Application::askForHeardPitch() {
    const bool microphone = source_.kind == SourceKind::Microphone;
    if (microphone) {
        // Not every device can be opened twice.
        live_.watch(nullptr);
        bench_.stop();
    }
    auto* dialog = new HearPitchDialog(
        source_,
        devices_.inputs(),
        [this](const SourceChoice& choice) -> Result<HearPitchDialog::Sound> {
            auto sound = bench_.soundOf(choice, settings_.input(choice.device));
            if (!sound) {
                return Unexpected<Error>(sound.error());
            }
            return HearPitchDialog::Sound{std::move(*sound),
                                          choice.kind == SourceKind::Microphone
                                              ? settings_.calibration(choice.device)
                                              : ClockCalibration{}};
        },
        tuning_.temperament(),
        tuning_.choice().a4Hz,
        &window_);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::finished, this, [this, dialog, microphone](int result) {
        dialog->listen(false);
        if (microphone) {
            chooseSource(source_);
        }
        if (result == QDialog::Accepted && dialog->heard()) {
            keepHeardPitch(*dialog->heard(), dialog->tuneAtOnce());
        }
    });
    dialog->open();
}

void Application::keepHeardPitch(const HeardStandard& heard, bool atOnce) {
    const HeardPitch kept{
        heard.a4.value(), heard.uncertainty, heard.ofTwelve(), QDateTime::currentDateTime()};
    settings_.keep(kept);
    tellLookFacts();
    const QString pitch = tr("%1 %2 cents").arg(hertzText(heard.a4), plusMinus(heard.uncertainty));
    if (!atOnce) {
        window_.tunePage().tell(tr("Kept: %1. A first look offers it.").arg(pitch));
        return;
    }
    TuningChoice choice = tuning_.choice();
    choice.a4Hz = standardShifted(kept.a4Hz, Cents(0.0));
    if (!(choice == tuning_.choice())) {
        chooseTuning(choice);
    }
    window_.goToPlace(Place::Tune);
    window_.tunePage().tell(tr("Tuned at what was heard: %1").arg(pitch));
}

/// What the offers after a first look are reckoned with.
void Application::tellLookFacts() {
    std::optional<HeardPitch> heard = settings_.heardPitch();
    if (heard && !heard->holds(QDateTime::currentDateTime())) {
        heard.reset();
    }
    window_.tunePage().setLookFacts(speedFrom(timesPerString(temperament_.left().settled)), heard);
    window_.tunePage().choices().setHeardPitch(heard);
}

/// Where the clock of a device stands; the logbook keeps what it was found to be.
void Application::keepCalibration(const QString& device,
                                  const ClockCalibration& clock,
                                  const std::string& how) {
    const ClockCalibration before = settings_.calibration(device);
    settings_.keep(device, clock);
    const bool other = std::abs(before.ppm - clock.ppm) > 1e-6 ||
                       std::abs(before.ppmUncertainty - clock.ppmUncertainty) > 1e-6;
    if (!other) {
        return;
    }
    CalibrationRecord record;
    record.device = device.toStdString();
    record.ppm = clock.ppm;
    record.ppmU = clock.ppmUncertainty;
    record.how = how;
    record.at = instantNow();
    journal_.post([record](Logbook& logbook) { return logbook.calibrated(record); });
}

void Application::record(bool on) {
    AnalysisEngine* engine = bench_.engine();
    if (engine == nullptr) {
        window_.showRecording(false);
        return;
    }
    if (!on) {
        const Result<FrameCount> kept = engine->stopRecording();
        const QString seconds =
            kept ? QLocale().toString(bench_.rate().duration(*kept).count(), 'f', 1) : QString();
        window_.tunePage().tell(kept ? tr("Kept %1 s in %2").arg(seconds, recordingFile_)
                                     : errorText(kept.error()));
        return;
    }
    const QDir folder(settings_.recordingsFolder());
    folder.mkpath(QStringLiteral("."));
    recordingFile_ = folder.filePath(
        QDateTime::currentDateTime().toString(QStringLiteral("yyyy-MM-dd HH.mm.ss")) +
        QStringLiteral(".flac"));
    const Result<void> started = engine->startRecording(recordingFile_.toStdString());
    window_.showRecording(started.hasValue());
    window_.tunePage().tell(started ? tr("Recording; F9 ends it") : errorText(started.error()));
}

void Application::turnSpeech(bool on) {
    if (on && !speaker_.available()) {
        window_.tunePage().tell(
            tr("Nothing can speak here: install speech-dispatcher and a voice (on Debian: apt "
               "install speech-dispatcher espeak-ng), then choose this again."));
        window_.showSpeech(false);
        return;
    }
    speaker_.turn(on);
    settings_.keepSpeaks(on);
    window_.showSpeech(on);
    window_.tunePage().sayAgain();
}

/// What is practised on, and what a microphone hears of this program's own voice, is not the instrument.
bool Application::isInstrument(FrameIndex pluck) const {
    const bool ownVoice =
        source_.kind == SourceKind::Microphone && speaker_.drownedOut(pluck, bench_.rate());
    const bool ownStrings = source_.kind == SourceKind::Microphone && pluck >= auditionFrom_ &&
                            (audition_.playing() || pluck < auditionTo_);
    return !practise_.seen() && !ownVoice && !ownStrings;
}

/// Whoever says on the command line what is wanted, or comes back, is not asked.
bool Application::asksAtStart() const {
    const bool told = options_.instrument || options_.choir || options_.temperament ||
                      options_.a4Hz || options_.source || !options_.readingsFile.isEmpty() ||
                      options_.screenshotAfterS > 0.0 || !options_.files.isEmpty();
    return !told && !settings_.wasAsked();
}

void Application::askQuestions() {
    const SourceChoice before = source_;
    auto* dialog = new FirstQuestionsDialog(tuning_.choice(), source_, devices_.inputs(), &window_);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(&devices_, &DeviceModel::changed, dialog, [this, dialog] {
        dialog->setMicrophones(devices_.inputs());
    });
    connect(&live_, &LiveModel::updated, dialog, [this, dialog] {
        dialog->show(levelPicture(live_.snapshot().get()));
    });
    connect(dialog, &FirstQuestionsDialog::sourceTried, this, [this](const SourceChoice& source) {
        if (const Result<void> opened = openSource(source); !opened) {
            window_.tunePage().tell(errorText(opened.error()));
        }
    });
    connect(dialog, &QDialog::finished, this, [this, dialog, before](int result) {
        settings_.keepAsked();
        if (result != QDialog::Accepted) {
            if (!(source_ == before)) {
                chooseSource(before);
            }
            return;
        }
        if (!(dialog->tuning() == tuning_.choice())) {
            chooseTuning(dialog->tuning());
        }
        settings_.keep(tuning_.choice());
        settings_.keep(tuning_.optionsOfNext());
        settings_.keep(source_);
        window_.goToPlace(Place::Tune);
    });
    dialog->open();
}

/// Contrast and motion as chosen, else as the desktop has them.
void Application::wear() {
    const Appearance appearance = settings_.appearance();
    const bool contrast = settings_.highContrast().value_or(wishes_.highContrast());
    const bool calm = settings_.lessMotion().value_or(wishes_.lessMotion());
    const bool dark =
        appearance == Appearance::Dark || (appearance == Appearance::AsSystem && systemIsDark_);
    const Theme theme = contrast ? (dark ? Theme::boldDark() : Theme::boldLight())
                                 : (dark ? Theme::dark() : Theme::light());
    QApplication::setPalette(theme.palette());
    window_.showAppearance(appearance);
    window_.showSeeing(contrast, calm);
    live_.setCalm(calm);
}

void Application::takePicture() {
    if (!window_.grab().save(options_.screenshotFile)) {
        std::fprintf(stderr,
                     "quillbench: %s: the picture cannot be written\n",
                     options_.screenshotFile.toLocal8Bit().constData());
        QApplication::exit(1);
        return;
    }
    QApplication::quit();
}

} // namespace quillbench
