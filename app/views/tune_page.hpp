#pragma once

#include "app/models/breath_maker.hpp"
#include "app/models/live_model.hpp"
#include "app/models/tuning_model.hpp"
#include "app/models/virtual_player.hpp"

#include <QWidget>

class QGridLayout;
class QKeyEvent;
class QLabel;

namespace quillbench {

class BreathView;
class ChoiceBar;
class FiguresView;
class HeldKeys;
class KeyboardView;
class LevelView;
class LookPanel;
class PinView;
class RegisterBar;
class Sentence;
class WiresView;

/// The place where strings are tuned: choices, the sentence, the large figures, the two wires, the keyboard, the
/// source. It only shows what the models hold and hands on what the person does. **Thread** GUI.
class TunePage : public QWidget {
    Q_OBJECT

public:
    TunePage(TuningModel& tuning,
             LiveModel& live,
             VirtualPlayer& player,
             QWidget* parent = nullptr);

    [[nodiscard]] ChoiceBar& choices() const { return *choices_; }

    /// The source's name for people.
    void setSourceName(const QString& name);

    /// What the offers after a first look are reckoned with: this player's speed, and where another instrument stands.
    void setLookFacts(const PlayerSpeed& speed, const std::optional<HeardPitch>& heard);

    /// A line about something that happened, until the next.
    void tell(const QString& text);

    /// said() once more, for a voice that was just turned on.
    void sayAgain();

    /// The computer's keyboard plays the virtual instrument: false where that key does not play now.
    /// **Range** a press or a release.
    bool takeComputerKey(const QKeyEvent& event);

    /// Sizes of type follow the height, so the least is less than what the present type would need.
    [[nodiscard]] QSize minimumSizeHint() const override;

Q_SIGNALS:
    /// Another sentence stands there: what to do now. A danger is to the string.
    void said(const QString& text, bool danger);

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void buildLayout();
    void playComputerKey(int semitones, bool down);
    void connectModels();
    void showSession();
    void showLook();
    void goOnAt(Cents shift);
    void showLive();
    void showSentence(const Session& session);
    void saySentence(const QString& text, bool danger);
    void showPair();
    void showSource();
    void showPin();
    void fitWords();
    void placeTold();

    TuningModel& tuning_;
    LiveModel& live_;
    VirtualPlayer& player_;
    ChoiceBar* choices_;
    Sentence* sentence_;
    LookPanel* look_;
    FiguresView* figures_;
    WiresView* wires_;
    BreathView* breath_;
    RegisterBar* registers_;
    PinView* pin_;
    KeyboardView* keyboard_;
    HeldKeys* heldKeys_;
    LevelView* level_;
    QLabel* source_;
    QLabel* told_;
    QGridLayout* bottom_; ///< level, source and what is told
    QString sourceName_;
    BreathMaker breathMaker_;
    PlayerSpeed speed_;
    std::optional<HeardPitch> heardPitch_;
    bool standardChosen_ = false; ///< after this session's first look
};

} // namespace quillbench
