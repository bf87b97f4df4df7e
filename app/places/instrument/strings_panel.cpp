#include "app/places/instrument/strings_panel.hpp"

#include "app/places/instrument/instrument_tables.hpp"
#include "app/places/instrument/instrument_text.hpp"
#include "app/places/temperament/temperament_tables.hpp"
#include "core/instrument/editing.hpp"
#include "core/instrument/material.hpp"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

namespace quillbench {

StringsPanel::StringsPanel(InstrumentModel& model, QWidget* parent)
    : QWidget(parent),
      model_(model),
      cells_(new CellDelegate(this)),
      strings_(readingTable(this, "stringTable", tr("Strings"))) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(6, 6, 6, 6);
    strings_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    strings_->horizontalHeader()->setStretchLastSection(true);
    strings_->setSelectionMode(QAbstractItemView::ContiguousSelection);
    strings_->setSelectionBehavior(QAbstractItemView::SelectItems);
    letEnter(*strings_, *cells_);
    for (const auto& [at, entry] : stringEntries()) {
        cells_->setColumn(at, entry);
    }
    column->addWidget(strings_, 1);
    auto* row = new QHBoxLayout;
    auto* between = new QPushButton(tr("Lengths &between"), this);
    between->setObjectName(QStringLiteral("lengthsBetween"));
    between->setToolTip(
        tr("The lengths between the first and the last marked string, straight in log length over "
           "semitones: measure a few and fill the rest"));
    auto* wire = new QPushButton(tr("Wire of the first"), this);
    wire->setObjectName(QStringLiteral("wireOfFirst"));
    wire->setToolTip(tr("All marked strings take gauge and material of the first"));
    row->addWidget(between);
    row->addWidget(wire);
    row->addStretch(1);
    column->addLayout(row);
    auto* note = new QLabel(this);
    note->setObjectName(QStringLiteral("stringNote"));
    note->setTextFormat(Qt::PlainText);
    note->setWordWrap(true);
    note->setText(tr("At the instrument's own standard in equal temperament. A degree of pin gives "
                     "less where "
                     "the "
                     "wire behind the bridge is long. \"!\": the weakest wire of its kind would "
                     "break here.") +
                  QLatin1Char(' ') + memoryNote());
    column->addWidget(note);
    connect(between, &QPushButton::clicked, this, [this] { enterMarked(&withLengthsBetween); });
    connect(wire, &QPushButton::clicked, this, [this] { enterMarked(&withWireOfFirst); });
    // Queued: the table is filled anew, which an entry that is still open does not outlive.
    connect(cells_, &CellDelegate::entered, this, &StringsPanel::enterString, Qt::QueuedConnection);
}

void StringsPanel::enterString(int row, int column, const QVariant& value) {
    const StringId string{choir_, static_cast<std::size_t>(row)};
    const Choir& choir = model_.instrument().choirs[choir_];
    if (string.course >= choir.strings.size()) {
        return;
    }
    StringMake make = choir.strings[string.course];
    PinPlace pin = choir.pins[string.course];
    switch (column) {
    case string_column::kMaterial:
        make.material = materials()[value.toULongLong()].id;
        break;
    case string_column::kPinRow:
        pin.row = static_cast<int>(value.toDouble());
        break;
    case string_column::kPinPlace:
        pin.place = static_cast<int>(value.toDouble());
        break;
    case string_column::kLength:
        make.length = Millimetre(value.toDouble());
        break;
    default:
        make.diameter = Millimetre(value.toDouble());
    }
    Q_EMIT entered(model_.change(withString(model_.instrument(), string, make, pin)));
}

std::pair<std::size_t, std::size_t> StringsPanel::marked() const {
    int first = strings_->currentRow();
    int last = first;
    for (const QTableWidgetSelectionRange& range : strings_->selectedRanges()) {
        first = std::min(first, range.topRow());
        last = std::max(last, range.bottomRow());
    }
    return {static_cast<std::size_t>(std::max(0, first)),
            static_cast<std::size_t>(std::max(0, last))};
}

void StringsPanel::enterMarked(Change change) {
    const auto [first, last] = marked();
    Q_EMIT entered(model_.change(change(model_.instrument(), choir_, first, last)));
}

void StringsPanel::showChoir(std::size_t choir) {
    choir_ = choir;
    keepingPlace(*strings_, [this] { fillStrings(*strings_, model_, choir_); });
}

void StringsPanel::markString(std::size_t course) {
    strings_->setCurrentCell(static_cast<int>(course), std::max(0, strings_->currentColumn()));
}

} // namespace quillbench
