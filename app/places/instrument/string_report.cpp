#include "app/places/instrument/string_report.hpp"

#include "app/places/instrument/instrument_text.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"

#include <QCoreApplication>
#include <QLocale>

namespace quillbench {

namespace {

struct StringReport {
    Q_DECLARE_TR_FUNCTIONS(StringReport)
};

QString plainFigure(double value, int decimals) {
    return QLocale().toString(value, 'f', decimals);
}

QString placeOf(const PinPlace& pin) {
    return pin.row > 0 && pin.place > 0 ? StringReport::tr("%1, %2").arg(pin.row).arg(pin.place)
                                        : QStringLiteral("\u2013");
}

ReportTable choirTable(const InstrumentModel& model, std::size_t choir) {
    const Instrument& instrument = model.instrument();
    const Choir& strings = instrument.choirs[choir];
    const std::vector<StringState> states = model.strings(choir);
    ReportTable table;
    table.title = choirText(strings);
    table.columns = {StringReport::tr("Key"),
                     StringReport::tr("Material"),
                     StringReport::tr("Pin: row, place"),
                     StringReport::tr("Length, mm"),
                     StringReport::tr("Wire, mm"),
                     StringReport::tr("Tension, N"),
                     StringReport::tr("Stress, MPa"),
                     StringReport::tr("Breaks above, semitones")};
    table.numbers = {3, 4, 5, 6, 7};
    table.rows.reserve(states.size());
    for (std::size_t course = 0; course < states.size(); ++course) {
        const StringMake& make = strings.strings[course];
        table.rows.push_back({noteText(keyNote(instrument, {choir, course}, model.position())),
                              onOneLine(materialText(make)),
                              placeOf(strings.pins[course]),
                              plainFigure(make.length.value(), 1),
                              plainFigure(make.diameter.value(), 3),
                              plainFigure(states[course].tension.value(), 1),
                              plainFigure(states[course].stress.value(), 0),
                              marginText(states[course].margin)});
    }
    return table;
}

} // namespace

Report stringReport(const InstrumentModel& model) {
    const Instrument& instrument = model.instrument();
    Report report;
    report.title = StringReport::tr("String list, %1").arg(coreText(instrument.name));
    QStringList makers{coreText(instrument.maker), coreText(instrument.place)};
    makers.removeAll(QString());
    report.facts << makers.join(StringReport::tr(", "));
    report.facts << StringReport::tr("Computed at a\u2032 = %1 in equal temperament")
                        .arg(hertzText(Hertz(instrument.pitchStandardHz)));
    report.facts.removeAll(QString());
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        report.tables.push_back(choirTable(model, choir));
    }
    report.notes << breakingCaution() << memoryNote();
    return report;
}

} // namespace quillbench
