#include "app/application.hpp"

#include "app/formats/instrument_file.hpp"
#include "app/formats/temperament_file.hpp"
#include "app/paint/theme.hpp"
#include "app/places/practise/practise_page.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/spoken_text.hpp"
#include "app/views/choice_bar.hpp"
#include "app/views/tune_page.hpp"
#include "core/instrument/examples.hpp"

#include <QApplication>
#include <QKeySequence>
#include <QScreen>
#include <QTimer>
#include <cmath>
#include <cstdio>

namespace quillbench {

namespace {

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

void Application::comeForwardWith(const QStringList& files) {
    window_.setWindowState(window_.windowState() & ~Qt::WindowMinimized);
    window_.raise();
    window_.activateWindow();
    files_.open(files);
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

/// Whoever says on the command line what is wanted, or comes back, is not asked.
bool Application::asksAtStart() const {
    const bool told = options_.instrument || options_.choir || options_.temperament ||
                      options_.a4Hz || options_.source || !options_.readingsFile.isEmpty() ||
                      options_.screenshotAfterS > 0.0 || !options_.files.isEmpty();
    return !told && !settings_.wasAsked();
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
