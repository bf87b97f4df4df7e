#include "app/places/temperament/temperament_page.hpp"

#include "app/places/temperament/bearings_panel.hpp"
#include "app/places/temperament/catalogue_panel.hpp"
#include "app/places/temperament/change_over_panel.hpp"
#include "app/places/temperament/circle_view.hpp"
#include "app/places/temperament/recognised_panel.hpp"
#include "app/places/temperament/temperament_card.hpp"
#include "app/places/temperament/temperament_tables.hpp"
#include "app/places/temperament/temperament_text.hpp"
#include "app/places/temperament/thirds_view.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/views/document.hpp"
#include "app/views/screen_reader.hpp"
#include "app/views/tab_focus.hpp"
#include "core/temperament/catalogue.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QEvent>
#include <QFileDialog>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>
#include <QPushButton>
#include <QSignalBlocker>
#include <QTabWidget>
#include <QTableWidget>
#include <QVBoxLayout>

namespace quillbench {

namespace {

constexpr int kTemperamentColumnsFrom = 1000; // a narrower page stacks its parts

} // namespace

TemperamentPage::TemperamentPage(TemperamentModel& model, TuningModel& tuning, QWidget* parent)
    : QScrollArea(parent),
      model_(model),
      tuning_(tuning),
      content_(new QWidget(this)) {
    setObjectName(QStringLiteral("temperamentPage"));
    setFrameShape(QFrame::NoFrame);
    setWidgetResizable(true);
    setWidget(content_);
    buildAll();
    leadFocusWith(tabs_);
    setFocusProxy(list_);
    connectAll();
    showAll();
}

void TemperamentPage::connectAll() {
    connect(&model_, &TemperamentModel::changed, this, &TemperamentPage::showAll);
    connect(&tuning_, &TuningModel::sessionChanged, this, [this] {
        if (isVisible()) {
            recognised_->showModel();
            showChangeOver();
        }
    });
    connect(changeOver_, &ChangeOverPanel::pitchWanted, &model_, &TemperamentModel::setA4);
    connect(tabs_, &QTabWidget::currentChanged, recognised_, &RecognisedPanel::showModel);
    connect(a4_, &QDoubleSpinBox::valueChanged, &model_, &TemperamentModel::setA4);
    connect(compare_, &QComboBox::activated, this, [this] {
        model_.compareWith(compare_->currentData().toString());
    });
    connect(list_, &CataloguePanel::chosen, this, [this](const QString& id) {
        say(model_.choose(id));
    });
    connect(tune_, &QPushButton::clicked, this, &TemperamentPage::tune);
    connect(circle_, &CircleView::chosenChanged, this, &TemperamentPage::showChosenFifth);
    connect(circle_, &CircleView::stepped, this, &TemperamentPage::step);
    connect(circle_, &CircleView::dragged, this, &TemperamentPage::drag);
    connect(circle_, &CircleView::dragEnded, this, [this] { dragStart_.reset(); });
    const auto pure = [this] {
        if (model_.canChange()) {
            say(model_.setFifth(circle_->chosen(), Tempering{}));
        }
    };
    const auto close = [this] {
        if (model_.canChange()) {
            say(model_.closeAt(circle_->chosen()));
        }
    };
    connect(circle_, &CircleView::pureWanted, this, pure);
    connect(circle_, &CircleView::closeWanted, this, close);
    connect(pure_, &QPushButton::clicked, this, pure);
    connect(close_, &QPushButton::clicked, this, close);
    connect(fifth_, &QLineEdit::editingFinished, this, &TemperamentPage::typed);
    connect(name_, &QLineEdit::editingFinished, this, [this] {
        // What is shown of the catalogue is a translation: left as it is, it is no new name.
        if (name_->text() != coreText(model_.temperament().description().name)) {
            model_.rename(name_->text());
        }
    });
    connect(undo_, &QPushButton::clicked, &model_, &TemperamentModel::undo);
    connect(redo_, &QPushButton::clicked, &model_, &TemperamentModel::redo);
    connect(minor_, &QCheckBox::toggled, this, &TemperamentPage::showAll);
    connect(bearings_, &BearingsPanel::stepWanted, this, &TemperamentPage::stepWanted);
    connect(recognised_, &RecognisedPanel::nearestWanted, this, [this](const QString& id) {
        say(model_.choose(id));
    });
}

void TemperamentPage::showAll() {
    const TemperamentDescription& about = model_.temperament().description();
    const QSignalBlocker quietPitch(a4_);
    a4_->setValue(model_.a4Hz());
    list_->showModel();
    const QSignalBlocker quietCompare(compare_);
    compare_->setCurrentIndex(
        model_.compared() == nullptr ? 0 : compare_->findData(toQString(model_.compared()->id())));
    name_->setText(coreText(about.name));
    circle_->show(circlePicture(model_));
    thirds_->show(thirdsPicture(model_, !minor_->isChecked()));
    fillNotes(*notes_, model_);
    fillBeats(*beats_, model_);
    undo_->setEnabled(model_.canUndo());
    redo_->setEnabled(model_.canRedo());
    for (QWidget* one : {static_cast<QWidget*>(pure_),
                         static_cast<QWidget*>(close_),
                         static_cast<QWidget*>(fifth_)}) {
        one->setEnabled(model_.canChange());
    }
    bearings_->showModel();
    showChosenFifth();
    recognised_->showModel();
    showChangeOver();
}

/// What it costs to go to what lies on the bench.
void TemperamentPage::showChangeOver() {
    changeOver_->setVisible(tuning_.ready());
    if (!tuning_.ready()) {
        return;
    }
    if (const auto offer = changeOverOffer(tuning_, model_)) {
        changeOver_->show(*offer);
    } else {
        changeOver_->showNone();
    }
}

void TemperamentPage::showChosenFifth() {
    const CirclePicture& picture = circle_->picture();
    if (picture.fifths.empty()) {
        return;
    }
    const std::size_t i = circle_->chosen();
    const auto notes = model_.temperament().notes();
    fifthLabel_->setText(
        tr("&Fifth %1\u2013%2")
            .arg(picture.fifths[i].lower, pitchClassText(notes[(i + 1) % notes.size()])));
    const QSignalBlocker quiet(fifth_);
    fifth_->setText(
        toQString(toText(model_.fifths()[i])).replace(QLatin1Char('.'), QLocale().decimalPoint()));
}

void TemperamentPage::step(std::size_t fifth, int steps, bool fine) {
    if (model_.canChange()) {
        say(model_.setFifth(
            fifth, model_.fifths()[fifth] + (fine ? tenthOfCent(steps) : twelfthOfComma(steps))));
    }
}

void TemperamentPage::drag(std::size_t fifth, int steps, bool fine) {
    if (!model_.canChange()) {
        return;
    }
    const bool first = !dragStart_.has_value();
    if (first) {
        dragStart_ = model_.fifths()[fifth];
    }
    say(model_.setFifth(
        fifth, *dragStart_ + (fine ? tenthOfCent(steps) : twelfthOfComma(steps)), !first));
}

void TemperamentPage::typed() {
    const Result<Tempering> tempering =
        parseTempering(fifth_->text().replace(QLatin1Char(','), QLatin1Char('.')).toStdString());
    if (!tempering) {
        tell(errorText(tempering.error()));
        return;
    }
    say(model_.setFifth(circle_->chosen(), *tempering));
}

void TemperamentPage::say(const Result<void>& done) {
    tell(done ? QString() : errorText(done.error()));
}

void TemperamentPage::tell(const QString& text) {
    sayIn(told_, text);
}

void TemperamentPage::openFile() {
    const QString file = QFileDialog::getOpenFileName(
        this, tr("Open a temperament"), QString(), documentFilter(tr("Temperament")));
    if (!file.isEmpty()) {
        say(model_.choose(file));
    }
}

void TemperamentPage::saveFile() {
    QString file =
        QFileDialog::getSaveFileName(this,
                                     tr("Save the temperament"),
                                     model_.file().isEmpty() ? name_->text() : model_.file(),
                                     documentFilter(tr("Temperament")));
    if (file.isEmpty()) {
        return;
    }
    file = withSuffix(file);
    const Result<void> saved = model_.save(file);
    say(saved);
    if (saved) {
        tell(tr("Saved: %1").arg(file));
    }
}

void TemperamentPage::printCard() {
    tell(print(this, temperamentCard(model_)));
}

void TemperamentPage::tune() {
    Result<QString> id = model_.choiceId();
    if (!id && model_.unsaved() && !(abs(model_.openBy()) > Cents())) {
        saveFile();
        id = model_.choiceId();
    }
    if (!id) {
        tell(errorText(id.error()));
        return;
    }
    Q_EMIT tuneWanted(*id, model_.a4Hz());
}

bool TemperamentPage::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (staysInPlace(*key)) {
            event->accept();
            return true;
        }
    }
    return QScrollArea::event(event);
}

void TemperamentPage::keyPressEvent(QKeyEvent* event) {
    const bool taken = takeDocumentKey(*event,
                                       {[this] { model_.undo(); },
                                        [this] { model_.redo(); },
                                        [this] { openFile(); },
                                        [this] { saveFile(); },
                                        [this] { printCard(); }});
    if (!taken) {
        QScrollArea::keyPressEvent(event);
    }
}

void TemperamentPage::resizeEvent(QResizeEvent* event) {
    QScrollArea::resizeEvent(event);
    const bool stacked = width() < kTemperamentColumnsFrom;
    columns_->setDirection(stacked ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
    // Under everything that is stacked nobody would see it.
    auto* column = static_cast<QVBoxLayout*>(content_->layout());
    const int wanted = stacked ? 1 : column->count() - 2; // before what is told
    if (column->indexOf(changeOver_) != wanted) {
        column->removeWidget(changeOver_);
        column->insertWidget(wanted, changeOver_);
    }
}

void TemperamentPage::changeEvent(QEvent* event) {
    QScrollArea::changeEvent(event);
    if (event->type() == QEvent::PaletteChange && told_ != nullptr) {
        // Tables carry colours, and have the new ones only after the page.
        QMetaObject::invokeMethod(this, &TemperamentPage::showAll, Qt::QueuedConnection);
    }
}

} // namespace quillbench
