#pragma once

#include "app/places/instrument/instrument_model.hpp"

#include <QWidget>

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QLineEdit;
class QSpinBox;

namespace quillbench {

/// How an instrument is built, to be entered: its name, who made it, pitch, keyboard, manuals, coupler, buff.
/// **Thread** GUI.
class BuildPanel : public QWidget {
    Q_OBJECT

public:
    explicit BuildPanel(InstrumentModel& model, QWidget* parent = nullptr);

    /// The instrument as it is now.
    void showInstrument();

Q_SIGNALS:
    /// Whether what was entered could be, and why not.
    void entered(const Result<void>& done);

private:
    void buildWords();
    void buildKeyboard();
    void buildManuals();
    void enterWords(QLineEdit* line, std::string Instrument::*field);
    void enterCompass();
    void enterPositions();
    void enter(const Result<Instrument>& wanted);

    InstrumentModel& model_;
    QLineEdit* name_ = nullptr;
    QLineEdit* maker_ = nullptr;
    QLineEdit* place_ = nullptr;
    QDoubleSpinBox* standard_ = nullptr;
    QComboBox* bass_ = nullptr;
    QComboBox* lowest_ = nullptr;
    QComboBox* highest_ = nullptr;
    QCheckBox* split_ = nullptr;
    QLineEdit* positions_ = nullptr;
    QSpinBox* manuals_ = nullptr;
    QComboBox* coupler_ = nullptr;
    QComboBox* buff_ = nullptr;
    QLabel* note_ = nullptr;
};

} // namespace quillbench
