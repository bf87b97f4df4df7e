#include "app/application.hpp"
#include "app/text/sound_text.hpp"
#include "app/text/translation.hpp"
#include "app/views/main_window.hpp"
#include "app/views/tune_page.hpp"
#include "audio/recorder.hpp"
#include "tests/app/all_places.hpp"

#include <catch2/catch.hpp>

#include <QAbstractButton>
#include <QApplication>
#include <QDir>
#include <QLabel>
#include <QTabBar>
#include <QTemporaryDir>
#include <array>
#include <vector>

using namespace quillbench;
using quillbench::test::kAllPlaces;

namespace {

constexpr double kSilenceRate = 16000.0;
constexpr int kRounding = 3; // pixels by which heights of fonts are rounded, line by line

/// A second of silence, so that no device of the machine is asked.
QString silenceIn(const QTemporaryDir& folder) {
    QString file = QDir(folder.path()).filePath(QStringLiteral("silence.wav"));
    auto recorder = Recorder::begin(file.toStdString(), SampleRate(kSilenceRate));
    REQUIRE(recorder);
    const std::vector<float> samples(static_cast<std::size_t>(kSilenceRate), 0.0F);
    (*recorder)->push(SoundBlock{FrameIndex(), samples, false});
    REQUIRE((*recorder)->finish());
    return file;
}

MainWindow* theWindow() {
    for (QWidget* widget : QApplication::topLevelWidgets()) {
        if (auto* window = qobject_cast<MainWindow*>(widget)) {
            return window;
        }
    }
    return nullptr;
}

bool isCut(const QLabel& label) {
    if (!label.wordWrap()) {
        return label.sizeHint().width() > label.width();
    }
    // What the lines themselves take: a label keeps some room around them when it can.
    const QRect room(0, 0, label.contentsRect().width(), label.height() * 10);
    const int lines =
        label.fontMetrics().boundingRect(room, Qt::TextWordWrap, label.text()).height();
    return lines > label.height() + kRounding;
}

/// What is shown in less room than it needs.
QStringList cutTexts(const QWidget& within) {
    QStringList cut;
    const auto note = [&cut](const QWidget& widget, const QString& text) {
        cut << QStringLiteral("%1 '%2': %3 by %4, wanted %5 by %6")
                   .arg(QString::fromLatin1(widget.metaObject()->className()), text)
                   .arg(widget.width())
                   .arg(widget.height())
                   .arg(widget.sizeHint().width())
                   .arg(widget.heightForWidth(widget.width()));
    };
    for (const QLabel* label : within.findChildren<QLabel*>()) {
        if (label->isVisible() && !label->text().isEmpty() && isCut(*label)) {
            note(*label, label->text());
        }
    }
    for (const QAbstractButton* button : within.findChildren<QAbstractButton*>()) {
        if (button->isVisible() && !button->text().isEmpty() &&
            button->sizeHint().width() > button->width()) {
            note(*button, button->text());
        }
    }
    for (const QTabBar* tabs : within.findChildren<QTabBar*>()) {
        if (tabs->isVisible() && tabs->sizeHint().width() > tabs->width()) {
            note(*tabs, tabs->tabText(0));
        }
    }
    return cut;
}

} // namespace

TEST_CASE("in German no label and no button of any place is cut, in any size", "[ui]") {
    const Translation german(Language::German);
    nameNotes(usualNaming());
    const QTemporaryDir folder;
    LaunchOptions options;
    options.settingsFolder = folder.path();
    options.source = SourceChoice{SourceKind::File, {}, silenceIn(folder)};
    Application application(options);
    REQUIRE(application.begin());
    MainWindow* window = theWindow();
    REQUIRE(window != nullptr);
    // A laptop, a small one, and 1920 by 1080 at 200 %.
    for (const QSize size : {QSize(1280, 800), QSize(1024, 600), QSize(960, 540)}) {
        window->resize(size);
        for (const Place place : kAllPlaces) {
            window->goToPlace(place);
            for (int i = 0; i < 4; ++i) {
                QApplication::processEvents();
            }
            const QStringList cut = cutTexts(*window);
            INFO(size.width() << " wide, place " << static_cast<int>(place) << '\n'
                              << cut.join(QLatin1Char('\n')).toStdString());
            CHECK(cut.isEmpty());
        }
    }
    nameNotes({});
}

TEST_CASE("beside the help what is told in Tune takes two lines, in German too", "[ui]") {
    const Translation german(Language::German);
    nameNotes(usualNaming());
    const QTemporaryDir folder;
    LaunchOptions options;
    options.settingsFolder = folder.path();
    options.source = SourceChoice{SourceKind::File, {}, silenceIn(folder)};
    Application application(options);
    REQUIRE(application.begin());
    MainWindow* window = theWindow();
    REQUIRE(window != nullptr);
    window->resize(1024, 600);
    window->goToPlace(Place::Tune);
    window->showHelp(true);
    MicrophoneState gated;
    gated.gated = true;
    window->tunePage().tell(microphoneText(gated));
    for (int i = 0; i < 4; ++i) {
        QApplication::processEvents();
    }
    const auto* told = window->findChild<QLabel*>(QStringLiteral("told"));
    REQUIRE(told != nullptr);
    CHECK(told->height() <= 2 * told->fontMetrics().lineSpacing() + kRounding);
    const QStringList cut = cutTexts(*window);
    INFO(cut.join(QLatin1Char('\n')).toStdString());
    CHECK(cut.isEmpty());
    nameNotes({});
}
