#pragma once

#include "app/places/temperament/change_over_offer.hpp"

#include <QWidget>

class QLabel;
class QPushButton;

namespace quillbench {

/// What it costs to go to the temperament on the bench: strings, cents, minutes, the shift that spares most, the way
/// back. Seen while it differs from what the instrument stands in. **Thread** GUI.
class ChangeOverPanel : public QWidget {
    Q_OBJECT

public:
    explicit ChangeOverPanel(QWidget* parent = nullptr);

    void show(const ChangeOverOffer& offer);

Q_SIGNALS:
    /// The temperament on the bench shall stand at this pitch.
    void pitchWanted(double a4Hz);

private:
    QLabel* words_;
    QLabel* back_;
    QLabel* care_;
    QPushButton* shift_;
    QLabel* shifted_;
    double pitch_ = 415.0;
};

} // namespace quillbench
