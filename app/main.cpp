#include "app/application.hpp"
#include "app/launch_options.hpp"
#include "app/models/settings_store.hpp"
#include "app/quit_on_signal.hpp"
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

int report(const quillbench::Error& error) {
    std::fprintf(stderr, "quillbench: %s\n", error.text.c_str());
    return error.code == quillbench::ErrorCode::UnreadableInput ? kUnreadableInput
                                                                : kWrongCommandLine;
}

/// Help and version are answered without a screen.
std::optional<int> answer(int argc, char** argv) {
    using namespace quillbench;
    const QCoreApplication qt(argc, argv);
    const Result<LaunchOptions> options = parseLaunchOptions(QCoreApplication::arguments());
    if (!options || !(options->help || options->version)) {
        return std::nullopt;
    }
    std::printf("%s\n", options->help ? options->helpText.toLocal8Bit().constData() : kVersion);
    return 0;
}

int run(int argc, char** argv) {
    using namespace quillbench;
    if (const std::optional<int> answered = answer(argc, argv)) {
        return *answered;
    }
    QApplication::setStyle(QStringLiteral("Fusion"));
    QApplication qt(argc, argv);
    QApplication::setApplicationName(QStringLiteral("Quillbench"));
    QApplication::setApplicationVersion(QString::fromLatin1(kVersion));
    QApplication::setDesktopFileName(QStringLiteral("quillbench"));
    const Result<LaunchOptions> options = parseLaunchOptions(QApplication::arguments());
    if (!options) {
        return report(options.error());
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
    Application application(*options);
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
