#pragma once

#include "app/models/live_model.hpp"
#include "app/models/virtual_player.hpp"
#include "app/places/recheck/recheck_model.hpp"
#include "app/places/recheck/upward_player.hpp"

#include <QWidget>

class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QPushButton;
class QSpinBox;

namespace quillbench {

class DriftView;
class LevelView;
class RowTable;
class Sentence;

/// The place where a choir is played upwards and what moved is seen. It shows the model and hands on what the person
/// does. **Thread** GUI.
class RecheckPage : public QWidget {
    Q_OBJECT

public:
    RecheckPage(RecheckModel& model,
                LiveModel& live,
                VirtualPlayer& player,
                QWidget* parent = nullptr);

    [[nodiscard]] QSize minimumSizeHint() const override { return {520, 320}; }

Q_SIGNALS:
    /// The virtual instrument is to be left alone for so many days.
    void daysWanted(double days);

protected:
    void hideEvent(QHideEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void buildChoices();
    void buildLayout();
    void connectModels();
    void showChoirs();
    void showModel();
    void showLive();
    void fitWords();
    void showPlayer();
    void playUpwards();

    RecheckModel& model_;
    LiveModel& live_;
    VirtualPlayer& player_;
    UpwardPlayer upward_;
    QComboBox* choir_;
    QDoubleSpinBox* tolerance_;
    QSpinBox* minutes_;
    QPushButton* again_;
    QPushButton* play_;
    QPushButton* days_;
    Sentence* sentence_;
    DriftView* drift_;
    QLabel* advice_;
    RowTable* list_;
    QLabel* findings_;
    LevelView* level_;
};

} // namespace quillbench
