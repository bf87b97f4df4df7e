// walk_prints FOLDER en|de [LOGBOOK]: everything that the window prints, as PDF, to be looked at page by page: temperament
// card, string list, an invented worksheet, and the report of the newest session of tuning in a logbook.
#include "app/places/action/worksheet.hpp"
#include "app/places/instrument/instrument_model.hpp"
#include "app/places/instrument/string_report.hpp"
#include "app/places/logbook/logbook_reader.hpp"
#include "app/places/logbook/tuning_report.hpp"
#include "app/places/temperament/temperament_card.hpp"
#include "app/places/temperament/temperament_model.hpp"
#include "app/print/pages.hpp"
#include "app/print/report.hpp"
#include "app/text/core_text.hpp"
#include "app/text/note_names.hpp"
#include "app/text/translation.hpp"

#include <QApplication>
#include <QDir>
#include <QFont>
#include <algorithm>
#include <cstdio>

/// Outside every namespace, as Qt's macro wants it.
static void loadResources() {
    Q_INIT_RESOURCE(app);
    Q_INIT_RESOURCE(translations);
}

namespace quillbench {

namespace {

bool write(const QString& folder, const char* name, const Printout& printout) {
    const QString file = QDir(folder).filePath(QString::fromLatin1(name));
    const Result<void> written = writePdf(file, printout);
    std::printf("%s: %s\n", name, written ? "written" : written.error().text.c_str());
    return written.hasValue();
}

Printout pagesOf(const Report& report) {
    return {report.title, QPageSize::A4, [report](QPagedPaintDevice& device) {
                return paintReport(report, device);
            }};
}

std::vector<WorksheetLine> inventedLines() {
    std::vector<WorksheetLine> lines;
    const auto add = [&lines](const char* what, const char* remark, bool done) {
        WorksheetLine line;
        line.job.what = QString::fromUtf8(what);
        line.remark = QString::fromUtf8(remark);
        line.done = done;
        lines.push_back(line);
    };
    add("B\u266d4, back 8\u2032: weak by 9.4 dB. The string is displaced unlike its neighbours "
        "too: the plectrum. See "
        "that the register is fully on and the jack free; a voicer would set it forward, or "
        "replace it. Heard again "
        "with the microphone elsewhere.",
        "revoiced, look again",
        true);
    add("B\u266d3, back 8\u2032: dies away while the key is still down, 31.2 dB a second faster "
        "than its neighbours: "
        "damped early. See first that the buff is off and no neighbour's damper touches; then this "
        "damper touches in "
        "play: raise it a hair. Cut nothing on one day's evidence; an old damper is for its maker "
        "or a conservator.",
        "",
        false);
    add("G3: back 8\u2032 plucks before 4\u2032: the wrong way round. Bring the jack of back "
        "8\u2032 later. Its end screw, "
        "in steps of an eighth of a turn, so that the jack stands lower; stop at resistance, old "
        "screws break.",
        "a long remark that somebody wrote while the lid was open and the light was bad",
        false);
    add("G5, back 8\u2032: plucked 1 of 10 times and then no more: the jack hangs.", "", false);
    return lines;
}

bool writeAll(const QString& folder, const QString& logbook) {
    TuningModel tuning;
    TuningChoice choice;
    choice.instrument = QStringLiteral("double-8-8-4");
    choice.choir = QStringLiteral("8");
    choice.temperament = QStringLiteral("vallotti");
    choice.lowest = QStringLiteral("C3");
    if (!tuning.choose(choice)) {
        return false;
    }
    TemperamentModel temperament(tuning);
    temperament.follow(tuning.choice());
    InstrumentModel instrument(tuning);
    bool good = write(folder, "card.pdf", temperamentCard(temperament));
    good = write(folder, "strings.pdf", pagesOf(stringReport(instrument))) && good;
    const WorksheetHead head{coreText(tuning.instrument().name),
                             QStringLiteral("Invented, to be looked at."),
                             QDate::currentDate()};
    good = write(folder, "worksheet.pdf", worksheetPrintout(head, inventedLines())) && good;
    if (logbook.isEmpty()) {
        return good;
    }
    LogbookReader reader(logbook.toStdString());
    const LogbookPicture picture = reader.read();
    for (const SessionLine& line : picture.sessions) {
        const std::optional<OpenedSession> opened = reader.open(line.session);
        const auto before = [](const ReadingLine& one) { return !one.before.isEmpty(); };
        if (opened && std::any_of(opened->readings.begin(), opened->readings.end(), before)) {
            return write(folder, "report.pdf", pagesOf(tuningReport(line, *opened))) && good;
        }
    }
    std::printf("no session of tuning in %s\n", qPrintable(logbook));
    return false;
}

} // namespace

} // namespace quillbench

int main(int argc, char** argv) {
    using namespace quillbench;
    const QApplication qt(argc, argv);
    if (argc < 3) {
        std::printf("walk_prints FOLDER en|de [LOGBOOK]\n");
        return 2;
    }
    loadResources();
    const QStringList arguments = QApplication::arguments();
    const Translation translation(arguments[2] == QLatin1String("de") ? Language::German
                                                                      : Language::English);
    nameNotes(usualNaming());
    QFont font(QStringLiteral("DejaVu Serif"));
    font.setPixelSize(14);
    QApplication::setFont(font);
    return writeAll(arguments[1], arguments.value(3)) ? 0 : 1;
}
