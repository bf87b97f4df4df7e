#pragma once

#include "app/places/practise/practise_model.hpp"

#include <QWidget>
#include <utility>

class QLabel;

namespace quillbench {

class BearingTable;
class BreathView;
class FiguresView;
class PinView;
class PractiseActions;
class PractiseChoices;
class ProgressView;
class Sentence;

/// The page on which beats are learned. Every key is the learner's: letters tap, Return goes on. **Thread** GUI.
class PractisePage : public QWidget {
    Q_OBJECT

public:
    explicit PractisePage(PractiseModel& model, QWidget* parent = nullptr);

    /// A line about the loudspeaker; empty where all is well.
    void tell(const QString& text);

    /// The caution about headphones, until it was read.
    void showCaution();

    [[nodiscard]] QSize minimumSizeHint() const override;

Q_SIGNALS:
    void cautionRead();
    /// The learner's own instrument is to be listened to, or the virtual one heard.
    void ownWanted(bool own);
    /// The page came to be seen, or went.
    void seen(bool here);

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void keyReleaseEvent(QKeyEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void connectAll();
    void buildCaution();
    void nameApart();
    void goOn();
    void showModel();
    void showPin();
    void fit();
    void fitWords();
    [[nodiscard]] bool isNarrow() const;
    [[nodiscard]] bool takes(const QKeyEvent& event) const;
    bool take(const QKeyEvent& event);
    [[nodiscard]] bool repeatsLast(const QKeyEvent& event) const;

    PractiseModel& model_;
    PractiseChoices* choices_;
    Sentence* sentence_;
    FiguresView* figures_;
    BreathView* breath_;
    PinView* pin_;
    ProgressView* progress_;
    QLabel* listen_;
    QLabel* told_;
    BearingTable* steps_; ///< what came of a whole plan
    QWidget* caution_;
    PractiseActions* actions_;
    std::pair<int, quint64> lastLetGo_{0, 0}; ///< key and instant
};

} // namespace quillbench
