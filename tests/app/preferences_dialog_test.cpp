#include "app/dialogs/preferences_dialog.hpp"

#include <catch2/catch.hpp>

#include <QComboBox>
#include <QSpinBox>
#include <QTemporaryDir>

using namespace quillbench;

namespace {

/// "two" has two channels and works at its own two rates.
DeviceList twoInputs() {
    AudioDevice two;
    two.name = "two";
    two.inputChannels = 2;
    two.inputRates = {SampleRate(44100.0), SampleRate(96000.0)};
    two.preferredRate = SampleRate(44100.0);
    AudioDevice speaker;
    speaker.name = "speaker";
    speaker.outputChannels = 2;
    return DeviceList{{two, speaker}};
}

} // namespace

TEST_CASE("each microphone has a calibration of its own; one that is away is still there to see",
          "[ui]") {
    const QTemporaryDir folder;
    SettingsStore settings(folder.path());
    settings.keep(QStringLiteral("one"), ClockCalibration{12.5, 0.5});
    const PreferencesDialog dialog(
        settings, {SourceKind::Microphone, QStringLiteral("one"), {}}, twoInputs());
    CHECK(dialog.device() == QStringLiteral("one"));
    CHECK(dialog.calibration().ppm == Approx(12.5));
    auto* devices = dialog.findChild<QComboBox*>(QStringLiteral("device"));
    REQUIRE(devices != nullptr);
    devices->setCurrentIndex(devices->findData(QStringLiteral("two")));
    CHECK(dialog.device() == QStringLiteral("two"));
    CHECK(dialog.calibration().ppmUncertainty == Approx(50.0));
}

TEST_CASE("channel and rate belong to the microphone; what it does not have cannot be chosen",
          "[ui]") {
    const QTemporaryDir folder;
    SettingsStore settings(folder.path());
    const QString two = QStringLiteral("two");
    {
        const PreferencesDialog dialog(settings, {SourceKind::Microphone, two, {}}, twoInputs());
        auto* channel = dialog.findChild<QSpinBox*>(QStringLiteral("channel"));
        auto* rate = dialog.findChild<QComboBox*>(QStringLiteral("rate"));
        REQUIRE(channel != nullptr);
        REQUIRE(rate != nullptr);
        CHECK(channel->maximum() == 2);
        CHECK(rate->count() == 2);
        // 48 kHz, where nothing was chosen yet, it cannot do: its own.
        CHECK(dialog.input() == InputChoice{0, SampleRate(44100.0)});
        channel->setValue(2);
        rate->setCurrentIndex(1);
        settings.keep(two, dialog.input());
    }
    const SettingsStore again(folder.path());
    CHECK(again.input(two) == InputChoice{1, SampleRate(96000.0)});
    CHECK(again.input(QStringLiteral("another")) == InputChoice{0, SampleRate(48000.0)});
    const PreferencesDialog away(again, {SourceKind::Microphone, two, {}}, {});
    CHECK(away.device() == two);
    CHECK(away.input() == InputChoice{1, SampleRate(96000.0)});
}
