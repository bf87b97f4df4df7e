#pragma once

#include "app/places/temperament/temperament_model.hpp"
#include "core/temperament/bearings.hpp"

#include <QScrollArea>
#include <optional>

class QBoxLayout;
class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QTableWidget;
class QTabWidget;

namespace quillbench {

class BearingsPanel;
class CataloguePanel;
class ChangeOverPanel;
class CircleView;
class RecognisedPanel;
class ThirdsView;

/// The place where temperaments are looked at, compared, made and recognised. **Thread** GUI.
class TemperamentPage : public QScrollArea {
    Q_OBJECT

public:
    TemperamentPage(TemperamentModel& model, TuningModel& tuning, QWidget* parent = nullptr);

    /// Says something in the page's own line.
    void tell(const QString& text);

Q_SIGNALS:
    /// Tune with it: as TuningChoice names it, and at which pitch.
    void tuneWanted(const QString& temperament, double a4Hz);
    /// A step of its bearing plan shall be heard.
    void stepWanted(const quillbench::BearingStep& step);

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void buildAll();
    void buildTop();
    void buildBench();
    void buildTabs();
    void connectAll();
    void showAll();
    void showChosenFifth();
    void showChangeOver();
    void step(std::size_t fifth, int steps, bool fine);
    void drag(std::size_t fifth, int steps, bool fine);
    void typed();
    void say(const Result<void>& done);
    void openFile();
    void saveFile();
    void printCard();
    void tune();

    TemperamentModel& model_;
    TuningModel& tuning_;
    QWidget* content_;
    QBoxLayout* columns_ = nullptr;
    QDoubleSpinBox* a4_ = nullptr;
    QComboBox* compare_ = nullptr;
    QPushButton* tune_ = nullptr;
    CataloguePanel* list_ = nullptr;
    CircleView* circle_ = nullptr;
    QLineEdit* name_ = nullptr;
    QLabel* fifthLabel_ = nullptr;
    QLineEdit* fifth_ = nullptr;
    QPushButton* pure_ = nullptr;
    QPushButton* close_ = nullptr;
    QPushButton* undo_ = nullptr;
    QPushButton* redo_ = nullptr;
    QTabWidget* tabs_ = nullptr;
    QCheckBox* minor_ = nullptr;
    ThirdsView* thirds_ = nullptr;
    QTableWidget* notes_ = nullptr;
    QTableWidget* beats_ = nullptr;
    BearingsPanel* bearings_ = nullptr;
    RecognisedPanel* recognised_ = nullptr;
    ChangeOverPanel* changeOver_ = nullptr;
    QLabel* told_ = nullptr;
    std::optional<Tempering> dragStart_; ///< while a fifth is dragged
    bool dragged_ = false;
};

} // namespace quillbench
