#pragma once

#include "app/models/choices.hpp"
#include "app/models/pictures.hpp"

#include <QDialog>

class QComboBox;
class QLabel;
class QListWidget;
class QPushButton;
class QStackedWidget;

namespace quillbench {

class LevelView;

/// The three questions of a first start, a page each: which instrument, which pitch and temperament, where the sound
/// comes from. Every page has an answer ready, so that Return three times is enough. Nothing is kept before it is
/// accepted. **Thread** GUI.
class FirstQuestionsDialog : public QDialog {
    Q_OBJECT

public:
    /// What is answered at first; `microphones`: what is there now.
    FirstQuestionsDialog(const TuningChoice& tuning,
                         const SourceChoice& source,
                         const QStringList& microphones,
                         QWidget* parent = nullptr);

    /// The answers; of the tuning what was not asked for stays as it was.
    [[nodiscard]] TuningChoice tuning() const;
    [[nodiscard]] SourceChoice source() const;

    void setMicrophones(const QStringList& names);

    /// What is heard of the source that was tried.
    void show(const LevelPicture& picture);

    using QDialog::show;

Q_SIGNALS:
    /// Another source is to be listened to, so that its level is seen.
    void sourceTried(const quillbench::SourceChoice& source);

private:
    void buildInstrument();
    void buildTuning();
    void buildSound();
    QWidget* addPage(const QString& question, const QString& help, QWidget* answer);
    void go(int page);
    void next();
    void takeInstrument();
    void askForFile();
    void trySource();

    TuningChoice tuning_;
    SourceChoice source_;
    QStringList microphones_;
    QLabel* question_;
    QStackedWidget* pages_;
    QListWidget* instruments_;
    QComboBox* pitch_;
    QListWidget* temperaments_;
    QListWidget* sources_;
    LevelView* level_;
    QLabel* told_;
    QPushButton* back_;
    QPushButton* next_;
};

} // namespace quillbench
