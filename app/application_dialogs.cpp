#include "app/application.hpp"
#include "app/dialogs/calibration_dialog.hpp"
#include "app/dialogs/first_questions_dialog.hpp"
#include "app/dialogs/hear_pitch_dialog.hpp"
#include "app/dialogs/options_dialog.hpp"
#include "app/dialogs/preferences_dialog.hpp"
#include "app/models/picture_maker.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/views/choice_bar.hpp"
#include "app/views/tune_page.hpp"

#include <QDateTime>
#include <QFileDialog>
#include <cmath>

namespace quillbench {

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

} // namespace quillbench
