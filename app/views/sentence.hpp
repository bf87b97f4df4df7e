#pragma once

#include <QLabel>

namespace quillbench {

/// The sentence of a place: it has room for two lines, always, so that nothing below moves when it grows; where its text is
/// longer its type gets smaller. A last line of one word takes more from the line above it. **Thread** GUI.
class Sentence : public QLabel {
    Q_OBJECT

public:
    Sentence(QWidget* parent, const char* name);

    /// The type of a text that is short enough. To be called again when the text has changed. **Range** pixels ≥ 1.
    void fit(int pixels);

    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    [[nodiscard]] int narrowedTo(const QFont& type) const;

    int pixels_ = 15;
};

} // namespace quillbench
