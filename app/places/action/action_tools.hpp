#pragma once

#include <QWidget>
#include <vector>

class QGridLayout;
class QKeySequence;
class QLabel;
class QToolButton;

namespace quillbench {

/// A tool button with its key; what it does stands in its tip, with the key, and is told to screen readers.
[[nodiscard]] QToolButton*
actionButton(QWidget* parent, const QString& text, const QString& help, const QKeySequence& key);

/// The tools of the place Action beside what it tells: in one row, or where that is too wide in rows of three below it.
/// **Thread** GUI.
class ActionTools : public QWidget {
    Q_OBJECT

public:
    /// `told` is the page's line; it moves in here.
    ActionTools(QLabel* told, QWidget* parent);

    /// What is for evenness alone is shown there alone.
    void showEvenness(bool evenness);

    /// Whether there is a pass that can be kept.
    void setKeepable(bool keepable);

    /// Faults to find are for the virtual instrument.
    void showFaults(bool shown);

    /// For a page of this width.
    void arrange(int width);

Q_SIGNALS:
    void microphoneMoved(bool moved);
    void keepWanted();
    void faultsWanted(bool wanted);
    void againWanted();
    void printWanted();
    void tidyWanted();

private:
    QToolButton* add(const QString& text, const QString& help, const QKeySequence& key);

    QGridLayout* grid_;
    QLabel* told_;
    std::vector<QToolButton*> buttons_; ///< from the left
    QToolButton* moved_;
    QToolButton* keep_;
    QToolButton* faults_;
};

} // namespace quillbench
