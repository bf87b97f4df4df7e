#pragma once

#include "app/models/choices.hpp"
#include "app/models/live_model.hpp"
#include "app/models/tuning_model.hpp"
#include "app/models/virtual_player.hpp"
#include "app/views/place_bar.hpp"

#include <QMainWindow>
#include <map>

class QAction;
class QMenu;
class QStackedWidget;

namespace quillbench {

class HelpPanel;
class TunePage;

/// The window: the places along the left edge, one page for each, and a menu in which every command stands with its
/// key. **Thread** GUI.
class MainWindow : public QMainWindow {
    Q_OBJECT

public:
    MainWindow(TuningModel& tuning,
               LiveModel& live,
               VirtualPlayer& player,
               QWidget* parent = nullptr);

    [[nodiscard]] TunePage& tunePage() const { return *tune_; }

    /// Gives a place its page, which the window then owns, and its button at the edge.
    void addPlace(Place place, QWidget* page);

    /// Shows a place that was added; its page is given the keyboard.
    void goToPlace(Place place);

    [[nodiscard]] Place place() const { return place_; }

    /// Marks the recording command as on or off.
    void showRecording(bool on);

    /// Likewise whether what to do is said aloud.
    void showSpeech(bool on);

    void showAppearance(Appearance appearance);

    /// Opens the help of the place at hand beside it (in a narrow window in its stead), or closes it.
    void showHelp(bool open);

    /// Marks what is worn of high contrast and of less motion.
    void showSeeing(bool contrast, bool calm);

Q_SIGNALS:
    /// Another place is seen now.
    void placeChanged(quillbench::Place place);
    void recordingToggled(bool on);
    void speechToggled(bool on);
    void preferencesWanted();
    void calibrationWanted();
    void fileWanted();
    /// Other parts are wanted of a whole session.
    void partsChosen(const quillbench::SessionParts& parts);
    /// The options of a whole session are to be looked at.
    void optionsWanted();
    void appearanceChosen(quillbench::Appearance appearance);
    /// Bolder colours, or fewer movements, are wanted (no longer).
    void contrastToggled(bool on);
    void calmToggled(bool on);
    /// The three questions of the first start are to be asked again.
    void questionsWanted();
    /// The pitch of another instrument is to be heard.
    void hearPitchWanted();
    void closing();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void closeEvent(QCloseEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void buildSessionMenu();
    void buildSoundMenu();
    void addParts(QMenu* menu);
    void addRemark(const QString& text);
    void askForRemark();
    void buildPinMenu();
    void buildViewMenu();
    void buildHelpMenu();
    void showKeys();
    void arrangeHelp();
    void showCommands();
    void goTo(int direction);
    [[nodiscard]] bool playsComputerKeys() const;
    bool leaveToChoice(QObject* watched, QEvent* event);

    TuningModel& tuning_;
    LiveModel& live_;
    VirtualPlayer& player_;
    PlaceBar* bar_;
    QStackedWidget* pages_;
    std::map<Place, QWidget*> pageOf_;
    Place place_ = Place::Tune;
    TunePage* tune_;
    QMenu* sessionMenu_ = nullptr;
    QAction* undo_ = nullptr;
    QAction* again_ = nullptr; ///< a second pass
    QAction* speech_ = nullptr;
    QAction* pause_ = nullptr;
    QAction* byEar_ = nullptr;
    QMenu* parts_ = nullptr;
    QAction* more_ = nullptr; ///< options of a whole session
    QAction* record_ = nullptr;
    QMenu* pinMenu_ = nullptr;
    QAction* asSystem_ = nullptr;
    QAction* light_ = nullptr;
    QAction* dark_ = nullptr;
    QAction* contrast_ = nullptr;
    QAction* calm_ = nullptr;
    HelpPanel* help_;
    bool helpOpen_ = false;
    QAction* closeHelp_ = nullptr;
};

} // namespace quillbench
