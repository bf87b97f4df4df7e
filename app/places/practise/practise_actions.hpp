#pragma once

#include "app/places/practise/practise_rows.hpp"

#include <QWidget>
#include <vector>

class QComboBox;
class QHBoxLayout;
class QLabel;
class QPushButton;
class QSlider;

namespace quillbench {

class PractiseModel;

/// The row of what can be done now; every button is pressed by a key of the page too. **Thread** GUI.
class PractiseActions : public QWidget {
    Q_OBJECT

public:
    /// `model` must outlive this.
    explicit PractiseActions(PractiseModel& model, QWidget* parent = nullptr);

    /// What can be done now.
    void refresh();

    /// Where there is too little room words are shorter. **Range** room in pixels.
    void fit(int room);

Q_SIGNALS:
    /// The next thing: play, show what was to be heard, the next question.
    void onwardWanted();
    /// Something was chosen: the keys are the page's again.
    void chosen();

private:
    void arrange(bool narrow);
    [[nodiscard]] QString whatStands() const;
    void buildHints(QHBoxLayout* row);
    void buildTaps(QHBoxLayout* row);
    void buildAnswers(QHBoxLayout* row);
    void buildLoudness(QHBoxLayout* row);
    void showOnward();

    PractiseModel& model_;
    bool narrow_ = false;
    QPushButton* again_ = nullptr;
    QPushButton* alone_ = nullptr;
    QPushButton* slowly_ = nullptr;
    QComboBox* group_ = nullptr;
    QPushButton* wide_ = nullptr;
    QPushButton* narrowAnswer_ = nullptr;
    QPushButton* first_ = nullptr;
    QPushButton* second_ = nullptr;
    QPushButton* handOff_ = nullptr;
    QSlider* loudness_ = nullptr;
    QPushButton* onward_ = nullptr;
    std::vector<QLabel*> tapCaptions_;
    QLabel* loudCaption_ = nullptr;
    RowFit fit_;
};

} // namespace quillbench
