#include "app/places/temperament/temperament_tables.hpp"

#include "app/paint/theme.hpp"
#include "app/places/temperament/temperament_text.hpp"
#include "app/text/format.hpp"
#include "app/text/step_text.hpp"
#include "core/temperament/beat_table.hpp"

#include <QCoreApplication>
#include <QHeaderView>
#include <QLocale>
#include <QTableWidget>
#include <algorithm>
#include <array>

namespace quillbench {

namespace {

struct TemperamentTables {
    Q_DECLARE_TR_FUNCTIONS(TemperamentTables)
};

constexpr std::array<IntervalKind, 6> kBeatColumns{IntervalKind::MinorThird,
                                                   IntervalKind::MajorThird,
                                                   IntervalKind::Fourth,
                                                   IntervalKind::Fifth,
                                                   IntervalKind::MinorSixth,
                                                   IntervalKind::MajorSixth};
constexpr Note kBeatsFrom{{Letter::F, 0}, 3};
constexpr Note kBeatsTo{{Letter::C, 0}, 5};
constexpr std::size_t kNearestShown = 8;

void beginTable(QTableWidget& table, const QStringList& columns, std::size_t rows) {
    table.clear();
    table.setColumnCount(static_cast<int>(columns.size()));
    table.setHorizontalHeaderLabels(columns);
    table.setRowCount(static_cast<int>(rows));
}

/// Words to the left, figures to the right, the heading as its column.
void putCell(QTableWidget& table, int row, int column, const QString& text, bool quiet = false) {
    const Qt::Alignment side = column == 0 ? Qt::AlignLeft : Qt::AlignRight;
    auto* item = new QTableWidgetItem(text);
    item->setTextAlignment(side | Qt::AlignVCenter);
    if (quiet) {
        item->setForeground(themeOf(table.palette()).quiet);
    }
    table.setItem(row, column, item);
    table.horizontalHeaderItem(column)->setTextAlignment(side | Qt::AlignVCenter);
}

/// Without group separators, which would make the figures of one column unlike.
QString plainFigure(double value, int decimals) {
    QLocale plain;
    plain.setNumberOptions(QLocale::OmitGroupSeparator);
    return plain.toString(value, 'f', decimals);
}

} // namespace

QTableWidget* readingTable(QWidget* parent, const char* name, const QString& title) {
    auto* table = new QTableWidget(parent);
    table->setObjectName(QString::fromLatin1(name));
    table->setAccessibleName(title);
    table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table->setSelectionBehavior(QAbstractItemView::SelectRows);
    table->setSelectionMode(QAbstractItemView::SingleSelection);
    table->setTabKeyNavigation(false);
    table->setShowGrid(false);
    table->verticalHeader()->hide();
    table->verticalHeader()->setDefaultSectionSize(table->fontMetrics().lineSpacing() + 8);
    table->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    table->horizontalHeader()->setDefaultAlignment(Qt::AlignRight | Qt::AlignVCenter);
    table->horizontalHeader()->setHighlightSections(false);
    return table;
}

void fillNotes(QTableWidget& table, const TemperamentModel& model) {
    const TunedScale scale = model.scale();
    const Temperament* other = model.compared();
    QStringList columns{TemperamentTables::tr("Note"),
                        TemperamentTables::tr("Cents\nabove C"),
                        TemperamentTables::tr("From equal\nA = 0"),
                        TemperamentTables::tr("Octave 4\nHz")};
    if (other != nullptr) {
        columns << TemperamentTables::tr("The other\nA = 0") << TemperamentTables::tr("Difference");
    }
    const std::vector<Note> keys =
        keysBetween(scale.temperament, Note{{Letter::C, 0}, 4}, Note{{Letter::B, 0}, 4});
    beginTable(table, columns, keys.size());
    for (std::size_t i = 0; i < keys.size(); ++i) {
        const int row = static_cast<int>(i);
        const PitchClass note = keys[i].pitchClass;
        const Cents own = scale.temperament.offsetFromEqual(note);
        putCell(table, row, 0, pitchClassText(note));
        putCell(table, row, 1, plainFigure(scale.temperament.centsFromC(note).value(), 1));
        putCell(table, row, 2, signedCents(own));
        putCell(table, row, 3, plainFigure(scale.pitchOf(keys[i]).value(), 2));
        if (other != nullptr) {
            const Cents theirs = other->offsetFromEqual(note);
            putCell(table, row, 4, signedCents(theirs));
            putCell(table, row, 5, signedCents(own - theirs));
        }
    }
}

void fillBeats(QTableWidget& table, const TemperamentModel& model) {
    const TunedScale scale = model.scale();
    QStringList columns{TemperamentTables::tr("On")};
    for (const IntervalKind kind : kBeatColumns) {
        columns << intervalText(kind).replace(QLatin1Char(' '), QLatin1Char('\n'));
    }
    const std::vector<Note> keys = keysBetween(scale.temperament, kBeatsFrom, kBeatsTo);
    beginTable(table, columns, keys.size());
    for (std::size_t i = 0; i < keys.size(); ++i) {
        putCell(table, static_cast<int>(i), 0, noteText(keys[i]));
    }
    for (const BeatEntry& entry : beatTable(scale, kBeatsFrom, kBeatsTo, kBeatColumns)) {
        const auto row = std::find(keys.begin(), keys.end(), entry.lower) - keys.begin();
        const auto column = std::find(kBeatColumns.begin(), kBeatColumns.end(), entry.interval) -
                            kBeatColumns.begin();
        putCell(table,
                static_cast<int>(row),
                static_cast<int>(column) + 1,
                signedBeats(entry.beat),
                abs(entry.beat) > kFastestCountable);
    }
}

void fillRecognised(QTableWidget& table, const Recognition& recognition) {
    beginTable(table,
               {TemperamentTables::tr("Fifth"),
                TemperamentTables::tr("Heard\ncents"),
                TemperamentTables::tr("Nearest\ncents"),
                TemperamentTables::tr("Differs by")},
               recognition.fifths.size());
    for (std::size_t i = 0; i < recognition.fifths.size(); ++i) {
        const HeardFifth& fifth = recognition.fifths[i];
        const int row = static_cast<int>(i);
        putCell(table,
                row,
                0,
                QStringLiteral("%1\u2013%2")
                    .arg(pitchClassText(fifth.lower), pitchClassText(fifth.upper)));
        putCell(table,
                row,
                1,
                QStringLiteral("%1 %2").arg(signedCents(fifth.tempering),
                                            plusMinus(fifth.uncertainty)));
        if (!recognition.matches.empty()) {
            const Cents off = recognition.matches.front().fifthsOff[i];
            putCell(table, row, 2, signedCents(fifth.tempering - off));
            putCell(table, row, 3, signedCents(off));
        }
    }
}

void fillNearest(QTableWidget& table, const Recognition& recognition) {
    const std::size_t rows = std::min(kNearestShown, recognition.matches.size());
    beginTable(table,
               {TemperamentTables::tr("Nearest"),
                TemperamentTables::tr("Cents away"),
                TemperamentTables::tr("a\u2032")},
               rows);
    for (std::size_t i = 0; i < rows; ++i) {
        const TemperamentMatch& match = recognition.matches[i];
        const int row = static_cast<int>(i);
        putCell(
            table, row, 0, temperamentTitle(match.temperament->description()), !match.asGoodAsBest);
        putCell(table,
                row,
                1,
                QStringLiteral("%1 %2").arg(sizeInCents(match.distance),
                                            plusMinus(match.distanceUncertainty)),
                !match.asGoodAsBest);
        putCell(table, row, 2, hertzText(match.a4), !match.asGoodAsBest);
    }
}

} // namespace quillbench
