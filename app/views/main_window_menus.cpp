#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/views/main_window.hpp"
#include "app/views/tune_page.hpp"

#include <QAction>
#include <QActionGroup>
#include <QInputDialog>
#include <QMenu>
#include <QMenuBar>

namespace quillbench {

namespace {

template <typename Receiver, typename Call>
QAction* command(QMenu* menu,
                 const QString& text,
                 std::initializer_list<QKeySequence> keys,
                 Receiver* receiver,
                 Call call) {
    QAction* action = menu->addAction(text);
    action->setShortcuts(QList<QKeySequence>(keys));
    QObject::connect(action, &QAction::triggered, receiver, call);
    return action;
}

} // namespace

void MainWindow::buildSessionMenu() {
    QMenu* menu = menuBar()->addMenu(tr("&Session"));
    sessionMenu_ = menu;
    command(menu,
            tr("&Keep the string as it is"),
            {QKeySequence(Qt::Key_Space), QKeySequence(Qt::Key_PageDown)},
            this,
            [this] { tuning_.keepShown(live_.snapshot().get()); });
    command(menu, tr("S&kip the string"), {QKeySequence(Qt::Key_Delete)}, this, [this] {
        tuning_.act(Skip{});
    });
    command(menu, tr("&Next string"), {QKeySequence(Qt::Key_Right)}, this, [this] { goTo(1); });
    command(menu, tr("&Previous string"), {QKeySequence(Qt::Key_Left)}, this, [this] { goTo(-1); });
    undo_ = command(menu,
                    tr("&Undo the last decision"),
                    {QKeySequence(QKeySequence::Undo), QKeySequence(Qt::Key_Backspace)},
                    this,
                    [this] { tuning_.undo(); });
    pause_ = command(menu, tr("P&ause"), {QKeySequence(Qt::Key_F8)}, this, [this](bool on) {
        on ? tuning_.act(Pause{}) : tuning_.act(Resume{});
    });
    pause_->setCheckable(true);
    menu->addSeparator();
    byEar_ = command(
        menu, tr("By &ear, numbers covered"), {QKeySequence(Qt::Key_F6)}, this, [this](bool on) {
            tuning_.act(GoBy{on ? Way::ByEar : Way::ByMeter});
        });
    byEar_->setCheckable(true);
    command(menu,
            tr("P&ress test: is the hammer on its pin?"),
            {QKeySequence(Qt::Key_F7)},
            this,
            [this] { tuning_.act(PressTest{}); });
    again_ = command(
        menu, tr("Se&cond pass of what moved far"), {QKeySequence(Qt::Key_F12)}, this, [this] {
            tuning_.act(SecondPass{});
        });
    command(menu, tr("Re&mark on the string…"), {QKeySequence(Qt::CTRL | Qt::Key_R)}, this, [this] {
        askForRemark();
    });
    addParts(menu->addMenu(tr("Pa&rts of a whole session")));
    more_ = command(
        menu, tr("&More of a whole session…"), {QKeySequence(Qt::CTRL | Qt::Key_F9)}, this, [this] {
            Q_EMIT optionsWanted();
        });
    command(menu,
            tr("Pitch &of another instrument\u2026"),
            {QKeySequence(Qt::CTRL | Qt::Key_H)},
            this,
            [this] { Q_EMIT hearPitchWanted(); });
    menu->addSeparator();
    command(menu, tr("&Begin again"), {QKeySequence(QKeySequence::New)}, this, [this] {
        if (const auto again = tuning_.chooseAgain(); !again) {
            tune_->tell(errorText(again.error()));
        }
    });
}

void MainWindow::addParts(QMenu* menu) {
    parts_ = menu;
    const auto part = [this, menu](const QString& text, Qt::Key key, bool SessionParts::*which) {
        QAction* action = menu->addAction(text);
        action->setShortcut(QKeySequence(Qt::CTRL | key));
        action->setCheckable(true);
        connect(action, &QAction::triggered, this, [this, which](bool on) {
            SessionParts parts = tuning_.choice().parts;
            parts.*which = on;
            Q_EMIT partsChosen(parts);
        });
        connect(&tuning_, &TuningModel::chosen, action, [this, action, which] {
            action->setChecked(tuning_.choice().parts.*which);
        });
    };
    part(
        tr("&Run-through: every key once on each register"), Qt::Key_F5, &SessionParts::runThrough);
    part(tr("&Sentinel notes: does the ground move?"), Qt::Key_F6, &SessionParts::warmUp);
    part(tr("&First look: where does each choir stand?"), Qt::Key_F7, &SessionParts::firstLook);
    part(tr("Re&check at the end"), Qt::Key_F8, &SessionParts::recheck);
}

void MainWindow::addRemark(const QString& text) {
    const QString words = text.trimmed();
    if (!words.isEmpty()) {
        tuning_.act(Remark{tuning_.session().step().string, words.toStdString()});
    }
}

void MainWindow::askForRemark() {
    auto* ask = new QInputDialog(this);
    ask->setAttribute(Qt::WA_DeleteOnClose);
    ask->setWindowTitle(tr("Remark"));
    ask->setLabelText(tr("About %1:")
                          .arg(stringText(tuning_.instrument(),
                                          tuning_.session().step().string,
                                          tuning_.position())));
    ask->setComboBoxItems({tr("false beat"), tr("pin loose"), tr("replaced"), tr("buzzes")});
    ask->setComboBoxEditable(true);
    connect(ask, &QInputDialog::textValueSelected, this, &MainWindow::addRemark);
    ask->open();
}

void MainWindow::buildPinMenu() {
    pinMenu_ = menuBar()->addMenu(tr("&Virtual instrument"));
    const auto turn = [this](const QString& text, const QKeySequence& key, PinStep step, int way) {
        command(pinMenu_, text, {key}, this, [this, step, way] {
            player_.stepPin(step, way);
            player_.letGo();
        });
    };
    turn(tr("Pin a hair &up"), QKeySequence(Qt::Key_Up), PinStep::Fine, 1);
    turn(tr("Pin a hair &down"), QKeySequence(Qt::Key_Down), PinStep::Fine, -1);
    turn(tr("Pin well u&p"), QKeySequence(Qt::SHIFT | Qt::Key_Up), PinStep::Coarse, 1);
    turn(tr("Pin well d&own"), QKeySequence(Qt::SHIFT | Qt::Key_Down), PinStep::Coarse, -1);
    command(pinMenu_, tr("&Other string of the key"), {QKeySequence(Qt::Key_Home)}, this, [this] {
        player_.changePin();
    });
    pinMenu_->addSeparator();
    command(pinMenu_,
            tr("&Pluck the key at hand"),
            {QKeySequence(Qt::Key_Return), QKeySequence(Qt::Key_Enter)},
            this,
            [this] {
                if (tuning_.ready()) {
                    player_.keyDown(tuning_.keyToPlay());
                }
            });
}

void MainWindow::buildSoundMenu() {
    QMenu* menu = menuBar()->addMenu(tr("S&ound"));
    record_ =
        command(menu, tr("&Keep a recording"), {QKeySequence(Qt::Key_F9)}, this, [this](bool on) {
            Q_EMIT recordingToggled(on);
        });
    record_->setCheckable(true);
    command(menu, tr("&Listen to a recording…"), {QKeySequence(QKeySequence::Open)}, this, [this] {
        Q_EMIT fileWanted();
    });
    menu->addSeparator();
    speech_ = command(
        menu, tr("&Say what to do"), {QKeySequence(Qt::CTRL | Qt::Key_T)}, this, [this](bool on) {
            Q_EMIT speechToggled(on);
        });
    speech_->setCheckable(true);
    command(menu, tr("&Calibrate the clock…"), {QKeySequence(Qt::CTRL | Qt::Key_K)}, this, [this] {
        Q_EMIT calibrationWanted();
    });
    QAction* preferences =
        command(menu, tr("&Preferences…"), {QKeySequence(Qt::CTRL | Qt::Key_Comma)}, this, [this] {
            Q_EMIT preferencesWanted();
        });
    preferences->setMenuRole(QAction::PreferencesRole);
}

void MainWindow::buildViewMenu() {
    QMenu* menu = menuBar()->addMenu(tr("&Window"));
    auto* group = new QActionGroup(this);
    const auto add = [&](const QString& text, const QKeySequence& key, Appearance appearance) {
        QAction* action = command(
            menu, text, {key}, this, [this, appearance] { Q_EMIT appearanceChosen(appearance); });
        action->setCheckable(true);
        group->addAction(action);
        return action;
    };
    asSystem_ = add(tr("&As the system"), QKeySequence(Qt::Key_F2), Appearance::AsSystem);
    light_ = add(tr("&Paper"), QKeySequence(Qt::Key_F3), Appearance::Light);
    dark_ = add(tr("&Night"), QKeySequence(Qt::Key_F4), Appearance::Dark);
    menu->addSeparator();
    contrast_ = command(
        menu, tr("&High contrast"), {QKeySequence(Qt::SHIFT | Qt::Key_F2)}, this, [this](bool on) {
            Q_EMIT contrastToggled(on);
        });
    contrast_->setCheckable(true);
    calm_ = command(
        menu, tr("&Less motion"), {QKeySequence(Qt::SHIFT | Qt::Key_F3)}, this, [this](bool on) {
            Q_EMIT calmToggled(on);
        });
    calm_->setCheckable(true);
    menu->addSeparator();
    QAction* full =
        command(menu, tr("&Full screen"), {QKeySequence(Qt::Key_F11)}, this, [this](bool on) {
            on ? showFullScreen() : showNormal();
        });
    full->setCheckable(true);
    menu->addSeparator();
    command(menu, tr("&Quit"), {QKeySequence(Qt::CTRL | Qt::Key_Q)}, this, [this] { close(); });
}

void MainWindow::buildHelpMenu() {
    QMenu* menu = menuBar()->addMenu(tr("&Help"));
    command(menu, tr("&This place"), {QKeySequence(Qt::Key_F1)}, this, [this] {
        if (helpOpen_ && !help_->isRead()) {
            help_->read();
        } else {
            showHelp(!helpOpen_);
        }
    });
    closeHelp_ = command(
        menu, tr("&Close help"), {QKeySequence(Qt::Key_Escape)}, this, [this] { showHelp(false); });
    closeHelp_->setEnabled(false);
    command(
        menu, tr("&Keys"), {QKeySequence(Qt::SHIFT | Qt::Key_F1)}, this, [this] { showKeys(); });
    menu->addSeparator();
    command(menu,
            tr("&Begin: the three questions…"),
            {QKeySequence(Qt::CTRL | Qt::Key_B)},
            this,
            [this] { Q_EMIT questionsWanted(); });
}

} // namespace quillbench
