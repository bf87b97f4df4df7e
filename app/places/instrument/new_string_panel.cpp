#include "app/places/instrument/new_string_panel.hpp"

#include "app/places/instrument/instrument_tables.hpp"
#include "app/places/instrument/instrument_text.hpp"
#include "app/places/temperament/temperament_tables.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/settling_text.hpp"
#include "core/instrument/editing.hpp"
#include "core/instrument/limits.hpp"

#include <QComboBox>
#include <QDateTime>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLocale>
#include <QPushButton>
#include <QSignalBlocker>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

namespace quillbench {

namespace {

constexpr double kDayInMilliseconds = 86400000.0;
constexpr double kStillNew = 180.0; // days

QLabel* newStringWords(QWidget* parent, const char* name) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    return label;
}

QString wireFigure(double value, int decimals) {
    return QLocale().toString(value, 'f', decimals);
}

} // namespace

NewStringPanel::NewStringPanel(InstrumentModel& model, QWidget* parent)
    : QWidget(parent),
      model_(model),
      key_(new QComboBox(this)),
      length_(new QDoubleSpinBox(this)),
      fit_(new QPushButton(tr("Fit this wire"), this)),
      wires_(readingTable(this, "wireTable", tr("Wires that fit, the best first"))),
      beside_(newStringWords(this, "wireBeside")),
      sound_(newStringWords(this, "wireSound")),
      settling_(newStringWords(this, "settlingPlan")) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(6, 6, 6, 6);
    auto* asked = new QFormLayout; // one below the other where they do not fit side by side
    asked->setRowWrapPolicy(QFormLayout::WrapLongRows);
    asked->setFieldGrowthPolicy(QFormLayout::FieldsStayAtSizeHint);
    key_->setObjectName(QStringLiteral("newStringKey"));
    key_->setAccessibleName(tr("Key of the string"));
    asked->addRow(tr("Ke&y"), key_);
    length_->setObjectName(QStringLiteral("newStringLength"));
    length_->setAccessibleName(tr("Speaking length as measured"));
    length_->setRange(kLengthLimits.low, kLengthLimits.high);
    length_->setDecimals(1);
    length_->setSuffix(tr(" mm"));
    asked->addRow(tr("Measured length"), length_);
    fit_->setObjectName(QStringLiteral("fitWire"));
    fit_->setToolTip(tr("The marked wire goes into the string list; this can be undone"));
    column->addLayout(asked);
    column->addWidget(beside_);
    wires_->setSelectionBehavior(QAbstractItemView::SelectRows);
    wires_->setSelectionMode(QAbstractItemView::SingleSelection);
    wires_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    wires_->horizontalHeader()->setStretchLastSection(true);
    column->addWidget(wires_, 1);
    auto* chosen = new QHBoxLayout;
    chosen->addWidget(sound_, 1);
    chosen->addWidget(fit_);
    column->addLayout(chosen);
    auto* marks = newStringWords(this, "wireMarks");
    marks->setText(memoryNote());
    column->addWidget(marks);
    column->addWidget(settling_);
    auto* caution = newStringWords(this, "newStringCaution");
    caution->setText(
        tr("A margin is a range, not a promise. Bring a new string up in small steps, eyes away "
           "from it and its neighbours: it breaks most easily at loop and pins. On a historical "
           "instrument ask a maker or conservator which wire may go on."));
    column->addWidget(caution);
    connect(key_, &QComboBox::currentIndexChanged, this, &NewStringPanel::showString);
    connect(length_, &QDoubleSpinBox::valueChanged, this, &NewStringPanel::showWires);
    connect(wires_, &QTableWidget::currentCellChanged, this, &NewStringPanel::showSound);
    connect(fit_, &QPushButton::clicked, this, &NewStringPanel::fit);
    connect(&model_, &InstrumentModel::newStringsChanged, this, &NewStringPanel::showWires);
}

StringId NewStringPanel::string() const {
    return {choir_, static_cast<std::size_t>(std::max(0, key_->currentIndex()))};
}

void NewStringPanel::showChoir(std::size_t choir) {
    const Instrument& instrument = model_.instrument();
    const int before = std::max(0, key_->currentIndex());
    choir_ = choir;
    {
        const QSignalBlocker quiet(key_);
        key_->clear();
        for (std::size_t course = 0; course < instrument.choirs[choir].strings.size(); ++course) {
            key_->addItem(noteText(keyNote(instrument, {choir, course}, model_.position())));
        }
        key_->setCurrentIndex(std::min(before, key_->count() - 1));
    }
    showString();
}

void NewStringPanel::markString(std::size_t course) {
    key_->setCurrentIndex(static_cast<int>(course));
}

void NewStringPanel::showString() {
    const QSignalBlocker quiet(length_);
    const StringId here = string();
    length_->setValue(model_.instrument().choirs[here.choir].strings[here.course].length.value());
    showWires();
}

void NewStringPanel::showWires() {
    const StringId here = string();
    advice_ =
        whichWire(model_.instrument(), here, Millimetre(length_->value()), model_.pitchNow(here));
    fillWires(*wires_, advice_);
    wires_->setCurrentCell(0, 0);
    showSound();
    fit_->setEnabled(!advice_.options.empty());
    const QString old =
        tr("The string list has %1 mm of %2 mm %3: %4 N, breaks %5 semitones above.")
            .arg(wireFigure(advice_.old.length.value(), 1),
                 wireFigure(advice_.old.diameter.value(), 3),
                 wholeMaterialText(advice_.old),
                 wireFigure(advice_.oldState.tension.value(), 1),
                 marginText(advice_.oldState.margin));
    beside_->setText(advice_.neighbours.known
                         ? tr("%1 By the neighbours it should pull %2 N at %3.")
                               .arg(old,
                                    wireFigure(advice_.neighbours.tension.value(), 1),
                                    hertzText(model_.pitchNow(here)))
                         : old);
    settling_->setText(settlingWords());
}

void NewStringPanel::showSound() {
    const auto row = static_cast<std::size_t>(std::max(0, wires_->currentRow()));
    if (row >= advice_.options.size()) {
        return;
    }
    const WireOption& option = advice_.options[row];
    sound_->setText(tr("%1 mm %2 is likely to sound: %3.")
                        .arg(wireFigure(option.make.diameter.value(), 3),
                             wholeMaterialText(option.make),
                             soundBeside(option)));
}

/// How a new string settles here, and what the one at hand will do.
QString NewStringPanel::settlingWords() const {
    const std::vector<NewString>& strings = model_.newStrings();
    const auto now = static_cast<double>(QDateTime::currentMSecsSinceEpoch()) / kDayInMilliseconds;
    for (std::size_t i = strings.size(); i-- > 0;) {
        const NewString& one = strings[i];
        const double age = now - static_cast<double>(one.putOn.milliseconds) / kDayInMilliseconds;
        if (one.string != string() || age < 0.0 || age > kStillNew) {
            continue;
        }
        const SettlingLaw law = settlingLaw(strings, i).of(one.seen);
        const double set = one.lastSet.value_or(0.0);
        QStringList words{tr("This string was put on %1 ago.").arg(ageText(age))};
        words << sunkText(law, set, age);
        words << settlingPlanText(law, set, age) << settlingLawText(law);
        return words.join(QLatin1Char(' '));
    }
    const SettlingLaw law = settlingLaw(strings);
    return tr("Once it is on and tuned: %1 %2")
        .arg(settlingPlanText(law, 0.0, 0.0), settlingLawText(law));
}

void NewStringPanel::fit() {
    const auto chosen = static_cast<std::size_t>(std::max(0, wires_->currentRow()));
    if (chosen >= advice_.options.size()) {
        return;
    }
    const StringId here = string();
    const StringMake make = advice_.options[chosen].make;
    const PinPlace pin = model_.instrument().choirs[here.choir].pins[here.course];
    const QString then = tr("%1: in the string list. Once it is on, write it into the logbook "
                            "(Diary, new string): how it settles is learned from there.")
                             .arg(stringText(model_.instrument(), here, model_.position()));
    Q_EMIT entered(model_.change(withString(model_.instrument(), here, make, pin)), then);
}

} // namespace quillbench
