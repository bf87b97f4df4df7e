#pragma once

#include "app/models/choices.hpp"
#include "core/instrument/instrument.hpp"
#include "core/temperament/transposing.hpp"

#include <QStringList>
#include <QWidget>
#include <optional>
#include <vector>

class QComboBox;
class QHBoxLayout;
class QToolButton;

namespace quillbench {

/// What is tuned and to what, each chosen with two clicks: open, choose. **Thread** GUI.
class ChoiceBar : public QWidget {
    Q_OBJECT

public:
    explicit ChoiceBar(QWidget* parent = nullptr);

    /// Shows what holds now; nothing is signalled.
    void show(const TuningChoice& choice,
              const Instrument& instrument,
              const Temperament& temperament,
              const std::vector<PositionReport>& positions);
    void show(const SourceChoice& choice);
    using QWidget::show;

    /// The names of the host's inputs, beside the default microphone.
    void setDevices(const QStringList& inputs);

    /// Where another instrument stands: among the pitches to choose from.
    void setHeardPitch(const std::optional<HeardPitch>& heard);

Q_SIGNALS:
    void tuningChosen(const quillbench::TuningChoice& choice);
    void sourceChosen(const quillbench::SourceChoice& choice);
    void fileWanted();
    /// The pitch of another instrument is to be heard.
    void hearPitchWanted();
    /// The options of a whole session are to be looked at.
    void optionsWanted();

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    /// A caption over its box, or a button; `share` of the room where all can be read whole.
    struct Field {
        QWidget* widget = nullptr;
        QWidget* whole = nullptr; ///< with its caption
        QString caption;
        int share = 0;
    };

    /// `few`: what the caption is shortened to where its box is narrow.
    QComboBox* add(const QString& caption, const QString& few, const char* name, int share);
    void connectAll();
    void arrange();
    [[nodiscard]] static int wantedWidth(const Field& field);
    void fillPositions(const std::vector<PositionReport>& positions);
    void fillSources();
    void emitTuning();
    void sourcePicked(int index);
    void fillStandards();
    void standardPicked(int index);
    void standardTyped();

    QHBoxLayout* upper_;
    QHBoxLayout* lower_;        ///< taken where one row would cut what is chosen
    std::vector<int> arranged_; ///< as arrange() left them
    std::vector<Field> fields_;
    QComboBox* instrument_;
    QComboBox* choir_;
    QComboBox* temperament_;
    QComboBox* standard_;
    QComboBox* position_;
    QComboBox* part_;
    QToolButton* more_; ///< of a whole session
    QComboBox* source_;
    QStringList devices_;
    std::optional<HeardPitch> heardPitch_;
    SourceChoice sourceChoice_;
    TuningChoice choice_;
};

} // namespace quillbench
