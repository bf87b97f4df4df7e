#define CATCH_CONFIG_EXTERNAL_INTERFACES
#include <catch2/catch.hpp>

#include <QApplication>
#include <QLocale>
#include <array>
#include <optional>

/// Outside every namespace, as Qt's macro wants it.
static void loadResources() {
    Q_INIT_RESOURCE(app);
    Q_INIT_RESOURCE(translations);
}

namespace {

/// Widgets need an application around them; no screen, no sound and no settings of the person who runs the tests.
class ApplicationAround : public Catch::TestEventListenerBase {
public:
    using TestEventListenerBase::TestEventListenerBase;

    void testRunStarting(const Catch::TestRunInfo& /*run*/) override {
        if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) {
            qputenv("QT_QPA_PLATFORM", "offscreen");
        }
        QApplication::setStyle(QStringLiteral("Fusion"));
        application_.emplace(count_, arguments_.data());
        loadResources();
        // The window writes numbers as the person's locale does; the tests read them with a decimal point.
        QLocale::setDefault(QLocale(QLocale::English, QLocale::UnitedStates));
    }

    void testRunEnded(const Catch::TestRunStats& /*run*/) override { application_.reset(); }

private:
    std::array<char, 6> name_{"tests"};
    std::array<char*, 2> arguments_{name_.data(), nullptr};
    int count_ = 1;
    std::optional<QApplication> application_;
};

} // namespace

CATCH_REGISTER_LISTENER(ApplicationAround)
