#include "app/views/choice_bar.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/position_text.hpp"
#include "app/text/written_text.hpp"
#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"

#include <QAbstractItemView>
#include <QComboBox>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>
#include <QResizeEvent>
#include <QSignalBlocker>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

/// What of the instrument is tuned: an octave, or all of it with its bearings there.
struct Part {
    const char* lowest;
    const char* highest;
    StepOrder order;
    Extent extent;
};

constexpr int kBarEdge = 16;
constexpr int kBarGap = 8;
constexpr int kBesideText = 38;        // frame, arrow and edges of a box
constexpr std::size_t kOfUpperRow = 3; // fields: instrument, choir, temperament
constexpr int kLeastForTwoRows =
    420; // height of the page: twice the size on a small screen has less

constexpr Part kParts[] = {{"C3", "C4", StepOrder::FromA, Extent::Octave},
                           {"C3", "C4", StepOrder::Chromatic, Extent::Octave},
                           {"F3", "F4", StepOrder::FromA, Extent::Octave},
                           {"F3", "F4", StepOrder::Chromatic, Extent::Octave},
                           {"C3", "C4", StepOrder::FromA, Extent::Whole},
                           {"F3", "F4", StepOrder::FromA, Extent::Whole}};

QString partText(const Part& part) {
    const QString words = part.extent == Extent::Whole     ? ChoiceBar::tr("all, bearings %1–%2")
                          : part.order == StepOrder::FromA ? ChoiceBar::tr("%1–%2, from A")
                                                           : ChoiceBar::tr("%1–%2, upwards");
    return words.arg(noteText(*parseNote(part.lowest)), noteText(*parseNote(part.highest)));
}

QString standardText(double hz) {
    const bool whole = std::abs(hz - std::round(hz)) < 0.005;
    return QLocale().toString(hz, 'f', whole ? 0 : 2);
}

/// What is not one of the list's own, such as a file of the person's, joins it under the name that it has now.
void offer(QComboBox* box, const QString& text, const QString& value) {
    const QSignalBlocker quiet(box);
    const int index = box->findData(value);
    index < 0 ? box->addItem(text, value) : box->setItemText(index, text);
}

void choose(QComboBox* box, const QVariant& value) {
    const QSignalBlocker quiet(box);
    box->setCurrentIndex(box->findData(value));
    box->setToolTip(tipText(box->currentText())); // what does not fit is still told
}

/// A caption that is shortened where its box is narrow.
class Caption : public QLabel {
public:
    Caption(const QString& words, const QString& few, QWidget* parent)
        : QLabel(words, parent),
          words_(words),
          few_(few) {
        setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    }

protected:
    void resizeEvent(QResizeEvent* event) override {
        QLabel::resizeEvent(event);
        const int wanted =
            fontMetrics().size(Qt::TextShowMnemonic | Qt::TextSingleLine, words_).width();
        setText(wanted <= width() ? words_ : few_);
    }

private:
    QString words_;
    QString few_;
};

} // namespace

ChoiceBar::ChoiceBar(QWidget* parent)
    : QWidget(parent),
      upper_(new QHBoxLayout),
      lower_(new QHBoxLayout) {
    auto* rows = new QVBoxLayout(this);
    rows->setContentsMargins(kBarEdge, 8, kBarEdge, 0);
    rows->setSpacing(2);
    for (QHBoxLayout* row : {upper_, lower_}) {
        row->setSpacing(kBarGap);
        rows->addLayout(row);
    }
    instrument_ = add(tr("&Instrument"), tr("&Instr."), "chooseInstrument", 4);
    choir_ = add(tr("&Choir"), tr("&Choir"), "chooseChoir", 1);
    temperament_ = add(tr("&Temperament"), tr("&Temper."), "chooseTemperament", 3);
    standard_ = add(tr("&a\u2032 in Hz"), tr("&a\u2032"), "choosePitch", 1);
    position_ = add(tr("&Keyboard at"), tr("&Keys"), "choosePosition", 2);
    part_ = add(tr("&Part"), tr("&Part"), "choosePart", 2);
    more_ = new QToolButton(this);
    more_->setObjectName(QStringLiteral("moreOptions"));
    more_->setText(tr("&More\u2026"));
    more_->setAccessibleName(tr("More of a whole session"));
    more_->setToolTip(tr("Choirs left alone, order, way to the target, tolerances, felt"));
    more_->setFocusPolicy(Qt::StrongFocus);
    fields_.push_back({more_, more_, {}, 0});
    source_ = add(tr("&Sound from"), tr("&Sound"), "chooseSource", 2);
    for (const Instrument& one : exampleInstruments()) {
        instrument_->addItem(coreText(one.name), toQString(one.id));
    }
    for (const Temperament& one : catalogue()) {
        const TemperamentDescription& about = one.description();
        temperament_->addItem(coreText(about.name), toQString(about.id));
        temperament_->setItemData(temperament_->count() - 1,
                                  tr("%1, %2").arg(coreText(about.year), coreText(about.source)),
                                  Qt::ToolTipRole);
    }
    standard_->setEditable(true);
    standard_->setInsertPolicy(QComboBox::NoInsert);
    fillStandards();
    for (std::size_t i = 0; i < std::size(kParts); ++i) {
        part_->addItem(partText(kParts[i]), static_cast<int>(i));
    }
    fillSources();
    connectAll();
}

void ChoiceBar::connectAll() {
    connect(more_, &QToolButton::clicked, this, &ChoiceBar::optionsWanted);
    for (QComboBox* box : {instrument_, choir_, temperament_, position_, part_}) {
        connect(box, &QComboBox::activated, this, &ChoiceBar::emitTuning);
    }
    connect(standard_, &QComboBox::activated, this, &ChoiceBar::standardPicked);
    connect(standard_->lineEdit(), &QLineEdit::editingFinished, this, &ChoiceBar::standardTyped);
    connect(source_, &QComboBox::activated, this, &ChoiceBar::sourcePicked);
}

QComboBox* ChoiceBar::add(const QString& caption, const QString& few, const char* name, int share) {
    auto* whole = new QWidget(this);
    auto* box = new QComboBox(whole);
    box->setObjectName(QString::fromLatin1(name));
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(4);
    box->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    box->setMaxVisibleItems(30);
    // The caption names it; its text is told as its value.
    box->setAccessibleName(QString(caption).remove(QLatin1Char('&')));
    auto* label = new Caption(caption, few, whole);
    label->setBuddy(box);
    auto* column = new QVBoxLayout(whole);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2); // the ring of the focus lies around the box
    column->addWidget(label);
    column->addWidget(box);
    fields_.push_back({box, whole, caption, share});
    return box;
}

/// In which all of its text and its caption are read.
int ChoiceBar::wantedWidth(const Field& field) {
    const auto* box = qobject_cast<const QComboBox*>(field.widget);
    if (box == nullptr) {
        return field.widget->sizeHint().width();
    }
    const QFontMetrics metrics = box->fontMetrics();
    return std::max(
        {metrics.horizontalAdvance(box->currentText()) + kBesideText,
         metrics.size(Qt::TextShowMnemonic | Qt::TextSingleLine, field.caption).width() + 1,
         box->minimumSizeHint().width()});
}

/// In one row where every choice is read whole in it, by the shares or as each needs; else in two, where there is the
/// height for it.
void ChoiceBar::arrange() {
    std::vector<Field> shown;
    shown.reserve(fields_.size());
    int shares = 0;
    int wanted = 0; // of those that share
    int room = width() - 2 * kBarEdge + kBarGap;
    for (const Field& field : fields_) {
        if (!field.whole->isHidden()) {
            shown.push_back(field);
            shares += field.share;
            wanted += field.share > 0 ? wantedWidth(field) : 0;
            room -= kBarGap + (field.share > 0 ? 0 : wantedWidth(field));
        }
    }
    const bool byShares = std::all_of(shown.begin(), shown.end(), [&](const Field& field) {
        return room * field.share >= wantedWidth(field) * (field.share > 0 ? shares : 0);
    });
    const QWidget* page = parentWidget();
    const bool two = wanted > room && (page == nullptr || page->height() >= kLeastForTwoRows);
    std::vector<int> now;
    now.reserve(shown.size() + 1);
    now.push_back(two ? 1 : 0);
    for (const Field& field : shown) {
        now.push_back(field.share == 0                      ? 0
                      : byShares || (wanted > room && !two) ? field.share
                                                            : wantedWidth(field));
    }
    if (now == arranged_) {
        return;
    }
    arranged_ = now;
    for (QHBoxLayout* row : {upper_, lower_}) {
        while (row->count() > 0) {
            delete row->takeAt(0);
        }
    }
    for (std::size_t i = 0; i < shown.size(); ++i) {
        QHBoxLayout* row = two && i >= kOfUpperRow ? lower_ : upper_;
        row->addWidget(
            shown[i].whole, now[i + 1], shown[i].share > 0 ? Qt::Alignment() : Qt::AlignBottom);
    }
    updateGeometry();
}

void ChoiceBar::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    arrange();
}

void ChoiceBar::show(const TuningChoice& choice,
                     const Instrument& instrument,
                     const Temperament& temperament,
                     const std::vector<PositionReport>& positions) {
    choice_ = choice;
    offer(instrument_, coreText(instrument.name), choice.instrument);
    choose(instrument_, choice.instrument);
    {
        const QSignalBlocker quiet(choir_);
        choir_->clear();
        for (const Choir& choir : instrument.choirs) {
            choir_->addItem(choirText(choir), toQString(choir.id));
        }
    }
    choose(choir_, choice.choir);
    offer(temperament_, coreText(temperament.description().name), choice.temperament);
    choose(temperament_, choice.temperament);
    {
        const QSignalBlocker quiet(standard_);
        standard_->setCurrentIndex(standard_->findData(choice.a4Hz));
        standard_->setEditText(standardText(choice.a4Hz));
    }
    fillPositions(positions);
    more_->setVisible(choice.extent == Extent::Whole);
    for (std::size_t i = 0; i < std::size(kParts); ++i) {
        const Part& part = kParts[i];
        if (choice.lowest == QLatin1String(part.lowest) && choice.extent == part.extent &&
            choice.order == part.order) {
            choose(part_, static_cast<int>(i));
        }
    }
    arrange();
}

void ChoiceBar::fillPositions(const std::vector<PositionReport>& positions) {
    const QSignalBlocker quiet(position_);
    position_->clear();
    for (const PositionReport& report : positions) {
        position_->addItem(positionText(report, report.position == choice_.position),
                           report.position);
    }
    choose(position_, choice_.position);
    // The list is wider than the box: it also says how each position sounds.
    position_->view()->setMinimumWidth(position_->view()->sizeHintForColumn(0) + 24);
    position_->parentWidget()->setVisible(positions.size() > 1);
}

void ChoiceBar::show(const SourceChoice& choice) {
    sourceChoice_ = choice;
    fillSources();
}

void ChoiceBar::setDevices(const QStringList& inputs) {
    if (inputs != devices_) {
        devices_ = inputs;
        fillSources();
    }
}

void ChoiceBar::fillSources() {
    const QSignalBlocker quiet(source_);
    source_->clear();
    const auto addSource = [this](const QString& text, const SourceChoice& choice) {
        source_->addItem(text, QVariant::fromValue(static_cast<int>(choice.kind)));
        source_->setItemData(source_->count() - 1, choice.device, Qt::UserRole + 1);
        if (choice == sourceChoice_) {
            source_->setCurrentIndex(source_->count() - 1);
        }
    };
    addSource(tr("virtual instrument"), {SourceKind::Virtual, {}, {}});
    addSource(tr("microphone (default)"), {SourceKind::Microphone, {}, {}});
    QStringList names = devices_;
    if (sourceChoice_.kind == SourceKind::Microphone && !sourceChoice_.device.isEmpty() &&
        !names.contains(sourceChoice_.device)) {
        names << sourceChoice_.device;
    }
    for (const QString& name : names) {
        addSource(name, {SourceKind::Microphone, name, {}});
    }
    if (sourceChoice_.kind == SourceKind::File) {
        addSource(QFileInfo(sourceChoice_.file).fileName(), sourceChoice_);
    }
    source_->addItem(tr("a recording…"));
    arrange();
}

void ChoiceBar::emitTuning() {
    TuningChoice choice = choice_;
    choice.instrument = instrument_->currentData().toString();
    choice.choir = choir_->currentData().toString();
    choice.temperament = temperament_->currentData().toString();
    bool number = false;
    const double typed = QLocale().toDouble(standard_->currentText(), &number);
    choice.a4Hz = number ? typed : choice_.a4Hz;
    choice.position = position_->currentData().toInt();
    if (part_->currentIndex() >= 0) {
        const Part& part = kParts[static_cast<std::size_t>(part_->currentIndex())];
        choice.lowest = QString::fromLatin1(part.lowest);
        choice.order = part.order;
        choice.extent = part.extent;
    }
    if (!(choice == choice_)) {
        Q_EMIT tuningChosen(choice);
    }
}

void ChoiceBar::setHeardPitch(const std::optional<HeardPitch>& heard) {
    heardPitch_ = heard;
    fillStandards();
}

/// The standards in use, what was heard, and the way to hear it.
void ChoiceBar::fillStandards() {
    const QSignalBlocker quiet(standard_);
    const QString shown = standard_->currentText();
    standard_->clear();
    for (const double hz : kStandardsHz) {
        standard_->addItem(standardText(hz), hz);
    }
    if (heardPitch_) {
        const double hz = standardShifted(heardPitch_->a4Hz, Cents(0.0));
        standard_->addItem(tr("%1, as heard").arg(standardText(hz)), hz);
    }
    standard_->addItem(tr("of another instrument\u2026"));
    // The list is wider than the box.
    standard_->view()->setMinimumWidth(standard_->view()->sizeHintForColumn(0) + 24);
    standard_->setCurrentIndex(-1);
    standard_->setEditText(shown);
}

void ChoiceBar::standardPicked(int index) {
    const QVariant hz = standard_->itemData(index);
    {
        const QSignalBlocker quiet(standard_);
        standard_->setEditText(standardText(hz.isValid() ? hz.toDouble() : choice_.a4Hz));
    }
    if (hz.isValid()) {
        emitTuning();
    } else {
        Q_EMIT hearPitchWanted();
    }
}

void ChoiceBar::standardTyped() {
    emitTuning();
}

void ChoiceBar::sourcePicked(int index) {
    const QVariant kind = source_->itemData(index);
    if (!kind.isValid()) {
        show(sourceChoice_);
        Q_EMIT fileWanted();
        return;
    }
    SourceChoice choice;
    choice.kind = static_cast<SourceKind>(kind.toInt());
    choice.device = source_->itemData(index, Qt::UserRole + 1).toString();
    choice.file = choice.kind == SourceKind::File ? sourceChoice_.file : QString();
    Q_EMIT sourceChosen(choice);
}

} // namespace quillbench
