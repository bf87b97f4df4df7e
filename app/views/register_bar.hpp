#pragma once

#include "core/instrument/instrument.hpp"

#include <QWidget>
#include <vector>

class QToolButton;
class QHBoxLayout;

namespace quillbench {

/// Which registers are on, to be told by hand: the virtual instrument draws them, of a real one the program knows what
/// may sound. **Thread** GUI.
class RegisterBar : public QWidget {
    Q_OBJECT

public:
    explicit RegisterBar(QWidget* parent = nullptr);

    /// Shows what is on; nothing is signalled.
    void show(const Instrument& instrument, const Registration& registration);
    using QWidget::show;

Q_SIGNALS:
    void drawn(const quillbench::Registration& registration);

private:
    void build(const Instrument& instrument);
    void tellWhatIsOn();

    QHBoxLayout* row_;
    QWidget* buttons_ = nullptr;
    std::vector<QToolButton*> registers_;
    QToolButton* coupler_ = nullptr;
    QString instrument_;
    Registration registration_;
};

} // namespace quillbench
