#include "app/application.hpp"
#include "app/formats/instrument_file.hpp"
#include "app/formats/logbook_file.hpp"
#include "app/formats/string_list.hpp"
#include "app/formats/temperament_file.hpp"
#include "app/formats/text_file.hpp"
#include "audio/recorder.hpp"
#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"

#include <catch2/catch.hpp>

#include <QApplication>
#include <QDragEnterEvent>
#include <QDragLeaveEvent>
#include <QDropEvent>
#include <QElapsedTimer>
#include <QLabel>
#include <QLineEdit>
#include <QMessageBox>
#include <QMimeData>
#include <QPushButton>
#include <QTemporaryDir>
#include <QUrl>
#include <cmath>
#include <functional>

using namespace quillbench;

namespace {

bool becomesTrue(const std::function<bool()>& what) {
    QElapsedTimer timer;
    timer.start();
    while (!what() && timer.elapsed() < 60000) {
        QApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents, 20);
    }
    return what();
}

/// A window with its own folder of settings, at the virtual instrument.
struct OpenWindow {
    QTemporaryDir folder;
    Application application{optionsIn(folder)};

    OpenWindow() { REQUIRE(application.begin()); }

    static LaunchOptions optionsIn(const QTemporaryDir& folder) {
        LaunchOptions options;
        options.settingsFolder = folder.path();
        return options;
    }

    [[nodiscard]] QString path(const char* name) const {
        return folder.filePath(QString::fromLatin1(name));
    }

    [[nodiscard]] QString write(const char* name, const std::string& text) const {
        REQUIRE(writeTextFile(path(name).toStdString(), text));
        return path(name);
    }

    /// A second of a tone.
    [[nodiscard]] QString recording(const char* name) const {
        constexpr double kRate = 16000.0;
        std::vector<float> samples(static_cast<std::size_t>(kRate));
        for (std::size_t i = 0; i < samples.size(); ++i) {
            samples[i] = 0.1F * static_cast<float>(std::sin(0.16 * static_cast<double>(i)));
        }
        auto recorder = Recorder::begin(path(name).toStdString(), SampleRate(kRate));
        REQUIRE(recorder);
        (*recorder)->push(SoundBlock{FrameIndex(0), samples, false});
        REQUIRE((*recorder)->finish());
        return path(name);
    }

    [[nodiscard]] QString text(const char* label) {
        const auto* found = application.window().findChild<QLabel*>(QString::fromLatin1(label));
        REQUIRE(found != nullptr);
        return found->text();
    }

    [[nodiscard]] bool covered() {
        return application.window().findChild<QWidget*>(QStringLiteral("dropCover"))->isVisible();
    }
};

QMimeData* carrying(const QStringList& files) {
    auto* data = new QMimeData;
    QList<QUrl> urls;
    for (const QString& file : files) {
        urls << QUrl::fromLocalFile(file);
    }
    data->setUrls(urls);
    return data;
}

bool hover(QWidget& over, const QMimeData* data) {
    QDragEnterEvent enter(
        QPoint(5, 5), Qt::CopyAction | Qt::MoveAction, data, Qt::LeftButton, Qt::NoModifier);
    enter.ignore();
    QApplication::sendEvent(&over, &enter);
    return enter.isAccepted();
}

bool drop(QWidget& on, const QMimeData* data) {
    QDropEvent drop(
        QPointF(5, 5), Qt::CopyAction | Qt::MoveAction, data, Qt::LeftButton, Qt::NoModifier);
    drop.ignore();
    QApplication::sendEvent(&on, &drop);
    CHECK((!drop.isAccepted() || drop.dropAction() == Qt::CopyAction));
    return drop.isAccepted();
}

} // namespace

TEST_CASE("the window shows that it takes a file that hovers, and no longer when it is gone",
          "[ui]") {
    OpenWindow open;
    const std::unique_ptr<QMimeData> data(carrying({open.recording("g3.flac")}));
    REQUIRE(hover(open.application.window(), data.get()));
    CHECK(open.covered());
    CHECK(open.text("dropCover").contains(QStringLiteral("g3.flac")));
    QDragLeaveEvent leave;
    QApplication::sendEvent(&open.application.window(), &leave);
    CHECK_FALSE(open.covered());
    CHECK(open.text("notice").isEmpty());
}

TEST_CASE("what is no file of this machine is not taken", "[ui]") {
    OpenWindow open;
    QMimeData text;
    text.setText(QStringLiteral("words"));
    CHECK_FALSE(hover(open.application.window(), &text));
    QMimeData elsewhere;
    elsewhere.setUrls({QUrl(QStringLiteral("https://example.invalid/a.wav"))});
    CHECK_FALSE(hover(open.application.window(), &elsewhere));
    CHECK_FALSE(open.covered());
}

TEST_CASE("a recording that is dropped is listened to at Tune", "[ui]") {
    OpenWindow open;
    open.application.window().goToPlace(Place::Logbook);
    const std::unique_ptr<QMimeData> data(carrying({open.recording("g3.flac")}));
    hover(open.application.window(), data.get());
    REQUIRE(drop(open.application.window(), data.get()));
    CHECK_FALSE(open.covered());
    CHECK(open.application.window().place() == Place::Tune);
    CHECK(open.text("notice") == QStringLiteral("Listening to g3.flac"));
    CHECK(open.text("source").contains(QStringLiteral("g3.flac")));
    CHECK_FALSE(open.application.player().playing());
    // It is heard to its end.
    CHECK(becomesTrue([&] { return !open.application.live().running(); }));
}

TEST_CASE("a file that cannot be read is said in one line and what sounds goes on", "[ui]") {
    OpenWindow open;
    REQUIRE(open.application.player().playing());
    for (const QString& file : {open.write("notes.txt", "a shopping list"),
                                open.write("other.json", "{\"kind\": \"poem\"}"),
                                open.path("not-there.wav")}) {
        open.application.files().open({file});
        const QString notice = open.text("notice");
        INFO(notice.toStdString());
        CHECK(notice.contains(QFileInfo(file).fileName()));
        CHECK_FALSE(notice.contains(QLatin1Char('\n')));
        CHECK(open.application.player().playing());
        CHECK(open.application.window().place() == Place::Tune);
    }
}

TEST_CASE("an instrument and a temperament are opened in their places", "[ui]") {
    OpenWindow open;
    Instrument instrument = exampleInstruments().back();
    instrument.name = "Test box (invented)";
    const QString box = open.write("box.quillbench", formatInstrument({instrument, {}}));
    const QString mine = open.write("mine.json", formatTemperament({catalogue().front(), {}}));
    open.application.files().open({box});
    CHECK(open.application.window().place() == Place::Instrument);
    CHECK(open.text("notice") == QStringLiteral("Instrument opened: Test box (invented)"));
    open.application.files().open({mine});
    CHECK(open.application.window().place() == Place::Temperament);
    CHECK(open.text("notice").startsWith(QStringLiteral("Temperament opened: ")));
}

TEST_CASE("an instrument with unsaved changes does not give way to a file", "[ui]") {
    OpenWindow open;
    const QString box =
        open.write("box.quillbench", formatInstrument({exampleInstruments().back(), {}}));
    Instrument measured = *findExample("double-8-8-4");
    measured.choirs[0].strings[0].length = Millimetre(1700.0);
    const QString list = open.write("strings.csv", formatStringList(measured));
    // Its lengths go into the instrument at hand, which is unsaved from then on.
    open.application.files().open({list});
    CHECK(open.application.window().place() == Place::Instrument);
    open.application.files().open({box});
    CHECK(open.text("notice").contains(QStringLiteral("not saved")));
    CHECK(open.text("notice").contains(QStringLiteral("box.quillbench")));
}

TEST_CASE("a field that takes text does not take files: they are opened", "[ui]") {
    OpenWindow open;
    open.application.window().goToPlace(Place::Instrument);
    auto* field = open.application.window().findChild<QLineEdit*>();
    REQUIRE(field != nullptr);
    const QString before = field->text();
    const std::unique_ptr<QMimeData> data(carrying({open.recording("g3.flac")}));
    CHECK(hover(*field, data.get()));
    CHECK(open.covered());
    CHECK(drop(*field, data.get()));
    CHECK(field->text() == before);
    CHECK(open.application.window().place() == Place::Tune);
}

TEST_CASE("of several files each kind finds its place; the first is seen, the surplus said",
          "[ui]") {
    OpenWindow open;
    const QString mine = open.write("mine.json", formatTemperament({catalogue().front(), {}}));
    const std::unique_ptr<QMimeData> data(
        carrying({mine, open.recording("one.flac"), open.recording("two.flac")}));
    hover(open.application.window(), data.get());
    REQUIRE(drop(open.application.window(), data.get()));
    const QStringList lines = open.text("notice").split(QLatin1Char('\n'));
    REQUIRE(lines.size() == 3);
    CHECK(lines[1] == QStringLiteral("Listening to one.flac"));
    CHECK(lines[2].endsWith(QStringLiteral("two.flac")));
    CHECK(open.application.window().place() == Place::Temperament);
}

TEST_CASE("an export of the logbook is taken over after a question", "[ui]") {
    OpenWindow open;
    const QString exported = open.write("all.quillbench", formatLogbook({}));
    const bool wanted = GENERATE(true, false);
    CAPTURE(wanted);
    open.application.files().open({exported});
    auto* box = open.application.window().findChild<QMessageBox*>(QStringLiteral("takeOver"));
    REQUIRE(box != nullptr);
    CHECK(box->text().contains(QStringLiteral("all.quillbench")));
    QString told;
    QObject::connect(&open.application.logbook(),
                     &LogbookModel::told,
                     [&told](const QString& text) { told = text; });
    for (QAbstractButton* button : box->buttons()) {
        if ((box->buttonRole(button) == QMessageBox::AcceptRole) == wanted) {
            button->click();
            break;
        }
    }
    open.application.logbook().finish();
    CHECK(becomesTrue([&] { return !open.application.logbook().busy(); }));
    CHECK(told.startsWith(QStringLiteral("0 rows taken over")) == wanted);
    CHECK((open.application.window().place() == Place::Logbook) == wanted);
}
