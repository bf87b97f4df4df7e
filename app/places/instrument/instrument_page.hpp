#pragma once

#include "app/places/instrument/instrument_model.hpp"

#include <QScrollArea>

class QBoxLayout;
class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QPushButton;
class QTableWidget;
class QTabWidget;

namespace quillbench {

class BuildPanel;
class CompassView;
class NewStringPanel;
class RegistersPanel;
class StringsPanel;

/// The place where an instrument and its strings are looked at, and a change of pitch is thought through.
/// **Thread** GUI.
class InstrumentPage : public QScrollArea {
    Q_OBJECT

public:
    InstrumentPage(InstrumentModel& model, const TuningModel& tuning, QWidget* parent = nullptr);

    /// Says something in the page's own line.
    void tell(const QString& text);

Q_SIGNALS:
    /// Tune it: as TuningChoice names it.
    void tuneWanted(const QString& instrument);

protected:
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void buildTop();
    void buildFacts();
    void buildStrings();
    void buildChange();
    void connectAll();
    void showInstrument();
    void showChoir();
    void showChange();
    void think();
    void chooseListed();
    void openFile();
    void saveFile();
    void importList();
    void exportList();
    void printStrings();
    void tune();
    void say(const Result<void>& done, const QString& success = {});
    [[nodiscard]] std::size_t choir() const;

    InstrumentModel& model_;
    const TuningModel& tuning_;
    QWidget* content_;
    QBoxLayout* columns_ = nullptr;
    QComboBox* list_ = nullptr;
    RegistersPanel* registers_ = nullptr;
    QPushButton* undo_ = nullptr;
    QPushButton* redo_ = nullptr;
    QTabWidget* tabs_ = nullptr;
    QComboBox* choir_ = nullptr;
    CompassView* plots_ = nullptr;
    QLabel* string_ = nullptr;
    StringsPanel* strings_ = nullptr;
    NewStringPanel* newString_ = nullptr;
    BuildPanel* build_ = nullptr;
    QLabel* from_ = nullptr;
    QDoubleSpinBox* a4_ = nullptr;
    QComboBox* temperament_ = nullptr;
    QDoubleSpinBox* margin_ = nullptr;
    QLabel* load_ = nullptr;
    QLabel* near_ = nullptr;
    QTableWidget* nearTable_ = nullptr;
    QLabel* told_ = nullptr;
};

} // namespace quillbench
