#pragma once

#include <QWidget>

class QAction;
class QLabel;
class QPushButton;
class QSplitter;
class QTabWidget;

namespace quillbench {

class EntryForm;
class LogbookModel;
class RowTable;

/// The place where what was done is looked up and written down: the sessions, one of them with its readings, the diary
/// of its instrument, what its strings tend to do. It shows the model and hands on what the person does.
/// **Thread** GUI.
class LogbookPage : public QWidget {
    Q_OBJECT

public:
    explicit LogbookPage(LogbookModel& model, QWidget* parent = nullptr);

    /// Sizes of type follow the window, so the least is small.
    [[nodiscard]] QSize minimumSizeHint() const override { return {520, 320}; }

protected:
    void showEvent(QShowEvent* event) override;

private:
    void buildHead();
    void buildFileMenu();
    [[nodiscard]] QWidget* diaryTab();
    [[nodiscard]] QWidget* tendencyTab();
    void connectModel();
    void showList();
    void showOpened();
    void tell(const QString& text);
    void printReport();
    void askForExport(bool csv);
    void askForImport(bool csv);
    void askForBackup();
    void askForRestore();

    LogbookModel& model_;
    QLabel* trouble_;
    QLabel* told_;
    QPushButton* file_;
    QAction* report_ = nullptr;
    QSplitter* halves_;
    RowTable* sessions_;
    QTabWidget* tabs_;
    RowTable* readings_;
    RowTable* diary_ = nullptr;
    EntryForm* entry_ = nullptr;
    QLabel* due_ = nullptr;
    RowTable* tendencies_ = nullptr;
};

} // namespace quillbench
