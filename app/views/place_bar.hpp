#pragma once

#include <QWidget>
#include <map>

class QToolButton;

namespace quillbench {

/// The parts of the job, in the order in which they stand along the left edge.
enum class Place { Instrument, Temperament, Tune, Recheck, Action, Practise, Logbook };

/// The left edge: a button for each place that was added, the first place at the top; Ctrl with the number of the
/// place goes there. **Thread** GUI.
class PlaceBar : public QWidget {
    Q_OBJECT

public:
    explicit PlaceBar(QWidget* parent = nullptr);

    /// Shows the button of a place. A place is added once.
    void add(Place place);

    /// Marks the place that is seen.
    void show(Place place);
    using QWidget::show;

    /// Signs alone, without their names: that is what a low window shows.
    [[nodiscard]] QSize minimumSizeHint() const override;

Q_SIGNALS:
    void chosen(quillbench::Place place);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void fit();

    std::map<Place, QToolButton*> buttons_;
};

} // namespace quillbench
