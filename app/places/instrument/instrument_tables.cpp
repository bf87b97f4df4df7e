#include "app/places/instrument/instrument_tables.hpp"

#include "app/paint/theme.hpp"
#include "app/places/instrument/instrument_text.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "core/instrument/limits.hpp"
#include "core/instrument/material.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <QTableWidget>
#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct InstrumentTables {
    Q_DECLARE_TR_FUNCTIONS(InstrumentTables)
};

constexpr double kHundred = 100.0;

void startTable(QTableWidget& table, const QStringList& columns, std::size_t rows) {
    table.clear();
    table.setColumnCount(static_cast<int>(columns.size()));
    table.setHorizontalHeaderLabels(columns);
    table.setRowCount(static_cast<int>(rows));
}

/// A row of cells; figures stand to the right, words to the left.
void putRow(QTableWidget& table,
            std::size_t row,
            const QStringList& cells,
            int firstFigure,
            const QColor& colour = {}) {
    for (int column = 0; column < cells.size(); ++column) {
        auto* item = new QTableWidgetItem(cells[column]);
        const Qt::Alignment side = column < firstFigure ? Qt::AlignLeft : Qt::AlignRight;
        item->setTextAlignment(side | Qt::AlignVCenter);
        table.horizontalHeaderItem(column)->setTextAlignment(side | Qt::AlignVCenter);
        if (colour.isValid()) {
            item->setForeground(colour);
        }
        table.setItem(static_cast<int>(row), column, item);
    }
}

QString figure(double value, int decimals) {
    QLocale plain;
    plain.setNumberOptions(QLocale::OmitGroupSeparator);
    return plain.toString(value, 'f', decimals);
}

QStringList kindNames() {
    return {InstrumentTables::tr("plain"),
            InstrumentTables::tr("lute"),
            InstrumentTables::tr("dogleg"),
            InstrumentTables::tr("lute, dogleg")};
}

int kindChoice(const JackRegister& reg) {
    return (reg.lute ? 1 : 0) + (reg.dogleg ? 2 : 0);
}

QStringList noAndYes() {
    return {InstrumentTables::tr("no"), InstrumentTables::tr("yes")};
}

QStringList silencingNames() {
    QStringList names;
    for (const Silencing one : {Silencing::Lever,
                                Silencing::Knee,
                                Silencing::Foot,
                                Silencing::HandAtTheRegister,
                                Silencing::FeltStrip,
                                Silencing::NotAtAll}) {
        names << silencingText(one);
    }
    return names;
}

/// Gives a row the values that its cells are entered with; the other cells are only read.
void putValues(QTableWidget& table, std::size_t row, const std::map<int, QVariant>& values) {
    for (int column = 0; column < table.columnCount(); ++column) {
        QTableWidgetItem* item = table.item(static_cast<int>(row), column);
        const auto value = values.find(column);
        if (value == values.end()) {
            item->setFlags(item->flags() & ~Qt::ItemIsEditable);
        } else {
            item->setData(Qt::UserRole, value->second);
        }
    }
}

QString placeText(int place) {
    return place > 0 ? QLocale().toString(place) : QStringLiteral("\u2013");
}

} // namespace

void keepingPlace(QTableWidget& table, const std::function<void()>& fill) {
    const int row = std::max(0, table.currentRow());
    const int column = std::max(0, table.currentColumn());
    fill();
    if (table.rowCount() > 0) {
        table.setCurrentCell(std::min(row, table.rowCount() - 1),
                             std::min(column, table.columnCount() - 1));
    }
}

RegisterKind registerKind(int choice) {
    return {choice % 2 == 1, choice >= 2};
}

std::map<int, CellEntry> registerEntries(const Instrument& instrument) {
    QStringList choirs;
    for (const Choir& one : instrument.choirs) {
        choirs << choirText(one);
    }
    QStringList manuals;
    for (const Manual& one : instrument.manuals) {
        manuals << coreText(one.name);
    }
    const Limits percent{kPluckPointLimits.low * kHundred, kPluckPointLimits.high * kHundred};
    return {{register_column::kName, {CellEntry::Form::Words, {}, 0, {}}},
            {register_column::kChoir, {CellEntry::Form::Choice, {}, 0, choirs}},
            {register_column::kManual, {CellEntry::Form::Choice, {}, 0, manuals}},
            {register_column::kKind, {CellEntry::Form::Choice, {}, 0, kindNames()}},
            {register_column::kAdjusters, {CellEntry::Form::Choice, {}, 0, noAndYes()}},
            {register_column::kPluckPoint, {CellEntry::Form::Number, percent, 1, {}}},
            {register_column::kTravel, {CellEntry::Form::Number, kStaggerLimits, 1, {}}}};
}

void fillRegisters(QTableWidget& table, const Instrument& instrument) {
    startTable(table,
               {InstrumentTables::tr("Register"),
                InstrumentTables::tr("Plucks"),
                InstrumentTables::tr("Manual"),
                InstrumentTables::tr("Kind"),
                InstrumentTables::tr("Adjusters"),
                InstrumentTables::tr("At\n%"),
                InstrumentTables::tr("Travel\nmm")},
               instrument.registers.size());
    for (std::size_t i = 0; i < instrument.registers.size(); ++i) {
        const JackRegister& reg = instrument.registers[i];
        putRow(table,
               i,
               {coreText(reg.name),
                choirText(instrument.choirs[reg.choir]),
                coreText(instrument.manuals[reg.manual].name),
                kindNames().at(kindChoice(reg)),
                noAndYes().at(reg.adjusters ? 1 : 0),
                figure(reg.pluckPoint * kHundred, 0),
                figure(reg.stagger, 1)},
               register_column::kPluckPoint);
        putValues(table,
                  i,
                  {{register_column::kName, coreText(reg.name)},
                   {register_column::kChoir, static_cast<int>(reg.choir)},
                   {register_column::kManual, static_cast<int>(reg.manual)},
                   {register_column::kKind, kindChoice(reg)},
                   {register_column::kAdjusters, reg.adjusters ? 1 : 0},
                   {register_column::kPluckPoint, reg.pluckPoint * kHundred},
                   {register_column::kTravel, reg.stagger}});
    }
}

std::map<int, CellEntry> choirEntries() {
    return {{choir_column::kSilenced, {CellEntry::Form::Choice, {}, 0, silencingNames()}},
            {choir_column::kBuff, {CellEntry::Form::Choice, {}, 0, noAndYes()}}};
}

void fillChoirs(QTableWidget& table, const Instrument& instrument) {
    startTable(table,
               {InstrumentTables::tr("Choir"),
                InstrumentTables::tr("Silenced"),
                InstrumentTables::tr("Buff"),
                InstrumentTables::tr("Strings")},
               instrument.choirs.size());
    for (std::size_t i = 0; i < instrument.choirs.size(); ++i) {
        const Choir& choir = instrument.choirs[i];
        const int buffed = instrument.buffChoir == i ? 1 : 0;
        putRow(table,
               i,
               {choirText(choir),
                silencingText(choir.silencing),
                noAndYes().at(buffed),
                QLocale().toString(static_cast<int>(choir.strings.size()))},
               3);
        putValues(table,
                  i,
                  {{choir_column::kSilenced, static_cast<int>(choir.silencing)},
                   {choir_column::kBuff, buffed}});
    }
}

std::map<int, CellEntry> stringEntries() {
    QStringList wires;
    for (const Material& one : materials()) {
        wires << coreText(one.name);
    }
    return {{string_column::kMaterial, {CellEntry::Form::Choice, {}, 0, wires}},
            {string_column::kPinRow, {CellEntry::Form::Number, kPinPlaceLimits, 0, {}}},
            {string_column::kPinPlace, {CellEntry::Form::Number, kPinPlaceLimits, 0, {}}},
            {string_column::kLength, {CellEntry::Form::Number, kLengthLimits, 1, {}}},
            {string_column::kWire, {CellEntry::Form::Number, kDiameterLimits, 3, {}}}};
}

void fillStrings(QTableWidget& table, const InstrumentModel& model, std::size_t choir) {
    const Instrument& instrument = model.instrument();
    const std::vector<StringState> states = model.strings(choir);
    startTable(table,
               {InstrumentTables::tr("Key"),
                InstrumentTables::tr("Material"),
                InstrumentTables::tr("Pin\nrow"),
                InstrumentTables::tr("Pin\nplace"),
                InstrumentTables::tr("Length\nmm"),
                InstrumentTables::tr("Wire\nmm"),
                InstrumentTables::tr("Tension\nN"),
                InstrumentTables::tr("Stress\nMPa"),
                InstrumentTables::tr("Breaks above\nsemitones"),
                InstrumentTables::tr("Inharm.\n10\u207b\u2076"),
                InstrumentTables::tr("Pin 1\u00b0\nup to ct")},
               states.size());
    const QColor danger = themeOf(table.palette()).danger;
    for (std::size_t course = 0; course < states.size(); ++course) {
        const StringMake& make = instrument.choirs[choir].strings[course];
        const PinPlace& pin = instrument.choirs[choir].pins[course];
        const StringState& state = states[course];
        const bool near = state.margin.lowSemitones < 0.0;
        putRow(table,
               course,
               {noteText(keyNote(instrument, {choir, course}, model.position())),
                materialText(make),
                placeText(pin.row),
                placeText(pin.place),
                figure(make.length.value(), 1),
                figure(make.diameter.value(), 3),
                figure(state.tension.value(), 1),
                figure(state.stress.value(), 0),
                (near ? InstrumentTables::tr("! %1") : QStringLiteral("%1"))
                    .arg(marginText(state.margin)),
                figure(state.inharmonicity * 1e6, 0),
                state.centsPerDegree ? figure(state.centsPerDegree->value(), 1)
                                     : QStringLiteral("\u2013")},
               string_column::kPinRow,
               near ? danger : QColor());
        putValues(
            table,
            course,
            {{string_column::kMaterial, static_cast<int>(&materialOf(make) - materials().data())},
             {string_column::kPinRow, pin.row},
             {string_column::kPinPlace, pin.place},
             {string_column::kLength, make.length.value()},
             {string_column::kWire, make.diameter.value()}});
        table.item(static_cast<int>(course), string_column::kMaterial)
            ->setToolTip(coreText(sourceLine(materialOf(make))));
    }
}

namespace {

/// "12 % more", "like them".
QString againstBeside(double ratio) {
    const double percent = kHundred * (ratio - 1.0);
    if (std::abs(percent) < 1.5) {
        return InstrumentTables::tr("as they");
    }
    return (percent > 0.0 ? InstrumentTables::tr("%1 % more") : InstrumentTables::tr("%1 % less"))
        .arg(figure(std::abs(percent), 0));
}

} // namespace

QString soundBeside(const WireOption& option) {
    constexpr double kHeardOf = 0.06;
    constexpr double kStiffnessHeard = 0.3;
    QStringList words;
    if (option.sustainRatio < 1.0 - kHeardOf) {
        words << InstrumentTables::tr("shorter by %1 %, moves less under the plectrum")
                     .arg(figure(kHundred * (1.0 - option.sustainRatio), 0));
    } else if (option.sustainRatio > 1.0 + kHeardOf) {
        words << InstrumentTables::tr("longer by %1 %, moves more under the plectrum")
                     .arg(figure(kHundred * (option.sustainRatio - 1.0), 0));
    }
    if (option.stiffnessRatio > 1.0 + kStiffnessHeard) {
        words << InstrumentTables::tr("stiffer: its octaves come out wider");
    } else if (option.stiffnessRatio < 1.0 / (1.0 + kStiffnessHeard)) {
        words << InstrumentTables::tr("less stiff than they");
    }
    if (!option.asNeighbours) {
        words << InstrumentTables::tr("another material than beside it");
    }
    return words.isEmpty() ? InstrumentTables::tr("like its neighbours")
                           : words.join(InstrumentTables::tr(", "));
}

void fillWires(QTableWidget& table, const WireAdvice& advice) {
    startTable(table,
               {InstrumentTables::tr("Material"),
                InstrumentTables::tr("Wire\nmm"),
                InstrumentTables::tr("Tension\nN"),
                InstrumentTables::tr("Against\nneighbours"),
                InstrumentTables::tr("Stress\nMPa"),
                InstrumentTables::tr("Breaks above\nsemitones"),
                InstrumentTables::tr("Inharm.\n10\u207b\u2076")},
               advice.options.size());
    const QColor danger = themeOf(table.palette()).danger;
    for (std::size_t i = 0; i < advice.options.size(); ++i) {
        const WireOption& option = advice.options[i];
        const bool near = option.state.margin.lowSemitones < 0.0;
        putRow(table,
               i,
               {option.asBefore
                    ? InstrumentTables::tr("%1 (as before)").arg(wholeMaterialText(option.make))
                    : wholeMaterialText(option.make),
                figure(option.make.diameter.value(), 3),
                figure(option.state.tension.value(), 1),
                againstBeside(option.tensionRatio),
                figure(option.state.stress.value(), 0),
                (near ? InstrumentTables::tr("! %1") : QStringLiteral("%1"))
                    .arg(marginText(option.state.margin)),
                figure(option.state.inharmonicity * 1e6, 0)},
               1,
               near ? danger : QColor());
        table.item(static_cast<int>(i), 0)
            ->setToolTip(coreText(sourceLine(materialOf(option.make))));
    }
}

void fillNearBreaking(QTableWidget& table,
                      const InstrumentModel& model,
                      const std::vector<StringChange>& strings) {
    startTable(table,
               {InstrumentTables::tr("String"),
                InstrumentTables::tr("Moves, cents"),
                InstrumentTables::tr("Breaks above now"),
                InstrumentTables::tr("Then")},
               strings.size());
    const QColor danger = themeOf(table.palette()).danger;
    for (std::size_t i = 0; i < strings.size(); ++i) {
        const StringChange& one = strings[i];
        putRow(table,
               i,
               {stringText(model.instrument(), one.string, model.position()),
                signedCents(one.move),
                marginText(one.now.margin),
                (one.then.margin.lowSemitones < 0.0 ? InstrumentTables::tr("! %1")
                                                    : QStringLiteral("%1"))
                    .arg(marginText(one.then.margin))},
               1,
               one.then.margin.lowSemitones < 0.0 ? danger : QColor());
    }
}

} // namespace quillbench
