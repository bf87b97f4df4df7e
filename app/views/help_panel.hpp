#pragma once

#include "app/views/place_bar.hpp"

#include <QFrame>

class QLabel;
class QTextBrowser;

namespace quillbench {

/// The help of a place, beside its page: what it is for, step by step, pictures, keys, figures with their sources, and
/// cautions. The text lies in resources/help, a file for each place in each language. **Thread** GUI.
class HelpPanel : public QFrame {
    Q_OBJECT

public:
    explicit HelpPanel(QWidget* parent = nullptr);

    /// Shows the page of a place from its beginning.
    void open(Place place);

    /// Gives the keyboard to the text.
    void read();

    [[nodiscard]] bool isRead() const;

    [[nodiscard]] Place place() const { return place_; }

Q_SIGNALS:
    /// Esc, or its button.
    void closed();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    QLabel* title_;
    QTextBrowser* text_;
    Place place_ = Place::Tune;
};

/// The page of a place in a language ("en", "de"), as it lies in its file; English where that language has none.
/// Keys stand in it as <kbd>Ctrl+R</kbd>, by their portable names.
[[nodiscard]] QString helpPage(Place place, const QString& language);

} // namespace quillbench
