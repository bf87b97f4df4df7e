#include "app/models/settings_store.hpp"

#include <catch2/catch.hpp>

#include <QTemporaryDir>

using namespace quillbench;

TEST_CASE("the last session's choices come back from a folder of one's own", "[ui]") {
    const QTemporaryDir folder;
    {
        SettingsStore store(folder.path());
        TuningChoice choice = store.tuning();
        CHECK(choice.instrument == QStringLiteral("double-8-8-4"));
        choice.a4Hz = 392.0;
        choice.order = StepOrder::Chromatic;
        choice.position = 1;
        store.keep(choice);
        store.keep(SourceChoice{SourceKind::Microphone, QStringLiteral("A/B (hw:1,0)"), {}});
        store.keep(QStringLiteral("A/B (hw:1,0)"), ClockCalibration{-12.5, 0.5});
        store.keep(Appearance::Dark);
    }
    const SettingsStore store(folder.path());
    CHECK(store.tuning().a4Hz == Approx(392.0));
    CHECK(store.tuning().order == StepOrder::Chromatic);
    CHECK(store.tuning().position == 1);
    CHECK(store.source().device == QStringLiteral("A/B (hw:1,0)"));
    CHECK(store.calibration(QStringLiteral("A/B (hw:1,0)")).ppm == Approx(-12.5));
    CHECK(store.calibration(QStringLiteral("another")).ppmUncertainty == Approx(50.0));
    CHECK(store.appearance() == Appearance::Dark);
    CHECK(store.recordingsFolder().startsWith(folder.path()));
}

TEST_CASE("a recording that was looked at is not opened at the next start", "[ui]") {
    const QTemporaryDir folder;
    SettingsStore store(folder.path());
    store.keep(SourceChoice{SourceKind::File, {}, QStringLiteral("x.wav")});
    CHECK(store.source().kind == SourceKind::Virtual);
}

TEST_CASE("the options of a whole session come back, tolerances within their range", "[ui]") {
    const QTemporaryDir folder;
    SessionOptions options;
    options.leftAlone = QStringList{QStringLiteral("4")};
    options.outward = Outward::ByTurns;
    options.approach = Approach::FromBelow;
    options.tolerances.bearings = Cents(0.5);
    options.tolerances.extremes = Cents(3.0);
    options.tolerances.unisons = Cents(0.7);
    options.felt = true;
    {
        SettingsStore store(folder.path());
        CHECK(store.tuning().options == SessionOptions{});
        store.keep(options);
    }
    SettingsStore store(folder.path());
    CHECK(store.tuning().options == options);
    options.outward = Outward::UpThenDown;
    options.tolerances.bearings = Cents(0.01);
    options.tolerances.extremes = Cents(40.0);
    store.keep(options);
    CHECK(store.tuning().options.outward == Outward::UpThenDown);
    CHECK(store.tuning().options.tolerances.bearings.value() == Approx(0.3));
    CHECK(store.tuning().options.tolerances.extremes.value() == Approx(5.0));
}
