#pragma once

#include "app/formats/logbook_history.hpp"
#include "app/models/tuning_model.hpp"
#include "core/temperament/recognition.hpp"
#include "core/temperament/temperament.hpp"

#include <QObject>
#include <QString>
#include <optional>
#include <string>
#include <vector>

namespace quillbench {

/// The temperament that lies on the bench: of the catalogue, from a file, or in the making, where every change can be
/// undone; beside it a second one for comparison, and the pitch at which beats are told. **Thread** GUI.
class TemperamentModel : public QObject {
    Q_OBJECT

public:
    explicit TemperamentModel(const TuningModel& tuning, QObject* parent = nullptr);

    /// What the pictures and tables show. While the circle is open its last fifth takes what is left.
    [[nodiscard]] const Temperament& temperament() const { return shown_; }

    /// Every fifth as it was set; openBy() tells whether they close the circle.
    [[nodiscard]] const std::vector<Tempering>& fifths() const { return now_.fifths; }

    /// By how much the fifths miss closing the circle, 0 where they close it and for a chain with split sharps.
    [[nodiscard]] Cents openBy() const;

    /// A circle of twelve can be changed fifth by fifth.
    [[nodiscard]] bool canChange() const { return !now_.openChain; }

    /// Changed since it was chosen, opened or saved.
    [[nodiscard]] bool unsaved() const { return now_.unsaved; }

    /// What a TuningChoice calls it: an id of the catalogue or a file. **Errors** BadArgument where it is not saved or
    /// does not close.
    [[nodiscard]] Result<QString> choiceId() const;

    /// Empty for one of the catalogue or not saved yet.
    [[nodiscard]] QString file() const { return now_.file; }

    /// The second temperament; null where none is compared.
    [[nodiscard]] const Temperament* compared() const { return compared_; }

    [[nodiscard]] TunedScale scale() const;

    [[nodiscard]] double a4Hz() const { return a4Hz_; }

    /// **Range** 370 to 570 Hz; what lies outside is held at the ends.
    void setA4(double hz);

    /// Lays one of the catalogue, or one from a file, on the bench. **Errors** as loadTemperament.
    [[nodiscard]] Result<void> choose(const QString& idOrFile);

    /// Lays what is tuned on the bench, and forgets what could be undone; leaves what is unsaved alone.
    void follow(const TuningChoice& choice);

    /// An id of the catalogue; anything else compares with nothing.
    void compareWith(const QString& id);

    /// Where this closes the circle with one wolf, the chain is spelled by it (spelledByWolf): fifths() then begin
    /// elsewhere. `goesOn`: the same drag as the change before; both are undone together.
    /// **Range** fifth < fifths().size(), canChange(). **Errors** BadArgument: beyond ±100 cents, or more than that would
    /// be left for the last fifth.
    [[nodiscard]] Result<void>
    setFifth(std::size_t fifth, const Tempering& tempering, bool goesOn = false);

    /// This fifth takes what is left, so that the circle closes. **Errors** as setFifth.
    [[nodiscard]] Result<void> closeAt(std::size_t fifth);

    void rename(const QString& name);

    [[nodiscard]] bool canUndo() const { return !past_.empty(); }

    [[nodiscard]] bool canRedo() const { return !future_.empty(); }

    void undo();
    void redo();

    /// **Errors** Environment; BadArgument where the circle does not close.
    [[nodiscard]] Result<void> save(const QString& file);

    /// What the logbook knows of the instrument that is tuned.
    void setLeft(StringHistory left);

    [[nodiscard]] const StringHistory& left() const { return left_; }

    /// What most of its strings were left in, as it sounds with the keyboard at a position; nothing where the logbook
    /// does not tell, or the temperament's file is gone.
    [[nodiscard]] std::optional<TunedScale> leftIn(int position) const;

    /// The notes of the choir being tuned as they were last heard in this session.
    [[nodiscard]] std::vector<HeardNote> heard() const;

    /// **Errors** NothingFound, naming what was not heard yet.
    [[nodiscard]] Result<Recognition> recognise() const;

Q_SIGNALS:
    /// Anything that is shown is different.
    void changed();
    /// left() is another.
    void leftChanged();

private:
    struct State {
        TemperamentDescription description;
        PitchClass first;
        std::vector<Tempering> fifths;
        bool openChain = false;
        bool unsaved = false;
        QString file;
        std::string original; ///< the text it was read from
    };

    [[nodiscard]] static State stateOf(const Temperament& temperament);
    [[nodiscard]] static Result<Temperament> made(const State& state);
    static void spellByWolf(State& state);
    [[nodiscard]] Result<void> become(State next, bool goesOn = false);
    void goTo(const State& state);

    const TuningModel& tuning_;
    State now_;
    Temperament shown_;
    const Temperament* compared_ = nullptr;
    double a4Hz_ = 415.0;
    StringHistory left_;
    std::optional<Temperament> leftIn_;
    std::vector<State> past_;
    std::vector<State> future_;
};

/// A step of a fifth by key or by drag: a twelfth of the Pythagorean comma.
[[nodiscard]] Tempering twelfthOfComma(int steps);

/// A fine step: a tenth of a cent.
[[nodiscard]] Tempering tenthOfCent(int steps);

} // namespace quillbench
