#pragma once

#include "app/models/tuning_model.hpp"
#include "core/instrument/instrument.hpp"
#include "core/instrument/string.hpp"
#include "core/workflow/load_change.hpp"

#include <QObject>
#include <QString>
#include <string>
#include <vector>

namespace quillbench {

/// The instrument that is looked at: one of the examples or one's own, from a file or with an imported string list; and
/// the change of pitch that is being thought about. **Thread** GUI.
class InstrumentModel : public QObject {
    Q_OBJECT

public:
    explicit InstrumentModel(const TuningModel& tuning, QObject* parent = nullptr);

    [[nodiscard]] const Instrument& instrument() const { return instrument_; }

    /// Imported or renamed since it was chosen, opened or saved.
    [[nodiscard]] bool unsaved() const { return unsaved_; }

    /// Empty for an example or one that was not saved yet.
    [[nodiscard]] QString file() const { return file_; }

    /// What a TuningChoice calls it. **Errors** BadArgument where it has to be saved first.
    [[nodiscard]] Result<QString> choiceId() const;

    /// Looks at an example or a file. **Errors** as loadInstrument.
    [[nodiscard]] Result<void> choose(const QString& idOrFile);

    /// Looks at what is tuned, unless something here is unsaved.
    void follow(const TuningChoice& choice);

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

    /// What the strings stand at now: as at Tune, where this is the instrument that is tuned; else equal temperament at
    /// its own standard.
    [[nodiscard]] TunedScale scaleNow() const;

    /// Whether scaleNow() is that of Tune.
    [[nodiscard]] bool isTuned() const;

    /// The change thought about. A temperament that is not in the catalogue changes nothing.
    void think(double a4Hz, const QString& temperament);

    [[nodiscard]] TunedScale scaleThen() const;

    [[nodiscard]] LoadChange change() const;

    /// Where the keyboard stands: as tuned.
    [[nodiscard]] int position() const;

Q_SIGNALS:
    /// Another instrument, or other strings.
    void changed();
    /// Another change is thought about.
    void thoughtChanged();

private:
    void become(const Instrument& instrument, const QString& file, const std::string& original);

    const TuningModel& tuning_;
    Instrument instrument_;
    QString file_;
    std::string original_; ///< the text it was read from
    bool unsaved_ = false;
    double thenHz_ = 0.0; ///< 0: as now
    QString thenTemperament_;
};

} // namespace quillbench
