#include "app/application.hpp"
#include "app/places/action/practice_faults.hpp"
#include "app/text/core_text.hpp"
#include "app/views/choice_bar.hpp"
#include "app/views/tune_page.hpp"
#include "audio/analysis_engine.hpp"
#include "audio/virtual_source.hpp"
#include "core/virtual/days_pass.hpp"

#include <QDateTime>
#include <QDir>
#include <QFileInfo>
#include <QLocale>

namespace quillbench {

namespace {

constexpr double kVirtualRateHz = 48000.0;
constexpr double kVirtualSpreadCents = 25.0;
constexpr std::uint64_t kVirtualSeed = 1716; // any number; always the same instrument

} // namespace

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

void Application::letDaysPass(double days) {
    ++daysPassed_;
    for (const auto& [string, drift] :
         driftOfDays(tuning_.instrument(), days, kVirtualSeed + daysPassed_)) {
        player_.driftBy(string, drift);
    }
    recheck_.letPass(days);
}

} // namespace quillbench
