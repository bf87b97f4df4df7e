#pragma once

#include "core/temperament/bearings.hpp"

#include <QWidget>
#include <vector>

class QComboBox;
class QListWidget;

namespace quillbench {

class TemperamentModel;

/// The bearing plan of a temperament, step by step; each step can be heard. **Thread** GUI.
class BearingsPanel : public QWidget {
    Q_OBJECT

public:
    explicit BearingsPanel(const TemperamentModel& model, QWidget* parent = nullptr);

    /// The temperament or its pitch is another.
    void showModel();

Q_SIGNALS:
    /// The marked step shall sound as it does once it is done.
    void stepWanted(const quillbench::BearingStep& step);

private:
    void showSteps();
    void askForStep();

    const TemperamentModel& model_;
    QComboBox* plan_;
    QListWidget* list_;
    std::vector<BearingStep> steps_; ///< as listed
};

} // namespace quillbench
