#include "app/dialogs/first_questions_dialog.hpp"

#include "app/formats/instrument_file.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/views/document.hpp"
#include "app/views/level_view.hpp"
#include "app/views/screen_reader.hpp"
#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"

#include <QComboBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QLocale>
#include <QPushButton>
#include <QStackedWidget>
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>

namespace quillbench {

namespace {

constexpr int kQuestionPixels = 22;
constexpr int kSoundPage = 2;
constexpr QLatin1String kFileAnswer("?"); // the entry that opens a file

QListWidget* answerList(QWidget* parent, const char* name, const QString& about) {
    auto* list = new QListWidget(parent);
    list->setObjectName(QString::fromLatin1(name));
    list->setAccessibleName(about);
    list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list->setWordWrap(true); // an answer is read whole
    list->setResizeMode(QListView::Adjust);
    list->setMinimumSize(240, 80);
    return list;
}

QListWidgetItem* addAnswer(QListWidget* list, const QString& text, const QString& value) {
    auto* item = new QListWidgetItem(text, list);
    item->setData(Qt::UserRole, value);
    return item;
}

void chooseAnswer(QListWidget* list, const QString& value) {
    for (int row = 0; row < list->count(); ++row) {
        if (list->item(row)->data(Qt::UserRole).toString() == value) {
            list->setCurrentRow(row);
            return;
        }
    }
    list->setCurrentRow(0);
}

QString answerOf(const QListWidget* list) {
    return list->currentItem() != nullptr ? list->currentItem()->data(Qt::UserRole).toString()
                                          : QString();
}

/// As it is called in its file, or as the file is.
QString instrumentName(const QString& file) {
    const Result<Instrument> read = loadInstrument(file.toStdString());
    return read ? coreText(read->name) : QFileInfo(file).completeBaseName();
}

QString hertzShort(double hz) {
    return QLocale().toString(hz, 'g', 6);
}

} // namespace

FirstQuestionsDialog::FirstQuestionsDialog(const TuningChoice& tuning,
                                           const SourceChoice& source,
                                           const QStringList& microphones,
                                           QWidget* parent)
    : QDialog(parent),
      tuning_(tuning),
      source_(source),
      microphones_(microphones),
      question_(new QLabel(this)),
      pages_(new QStackedWidget(this)),
      instruments_(answerList(this, "firstInstrument", tr("Instrument"))),
      pitch_(new QComboBox(this)),
      temperaments_(answerList(this, "firstTemperament", tr("Temperament"))),
      sources_(answerList(this, "firstSource", tr("Sound from"))),
      level_(new LevelView(this)),
      told_(new QLabel(this)),
      back_(new QPushButton(tr("&Back"), this)),
      next_(new QPushButton(this)) {
    setObjectName(QStringLiteral("firstQuestions"));
    setWindowTitle(tr("Three questions"));
    question_->setObjectName(QStringLiteral("firstQuestion"));
    question_->setWordWrap(true);
    QFont large = font();
    large.setPixelSize(kQuestionPixels);
    question_->setFont(large);
    presentAsAnnouncement(question_);
    presentAsAnnouncement(told_);
    told_->setWordWrap(true);
    told_->setTextFormat(Qt::PlainText);
    auto* column = new QVBoxLayout(this);
    column->addWidget(question_);
    column->addWidget(pages_, 1);
    column->addWidget(told_);
    auto* buttons = new QHBoxLayout;
    auto* later = new QPushButton(tr("&Not now"), this);
    later->setAutoDefault(false);
    back_->setAutoDefault(false);
    next_->setDefault(true);
    next_->setObjectName(QStringLiteral("firstNext"));
    buttons->addWidget(later);
    buttons->addStretch(1);
    buttons->addWidget(back_);
    buttons->addWidget(next_);
    column->addLayout(buttons);
    buildInstrument();
    buildTuning();
    buildSound();
    connect(later, &QPushButton::clicked, this, &QDialog::reject);
    connect(back_, &QPushButton::clicked, this, [this] { go(pages_->currentIndex() - 1); });
    connect(next_, &QPushButton::clicked, this, &FirstQuestionsDialog::next);
    resize(520, 380);
    go(0);
}

QWidget*
FirstQuestionsDialog::addPage(const QString& question, const QString& help, QWidget* answer) {
    auto* page = new QWidget(pages_);
    page->setWindowTitle(question);
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(0, 0, 0, 0);
    auto* words = new QLabel(help, page);
    words->setWordWrap(true);
    column->addWidget(words);
    column->addWidget(answer, 1);
    page->setFocusProxy(answer);
    pages_->addWidget(page);
    return page;
}

void FirstQuestionsDialog::buildInstrument() {
    for (const Instrument& one : exampleInstruments()) {
        addAnswer(instruments_, coreText(one.name), toQString(one.id));
    }
    if (findExample(tuning_.instrument.toStdString()) == nullptr) {
        addAnswer(instruments_, instrumentName(tuning_.instrument), tuning_.instrument);
    }
    addAnswer(instruments_, tr("a file of your own…"), kFileAnswer);
    chooseAnswer(instruments_, tuning_.instrument);
    addPage(tr("1 of 3: Which instrument?"),
            tr("The examples are invented; take the one that is most like yours. Its strings can "
               "be read from a list later, at the place Instrument."),
            instruments_);
}

void FirstQuestionsDialog::buildTuning() {
    pitch_->setObjectName(QStringLiteral("firstPitch"));
    pitch_->setEditable(true);
    pitch_->setInsertPolicy(QComboBox::NoInsert);
    pitch_->setAccessibleName(tr("Pitch of a\u2032 in hertz"));
    for (const double hz : kStandardsHz) {
        pitch_->addItem(hertzShort(hz));
    }
    pitch_->setEditText(hertzShort(tuning_.a4Hz));
    for (const Temperament& one : catalogue()) {
        const TemperamentDescription& about = one.description();
        addAnswer(temperaments_, coreText(about.name), toQString(about.id));
    }
    if (findTemperament(tuning_.temperament.toStdString()) == nullptr) {
        addAnswer(temperaments_, temperamentCalled(tuning_.temperament), tuning_.temperament);
    }
    chooseAnswer(temperaments_, tuning_.temperament);
    QWidget* page =
        addPage(tr("2 of 3: Which pitch and temperament?"),
                tr("The pitch at which the instrument stands already is the safe one. "
                   "Before an old instrument is raised ask its maker or a conservator."),
                temperaments_);
    auto* row = new QHBoxLayout;
    auto* caption = new QLabel(tr("&a\u2032 in Hz"), page);
    caption->setBuddy(pitch_);
    row->addWidget(caption);
    row->addWidget(pitch_);
    row->addStretch(1);
    static_cast<QVBoxLayout*>(page->layout())->insertLayout(1, row);
}

void FirstQuestionsDialog::buildSound() {
    QWidget* page = addPage(tr("3 of 3: Where does the sound come from?"),
                            tr("The virtual instrument needs no microphone: try everything on it. "
                               "A microphone stands near the strings and touches nothing."),
                            sources_);
    setMicrophones(microphones_);
    auto* row = new QHBoxLayout;
    row->addWidget(new QLabel(tr("What is heard:"), page));
    row->addWidget(level_);
    row->addStretch(1);
    static_cast<QVBoxLayout*>(page->layout())->addLayout(row);
    connect(sources_, &QListWidget::currentRowChanged, this, &FirstQuestionsDialog::trySource);
}

void FirstQuestionsDialog::setMicrophones(const QStringList& names) {
    microphones_ = names;
    const QSignalBlocker quiet(sources_);
    sources_->clear();
    addAnswer(sources_, tr("the virtual instrument"), {});
    addAnswer(sources_, tr("the default microphone"), QStringLiteral("/"));
    QStringList all = names;
    if (source_.kind == SourceKind::Microphone && !source_.device.isEmpty() &&
        !all.contains(source_.device)) {
        all << source_.device;
    }
    for (const QString& name : all) {
        addAnswer(sources_, name, QLatin1Char('/') + name);
    }
    chooseAnswer(sources_,
                 source_.kind == SourceKind::Microphone ? QLatin1Char('/') + source_.device
                                                        : QString());
}

void FirstQuestionsDialog::show(const LevelPicture& picture) {
    level_->show(picture);
}

void FirstQuestionsDialog::trySource() {
    const QString answer = answerOf(sources_);
    const SourceChoice choice = answer.isEmpty()
                                    ? SourceChoice{SourceKind::Virtual, {}, {}}
                                    : SourceChoice{SourceKind::Microphone, answer.mid(1), {}};
    if (!(choice == source_)) {
        source_ = choice;
        Q_EMIT sourceTried(choice);
    }
}

void FirstQuestionsDialog::go(int page) {
    pages_->setCurrentIndex(page);
    back_->setEnabled(page > 0);
    next_->setText(page == kSoundPage ? tr("&Ready") : tr("&Next"));
    told_->clear();
    sayIn(question_, pages_->widget(page)->windowTitle());
    pages_->widget(page)->setFocus(Qt::OtherFocusReason);
    for (auto* list : pages_->widget(page)->findChildren<QListWidget*>()) {
        // Only now it has its height.
        QTimer::singleShot(0, list, [list] {
            list->scrollToItem(list->currentItem(), QAbstractItemView::PositionAtCenter);
        });
    }
}

void FirstQuestionsDialog::next() {
    const int page = pages_->currentIndex();
    if (page == kSoundPage) {
        trySource();
        accept();
        return;
    }
    if (page == 0) {
        takeInstrument();
        return;
    }
    bool number = false;
    const double hz = QLocale().toDouble(pitch_->currentText(), &number);
    if (!number || hz < kLowestStandardHz || hz > kHighestStandardHz) {
        sayIn(told_,
              tr("A pitch of %1: give hertz from %2 to %3.")
                  .arg(pitch_->currentText(),
                       hertzShort(kLowestStandardHz),
                       hertzShort(kHighestStandardHz)));
        pitch_->setFocus();
        return;
    }
    tuning_.a4Hz = hz;
    tuning_.temperament = answerOf(temperaments_);
    go(page + 1);
}

void FirstQuestionsDialog::takeInstrument() {
    const QString answer = answerOf(instruments_);
    if (answer == kFileAnswer) {
        askForFile();
        return;
    }
    const Result<Instrument> instrument = loadInstrument(answer.toStdString());
    if (!instrument) {
        sayIn(told_, errorText(instrument.error()));
        return;
    }
    if (answer != tuning_.instrument) {
        tuning_.instrument = answer;
        tuning_.choir = toQString(instrument->choirs.front().id);
        tuning_.position = 0;
        tuning_.a4Hz = instrument->pitchStandardHz;
        pitch_->setEditText(hertzShort(tuning_.a4Hz));
    }
    go(1);
}

void FirstQuestionsDialog::askForFile() {
    const QString file = QFileDialog::getOpenFileName(
        this, tr("Open an instrument"), {}, documentFilter(tr("Instrument")));
    if (file.isEmpty()) {
        return;
    }
    instruments_->insertItem(instruments_->count() - 1, instrumentName(file));
    instruments_->item(instruments_->count() - 2)->setData(Qt::UserRole, file);
    instruments_->setCurrentRow(instruments_->count() - 2);
    takeInstrument();
}

TuningChoice FirstQuestionsDialog::tuning() const {
    return tuning_;
}

SourceChoice FirstQuestionsDialog::source() const {
    return source_;
}

} // namespace quillbench
