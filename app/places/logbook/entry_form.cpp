#include "app/places/logbook/entry_form.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "core/instrument/material.hpp"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>

namespace quillbench {

namespace {

enum EntryKind { RemarkEntry, AirEntry, ReplacedEntry };

/// Below the lowest value a box says that nothing is known.
constexpr double kTemperatureUnknown = -31.0;
constexpr double kHumidityUnknown = -1.0;
constexpr double kDiameterUnknown = 0.04;

QComboBox* entryBox(QWidget* parent, const char* name, const QString& caption, bool editable) {
    auto* box = new QComboBox(parent);
    box->setObjectName(QString::fromLatin1(name));
    box->setAccessibleName(caption);
    box->setEditable(editable);
    box->setInsertPolicy(QComboBox::NoInsert);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(6);
    return box;
}

QDoubleSpinBox* entryNumber(QWidget* parent,
                            const char* name,
                            const QString& caption,
                            double unknown,
                            double highest,
                            int decimals) {
    auto* box = new QDoubleSpinBox(parent);
    box->setObjectName(QString::fromLatin1(name));
    box->setAccessibleName(caption);
    box->setDecimals(decimals);
    box->setRange(unknown, highest);
    box->setSpecialValueText(EntryForm::tr("not known"));
    box->setValue(unknown);
    return box;
}

std::optional<double> knownValue(const QDoubleSpinBox* box) {
    return box->value() > box->minimum() ? std::optional<double>(box->value()) : std::nullopt;
}

void addCaptioned(QHBoxLayout* row, const QString& caption, QWidget* field, int stretch = 0) {
    auto* label = new QLabel(caption, field->parentWidget());
    label->setBuddy(field);
    row->addWidget(label);
    row->addWidget(field, stretch);
}

} // namespace

EntryForm::EntryForm(QWidget* parent)
    : QWidget(parent),
      kind_(entryBox(this, "entryKind", tr("What to write down"), false)),
      which_(new QWidget(this)),
      choir_(entryBox(which_, "entryChoir", tr("Choir of the string"), false)),
      key_(entryBox(which_, "entryKey", tr("Key of the string"), false)),
      pages_(new QStackedWidget(this)),
      keep_(new QPushButton(tr("&Write down"), this)) {
    setObjectName(QStringLiteral("entry"));
    setAccessibleName(tr("Write something down"));
    kind_->setSizeAdjustPolicy(QComboBox::AdjustToContents); // few words, of which none is cut
    kind_->addItem(tr("Remark"), RemarkEntry);
    kind_->addItem(tr("Temperature and humidity"), AirEntry);
    kind_->addItem(tr("String replaced"), ReplacedEntry);
    auto* strings = new QHBoxLayout(which_);
    strings->setContentsMargins(0, 0, 0, 0);
    strings->addWidget(choir_, 2);
    strings->addWidget(key_, 1);
    pages_->addWidget(remarkPage());
    pages_->addWidget(airPage());
    pages_->addWidget(replacedPage());
    pages_->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(0, 4, 0, 0);
    grid->addWidget(kind_, 0, 0);
    grid->addWidget(which_, 0, 1, 1, 2);
    grid->addWidget(pages_, 1, 0, 1, 2);
    grid->addWidget(keep_, 1, 2);
    grid->setColumnStretch(1, 1);
    keep_->setObjectName(QStringLiteral("writeDown"));
    keep_->setAccessibleDescription(tr("Keeps what was entered in the logbook"));
    connect(kind_, &QComboBox::currentIndexChanged, this, &EntryForm::showKind);
    connect(choir_, &QComboBox::currentIndexChanged, this, &EntryForm::fillKeys);
    connect(keep_, &QPushButton::clicked, this, &EntryForm::enter);
    show(std::nullopt);
}

QWidget* EntryForm::remarkPage() {
    auto* page = new QWidget(pages_);
    auto* row = new QHBoxLayout(page);
    row->setContentsMargins(0, 0, 0, 0);
    remark_ = entryBox(page, "entryRemark", tr("Remark"), true);
    for (const QString& usual : {tr("false beat"),
                                 tr("pin loose"),
                                 tr("buzzes"),
                                 tr("damper late"),
                                 tr("plectrum worn"),
                                 tr("does not repeat")}) {
        remark_->addItem(usual);
    }
    remark_->clearEditText();
    remark_->lineEdit()->setPlaceholderText(tr("false beat, pin loose, or your own words"));
    row->addWidget(remark_, 1);
    connect(remark_->lineEdit(), &QLineEdit::returnPressed, this, &EntryForm::enter);
    return page;
}

QWidget* EntryForm::airPage() {
    auto* page = new QWidget(pages_);
    auto* row = new QHBoxLayout(page);
    row->setContentsMargins(0, 0, 0, 0);
    temperature_ =
        entryNumber(page, "temperature", tr("Temperature"), kTemperatureUnknown, 60.0, 1);
    temperature_->setSuffix(tr(" °C"));
    humidity_ = entryNumber(page, "humidity", tr("Relative humidity"), kHumidityUnknown, 100.0, 0);
    humidity_->setSuffix(tr(" %"));
    addCaptioned(row, tr("Temperature"), temperature_, 1);
    addCaptioned(row, tr("Humidity"), humidity_, 1);
    return page;
}

QWidget* EntryForm::replacedPage() {
    auto* page = new QWidget(pages_);
    auto* row = new QHBoxLayout(page);
    row->setContentsMargins(0, 0, 0, 0);
    diameter_ = entryNumber(page, "diameter", tr("Diameter of the wire"), kDiameterUnknown, 3.0, 3);
    diameter_->setSingleStep(0.01);
    diameter_->setSuffix(tr(" mm"));
    material_ = entryBox(page, "material", tr("Material of the wire"), false);
    material_->addItem(tr("wire not known"), QString());
    for (const Material& one : materials()) {
        material_->addItem(coreText(one.name), toQString(one.id));
    }
    reason_ = entryBox(page, "reason", tr("Why it was replaced"), true);
    for (const QString& usual : {tr("broken"), tr("false"), tr("worn")}) {
        reason_->addItem(usual);
    }
    row->addWidget(diameter_, 1);
    row->addWidget(material_, 1);
    row->addWidget(reason_, 1);
    return page;
}

void EntryForm::show(const std::optional<Instrument>& instrument) {
    setEnabled(instrument.has_value());
    const bool same = instrument && instrument_ && *instrument == *instrument_;
    if (same) {
        return;
    }
    instrument_ = instrument;
    choir_->clear();
    if (instrument_) {
        choir_->addItem(tr("whole instrument"), -1);
        for (std::size_t choir = 0; choir < instrument_->choirs.size(); ++choir) {
            choir_->addItem(choirText(instrument_->choirs[choir]), static_cast<int>(choir));
        }
    }
    fillKeys();
    showKind();
}

void EntryForm::fillKeys() {
    key_->clear();
    const int choir = choir_->currentData().isValid() ? choir_->currentData().toInt() : -1;
    key_->setEnabled(choir >= 0);
    if (choir < 0 || !instrument_) {
        return;
    }
    const auto index = static_cast<std::size_t>(choir);
    for (std::size_t course = 0; course < instrument_->choirs[index].strings.size(); ++course) {
        key_->addItem(noteText(keyNote(*instrument_, StringId{index, course})),
                      static_cast<int>(course));
    }
}

void EntryForm::showKind() {
    const int kind = kind_->currentData().toInt();
    pages_->setCurrentIndex(kind);
    which_->setEnabled(kind != AirEntry);
    if (kind == ReplacedEntry && choir_->currentIndex() == 0 && choir_->count() > 1) {
        choir_->setCurrentIndex(1); // a string must be named
    }
}

std::optional<StringName> EntryForm::string() const {
    const int choir = choir_->currentData().isValid() ? choir_->currentData().toInt() : -1;
    if (choir < 0 || key_->currentIndex() < 0 || !instrument_) {
        return std::nullopt;
    }
    const StringId id{static_cast<std::size_t>(choir),
                      static_cast<std::size_t>(key_->currentData().toInt())};
    return StringName{instrument_->choirs[id.choir].id,
                      static_cast<int>(id.course),
                      toAscii(keyNote(*instrument_, id))};
}

void EntryForm::enter() {
    switch (kind_->currentData().toInt()) {
    case RemarkEntry:
        if (const QString text = remark_->currentText().trimmed(); !text.isEmpty()) {
            Q_EMIT remarkEntered(string(), text);
            remark_->clearEditText();
        }
        return;
    case AirEntry: {
        const auto temperature = knownValue(temperature_);
        const auto humidity = knownValue(humidity_);
        if (temperature || humidity) {
            Q_EMIT climateEntered(temperature, humidity);
        }
        return;
    }
    default:
        if (const auto name = string()) {
            Q_EMIT replacedEntered(*name,
                                   knownValue(diameter_),
                                   material_->currentData().toString(),
                                   reason_->currentText().trimmed());
        }
        return;
    }
}

} // namespace quillbench
