#include "app/places/instrument/instrument_tables.hpp"

#include "app/paint/theme.hpp"
#include "app/places/instrument/instrument_text.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <QTableWidget>

namespace quillbench {

namespace {

struct InstrumentTables {
    Q_DECLARE_TR_FUNCTIONS(InstrumentTables)
};

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

QString kindText(const JackRegister& reg) {
    QStringList kinds;
    if (reg.lute) {
        kinds << InstrumentTables::tr("lute");
    }
    if (reg.dogleg) {
        kinds << InstrumentTables::tr("dogleg");
    }
    return kinds.isEmpty() ? InstrumentTables::tr("plain") : kinds.join(InstrumentTables::tr(", "));
}

QString pinText(const PinPlace& pin) {
    return pin.row > 0 && pin.place > 0 ? InstrumentTables::tr("%1, %2").arg(pin.row).arg(pin.place)
                                        : QStringLiteral("\u2013");
}

/// "soft iron" of "soft iron (historical kind)": the rest is told as the cell's tip.
QString shortName(const Material& material) {
    const QString name = coreText(material.name);
    return name.left(name.indexOf(QStringLiteral(" (")));
}

} // namespace

void fillRegisters(QTableWidget& table, const Instrument& instrument) {
    startTable(table,
               {InstrumentTables::tr("Register"),
                InstrumentTables::tr("Plucks"),
                InstrumentTables::tr("Manual"),
                InstrumentTables::tr("Kind"),
                InstrumentTables::tr("Adjusters"),
                InstrumentTables::tr("At\n%")},
               instrument.registers.size());
    for (std::size_t i = 0; i < instrument.registers.size(); ++i) {
        const JackRegister& reg = instrument.registers[i];
        putRow(table,
               i,
               {coreText(reg.name),
                choirText(instrument.choirs[reg.choir]),
                coreText(instrument.manuals[reg.manual].name),
                kindText(reg),
                reg.adjusters ? InstrumentTables::tr("yes") : InstrumentTables::tr("no"),
                figure(reg.pluckPoint * 100.0, 0)},
               5);
    }
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
        putRow(
            table,
            i,
            {choirText(choir),
             silencingText(choir.silencing),
             instrument.buffChoir == i ? InstrumentTables::tr("yes") : InstrumentTables::tr("no"),
             QLocale().toString(static_cast<int>(choir.strings.size()))},
            3);
    }
}

void fillStrings(QTableWidget& table, const InstrumentModel& model, std::size_t choir) {
    const Instrument& instrument = model.instrument();
    const std::vector<StringState> states = model.strings(choir);
    startTable(table,
               {InstrumentTables::tr("Key"),
                InstrumentTables::tr("Material"),
                InstrumentTables::tr("Pin"),
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
        const StringState& state = states[course];
        const bool near = state.margin.lowSemitones < 0.0;
        putRow(table,
               course,
               {noteText(keyNote(instrument, {choir, course}, model.position())),
                shortName(materialOf(make)),
                pinText(instrument.choirs[choir].pins[course]),
                figure(make.length.value(), 1),
                figure(make.diameter.value(), 3),
                figure(state.tension.value(), 1),
                figure(state.stress.value(), 0),
                (near ? InstrumentTables::tr("! %1") : QStringLiteral("%1"))
                    .arg(marginText(state.margin)),
                figure(state.inharmonicity * 1e6, 0),
                state.centsPerDegree ? figure(state.centsPerDegree->value(), 1)
                                     : QStringLiteral("\u2013")},
               3,
               near ? danger : QColor());
        table.item(static_cast<int>(course), 1)->setToolTip(coreText(sourceLine(materialOf(make))));
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
