#pragma once

#include "app/formats/logbook_settling.hpp"
#include "app/models/tuning_model.hpp"
#include "core/analysis/snapshot.hpp"
#include "core/instrument/instrument.hpp"
#include "core/instrument/string.hpp"
#include "core/instrument/string_estimate.hpp"
#include "core/workflow/load_change.hpp"

#include <QObject>
#include <QString>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace quillbench {

/// The instrument that is looked at: one of the examples or one's own, from a file or with an imported string list; and
/// the change of pitch that is being thought about. What is entered can be undone. **Thread** GUI.
class InstrumentModel : public QObject {
    Q_OBJECT

public:
    explicit InstrumentModel(const TuningModel& tuning, QObject* parent = nullptr);

    [[nodiscard]] const Instrument& instrument() const { return instrument_; }

    /// Changed since it was chosen, opened or saved.
    [[nodiscard]] bool unsaved() const { return !(instrument_ == kept_); }

    /// Empty for an example or one that was not saved yet.
    [[nodiscard]] QString file() const { return file_; }

    /// What a TuningChoice calls it. **Errors** BadArgument where it has to be saved first.
    [[nodiscard]] Result<QString> choiceId() const;

    /// Looks at an example or a file. **Errors** as loadInstrument.
    [[nodiscard]] Result<void> choose(const QString& idOrFile);

    /// Looks at what is tuned, unless something here is unsaved.
    void follow(const TuningChoice& choice);

    /// Makes it another, which can be undone; an example becomes one's own by it.
    /// **Errors** those of core/instrument/editing, handed on; then nothing changes.
    [[nodiscard]] Result<void> change(const Result<Instrument>& wanted);

    [[nodiscard]] bool canUndo() const { return !past_.empty(); }

    [[nodiscard]] bool canRedo() const { return !future_.empty(); }

    void undo();
    void redo();

    void rename(const QString& name);

    /// Puts a string list into the instrument. The result says how many strings it gave and how many were filled in.
    /// **Errors** as readTextFile, parseStringList and applyStringList.
    [[nodiscard]] Result<QString> importStrings(const QString& file);

    /// **Errors** Environment.
    [[nodiscard]] Result<void> exportStrings(const QString& file) const;

    /// **Errors** Environment.
    [[nodiscard]] Result<void> save(const QString& file);

    /// Every string of a choir at the instrument's own standard in equal temperament, from the bass.
    /// **Range** choir < choirs.
    [[nodiscard]] std::vector<StringState> strings(std::size_t choir) const;

    /// The last word on a pluck: where this is the instrument that is tuned, the surest stiffness of each string is kept
    /// until another instrument is looked at.
    void hear(const StringReading& reading);

    [[nodiscard]] std::optional<HeardStiffness> heard(StringId string) const;

    /// The strings of this instrument that the logbook says were replaced; empty until they are given.
    [[nodiscard]] const std::vector<NewString>& newStrings() const { return newStrings_; }

    void setNewStrings(std::vector<NewString> strings);

    /// Where a string belongs in scaleNow(). **Range** string of the instrument.
    [[nodiscard]] Hertz pitchNow(StringId string) const;

    /// What the strings stand at now: as at Tune, where this is the instrument that is tuned; else equal temperament at
    /// its own standard.
    [[nodiscard]] TunedScale scaleNow() const;

    /// Whether scaleNow() is that of Tune.
    [[nodiscard]] bool isTuned() const;

    /// The change thought about. A temperament that is not in the catalogue changes nothing.
    void think(double a4Hz, const QString& temperament);

    [[nodiscard]] TunedScale scaleThen() const;

    [[nodiscard]] LoadChange loadOfThought() const;

    /// Where the keyboard stands: as tuned.
    [[nodiscard]] int position() const;

Q_SIGNALS:
    /// Another instrument, or other strings.
    void changed();
    /// A string was heard that says more of its stiffness.
    void stringHeard();
    /// The logbook was read for strings that were replaced.
    void newStringsChanged();
    /// Another change is thought about.
    void thoughtChanged();

private:
    void become(const Instrument& instrument, const QString& file, const std::string& original);
    void goTo(std::vector<Instrument>& from, std::vector<Instrument>& to);

    const TuningModel& tuning_;
    Instrument instrument_;
    QString file_;
    std::string original_; ///< the text it was read from
    Instrument kept_;      ///< as it was chosen, opened or saved
    std::map<std::pair<std::size_t, std::size_t>, HeardStiffness> heard_; ///< by choir and course
    std::vector<NewString> newStrings_;
    std::vector<Instrument> past_;
    std::vector<Instrument> future_;
    double thenHz_ = 0.0; ///< 0: as now
    QString thenTemperament_;
};

} // namespace quillbench
