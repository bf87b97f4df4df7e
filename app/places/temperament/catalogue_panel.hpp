#pragma once

#include <QWidget>

class QLabel;
class QListWidget;

namespace quillbench {

class TemperamentModel;

/// The temperaments of the catalogue with their years, and what is known of the one looked at. **Thread** GUI.
class CataloguePanel : public QWidget {
    Q_OBJECT

public:
    explicit CataloguePanel(const TemperamentModel& model, QWidget* parent = nullptr);

    /// Marks the temperament looked at, where it is one of the catalogue as it stands there.
    void showModel();

Q_SIGNALS:
    /// The person went to another, by its id.
    void chosen(const QString& id);

private:
    const TemperamentModel& model_;
    QListWidget* list_;
    QLabel* about_;
};

} // namespace quillbench
