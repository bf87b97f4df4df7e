#include "app/application.hpp"
#include "app/dialogs/first_questions_dialog.hpp"
#include "app/models/desktop_wishes.hpp"

#include <catch2/catch.hpp>

#include <QApplication>
#include <QComboBox>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTemporaryDir>

using namespace quillbench;

namespace {

TuningChoice firstTuning() {
    TuningChoice choice;
    choice.instrument = QStringLiteral("double-8-8-4");
    choice.choir = QStringLiteral("8");
    choice.temperament = QStringLiteral("vallotti");
    choice.lowest = QStringLiteral("C3");
    return choice;
}

/// What Return does where the focus is: the key goes up from there, and the dialog presses its default button.
void pressReturn(QDialog& dialog) {
    QWidget* to = QApplication::focusWidget();
    REQUIRE(to != nullptr);
    REQUIRE(to->window() == &dialog);
    QKeyEvent down(QEvent::KeyPress, Qt::Key_Return, Qt::NoModifier);
    QApplication::sendEvent(to, &down);
    QApplication::processEvents();
}

FirstQuestionsDialog* asked(Application& application) {
    return application.window().findChild<FirstQuestionsDialog*>();
}

} // namespace

TEST_CASE("Return three times answers all, with what stood there", "[ui]") {
    FirstQuestionsDialog dialog(firstTuning(), {}, {QStringLiteral("desk microphone")});
    dialog.open();
    dialog.activateWindow();
    QApplication::processEvents();
    bool accepted = false;
    QObject::connect(&dialog, &QDialog::accepted, [&] { accepted = true; });
    for (int i = 0; i < 3; ++i) {
        CHECK_FALSE(accepted);
        pressReturn(dialog);
    }
    CHECK(accepted);
    CHECK(dialog.tuning() == firstTuning());
    CHECK(dialog.source() == SourceChoice{});
}

TEST_CASE("another instrument brings its own pitch, and every answer can be changed by keyboard",
          "[ui]") {
    FirstQuestionsDialog dialog(firstTuning(), {}, {QStringLiteral("desk microphone")});
    dialog.open();
    dialog.activateWindow();
    QApplication::processEvents();
    auto* instruments = dialog.findChild<QListWidget*>(QStringLiteral("firstInstrument"));
    REQUIRE(instruments != nullptr);
    CHECK(instruments->hasFocus());
    for (int row = 0; row < instruments->count(); ++row) {
        if (instruments->item(row)->data(Qt::UserRole).toString() == QStringLiteral("single-8-8")) {
            instruments->setCurrentRow(row);
        }
    }
    pressReturn(dialog);
    auto* pitch = dialog.findChild<QComboBox*>(QStringLiteral("firstPitch"));
    REQUIRE(pitch != nullptr);
    pitch->lineEdit()->setFocus();
    pitch->setEditText(QStringLiteral("99"));
    pressReturn(dialog);
    CHECK(pitch->isVisible()); // such a pitch is refused, and said
    pitch->setEditText(QStringLiteral("403"));
    pressReturn(dialog);
    auto* sources = dialog.findChild<QListWidget*>(QStringLiteral("firstSource"));
    REQUIRE(sources != nullptr);
    CHECK(sources->hasFocus());
    REQUIRE(sources->count() == 3);
    std::optional<SourceChoice> tried;
    QObject::connect(&dialog,
                     &FirstQuestionsDialog::sourceTried,
                     &dialog,
                     [&](const SourceChoice& source) { tried = source; });
    sources->setCurrentRow(2);
    REQUIRE(tried);
    CHECK(tried->device == QStringLiteral("desk microphone"));
    pressReturn(dialog);
    CHECK(dialog.tuning().instrument == QStringLiteral("single-8-8"));
    CHECK(dialog.tuning().a4Hz == Approx(403.0));
    CHECK(dialog.source().kind == SourceKind::Microphone);
}

TEST_CASE("a first start asks, a second does not, and the menu asks again", "[ui]") {
    QTemporaryDir folder;
    LaunchOptions options;
    options.settingsFolder = folder.path();
    {
        Application application(options);
        REQUIRE(application.begin());
        FirstQuestionsDialog* dialog = asked(application);
        REQUIRE(dialog != nullptr);
        dialog->activateWindow();
        QApplication::processEvents();
        for (int i = 0; i < 3; ++i) {
            pressReturn(*dialog);
        }
        CHECK(application.window().place() == Place::Tune);
        CHECK(application.tuning().ready());
    }
    {
        Application application(options);
        REQUIRE(application.begin());
        CHECK(asked(application) == nullptr);
        Q_EMIT application.window().questionsWanted();
        CHECK(asked(application) != nullptr);
    }
}

TEST_CASE("whoever says on the command line what is wanted is not asked", "[ui]") {
    QTemporaryDir folder;
    LaunchOptions options;
    options.settingsFolder = folder.path();
    options.a4Hz = 440.0;
    Application application(options);
    REQUIRE(application.begin());
    CHECK(asked(application) == nullptr);
}

TEST_CASE("what the desktop wishes is taken in, other settings are not", "[ui]") {
    // org.freedesktop.appearance as the portal's documentation defines it: contrast 1 is higher contrast,
    // reduced-motion 1 is reduced motion, unknown values are none.
    const auto group = QStringLiteral("org.freedesktop.appearance");
    DesktopWishes wishes;
    int changes = 0;
    QObject::connect(&wishes, &DesktopWishes::changed, [&] { ++changes; });
    wishes.take(group, QStringLiteral("contrast"), 1U);
    CHECK(wishes.highContrast());
    CHECK_FALSE(wishes.lessMotion());
    wishes.take(group, QStringLiteral("contrast"), 1U);
    CHECK(changes == 1);
    wishes.take(group, QStringLiteral("contrast"), 7U);
    CHECK_FALSE(wishes.highContrast());
    wishes.take(group,
                QStringLiteral("reduced-motion"),
                QVariant::fromValue(QDBusVariant(QVariant::fromValue(QDBusVariant(1U)))));
    CHECK(wishes.lessMotion());
    wishes.take(QStringLiteral("org.other"), QStringLiteral("contrast"), 1U);
    CHECK_FALSE(wishes.highContrast());
}
