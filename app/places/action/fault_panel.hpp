#pragma once

#include "app/formats/fault_file.hpp"
#include "app/places/action/action_text.hpp"

#include <QWidget>
#include <optional>

class QComboBox;
class QTextBrowser;

namespace quillbench {

/// From a symptom to its causes, the likeliest first, each with the question that tells and what was measured of the key,
/// and to what is done about it, the most harmless first. **Thread** GUI.
class FaultPanel : public QWidget {
    Q_OBJECT

public:
    explicit FaultPanel(const ActionModel& action, QWidget* parent = nullptr);

    /// Shows a symptom by its id; an id that is not in the book changes nothing.
    void showSymptom(const QString& id);

    /// The key whose measurements stand beside the questions.
    void showKey(std::optional<std::size_t> key);

    /// What is shown, as text.
    [[nodiscard]] QString text() const;

private:
    void build();
    [[nodiscard]] QString page(const FaultSymptom& symptom) const;

    const ActionModel& action_;
    FaultBook book_;
    QComboBox* symptoms_;
    QTextBrowser* page_;
    std::optional<std::size_t> key_;
};

} // namespace quillbench
