#include "app/dialogs/calibration_dialog.hpp"
#include "app/models/sound_bench.hpp"
#include "audio/recorder.hpp"

#include <catch2/catch.hpp>

#include <QApplication>
#include <QComboBox>
#include <QDir>
#include <QElapsedTimer>
#include <QLabel>
#include <QPushButton>
#include <QTemporaryDir>
#include <cmath>
#include <numbers>
#include <vector>

using namespace quillbench;

namespace {

constexpr double kToneRate = 8000.0;

/// What a device whose clock runs `ppm` fast records of ten seconds of a true 440 Hz.
QString recordTone(const QTemporaryDir& folder, double ppm) {
    QString path = QDir(folder.path()).filePath(QStringLiteral("tone.flac"));
    std::vector<float> samples;
    for (int i = 0; i < 10 * static_cast<int>(kToneRate); ++i) {
        const double time = i / (kToneRate * (1.0 + ppm * 1e-6));
        samples.push_back(static_cast<float>(0.2 * std::sin(880.0 * std::numbers::pi * time)));
    }
    auto recorder = Recorder::begin(path.toStdString(), SampleRate(kToneRate));
    REQUIRE(recorder);
    (*recorder)->push(SoundBlock{FrameIndex(), samples, false});
    REQUIRE((*recorder)->finish());
    return path;
}

template <typename Widget>
Widget* part(const QWidget& dialog, const char* name) {
    auto* found = dialog.findChild<Widget*>(QString::fromLatin1(name));
    REQUIRE(found != nullptr);
    return found;
}

} // namespace

TEST_CASE("a recorded tone calibrates the device that it was recorded with", "[ui]") {
    const QTemporaryDir folder;
    SoundBench bench;
    CalibrationDialog dialog({SourceKind::File, {}, recordTone(folder, -33.0)},
                             {QStringLiteral("one"), QStringLiteral("two")},
                             [&](const SourceChoice& choice) { return bench.soundOf(choice, {}); });
    auto* owner = part<QComboBox>(dialog, "calibrationOwner");
    CHECK(owner->isEnabled());
    owner->setCurrentIndex(owner->findData(QStringLiteral("two")));
    auto* keep = part<QPushButton>(dialog, "calibrationKeep");
    CHECK_FALSE(keep->isEnabled());
    part<QPushButton>(dialog, "calibrationListen")->click();
    QElapsedTimer timer;
    timer.start();
    while (!keep->isEnabled() && timer.elapsed() < 60000) {
        QApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents, 50);
    }
    REQUIRE(keep->isEnabled());
    CHECK(dialog.device() == QStringLiteral("two"));
    CHECK(dialog.calibration().ppm == Approx(-33.0).margin(0.2));
    CHECK(dialog.calibration().ppmUncertainty >= 0.1);
    CHECK(part<QLabel>(dialog, "calibrationFigure")->text().startsWith(QChar(0x2212)));
}

TEST_CASE("the virtual instrument is not calibrated, and the dialog says why", "[ui]") {
    CalibrationDialog dialog({SourceKind::Virtual, {}, {}},
                             {QStringLiteral("one")},
                             [](const SourceChoice&) -> Result<std::shared_ptr<AudioSource>> {
                                 return failure(ErrorCode::BadArgument, "not to be opened");
                             });
    CHECK_FALSE(part<QPushButton>(dialog, "calibrationListen")->isEnabled());
    CHECK(part<QLabel>(dialog, "calibrationState")->text().contains(QStringLiteral("no clock")));
    // Choosing a microphone there is enough.
    auto* source = part<QComboBox>(dialog, "calibrationSource");
    source->setCurrentIndex(source->findData(QStringLiteral("one")));
    Q_EMIT source->activated(source->currentIndex());
    CHECK(part<QPushButton>(dialog, "calibrationListen")->isEnabled());
    CHECK(dialog.device() == QStringLiteral("one"));
}
