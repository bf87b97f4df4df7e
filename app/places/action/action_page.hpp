#pragma once

#include "app/models/live_model.hpp"
#include "app/models/virtual_player.hpp"
#include "app/places/action/action_model.hpp"
#include "app/places/action/action_text.hpp"
#include "app/places/action/voice_store.hpp"
#include "app/places/action/worksheet.hpp"
#include "app/places/action/worksheet_store.hpp"

#include <QWidget>
#include <map>

class QHBoxLayout;
class QKeyEvent;
class QLabel;
class QToolButton;

namespace quillbench {

class ActionMapView;
class ActionTools;
class FaultPanel;
class HeldKeys;
class RegisterBar;
class Sentence;
class WorksheetTable;

/// The place where plucks, plectra and dampers are heard: what to do, what the whole register does, the map over the
/// keyboard, the jacks to do. It shows what the model holds and hands on what the person does. **Thread** GUI.
class ActionPage : public QWidget {
    Q_OBJECT

public:
    ActionPage(TuningModel& tuning,
               LiveModel& live,
               VirtualPlayer& player,
               ActionModel& action,
               QWidget* parent = nullptr);

    /// A line about something that happened, until the next.
    void tell(const QString& text);

    [[nodiscard]] FaultPanel& finder() const { return *finder_; }

    [[nodiscard]] const Worksheet& worksheet() const { return sheet_; }

    /// From now on worksheets and kept passes lie in this folder.
    void keepIn(const QString& folder);

    [[nodiscard]] QSize minimumSizeHint() const override;

Q_SIGNALS:
    /// The virtual instrument is to have faults that can be found, or none.
    void faultsWanted(bool wanted);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void keyReleaseEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    void buildTasks(QHBoxLayout* row);
    void buildTools();
    void connectTable();
    void choose(ActionTask task);
    void chooseKey(std::size_t key);
    void showAll();
    void showMap();
    void fitWords();
    void takeUpSheet();
    void keepSheet();
    void keepPass();
    void printSheet();
    void setSpeed();
    [[nodiscard]] std::optional<std::size_t> playedBy(int held) const;
    [[nodiscard]] bool takePlayed(const QKeyEvent& event);

    TuningModel& tuning_;
    LiveModel& live_;
    VirtualPlayer& player_;
    ActionModel& action_;
    std::map<ActionTask, QToolButton*> tasks_;
    ActionTools* tools_ = nullptr;
    RegisterBar* registers_;
    Sentence* sentence_;
    QLabel* whole_;
    QLabel* told_;
    ActionMapView* map_;
    WorksheetTable* table_;
    FaultPanel* finder_;
    HeldKeys* heldKeys_;
    ActionFindings findings_;
    Worksheet sheet_;
    WorksheetStore store_;
    VoiceStore voices_;
    std::vector<StoredPass> kept_; ///< of this instrument, in the order of their days
    QString instrument_;
    QString trouble_; ///< with the file of the worksheet
    std::optional<std::size_t> chosen_;
};

} // namespace quillbench
