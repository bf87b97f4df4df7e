#include "app/dialogs/hear_pitch_dialog.hpp"
#include "app/models/settings_store.hpp"
#include "app/models/sound_bench.hpp"
#include "app/views/choice_bar.hpp"
#include "audio/recorder.hpp"
#include "core/temperament/catalogue.hpp"

#include <catch2/catch.hpp>

#include <QApplication>
#include <QComboBox>
#include <QDir>
#include <QElapsedTimer>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTemporaryDir>
#include <cmath>
#include <numbers>
#include <vector>

using namespace quillbench;

namespace {

constexpr double kOrganRate = 16000.0;

/// Held tones of an invented organ, one after another, each three seconds.
QString recordOrgan(const QTemporaryDir& folder, const std::vector<double>& hertz) {
    QString path = QDir(folder.path()).filePath(QStringLiteral("organ.flac"));
    auto recorder = Recorder::begin(path.toStdString(), SampleRate(kOrganRate));
    REQUIRE(recorder);
    std::vector<float> samples;
    samples.reserve(hertz.size() * 48000);
    for (const double hz : hertz) {
        for (int i = 0; i < 3 * static_cast<int>(kOrganRate); ++i) {
            const double phase = 2.0 * std::numbers::pi * hz * i / kOrganRate;
            samples.push_back(static_cast<float>(
                0.1 * std::sin(phase) + 0.05 * std::sin(2 * phase) + 0.03 * std::sin(3 * phase)));
        }
    }
    (*recorder)->push(SoundBlock{FrameIndex(), samples, false});
    REQUIRE((*recorder)->finish());
    return path;
}

struct OrganDesk {
    QTemporaryDir folder;
    SoundBench bench;
    HearPitchDialog dialog;

    explicit OrganDesk(const std::vector<double>& hertz, double standardHz = 415.0)
        : dialog(
              {SourceKind::File, {}, recordOrgan(folder, hertz)},
              {QStringLiteral("one")},
              [this](const SourceChoice& choice) -> Result<HearPitchDialog::Sound> {
                  auto sound = bench.soundOf(choice, {});
                  if (!sound) {
                      return Unexpected<Error>(sound.error());
                  }
                  return HearPitchDialog::Sound{std::move(*sound), {}};
              },
              *findTemperament("equal"),
              standardHz) {}

    template <typename Widget>
    [[nodiscard]] Widget& part(const char* name) const {
        auto* found = dialog.findChild<Widget*>(QString::fromLatin1(name));
        INFO(name);
        REQUIRE(found != nullptr);
        return *found;
    }

    [[nodiscard]] QString words(const char* name) const { return part<QLabel>(name).text(); }

    /// To the end of the recording.
    void listen() const {
        auto& button = part<QPushButton>("hearPitchListen");
        const QString before = button.text();
        button.click();
        QElapsedTimer timer;
        timer.start();
        while (button.text() != before && timer.elapsed() < 60000) {
            QApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents, 50);
        }
        REQUIRE(button.text() == before);
    }
};

} // namespace

TEST_CASE("an A of an organ is heard, and can be kept or tuned at", "[ui]") {
    OrganDesk hearing({207.9}); // 415.8 Hz an octave above: 3.334 cents over 415 by arithmetic
    CHECK_FALSE(hearing.part<QPushButton>("hearPitchKeep").isEnabled());
    hearing.listen();
    REQUIRE(hearing.dialog.heard());
    CHECK(interval(Hertz(415.8), hearing.dialog.heard()->a4).value() == Approx(0.0).margin(0.1));
    CHECK(hearing.words("hearPitchFigure").startsWith(QStringLiteral("a\u2032 = 415.8")));
    CHECK(hearing.words("hearPitchNotes") == QStringLiteral("From A alone."));
    CHECK(hearing.words("hearPitchFrom").startsWith(QStringLiteral("+3.3 cents")));
    CHECK(hearing.part<QPushButton>("hearPitchKeep").isEnabled());
    hearing.part<QPushButton>("hearPitchTune").click();
    CHECK(hearing.dialog.result() == QDialog::Accepted);
    CHECK(hearing.dialog.tuneAtOnce());
}

TEST_CASE("all twelve notes count in the mean", "[ui]") {
    std::vector<double> notes;
    notes.reserve(12);
    for (int step = 0; step < 12; ++step) {
        // An equal-tempered organ at 440 Hz whose A alone is 6 cents high: the mean is half a cent high.
        notes.push_back(440.0 * std::exp2((100.0 * step + (step == 0 ? 6.0 : 0.0)) / 1200.0));
    }
    const OrganDesk hearing(notes, 440.0);
    hearing.listen();
    REQUIRE(hearing.dialog.heard());
    CHECK(hearing.dialog.heard()->ofTwelve());
    CHECK(interval(Hertz(440.0), hearing.dialog.heard()->a4).value() == Approx(0.5).margin(0.05));
    CHECK(hearing.words("hearPitchNotes").contains(QStringLiteral("all twelve")));
}

TEST_CASE("what is no A, and a standard that lies far up, are told", "[ui]") {
    const OrganDesk none({660.0});
    none.listen();
    CHECK_FALSE(none.dialog.heard());
    CHECK(none.words("hearPitchState").contains(QStringLiteral("no A")));
    CHECK_FALSE(none.part<QPushButton>("hearPitchKeep").isEnabled());
    const OrganDesk far({440.0});
    far.listen();
    REQUIRE(far.dialog.heard());
    CHECK(far.words("hearPitchFrom").contains(QStringLiteral("no first look offers it")));
    CHECK(far.words("hearPitchFrom").contains(QStringLiteral("conservator")));
}

TEST_CASE("a heard pitch is kept for the evening and stands among the pitches", "[ui]") {
    const QTemporaryDir folder;
    const QDateTime at = QDateTime::fromString(QStringLiteral("2026-03-01T18:00:00"), Qt::ISODate);
    const HeardPitch heard{413.456, Cents(0.4), true, at};
    {
        SettingsStore settings(folder.path());
        CHECK_FALSE(settings.heardPitch());
        settings.keep(heard);
    }
    const SettingsStore settings(folder.path());
    REQUIRE(settings.heardPitch());
    CHECK(*settings.heardPitch() == heard);
    CHECK(heard.holds(at.addSecs(11 * 3600)));
    CHECK_FALSE(heard.holds(at.addSecs(12 * 3600)));
    CHECK_FALSE(heard.holds(at.addSecs(-1)));

    ChoiceBar bar;
    auto* pitch = bar.findChild<QComboBox*>(QStringLiteral("choosePitch"));
    REQUIRE(pitch != nullptr);
    const int before = pitch->count();
    bar.setHeardPitch(heard);
    CHECK(pitch->count() == before + 1);
    std::vector<double> chosen;
    int asked = 0;
    QObject::connect(&bar, &ChoiceBar::tuningChosen, [&chosen](const TuningChoice& choice) {
        chosen.push_back(choice.a4Hz);
    });
    QObject::connect(&bar, &ChoiceBar::hearPitchWanted, [&asked] { ++asked; });
    const int as = pitch->findText(QStringLiteral("413.46, as heard"));
    REQUIRE(as >= 0);
    pitch->setCurrentIndex(as);
    Q_EMIT pitch->activated(as);
    REQUIRE(chosen.size() == 1);
    CHECK(chosen[0] == Approx(413.46));
    pitch->setCurrentIndex(pitch->count() - 1);
    Q_EMIT pitch->activated(pitch->count() - 1);
    CHECK(asked == 1);
    CHECK(chosen.size() == 1);
    // What was shown stands there again, not the words of the list.
    CHECK(pitch->currentText() == QStringLiteral("415"));
}
