#pragma once

#include "app/places/instrument/instrument_model.hpp"
#include "core/instrument/wire_choice.hpp"

#include <QWidget>

class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QPushButton;
class QTableWidget;

namespace quillbench {

/// Which wire to fit for a string that broke, and when the new one will have to be brought up again. **Thread** GUI.
class NewStringPanel : public QWidget {
    Q_OBJECT

public:
    explicit NewStringPanel(InstrumentModel& model, QWidget* parent = nullptr);

    /// The strings of a choir as they are now; the one that was looked at stays. **Range** choir < choirs.
    void showChoir(std::size_t choir);

    /// **Range** course < strings of the choir.
    void markString(std::size_t course);

Q_SIGNALS:
    /// Whether the wire could be put into the string list, and what is to be done then.
    void entered(const Result<void>& done, const QString& then);

private:
    void showString();
    void showWires();
    void showSound();
    void fit();
    [[nodiscard]] StringId string() const;
    [[nodiscard]] QString settlingWords() const;

    InstrumentModel& model_;
    std::size_t choir_ = 0;
    WireAdvice advice_;
    QComboBox* key_;
    QDoubleSpinBox* length_;
    QPushButton* fit_;
    QTableWidget* wires_;
    QLabel* beside_;
    QLabel* sound_;
    QLabel* settling_;
};

} // namespace quillbench
