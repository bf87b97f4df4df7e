#include "app/dialogs/preferences_dialog.hpp"

#include <catch2/catch.hpp>

#include <QComboBox>
#include <QTemporaryDir>

using namespace quillbench;

TEST_CASE("each microphone has a calibration of its own; one that is away is still there to see",
          "[ui]") {
    const QTemporaryDir folder;
    SettingsStore settings(folder.path());
    settings.keep(QStringLiteral("one"), ClockCalibration{12.5, 0.5});
    const PreferencesDialog dialog(
        settings, {SourceKind::Microphone, QStringLiteral("one"), {}}, {QStringLiteral("two")});
    CHECK(dialog.device() == QStringLiteral("one"));
    CHECK(dialog.calibration().ppm == Approx(12.5));
    auto* devices = dialog.findChild<QComboBox*>(QStringLiteral("device"));
    REQUIRE(devices != nullptr);
    devices->setCurrentIndex(devices->findData(QStringLiteral("two")));
    CHECK(dialog.device() == QStringLiteral("two"));
    CHECK(dialog.calibration().ppmUncertainty == Approx(50.0));
}
