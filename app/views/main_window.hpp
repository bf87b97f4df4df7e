#pragma once

#include "app/models/choices.hpp"
#include "app/models/live_model.hpp"
#include "app/models/tuning_model.hpp"
#include "app/models/virtual_player.hpp"

#include <QMainWindow>

class QAction;
class QMenu;

namespace quillbench {

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

    /// Marks the recording command as on or off.
    void showRecording(bool on);

    void showAppearance(Appearance appearance);

Q_SIGNALS:
    void recordingToggled(bool on);
    void preferencesWanted();
    void fileWanted();
    void appearanceChosen(quillbench::Appearance appearance);
    void closing();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void closeEvent(QCloseEvent* event) override;

private:
    void buildEdge(QWidget* parent);
    void buildSessionMenu();
    void buildSoundMenu();
    void buildPinMenu();
    void buildViewMenu();
    void buildHelpMenu();
    void showKeys();
    void showCommands();
    void goTo(int direction);
    [[nodiscard]] bool playsComputerKeys() const;

    TuningModel& tuning_;
    LiveModel& live_;
    VirtualPlayer& player_;
    TunePage* tune_;
    QAction* undo_ = nullptr;
    QAction* pause_ = nullptr;
    QAction* record_ = nullptr;
    QMenu* pinMenu_ = nullptr;
    QAction* asSystem_ = nullptr;
    QAction* light_ = nullptr;
    QAction* dark_ = nullptr;
};

} // namespace quillbench
