#pragma once

#include "app/places/practise/practise_model.hpp"

#include <QWidget>
#include <vector>

class QComboBox;
class QLabel;
class QPushButton;
class QSlider;
class QTableWidget;
class QToolButton;
class QHBoxLayout;

namespace quillbench {

class BreathView;
class FiguresView;
class PinView;
class ProgressView;

/// The page on which beats are learned. Every key is the learner's: letters tap, Return goes on. **Thread** GUI.
class PractisePage : public QWidget {
    Q_OBJECT

public:
    explicit PractisePage(PractiseModel& model, QWidget* parent = nullptr);

    /// A line about the loudspeaker; empty where all is well.
    void tell(const QString& text);

    /// The caution about headphones, until it was read.
    void showCaution();

    [[nodiscard]] QSize minimumSizeHint() const override;

Q_SIGNALS:
    void cautionRead();
    /// The learner's own instrument is to be listened to, or the virtual one heard.
    void ownWanted(bool own);
    /// The page came to be seen, or went.
    void seen(bool here);

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void buildChoices(QHBoxLayout* row);
    void buildActions(QHBoxLayout* row);
    void buildCaution();
    QComboBox* addBox(QHBoxLayout* row, const QString& caption, const char* name);
    QPushButton* addButton(QHBoxLayout* row, const char* name, const QString& text);
    void nameApart();
    void fillRegisters();
    void wish();
    void goOn();
    void showModel();
    void showActions();
    void showSteps();
    void fit();
    [[nodiscard]] bool isNarrow() const;
    void buildSteps();
    QToolButton* addSwitch(QHBoxLayout* row, const char* name, const QString& text);
    [[nodiscard]] bool takes(const QKeyEvent& event) const;
    bool take(const QKeyEvent& event);

    PractiseModel& model_;
    std::vector<QToolButton*> kinds_;
    QComboBox* kind_ = nullptr; ///< in the place of the row of buttons where there is little room
    QToolButton* own_ = nullptr;
    QToolButton* plan_ = nullptr;
    QTableWidget* steps_ = nullptr; ///< what came of a whole plan
    QPushButton* first_ = nullptr;
    QPushButton* second_ = nullptr;
    QComboBox* interval_ = nullptr;
    QComboBox* register_ = nullptr;
    QLabel* sentence_;
    FiguresView* figures_;
    BreathView* breath_;
    PinView* pin_;
    ProgressView* progress_;
    QLabel* listen_;
    QPushButton* again_ = nullptr;
    QPushButton* alone_ = nullptr;
    QPushButton* slowly_ = nullptr;
    QPushButton* wide_ = nullptr;
    QPushButton* narrow_ = nullptr;
    QPushButton* handOff_ = nullptr;
    QPushButton* onward_ = nullptr;
    QComboBox* group_ = nullptr;
    QSlider* loudness_ = nullptr;
    QLabel* told_;
    QWidget* caution_;
};

} // namespace quillbench
