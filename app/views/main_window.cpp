#include "app/views/main_window.hpp"

#include "app/dialogs/keys_dialog.hpp"
#include "app/paint/theme.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/views/focus_ring.hpp"
#include "app/views/help_panel.hpp"
#include "app/views/screen_reader.hpp"
#include "app/views/tune_page.hpp"
#include "core/support/contract.hpp"

#include <QAction>
#include <QActionGroup>
#include <QApplication>
#include <QCloseEvent>
#include <QComboBox>
#include <QHBoxLayout>
#include <QInputDialog>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>
#include <QPainter>
#include <QSpinBox>
#include <QStackedWidget>
#include <algorithm>

namespace quillbench {

namespace {

constexpr int kHelpBesideFrom =
    1000; // pixels; a narrower window shows the help instead of the page
constexpr int kNarrowestHelp = 300;
constexpr int kWidestHelp = 620;

constexpr int kPageEdge = 2;

/// The pages; where one takes the keys itself and none of its controls does, its edge shows that.
class PageStack : public QStackedWidget {
public:
    explicit PageStack(QWidget* parent) : QStackedWidget(parent) {
        setContentsMargins(kPageEdge, kPageEdge, kPageEdge, kPageEdge);
        connect(qApp, &QApplication::focusChanged, this, [this] { update(); });
    }

protected:
    void paintEvent(QPaintEvent* event) override {
        QStackedWidget::paintEvent(event);
        const QWidget* page = currentWidget();
        if (page != nullptr && page->hasFocus() && page->focusPolicy() != Qt::NoFocus) {
            QPainter painter(this);
            painter.setPen(QPen(themeOf(palette()).target, kPageEdge));
            painter.drawRect(rect().adjusted(1, 1, -1, -1));
        }
    }
};

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

MainWindow::MainWindow(TuningModel& tuning, LiveModel& live, VirtualPlayer& player, QWidget* parent)
    : QMainWindow(parent),
      tuning_(tuning),
      live_(live),
      player_(player) {
    readyForScreenReaders();
    setWindowTitle(QStringLiteral("Quillbench"));
    setWindowIcon(QIcon(QStringLiteral(":/icons/quillbench.svg")));
    auto* middle = new QWidget(this);
    auto* row = new QHBoxLayout(middle);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    bar_ = new PlaceBar(middle);
    pages_ = new PageStack(middle);
    row->addWidget(bar_);
    row->addWidget(pages_, 1);
    help_ = new HelpPanel(middle);
    help_->hide();
    row->addWidget(help_, 1);
    connect(help_, &HelpPanel::closed, this, [this] { showHelp(false); });
    setCentralWidget(middle);
    tune_ = new TunePage(tuning_, live_, player_, pages_);
    addPlace(Place::Tune, tune_);
    bar_->show(Place::Tune);
    connect(bar_, &PlaceBar::chosen, this, &MainWindow::goToPlace);
    buildSessionMenu();
    buildPinMenu();
    buildSoundMenu();
    buildViewMenu();
    buildHelpMenu();
    connect(&tuning_, &TuningModel::sessionChanged, this, &MainWindow::showCommands);
    connect(&player_, &VirtualPlayer::pinTurned, this, &MainWindow::showCommands);
    qApp->installEventFilter(this);
    new FocusRing(this);
    showCommands();
}

void MainWindow::addPlace(Place place, QWidget* page) {
    if (page->focusProxy() != nullptr) {
        // Else Tab would jump from it to the proxy, past what lies between.
        page->setFocusPolicy(Qt::NoFocus);
    }
    page->setProperty(FocusRing::kShownItself, true);
    pages_->addWidget(page);
    pageOf_[place] = page;
    bar_->add(place);
}

void MainWindow::goToPlace(Place place) {
    const auto page = pageOf_.find(place);
    EXPECTS(page != pageOf_.end());
    place_ = place;
    pages_->setCurrentWidget(page->second);
    page->second->setFocus(Qt::OtherFocusReason);
    if (helpOpen_) {
        help_->open(place);
        arrangeHelp();
    }
    bar_->show(place);
    showCommands();
    Q_EMIT placeChanged(place);
}

void MainWindow::buildSessionMenu() {
    QMenu* menu = menuBar()->addMenu(tr("&Session"));
    sessionMenu_ = menu;
    command(menu,
            tr("&Keep the string as it is"),
            {QKeySequence(Qt::Key_Space), QKeySequence(Qt::Key_PageDown)},
            this,
            [this] { tuning_.act(Accept{}); });
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
    menu->addSeparator();
    command(menu, tr("&Begin again"), {QKeySequence(QKeySequence::New)}, this, [this] {
        // The same choice was accepted before.
        if (const auto again = tuning_.choose(tuning_.choice(), tuning_.instrument()); !again) {
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
                const auto asked = tuning_.session().asked().value_or(tuning_.session().current);
                const std::size_t key = tuning_.session().plan->steps[asked].key;
                player_.keyDown(key);
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

void MainWindow::showHelp(bool open) {
    if (open == helpOpen_) {
        return;
    }
    helpOpen_ = open;
    closeHelp_->setEnabled(open);
    if (open) {
        help_->open(place_);
    }
    arrangeHelp();
    open ? help_->read() : pageOf_.at(place_)->setFocus(Qt::OtherFocusReason);
}

void MainWindow::arrangeHelp() {
    const bool beside = width() >= kHelpBesideFrom;
    const int wide = std::clamp(width() * 3 / 10, kNarrowestHelp, kWidestHelp);
    help_->setMinimumWidth(beside ? wide : 0);
    help_->setMaximumWidth(beside ? wide : QWIDGETSIZE_MAX);
    const bool place = beside || !helpOpen_;
    if (!place) {
        pages_->hide(); // first: both at once would make a small window wider
    }
    help_->setVisible(helpOpen_);
    pages_->setVisible(place);
    if (helpOpen_ && !beside) {
        help_->read();
    }
}

void MainWindow::resizeEvent(QResizeEvent* event) {
    QMainWindow::resizeEvent(event);
    if (helpOpen_) {
        arrangeHelp();
    }
}

void MainWindow::showKeys() {
    auto* keys = new KeysDialog(*menuBar(), this);
    keys->setAttribute(Qt::WA_DeleteOnClose);
    keys->open();
}

void MainWindow::showCommands() {
    // Their keys mean other things in other places.
    const bool tunes = place_ == Place::Tune;
    for (QAction* action : sessionMenu_->actions()) {
        action->setEnabled(tunes);
    }
    undo_->setEnabled(tunes && tuning_.canUndo());
    again_->setEnabled(tunes && tuning_.ready() && !choirsToRepeat(tuning_.session()).empty());
    pause_->setChecked(tuning_.ready() && tuning_.session().paused);
    const bool whole = tuning_.ready() && tuning_.choice().extent == Extent::Whole;
    byEar_->setEnabled(tunes && whole);
    byEar_->setChecked(tuning_.ready() && tuning_.session().way == Way::ByEar);
    parts_->setEnabled(tunes && whole);
    for (QAction* action : pinMenu_->actions()) {
        action->setEnabled(tunes && player_.playing());
    }
}

void MainWindow::showRecording(bool on) {
    record_->setChecked(on);
}

void MainWindow::showSpeech(bool on) {
    speech_->setChecked(on);
}

void MainWindow::showAppearance(Appearance appearance) {
    (appearance == Appearance::Light  ? light_
     : appearance == Appearance::Dark ? dark_
                                      : asSystem_)
        ->setChecked(true);
}

void MainWindow::showSeeing(bool contrast, bool calm) {
    contrast_->setChecked(contrast);
    calm_->setChecked(calm);
}

void MainWindow::goTo(int direction) {
    if (!tuning_.ready()) {
        return;
    }
    const std::size_t count = tuning_.session().progress.size();
    const std::size_t step = direction > 0 ? 1 : count - 1;
    tuning_.act(GoTo{(tuning_.session().current + step) % count, live_.heardUpTo()});
}

bool MainWindow::playsComputerKeys() const {
    const QWidget* focus = QApplication::focusWidget();
    return place_ == Place::Tune && isActiveWindow() &&
           QApplication::activePopupWidget() == nullptr &&
           QApplication::activeModalWidget() == nullptr &&
           qobject_cast<const QLineEdit*>(focus) == nullptr &&
           qobject_cast<const QAbstractSpinBox*>(focus) == nullptr;
}

bool MainWindow::eventFilter(QObject* watched, QEvent* event) {
    const bool press = event->type() == QEvent::KeyPress;
    if ((press || event->type() == QEvent::KeyRelease) && watched->isWidgetType() &&
        playsComputerKeys()) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->modifiers() == Qt::NoModifier && tune_->takeComputerKey(*key)) {
            return true;
        }
    }
    return QMainWindow::eventFilter(watched, event);
}

void MainWindow::closeEvent(QCloseEvent* event) {
    Q_EMIT closing();
    event->accept();
}

} // namespace quillbench
