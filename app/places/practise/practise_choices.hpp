#pragma once

#include "app/places/practise/practise_rows.hpp"
#include "core/practise/exercise.hpp"

#include <QWidget>
#include <vector>

class QComboBox;
class QHBoxLayout;
class QLabel;
class QShortcut;
class QToolButton;

namespace quillbench {

class PractiseModel;

/// The row in which it is chosen what is practised. **Thread** GUI.
class PractiseChoices : public QWidget {
    Q_OBJECT

public:
    /// `model` must outlive this.
    explicit PractiseChoices(const PractiseModel& model, QWidget* parent = nullptr);

    /// What the model practises now.
    void refresh();

    /// Where there is too little room exercises stand in a box, and words are shorter. **Range** room in pixels.
    void fit(int room);

Q_SIGNALS:
    void wished(const quillbench::ExerciseWish& wish);
    void ownWanted(bool own);
    void planWanted(bool plan);

private:
    void arrange(bool narrow);
    void buildKinds(QHBoxLayout* row);
    void buildSwitches(QHBoxLayout* row);
    void keepMnemonics();
    void fillRegisters();
    void wish();
    QToolButton* addSwitch(QHBoxLayout* row, const char* name, const QString& text);

    const PractiseModel& model_;
    std::vector<QToolButton*> kinds_;
    QComboBox* kind_ = nullptr; ///< in the place of the row of buttons where there is little room
    QToolButton* own_ = nullptr;
    QToolButton* plan_ = nullptr;
    QComboBox* interval_ = nullptr;
    QComboBox* register_ = nullptr;
    std::vector<QLabel*> captions_;
    std::vector<QShortcut*> hiddenKeys_;
    RowFit fit_;
};

} // namespace quillbench
