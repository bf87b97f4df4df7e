#include "app/places/logbook/tuning_report.hpp"

#include <QCoreApplication>
#include <algorithm>

namespace quillbench {

namespace {

struct TuningReport {
    Q_DECLARE_TR_FUNCTIONS(TuningReport)
};

void addFact(QStringList& facts, const QString& name, const QString& value) {
    if (!value.isEmpty()) {
        facts << TuningReport::tr("%1: %2").arg(name, value);
    }
}

QStringList factsOf(const SessionLine& session, const OpenedSession& opened) {
    QStringList facts;
    addFact(facts,
            TuningReport::tr("Session"),
            TuningReport::tr("%1, %2").arg(session.date, session.kind));
    addFact(facts, TuningReport::tr("Temperament"), session.temperament);
    addFact(facts, TuningReport::tr("a\u2032"), session.pitch);
    addFact(facts, TuningReport::tr("Strings"), session.strings);
    addFact(facts, TuningReport::tr("State"), session.end);
    addFact(facts, TuningReport::tr("Sound from"), session.source);
    addFact(facts, TuningReport::tr("Rechecked"), opened.rechecked);
    return facts;
}

ReportTable readingsOf(const OpenedSession& opened) {
    const bool rechecked = !opened.rechecked.isEmpty();
    ReportTable table;
    table.columns = {TuningReport::tr("Choir"),
                     TuningReport::tr("Key"),
                     TuningReport::tr("State"),
                     TuningReport::tr("How"),
                     TuningReport::tr("Before, cents"),
                     TuningReport::tr("After, cents"),
                     TuningReport::tr("\u00b1")};
    table.numbers = {4, 5, 6};
    if (rechecked) {
        table.columns << TuningReport::tr("Since, cents");
        table.numbers.insert(7);
    }
    table.columns << TuningReport::tr("Remarks");
    table.rows.reserve(opened.readings.size());
    for (const ReadingLine& line : opened.readings) {
        QStringList row{line.choir,
                        line.key,
                        onOneLine(line.state),
                        onOneLine(line.how),
                        line.before,
                        line.after,
                        line.uncertainty};
        if (rechecked) {
            row << line.since;
        }
        table.rows.push_back(row << line.remarks);
    }
    return table;
}

} // namespace

Report tuningReport(const SessionLine& session, const OpenedSession& opened) {
    Report report;
    report.title = TuningReport::tr("Tuning report: %1").arg(session.instrument);
    report.facts = factsOf(session, opened);
    report.tables.push_back(readingsOf(opened));
    if (!opened.diary.empty()) {
        ReportTable diary;
        diary.title = TuningReport::tr("Written down of this instrument");
        diary.columns = {TuningReport::tr("When"),
                         TuningReport::tr("What"),
                         TuningReport::tr("String"),
                         TuningReport::tr("Text")};
        for (const DiaryLine& line : opened.diary) {
            diary.rows.push_back({onOneLine(line.date), line.what, line.about, line.text});
        }
        report.tables.push_back(std::move(diary));
    }
    report.notes << TuningReport::tr(
        "Cents from what the temperament wants of each string, + sharp; the \u00b1 is one standard "
        "deviation. Readings are sustain pitches: a plucked string starts sharp and sinks for a "
        "second or two. Before: where the string was first heard in the session.");
    return report;
}

} // namespace quillbench
