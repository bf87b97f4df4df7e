#include "app/application.hpp"
#include "app/launch_options.hpp"
#include "app/models/settings_store.hpp"
#include "app/paint/window_style.hpp"
#include "app/quit_on_signal.hpp"
#include "app/single_window.hpp"
#include "app/version.hpp"
#include "app/views/screen_reader.hpp"

#include <QApplication>
#include <QFont>
#include <cstdio>
#include <exception>
#include <optional>

/// Outside every namespace, as Qt's macro wants it.
static void loadResources() {
    Q_INIT_RESOURCE(app);
    Q_INIT_RESOURCE(translations);
}

namespace {

constexpr int kWrongCommandLine = 2;
constexpr int kUnreadableInput = 3;
constexpr int kNoAnswer = 1;

int report(const quillbench::Error& error) {
    std::fprintf(stderr, "quillbench: %s\n", error.text.c_str());
    switch (error.code) {
    case quillbench::ErrorCode::UnreadableInput:
        return kUnreadableInput;
    case quillbench::ErrorCode::Environment:
        return kNoAnswer;
    case quillbench::ErrorCode::BadArgument:
    case quillbench::ErrorCode::NothingFound:
        break;
    }
    return kWrongCommandLine;
}

/// Nothing where the window is this process's from now on. Else files go to the window that is open; what else was asked
/// for wants a window of its own.
std::optional<int> claim(std::optional<quillbench::SingleWindow>& single,
                         const quillbench::LaunchOptions& options) {
    using namespace quillbench;
    single.emplace(options.settingsFolder);
    if (single->claim()) {
        return std::nullopt;
    }
    if (!options.choices.isEmpty()) {
        return report({ErrorCode::BadArgument,
                       options.choices.join(QStringLiteral(", ")).toStdString() +
                           ": Quillbench is open already and can only be given files; close it, "
                           "or give --settings-dir for a second window",
                       {}});
    }
    const Result<bool> handed = single->handOver(options.files);
    if (!handed) {
        return report(handed.error());
    }
    return *handed ? std::optional(0) : std::nullopt;
}

/// Help and version are answered without a screen, and so is who comes second.
std::optional<int> answer(int argc, char** argv, std::optional<quillbench::SingleWindow>& single) {
    using namespace quillbench;
    const QCoreApplication qt(argc, argv);
    const Result<LaunchOptions> options = parseLaunchOptions(QCoreApplication::arguments());
    if (!options) {
        return std::nullopt; // there may be options of the screen's among them
    }
    if (options->help || options->version) {
        std::printf("%s\n", options->help ? options->helpText.toLocal8Bit().constData() : kVersion);
        return 0;
    }
    return claim(single, *options);
}

int run(int argc, char** argv) {
    using namespace quillbench;
    std::optional<SingleWindow> single;
    if (const std::optional<int> answered = answer(argc, argv, single)) {
        return *answered;
    }
    QApplication qt(argc, argv);
    QApplication::setStyle(new WindowStyle); // which the application owns
    QApplication::setApplicationName(QStringLiteral("Quillbench"));
    QApplication::setApplicationVersion(QString::fromLatin1(kVersion));
    QApplication::setDesktopFileName(QStringLiteral("quillbench"));
    const Result<LaunchOptions> options = parseLaunchOptions(QApplication::arguments());
    if (!options) {
        return report(options.error());
    }
    if (!single) {
        if (const std::optional<int> second = claim(single, *options)) {
            return *second;
        }
    }
    loadResources();
    const SettingsStore settings(options->settingsFolder);
    const Translation translation(options->language.value_or(settings.language()));
    nameNotes(settings.noteNaming().value_or(usualNaming()));
    readyForScreenReaders();
    QFont font(QStringList{QStringLiteral("DejaVu Serif"), QStringLiteral("Noto Serif")});
    font.setPixelSize(14);
    font.setStyleHint(QFont::Serif);
    QApplication::setFont(font);
    QuitOnSignal quitOnSignal;
    single->answerCalls();
    Application application(*options);
    QObject::connect(&*single, &SingleWindow::called, &application, &Application::comeForwardWith);
    if (const Result<void> begun = application.begin(); !begun) {
        return report(begun.error());
    }
    return QApplication::exec();
}

} // namespace

int main(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "quillbench: stopped by an unexpected error: %s\n", error.what());
        return 1;
    }
}
