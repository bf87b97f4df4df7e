#pragma once

#include "app/models/look_offers.hpp"

#include <QWidget>

class QGridLayout;
class QLabel;
class QPushButton;

namespace quillbench {

/// After a first look: at which pitch the session goes on, each with what it costs. Seen while there is something to
/// choose. **Thread** GUI.
class LookPanel : public QWidget {
    Q_OBJECT

public:
    explicit LookPanel(QWidget* parent = nullptr);

    /// **Range** standardHz: the session's.
    void show(const LookOffers& offers, double standardHz);

Q_SIGNALS:
    void standardChosen();
    void pitchChosen(quillbench::Cents shift);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    /// A pitch other than the standard, and what it costs.
    struct Choice {
        QPushButton* button = nullptr;
        QLabel* cost = nullptr;
        Cents shift;
    };

    QPushButton* addChoice(QGridLayout* grid, int row, const char* name, QLabel*& cost);
    static void present(Choice& choice, const QString& text, const QString& cost);

    QLabel* words_;
    QPushButton* stay_;
    QLabel* costOfStaying_ = nullptr;
    Choice alone_;
    Choice asHeard_;
};

} // namespace quillbench
