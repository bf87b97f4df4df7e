#include "app/places/instrument/build_panel.hpp"

#include "app/places/instrument/instrument_text.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "core/instrument/compass.hpp"
#include "core/instrument/editing.hpp"
#include "core/instrument/limits.hpp"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QRegularExpression>
#include <QSignalBlocker>
#include <QSpinBox>
#include <QStringList>
#include <QVBoxLayout>
#include <array>

namespace quillbench {

namespace {

// Common practice, no source: what keyboards of the trade begin and end with, and some room.
constexpr int kDeepestOffered = 24;      // C1
constexpr int kHighestBassOffered = 60;  // C4
constexpr int kLowestTrebleOffered = 60; // C4
constexpr int kHighestOffered = 96;      // C7
constexpr int kLongestName = 120;

QComboBox* notesBox(QWidget* parent, const char* name, int from, int to) {
    auto* box = new QComboBox(parent);
    box->setObjectName(QString::fromLatin1(name));
    for (int number = from; number <= to; ++number) {
        box->addItem(noteText(chromaticNote(number)), number);
    }
    return box;
}

/// As wide as the form, not as its longest choice.
void letShrink(QComboBox& box) {
    box.setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box.setMinimumContentsLength(6);
    box.setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

/// A long name is read from its beginning.
void showWords(QLineEdit& line, const QString& words) {
    line.setText(words);
    line.setCursorPosition(0);
}

/// Shows a note, also one that is not among those offered.
void showNote(QComboBox& box, const Note& note) {
    if (box.findData(note.midiNumber()) < 0) {
        box.addItem(noteText(note), note.midiNumber());
    }
    box.setCurrentIndex(box.findData(note.midiNumber()));
}

QString positionsText(const std::vector<int>& positions) {
    QStringList words;
    for (const int one : positions) {
        words << (one > 0 ? QStringLiteral("+%1") : QStringLiteral("%1")).arg(one);
    }
    return words.join(QStringLiteral(", "));
}

} // namespace

BuildPanel::BuildPanel(InstrumentModel& model, QWidget* parent) : QWidget(parent), model_(model) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    auto* form = new QFormLayout;
    form->setFieldGrowthPolicy(QFormLayout::ExpandingFieldsGrow);
    form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    column->addLayout(form);
    buildWords();
    buildKeyboard();
    buildManuals();
    for (QComboBox* box : {bass_, coupler_, buff_}) {
        letShrink(*box);
    }
    auto* nameLabel = new QLabel(tr("&Name"), this); // across: names are long
    nameLabel->setBuddy(name_);
    form->addRow(nameLabel);
    form->addRow(name_);
    form->addRow(tr("&Maker"), maker_);
    form->addRow(tr("Place"), place_);
    form->addRow(tr("Standard a\u2032"), standard_);
    form->addRow(tr("Lowest octave"), bass_);
    form->addRow(tr("Lowest key"), lowest_);
    form->addRow(tr("Highest key"), highest_);
    form->addRow(QString(), split_);
    form->addRow(tr("&Keyboard at"), positions_);
    form->addRow(tr("Manuals"), manuals_);
    form->addRow(tr("Coupler"), coupler_);
    form->addRow(tr("Buff on"), buff_);
    note_ = new QLabel(this);
    note_->setObjectName(QStringLiteral("instrumentFacts"));
    note_->setWordWrap(true);
    note_->setTextFormat(Qt::PlainText);
    column->addWidget(note_);
}

void BuildPanel::buildWords() {
    const auto line = [this](const char* name) {
        auto* made = new QLineEdit(this);
        made->setObjectName(QString::fromLatin1(name));
        made->setMaxLength(kLongestName);
        return made;
    };
    name_ = line("instrumentName");
    maker_ = line("buildMaker");
    place_ = line("buildPlace");
    positions_ = line("buildPositions");
    positions_->setPlaceholderText(QStringLiteral("0, +1"));
    positions_->setToolTip(
        tr("Semitones by which a keyboard that slides changes what a key sounds; 0 where its "
           "standard holds"));
    standard_ = new QDoubleSpinBox(this);
    standard_->setObjectName(QStringLiteral("buildStandard"));
    standard_->setRange(kPitchStandardLimits.low, kPitchStandardLimits.high);
    standard_->setDecimals(1);
    standard_->setSuffix(tr(" Hz"));
    standard_->setKeyboardTracking(false);
    connect(name_, &QLineEdit::editingFinished, this, [this] {
        if (name_->text() != coreText(model_.instrument().name)) {
            model_.rename(name_->text());
        }
    });
    connect(maker_, &QLineEdit::editingFinished, this, [this] {
        enterWords(maker_, &Instrument::maker);
    });
    connect(place_, &QLineEdit::editingFinished, this, [this] {
        enterWords(place_, &Instrument::place);
    });
    connect(positions_, &QLineEdit::editingFinished, this, &BuildPanel::enterPositions);
    connect(standard_, &QDoubleSpinBox::valueChanged, this, [this](double hz) {
        enter(withStandard(model_.instrument(), hz));
    });
}

void BuildPanel::buildKeyboard() {
    bass_ = new QComboBox(this);
    bass_->setObjectName(QStringLiteral("buildBass"));
    for (const std::string& one : bassOctaves()) {
        bass_->addItem(one == "chromatic" ? tr("chromatic") : coreText(one), toQString(one));
    }
    lowest_ = notesBox(this, "buildLowest", kDeepestOffered, kHighestBassOffered);
    highest_ = notesBox(this, "buildHighest", kLowestTrebleOffered, kHighestOffered);
    split_ = new QCheckBox(tr("Sharps split: E\u266D/D\u266F, G\u266F/A\u266D"), this);
    split_->setObjectName(QStringLiteral("buildSplit"));
    for (QComboBox* box : {bass_, lowest_, highest_}) {
        connect(box, &QComboBox::activated, this, &BuildPanel::enterCompass);
    }
    connect(split_, &QCheckBox::clicked, this, &BuildPanel::enterCompass);
}

void BuildPanel::buildManuals() {
    manuals_ = new QSpinBox(this);
    manuals_->setObjectName(QStringLiteral("buildManuals"));
    manuals_->setRange(1, static_cast<int>(kMostManuals));
    coupler_ = new QComboBox(this);
    coupler_->setObjectName(QStringLiteral("buildCoupler"));
    for (const Coupler one : {Coupler::None, Coupler::Shove, Coupler::Lever, Coupler::Dogleg}) {
        coupler_->addItem(couplerText(one));
    }
    buff_ = new QComboBox(this);
    buff_->setObjectName(QStringLiteral("buildBuff"));
    connect(manuals_, &QSpinBox::valueChanged, this, [this](int count) {
        enter(withManuals(model_.instrument(), static_cast<std::size_t>(count)));
    });
    connect(coupler_, &QComboBox::activated, this, [this](int index) {
        enter(withCoupler(model_.instrument(), static_cast<Coupler>(index)));
    });
    connect(buff_, &QComboBox::activated, this, [this](int index) {
        Instrument next = model_.instrument();
        next.buffChoir =
            index > 0 ? std::optional(static_cast<std::size_t>(index - 1)) : std::nullopt;
        enter(next);
    });
}

void BuildPanel::enterWords(QLineEdit* line, std::string Instrument::*field) {
    Instrument next = model_.instrument();
    // What is shown of an example is a translation: left as it is, it is no change.
    if (line->text() == coreText(next.*field)) {
        return;
    }
    next.*field = line->text().trimmed().toStdString();
    enter(next);
}

void BuildPanel::enterCompass() {
    const Note low = chromaticNote(lowest_->currentData().toInt());
    const Note high = chromaticNote(highest_->currentData().toInt());
    enter(withCompass(model_.instrument(),
                      bass_->currentData().toString().toStdString(),
                      low,
                      high,
                      split_->isChecked()));
}

void BuildPanel::enterPositions() {
    if (positions_->text() == positionsText(model_.instrument().positions)) {
        return;
    }
    static const QRegularExpression kBetween(QStringLiteral("[,;\\s]+"));
    std::vector<int> positions;
    bool good = true;
    for (QString word : positions_->text().split(kBetween, Qt::SkipEmptyParts)) {
        word.replace(QChar(0x2212), QLatin1Char('-'));
        bool whole = false;
        positions.push_back(word.toInt(&whole));
        good = good && whole;
    }
    enter(withPositions(model_.instrument(), good ? positions : std::vector<int>{}));
}

void BuildPanel::enter(const Result<Instrument>& wanted) {
    const Result<void> done = model_.change(wanted);
    if (!done) {
        showInstrument();
    }
    Q_EMIT entered(done);
}

void BuildPanel::showInstrument() {
    const Instrument& shown = model_.instrument();
    const QSignalBlocker quietStandard(standard_);
    const QSignalBlocker quietManuals(manuals_);
    showWords(*name_, coreText(shown.name));
    showWords(*maker_, coreText(shown.maker));
    showWords(*place_, coreText(shown.place));
    standard_->setValue(shown.pitchStandardHz);
    bass_->setCurrentIndex(bass_->findData(toQString(shown.compass.bassOctave)));
    showNote(*lowest_, shown.compass.keys.front().note);
    showNote(*highest_, shown.compass.keys.back().note);
    lowest_->setEnabled(shown.compass.bassOctave == bassOctaves().front());
    split_->setChecked(hasSplitSharps(shown.compass));
    positions_->setText(positionsText(shown.positions));
    manuals_->setValue(static_cast<int>(shown.manuals.size()));
    coupler_->setCurrentIndex(static_cast<int>(shown.coupler));
    coupler_->setEnabled(shown.manuals.size() > 1);
    buff_->clear();
    buff_->addItem(tr("none"));
    for (const Choir& choir : shown.choirs) {
        buff_->addItem(choirText(choir));
    }
    note_->setText(
        shown.example
            ? tr("An invented example: no such maker, place or instrument exists. Begin with the "
                 "one "
                 "nearest to yours, change it and save it.")
            : tr("Strings of new keys and choirs lie on the line of their neighbours until you "
                 "enter what you measured."));
    buff_->setCurrentIndex(shown.buffChoir ? static_cast<int>(*shown.buffChoir) + 1 : 0);
}

} // namespace quillbench
