#include "app/places/instrument/instrument_page.hpp"

#include "app/places/instrument/build_panel.hpp"
#include "app/places/instrument/compass_view.hpp"
#include "app/places/instrument/instrument_tables.hpp"
#include "app/places/instrument/instrument_text.hpp"
#include "app/places/instrument/new_string_panel.hpp"
#include "app/places/instrument/registers_panel.hpp"
#include "app/places/instrument/string_report.hpp"
#include "app/places/instrument/strings_panel.hpp"
#include "app/places/temperament/temperament_tables.hpp"
#include "app/print/pages.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/views/document.hpp"
#include "app/views/screen_reader.hpp"
#include "app/views/tab_focus.hpp"
#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QEvent>
#include <QFileDialog>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QTabWidget>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

namespace quillbench {

namespace {

constexpr int kInstrumentColumnsFrom = 1000; // a narrower page stacks its parts
constexpr int kInstrumentGap = 8;
constexpr int kLeastList = 120;
/// The weakest wire with its loops is in the lower bound already; common practice, no source.
constexpr double kUsualReserve = 1.0; // semitones

QLabel* instrumentLabel(QWidget* parent, const char* name) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    return label;
}

QPushButton* instrumentButton(QWidget* parent, const char* name, const QString& text) {
    auto* button = new QPushButton(text, parent);
    button->setObjectName(QString::fromLatin1(name));
    return button;
}

} // namespace

InstrumentPage::InstrumentPage(InstrumentModel& model, const TuningModel& tuning, QWidget* parent)
    : QScrollArea(parent),
      model_(model),
      tuning_(tuning),
      content_(new QWidget(this)) {
    setObjectName(QStringLiteral("instrumentPage"));
    setFrameShape(QFrame::NoFrame);
    setWidgetResizable(true);
    setWidget(content_);
    auto* column = new QVBoxLayout(content_);
    column->setContentsMargins(16, 8, 16, 8);
    column->setSpacing(kInstrumentGap);
    buildTop();
    columns_ = new QBoxLayout(QBoxLayout::LeftToRight);
    columns_->setSpacing(2 * kInstrumentGap);
    column->addLayout(columns_, 1);
    buildFacts();
    tabs_ = new QTabWidget(content_);
    tabs_->setObjectName(QStringLiteral("instrumentTabs"));
    tabs_->setMinimumHeight(300);
    columns_->addWidget(tabs_, 7);
    buildStrings();
    buildChange();
    leadFocusWith(tabs_);
    told_ = instrumentLabel(content_, "instrumentTold");
    presentAsAnnouncement(told_);
    column->addWidget(told_);
    setFocusProxy(list_);
    connectAll();
    showInstrument();
    showChange();
}

void InstrumentPage::buildTop() {
    auto* row = new QHBoxLayout;
    row->setSpacing(kInstrumentGap);
    static_cast<QVBoxLayout*>(content_->layout())->addLayout(row);
    list_ = new QComboBox(content_);
    list_->setObjectName(QStringLiteral("instrumentList"));
    list_->setPlaceholderText(tr("not saved yet"));
    list_->setAccessibleName(tr("Instrument"));
    list_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    list_->setMinimumContentsLength(10);
    list_->setMinimumWidth(kLeastList); // the placeholder would make a small window wider
    for (const Instrument& one : exampleInstruments()) {
        list_->addItem(coreText(one.name), toQString(one.id));
    }
    auto* label = new QLabel(tr("&Instrument"), content_);
    label->setBuddy(list_);
    auto* open = instrumentButton(content_, "openInstrument", tr("O&pen\u2026"));
    undo_ = instrumentButton(content_, "undoInstrument", tr("Un&do"));
    redo_ = instrumentButton(content_, "redoInstrument", tr("Redo"));
    auto* tune = instrumentButton(content_, "tuneInstrument", tr("&Tune this"));
    row->addWidget(label);
    row->addWidget(list_, 1);
    row->addWidget(open);
    row->addWidget(tune);
    connect(open, &QPushButton::clicked, this, &InstrumentPage::openFile);
    connect(tune, &QPushButton::clicked, this, &InstrumentPage::tune);
}

void InstrumentPage::buildFacts() {
    auto* column = new QVBoxLayout;
    columns_->addLayout(column, 3);
    build_ = new BuildPanel(model_, content_);
    column->addWidget(build_);
    column->addStretch(1);
    auto* import = instrumentButton(content_, "importStrings", tr("&Read a string list\u2026"));
    import->setToolTip(
        tr("A CSV file with the columns choir, key, length_mm, diameter_mm, material, "
           "pin_diameter_mm, pin_row, pin_place; only choir and key must be there, gaps are "
           "filled from the neighbours"));
    auto* store = instrumentButton(content_, "exportStrings", tr("Write the string &list\u2026"));
    auto* sheet = instrumentButton(content_, "printStrings", tr("Print\u2026"));
    sheet->setToolTip(tr("The string list, on paper or as PDF"));
    auto* save = instrumentButton(content_, "saveInstrument", tr("Sav&e as\u2026"));
    auto* back = new QHBoxLayout;
    back->addWidget(undo_);
    back->addWidget(redo_);
    column->addLayout(back);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(import);
    buttons->addWidget(save);
    auto* out = new QHBoxLayout;
    out->addWidget(store, 2);
    out->addWidget(sheet, 1);
    column->addLayout(out);
    column->addLayout(buttons);
    connect(import, &QPushButton::clicked, this, &InstrumentPage::importList);
    connect(store, &QPushButton::clicked, this, &InstrumentPage::exportList);
    connect(save, &QPushButton::clicked, this, &InstrumentPage::saveFile);
    connect(sheet, &QPushButton::clicked, this, &InstrumentPage::printStrings);
}

void InstrumentPage::buildStrings() {
    auto* plots = new QWidget(tabs_);
    auto* plotColumn = new QVBoxLayout(plots);
    plotColumn->setContentsMargins(8, 8, 8, 8);
    choir_ = new QComboBox(content_);
    choir_->setObjectName(QStringLiteral("stringChoir"));
    choir_->setAccessibleName(tr("Choir looked at"));
    tabs_->setCornerWidget(choir_, Qt::TopRightCorner);
    plots_ = new CompassView(plots);
    string_ = instrumentLabel(plots, "stringHere");
    plotColumn->addWidget(plots_, 1);
    plotColumn->addWidget(string_);
    tabs_->addTab(plots, tr("&Compass"));
    strings_ = new StringsPanel(model_, tabs_);
    tabs_->addTab(strings_, tr("Strin&gs"));
    newString_ = new NewStringPanel(model_, tabs_);
    tabs_->addTab(newString_, tr("New string"));
    registers_ = new RegistersPanel(model_, tabs_);
    tabs_->addTab(registers_, tr("Registers &and choirs"));
}

void InstrumentPage::buildChange() {
    auto* sheet = new QWidget(tabs_);
    auto* column = new QVBoxLayout(sheet);
    column->setContentsMargins(8, 8, 8, 8);
    from_ = instrumentLabel(sheet, "changeFrom");
    column->addWidget(from_);
    auto* form = new QFormLayout;
    column->addLayout(form);
    a4_ = new QDoubleSpinBox(sheet);
    a4_->setObjectName(QStringLiteral("changePitch"));
    a4_->setRange(kLowestStandardHz, kHighestStandardHz);
    a4_->setDecimals(1);
    a4_->setSuffix(tr(" Hz"));
    temperament_ = new QComboBox(sheet);
    temperament_->setObjectName(QStringLiteral("changeTemperament"));
    temperament_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    temperament_->setMinimumContentsLength(10);
    temperament_->addItem(tr("as it is"), QString());
    for (const Temperament& one : catalogue()) {
        temperament_->addItem(coreText(one.description().name), toQString(one.id()));
    }
    margin_ = new QDoubleSpinBox(sheet);
    margin_->setObjectName(QStringLiteral("changeMargin"));
    margin_->setRange(0.0, 12.0);
    margin_->setSingleStep(0.5);
    margin_->setDecimals(1);
    margin_->setValue(kUsualReserve);
    margin_->setSuffix(tr(" semitones"));
    form->addRow(tr("To a\u2032"), a4_);
    form->addRow(tr("Temperament"), temperament_);
    form->addRow(tr("Name strings that &keep less than"), margin_);
    load_ = instrumentLabel(sheet, "changeLoad");
    near_ = instrumentLabel(sheet, "changeNear");
    nearTable_ = readingTable(sheet, "nearTable", tr("Strings near breaking"));
    auto* caution = instrumentLabel(sheet, "changeCaution");
    caution->setText(breakingCaution() + QLatin1Char(' ') + memoryNote());
    column->addWidget(load_);
    column->addWidget(near_);
    column->addWidget(nearTable_, 1);
    column->addWidget(caution);
    tabs_->addTab(sheet, tr("Change o&f pitch"));
}

void InstrumentPage::connectAll() {
    connect(&model_, &InstrumentModel::changed, this, &InstrumentPage::showInstrument);
    connect(&model_, &InstrumentModel::stringHeard, this, [this] {
        if (isVisible()) {
            showChoir();
        }
    });
    connect(&model_, &InstrumentModel::thoughtChanged, this, &InstrumentPage::showChange);
    connect(&tuning_, &TuningModel::chosen, this, [this] { model_.follow(tuning_.choice()); });
    connect(list_, &QComboBox::activated, this, &InstrumentPage::chooseListed);
    connect(choir_, &QComboBox::currentIndexChanged, this, &InstrumentPage::showChoir);
    connect(a4_, &QDoubleSpinBox::valueChanged, this, &InstrumentPage::think);
    connect(temperament_, &QComboBox::activated, this, &InstrumentPage::think);
    connect(margin_, &QDoubleSpinBox::valueChanged, this, &InstrumentPage::showChange);
    connect(plots_, &CompassView::courseChosen, this, [this](std::size_t course) {
        string_->setText(plots_->picture().wordsOfCourse[course]);
        strings_->markString(course);
        newString_->markString(course);
    });
    const auto tellDone = [this](const Result<void>& done) { say(done); };
    connect(registers_, &RegistersPanel::entered, this, tellDone);
    connect(strings_, &StringsPanel::entered, this, tellDone);
    connect(build_, &BuildPanel::entered, this, tellDone);
    connect(newString_, &NewStringPanel::entered, this, &InstrumentPage::say);
    connect(undo_, &QPushButton::clicked, &model_, &InstrumentModel::undo);
    connect(redo_, &QPushButton::clicked, &model_, &InstrumentModel::redo);
}

std::size_t InstrumentPage::choir() const {
    return static_cast<std::size_t>(std::max(0, choir_->currentIndex()));
}

void InstrumentPage::showInstrument() {
    const Instrument& instrument = model_.instrument();
    const QSignalBlocker quietList(list_);
    const QString id = model_.file().isEmpty() ? toQString(instrument.id) : model_.file();
    if (!model_.unsaved() && list_->findData(id) < 0) {
        list_->addItem(coreText(instrument.name), id);
    }
    list_->setCurrentIndex(model_.unsaved() ? -1 : list_->findData(id));
    registers_->showInstrument();
    build_->showInstrument();
    undo_->setEnabled(model_.canUndo());
    redo_->setEnabled(model_.canRedo());
    {
        const QSignalBlocker quiet(choir_);
        const int before = choir_->currentIndex();
        choir_->clear();
        for (const Choir& one : instrument.choirs) {
            choir_->addItem(choirText(one));
        }
        choir_->setCurrentIndex(std::clamp(before, 0, choir_->count() - 1));
    }
    showChoir();
}

void InstrumentPage::showChoir() {
    plots_->show(compassPicture(model_, choir()));
    if (plots_->course() < plots_->picture().wordsOfCourse.size()) {
        string_->setText(plots_->picture().wordsOfCourse[plots_->course()]);
    }
    strings_->showChoir(choir());
    newString_->showChoir(choir());
}

void InstrumentPage::showChange() {
    const TunedScale now = model_.scaleNow();
    const TunedScale then = model_.scaleThen();
    const QSignalBlocker quiet(a4_);
    a4_->setValue(then.reference.hz.value());
    from_->setText(
        (model_.isTuned() ? tr("From what is tuned: a\u2032 = %1, %2.")
                          : tr("From its own standard: a\u2032 = %1, %2."))
            .arg(hertzText(now.reference.hz), coreText(now.temperament.description().name)));
    const LoadChange change = model_.loadOfThought();
    load_->setText(changeText(model_, change).join(QLatin1Char('\n')));
    const std::vector<StringChange> near = stringsWithin(change, margin_->value());
    near_->setText(
        near.empty()
            ? tr("No string would keep less than %1 to the breaking of the weakest wire.")
                  .arg(margin_->text())
            : tr("Strings that would keep less than %1 to the breaking of the weakest wire: %2. In "
                 "semitones:")
                  .arg(margin_->text())
                  .arg(near.size()));
    nearTable_->setVisible(!near.empty());
    fillNearBreaking(*nearTable_, model_, near);
}

void InstrumentPage::think() {
    model_.think(a4_->value(), temperament_->currentData().toString());
}

void InstrumentPage::chooseListed() {
    temperament_->setCurrentIndex(0);
    say(model_.choose(list_->currentData().toString()));
}

void InstrumentPage::openFile() {
    const QString file = QFileDialog::getOpenFileName(
        this, tr("Open an instrument"), QString(), documentFilter(tr("Instrument")));
    if (!file.isEmpty()) {
        say(model_.choose(file));
    }
}

void InstrumentPage::saveFile() {
    QString file = QFileDialog::getSaveFileName(
        this,
        tr("Save the instrument"),
        model_.file().isEmpty() ? coreText(model_.instrument().name) : model_.file(),
        documentFilter(tr("Instrument")));
    if (file.isEmpty()) {
        return;
    }
    file = withSuffix(file);
    say(model_.save(file), tr("Saved: %1").arg(file));
}

void InstrumentPage::importList() {
    const QString file = QFileDialog::getOpenFileName(
        this, tr("Read a string list"), QString(), tr("String list (*.csv);;All files (*)"));
    if (!file.isEmpty()) {
        const Result<QString> read = model_.importStrings(file);
        tell(read ? *read : errorText(read.error()));
    }
}

void InstrumentPage::exportList() {
    const QString file =
        QFileDialog::getSaveFileName(this,
                                     tr("Write the string list"),
                                     coreText(model_.instrument().name) + QStringLiteral(".csv"),
                                     tr("String list (*.csv)"));
    if (!file.isEmpty()) {
        say(model_.exportStrings(file), tr("Written: %1").arg(file));
    }
}

void InstrumentPage::printStrings() {
    const Report report = stringReport(model_);
    tell(print(this, {report.title, QPageSize::A4, [&report](QPagedPaintDevice& device) {
                          return paintReport(report, device);
                      }}));
}

void InstrumentPage::tune() {
    if (model_.unsaved()) {
        saveFile();
    }
    const Result<QString> id = model_.choiceId();
    if (!id) {
        tell(errorText(id.error()));
        return;
    }
    Q_EMIT tuneWanted(*id);
}

void InstrumentPage::say(const Result<void>& done, const QString& success) {
    tell(done ? success : errorText(done.error()));
}

void InstrumentPage::tell(const QString& text) {
    sayIn(told_, text);
}

void InstrumentPage::resizeEvent(QResizeEvent* event) {
    QScrollArea::resizeEvent(event);
    columns_->setDirection(width() >= kInstrumentColumnsFrom ? QBoxLayout::LeftToRight
                                                             : QBoxLayout::TopToBottom);
}

void InstrumentPage::keyPressEvent(QKeyEvent* event) {
    const bool taken = takeDocumentKey(*event,
                                       {[this] { model_.undo(); },
                                        [this] { model_.redo(); },
                                        [this] { openFile(); },
                                        [this] { saveFile(); },
                                        [this] { printStrings(); }});
    if (!taken) {
        QScrollArea::keyPressEvent(event);
    }
}

void InstrumentPage::changeEvent(QEvent* event) {
    QScrollArea::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && told_ != nullptr) {
        // Tables carry colours, and have the new ones only after the page.
        QMetaObject::invokeMethod(
            this,
            [this] {
                showChoir();
                showChange();
            },
            Qt::QueuedConnection);
    }
}

} // namespace quillbench
