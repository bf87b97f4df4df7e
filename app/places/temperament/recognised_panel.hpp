#pragma once

#include <QWidget>

class QLabel;
class QPushButton;
class QTableWidget;

namespace quillbench {

class TemperamentModel;

/// What temperament the notes that were heard are in: the nearest of the catalogue, and fifth by fifth. **Thread** GUI.
class RecognisedPanel : public QWidget {
    Q_OBJECT

public:
    explicit RecognisedPanel(const TemperamentModel& model, QWidget* parent = nullptr);

    /// What was heard, or the temperament looked at, is another.
    void showModel();

Q_SIGNALS:
    /// The nearest shall be looked at, by its id.
    void nearestWanted(const QString& id);

private:
    const TemperamentModel& model_;
    QLabel* verdict_;
    QTableWidget* nearest_;
    QPushButton* lay_;
    QTableWidget* fifths_;
};

} // namespace quillbench
