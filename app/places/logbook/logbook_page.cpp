#include "app/places/logbook/logbook_page.hpp"

#include "app/places/logbook/entry_form.hpp"
#include "app/places/logbook/logbook_model.hpp"
#include "app/places/logbook/row_table.hpp"
#include "app/places/logbook/tuning_report.hpp"
#include "app/print/pages.hpp"
#include "app/text/format.hpp"
#include "app/views/screen_reader.hpp"

#include <QAction>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QMessageBox>
#include <QPushButton>
#include <QSplitter>
#include <QTabWidget>
#include <QVBoxLayout>
#include <algorithm>

namespace quillbench {

namespace {

QLabel* wordsIn(QWidget* parent, const char* name) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return label;
}

QStringList rowOfSession(const SessionLine& line) {
    return {line.date,
            line.kind,
            line.strings,
            line.end,
            line.instrument,
            line.temperament,
            line.pitch,
            line.source};
}

QStringList rowOfReading(const ReadingLine& line) {
    return {line.choir,
            line.key,
            line.state,
            line.before,
            line.after,
            line.uncertainty,
            line.hertz,
            line.window,
            line.remarks};
}

} // namespace

LogbookPage::LogbookPage(LogbookModel& model, QWidget* parent)
    : QWidget(parent),
      model_(model),
      trouble_(wordsIn(this, "logbookFile")),
      told_(wordsIn(this, "logbookTold")),
      file_(new QPushButton(tr("&File"), this)),
      halves_(new QSplitter(Qt::Vertical, this)),
      sessions_(new RowTable(QStringLiteral("sessions"),
                             tr("Sessions, newest first"),
                             {tr("Begun"),
                              tr("What"),
                              tr("Strings"),
                              tr("State"),
                              tr("Instrument"),
                              tr("Temperament"),
                              tr("a′"),
                              tr("Sound from")},
                             halves_)),
      tabs_(new QTabWidget(halves_)),
      readings_(new RowTable(QStringLiteral("readings"),
                             tr("Readings of the session"),
                             {tr("Choir"),
                              tr("Key"),
                              tr("State"),
                              tr("Before"),
                              tr("Cents"),
                              tr("±"),
                              tr("Pitch"),
                              tr("Plucks"),
                              tr("Remarks")},
                             tabs_)) {
    setObjectName(QStringLiteral("logbookPage"));
    setAccessibleName(tr("Logbook"));
    setFocusProxy(sessions_);
    readings_->setNumbers({3, 4, 5, 6});
    tabs_->addTab(readings_, tr("&Readings"));
    tabs_->addTab(diaryTab(), tr("&Diary"));
    tabs_->addTab(tendencyTab(), tr("What strings &tend to do"));
    halves_->addWidget(sessions_);
    halves_->addWidget(tabs_);
    tabs_->setDocumentMode(true);
    halves_->setStretchFactor(0, 2);
    halves_->setStretchFactor(1, 3);
    buildFileMenu();
    buildHead();
    connectModel();
    showList();
    showOpened();
}

void LogbookPage::buildHead() {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(16, 8, 16, 8);
    auto* head = new QHBoxLayout;
    head->addWidget(trouble_, 1);
    head->addWidget(file_);
    column->addLayout(head);
    column->addWidget(halves_, 1);
    presentAsAnnouncement(told_);
    told_->hide();
    column->addWidget(told_);
}

void LogbookPage::buildFileMenu() {
    file_->setObjectName(QStringLiteral("logbookMenu"));
    file_->setAccessibleDescription(
        tr("Print a report; check, export, import, back up or restore the logbook's file"));
    auto* menu = new QMenu(file_);
    report_ = menu->addAction(tr("&Print the session's report…"), this, &LogbookPage::printReport);
    report_->setShortcut(QKeySequence::Print);
    addAction(report_); // its key works while the menu is closed
    menu->addSeparator();
    menu->addAction(tr("&Check every row"), &model_, &LogbookModel::verify);
    menu->addSeparator();
    menu->addAction(tr("&Export as JSON…"), this, [this] { askForExport(false); });
    menu->addAction(tr("Export as C&SV tables…"), this, [this] { askForExport(true); });
    menu->addAction(tr("&Import a JSON export…"), this, [this] { askForImport(false); });
    menu->addAction(tr("Import CSV &tables…"), this, [this] { askForImport(true); });
    menu->addSeparator();
    menu->addAction(tr("&Back up…"), this, &LogbookPage::askForBackup);
    menu->addAction(tr("&Restore a backup…"), this, &LogbookPage::askForRestore);
    file_->setMenu(menu);
}

QWidget* LogbookPage::diaryTab() {
    auto* tab = new QWidget(tabs_);
    auto* column = new QVBoxLayout(tab);
    column->setContentsMargins(8, 8, 8, 8);
    diary_ = new RowTable(QStringLiteral("diary"),
                          tr("Remarks, air, new strings and clocks"),
                          {tr("When"), tr("What"), tr("String"), tr("Text")},
                          tab);
    entry_ = new EntryForm(tab);
    column->addWidget(diary_, 1);
    column->addWidget(entry_);
    return tab;
}

QWidget* LogbookPage::tendencyTab() {
    auto* tab = new QWidget(tabs_);
    auto* column = new QVBoxLayout(tab);
    column->setContentsMargins(8, 8, 8, 8);
    due_ = wordsIn(tab, "due");
    tendencies_ =
        new RowTable(QStringLiteral("tendencies"),
                     tr("How fast each string drifts"),
                     {tr("String"), tr("Cents a week"), tr("±"), tr("Looks"), tr("What it does")},
                     tab);
    tendencies_->setNumbers({1, 2, 3});
    column->addWidget(due_);
    column->addWidget(tendencies_, 1);
    return tab;
}

void LogbookPage::connectModel() {
    connect(&model_, &LogbookModel::changed, this, &LogbookPage::showList);
    connect(&model_, &LogbookModel::openedChanged, this, &LogbookPage::showOpened);
    connect(&model_, &LogbookModel::told, this, &LogbookPage::tell);
    connect(&model_, &LogbookModel::busyChanged, this, [this](bool busy) {
        if (busy && !model_.picture().readable) {
            trouble_->setText(tr("Reading…"));
        }
    });
    connect(sessions_, &RowTable::rowChosen, this, [this](int row) {
        model_.open(model_.picture().sessions[static_cast<std::size_t>(row)].session);
    });
    connect(entry_, &EntryForm::remarkEntered, &model_, &LogbookModel::remark);
    connect(entry_, &EntryForm::climateEntered, &model_, &LogbookModel::climate);
    connect(entry_, &EntryForm::replacedEntered, &model_, &LogbookModel::stringReplaced);
}

void LogbookPage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    model_.refresh();
}

void LogbookPage::showList() {
    const LogbookPicture& picture = model_.picture();
    const QString file =
        picture.sessions.empty() && !picture.file.isEmpty()
            ? tr("%1: no session yet. What is tuned and rechecked is kept here as it goes; where "
                 "an ear stands is told at Practise.")
                  .arg(picture.file)
            : picture.file;
    trouble_->setText(picture.trouble.isEmpty() ? file : picture.trouble);
    std::vector<QStringList> rows;
    rows.reserve(picture.sessions.size());
    for (const SessionLine& line : picture.sessions) {
        rows.push_back(rowOfSession(line));
    }
    sessions_->setRows(rows);
    entry_->setEnabled(picture.writable && model_.opened() && model_.opened()->instrument);
}

void LogbookPage::showOpened() {
    const auto& opened = model_.opened();
    std::vector<QStringList> readings;
    std::vector<QStringList> diary;
    if (opened) {
        for (const ReadingLine& line : opened->readings) {
            readings.push_back(rowOfReading(line));
        }
        for (const DiaryLine& line : opened->diary) {
            diary.push_back({line.date, line.what, line.about, line.text});
        }
        const auto& sessions = model_.picture().sessions;
        for (std::size_t row = 0; row < sessions.size(); ++row) {
            if (sessions[row].session == opened->session) {
                sessions_->showCurrent(static_cast<int>(row));
            }
        }
    }
    readings_->setRows(readings);
    readings_->setAccessibleDescription(opened ? opened->title : tr("No session is opened"));
    diary_->setRows(diary);
    entry_->show(opened ? opened->instrument : std::nullopt);
    entry_->setEnabled(model_.picture().writable && opened && opened->instrument);
    const TendencyPicture& tendencies = model_.tendencies();
    QStringList words{tendencies.sentence};
    words << tendencies.choirs.join(QStringLiteral("; "));
    words << tendencies.newStrings;
    words.removeAll(QString());
    due_->setText(words.join(QLatin1Char('\n')));
    std::vector<QStringList> rows;
    for (const TendencyLine& line : tendencies.strings) {
        rows.push_back({line.string, line.rate, line.uncertainty, line.looks, line.habit});
    }
    tendencies_->setRows(rows);
}

void LogbookPage::tell(const QString& text) {
    told_->setVisible(!text.isEmpty()); // a notification without words has no name
    sayIn(told_, text);
}

void LogbookPage::printReport() {
    const auto& opened = model_.opened();
    const auto& sessions = model_.picture().sessions;
    const auto line = std::find_if(sessions.begin(), sessions.end(), [&](const SessionLine& one) {
        return opened && one.session == opened->session;
    });
    if (line == sessions.end()) {
        tell(tr("Open a session of the list first: its report is printed."));
        return;
    }
    const Report report = tuningReport(*line, *opened);
    tell(print(this, {report.title, QPageSize::A4, [&report](QPagedPaintDevice& device) {
                          return paintReport(report, device);
                      }}));
}

void LogbookPage::askForExport(bool csv) {
    const QString to = csv ? QFileDialog::getExistingDirectory(this, tr("Folder for the tables"))
                           : QFileDialog::getSaveFileName(this,
                                                          tr("Export the logbook"),
                                                          QStringLiteral("logbook.json"),
                                                          tr("JSON (*.json)"));
    if (to.isEmpty()) {
        return;
    }
    csv ? model_.exportCsv(to.toStdString()) : model_.exportJson(to.toStdString());
}

void LogbookPage::askForImport(bool csv) {
    const QString from =
        csv ? QFileDialog::getExistingDirectory(this, tr("Folder of exported tables"))
            : QFileDialog::getOpenFileName(
                  this, tr("Import an export"), QString(), tr("JSON (*.json);;All files (*)"));
    if (!from.isEmpty()) {
        model_.importFrom(from.toStdString());
    }
}

void LogbookPage::askForBackup() {
    const QString to = QFileDialog::getSaveFileName(this,
                                                    tr("Back up the logbook"),
                                                    QStringLiteral("logbook-backup.sqlite"),
                                                    tr("Logbook (*.sqlite)"),
                                                    nullptr,
                                                    QFileDialog::DontConfirmOverwrite);
    if (!to.isEmpty()) {
        model_.backUp(to.toStdString());
    }
}

void LogbookPage::askForRestore() {
    const QString from = QFileDialog::getOpenFileName(
        this, tr("Restore a backup"), QString(), tr("Logbook (*.sqlite);;All files (*)"));
    if (from.isEmpty()) {
        return;
    }
    auto* box =
        new QMessageBox(QMessageBox::Question,
                        tr("Restore a backup"),
                        tr("Put this backup in the logbook's place? What is there now is kept "
                           "beside it under another name; the session at hand ends."),
                        QMessageBox::Cancel,
                        this);
    box->addButton(tr("&Restore"), QMessageBox::AcceptRole);
    box->setAttribute(Qt::WA_DeleteOnClose);
    connect(box, &QDialog::finished, this, [this, box, from](int /*result*/) {
        if (box->buttonRole(box->clickedButton()) == QMessageBox::AcceptRole) {
            model_.restore(from.toStdString());
        }
    });
    box->open();
}

} // namespace quillbench
