#include "app/views/main_window.hpp"

#include "app/dialogs/keys_dialog.hpp"
#include "app/paint/theme.hpp"
#include "app/views/document.hpp"
#include "app/views/focus_ring.hpp"
#include "app/views/help_panel.hpp"
#include "app/views/screen_reader.hpp"
#include "app/views/tune_page.hpp"
#include "core/support/contract.hpp"

#include <QAction>
#include <QApplication>
#include <QCloseEvent>
#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>
#include <QPainter>
#include <QSpinBox>
#include <QStackedWidget>
#include <QTimer>
#include <algorithm>
#include <array>

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

/// Keys by which a list to choose from is gone through, which are commands elsewhere. What a pedal sends is none of them.
bool goesThroughChoices(const QKeyEvent& event) {
    constexpr std::array kKeys{Qt::Key_Up, Qt::Key_Down, Qt::Key_Home, Qt::Key_End};
    return (event.modifiers() & ~Qt::KeypadModifier) == Qt::NoModifier &&
           std::find(kKeys.begin(), kKeys.end(), event.key()) != kKeys.end();
}

/// With Ctrl, which a list to choose from would take for the first letter of what is searched (Qt 6.4).
bool isDocumentKeyOnChoices(const QObject* watched, const QEvent& event) {
    return event.type() == QEvent::KeyPress && qobject_cast<const QComboBox*>(watched) != nullptr &&
           isDocumentKey(static_cast<const QKeyEvent&>(event));
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
    // Else the first choice would have it, and the first key of whoever sits down would change the instrument.
    tune_->setFocus(Qt::OtherFocusReason);
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
    more_->setEnabled(tunes && whole);
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

/// Who went to a choice by its key changes it by keys; once a list was open and is closed, keys mean the place again.
bool MainWindow::leaveToChoice(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride &&
        qobject_cast<const QComboBox*>(watched) != nullptr &&
        goesThroughChoices(*static_cast<const QKeyEvent*>(event))) {
        event->accept();
        return true;
    }
    if (event->type() == QEvent::Hide && watched->inherits("QComboBoxPrivateContainer") &&
        place_ == Place::Tune) {
        QTimer::singleShot(0, this, [this] {
            if (place_ == Place::Tune && QApplication::activeModalWidget() == nullptr) {
                pageOf_.at(place_)->setFocus(Qt::OtherFocusReason);
            }
        });
    }
    return false;
}

bool MainWindow::eventFilter(QObject* watched, QEvent* event) {
    if (isDocumentKeyOnChoices(watched, *event)) {
        event->ignore(); // goes on to its page
        return true;
    }
    if (leaveToChoice(watched, event)) {
        return true;
    }
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
