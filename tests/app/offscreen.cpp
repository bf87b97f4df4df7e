#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>

#include <QApplication>
#include <QLocale>

/// Outside every namespace, as Qt's macro wants it.
static void loadResources() {
    Q_INIT_RESOURCE(app);
}

/// Widgets need an application around them; no screen, no sound and no settings of the person who runs the tests.
int main(int argc, char** argv) {
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    QApplication::setStyle(QStringLiteral("Fusion"));
    QApplication application(argc, argv);
    loadResources();
    // The window writes numbers as the person's locale does; the tests read them with a decimal point.
    QLocale::setDefault(QLocale(QLocale::English, QLocale::UnitedStates));
    return Catch::Session().run(argc, argv);
}
