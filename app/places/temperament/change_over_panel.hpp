#pragma once

#include "app/places/temperament/change_over_offer.hpp"

#include <QWidget>

class QLabel;
class QPushButton;

namespace quillbench {

/// What it costs to go to the temperament on the bench: strings, cents, minutes, the shift that spares most, the way
/// back. Keeps the room of all it can say, so that nothing around it moves while the catalogue is looked through.
/// **Thread** GUI.
class ChangeOverPanel : public QWidget {
    Q_OBJECT

public:
    explicit ChangeOverPanel(QWidget* parent = nullptr);

    void show(const ChangeOverOffer& offer);

    /// The instrument stands in what lies on the bench.
    void showNone();

Q_SIGNALS:
    /// The temperament on the bench shall stand at this pitch.
    void pitchWanted(double a4Hz);

protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void showShift(const ShiftOffer& shift, const ChangeOverOffer& offer);
    void colourCare();
    void keepRoom();
    [[nodiscard]] int heightOfAll() const;

    QLabel* words_;
    QLabel* back_;
    QLabel* care_;
    QPushButton* shift_;
    QLabel* shifted_;
    double pitch_ = 415.0;
};

} // namespace quillbench
