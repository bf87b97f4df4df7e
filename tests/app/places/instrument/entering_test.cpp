#include "app/places/instrument/instrument_model.hpp"
#include "app/places/instrument/instrument_page.hpp"
#include "app/places/instrument/instrument_tables.hpp"
#include "app/text/format.hpp"
#include "core/instrument/examples.hpp"
#include "tests/app/tuning_at_hand.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QSpinBox>
#include <QTableWidget>

using namespace quillbench;
using namespace quillbench::test;

namespace {

struct Bench {
    TuningModel tuning;
    InstrumentModel model{tuning};
    InstrumentPage page{model, tuning};

    Bench() {
        page.resize(1200, 760);
        page.show();
        settle();
    }

    static void settle() {
        for (int i = 0; i < 5; ++i) {
            QApplication::processEvents();
        }
    }

    template <typename Widget>
    [[nodiscard]] Widget& find(const char* name) const {
        auto* found = page.findChild<Widget*>(QString::fromLatin1(name));
        INFO(name);
        REQUIRE(found != nullptr);
        return *found;
    }

    void chooseIn(const char* name, int index) const {
        auto& box = find<QComboBox>(name);
        REQUIRE(index >= 0);
        box.setCurrentIndex(index);
        Q_EMIT box.activated(index);
    }

    /// Types into the marked cell, as with the keyboard alone.
    static void type(QTableWidget& table, int row, int column, const QString& text) {
        table.setCurrentCell(row, column);
        QKeyEvent first(QEvent::KeyPress, text[0].unicode(), Qt::NoModifier, text.left(1));
        QApplication::sendEvent(&table, &first);
        auto* number = table.findChild<QDoubleSpinBox*>();
        auto* line = table.findChild<QLineEdit*>();
        QWidget* editor = number != nullptr ? static_cast<QWidget*>(number) : line;
        REQUIRE(editor != nullptr);
        if (number != nullptr) {
            number->setValue(QLocale().toDouble(text));
        } else {
            line->setText(text);
        }
        QKeyEvent done(QEvent::KeyPress, Qt::Key_Return, Qt::NoModifier);
        QApplication::sendEvent(editor, &done);
        settle();
    }

    [[nodiscard]] const Instrument& instrument() const { return model.instrument(); }

    [[nodiscard]] QString told() const { return find<QLabel>("instrumentTold").text(); }
};

} // namespace

TEST_CASE("a length typed into the table is the string's, and can be taken back", "[ui]") {
    Bench bench;
    auto& table = bench.find<QTableWidget>("stringTable");
    const Millimetre before = bench.instrument().choirs[0].strings[7].length;
    const QString tensionBefore = table.item(7, 6)->text();
    Bench::type(table, 7, string_column::kLength, QStringLiteral("1234"));
    CHECK(bench.instrument().choirs[0].strings[7].length.value() == Approx(1234.0));
    CHECK(table.item(7, 6)->text() != tensionBefore); // what follows from it is computed anew
    CHECK(table.currentRow() == 7);
    CHECK_FALSE(bench.instrument().example);
    CHECK(bench.instrument().name != exampleInstruments().front().name);
    bench.find<QPushButton>("undoInstrument").click();
    CHECK(bench.instrument().choirs[0].strings[7].length == before);
    CHECK_FALSE(bench.model.unsaved());
    CHECK(bench.instrument().example);
    bench.find<QPushButton>("redoInstrument").click();
    CHECK(bench.instrument().choirs[0].strings[7].length.value() == Approx(1234.0));
}

TEST_CASE("lengths between two measured strings are filled in for those marked", "[ui]") {
    Bench bench;
    auto& table = bench.find<QTableWidget>("stringTable");
    bench.find<QPushButton>("lengthsBetween").click();
    CHECK(bench.told().contains(QStringLiteral("three strings")));
    Bench::type(table, 0, string_column::kLength, QStringLiteral("1600"));
    Bench::type(table, 12, string_column::kLength, QStringLiteral("800"));
    table.setRangeSelected(QTableWidgetSelectionRange(0, 0, 12, 0), true);
    bench.find<QPushButton>("lengthsBetween").click();
    // Six of twelve semitones down from 1600 to 800 in log length.
    CHECK(bench.instrument().choirs[0].strings[6].length.value() == Approx(1131.37).margin(0.01));
    CHECK(bench.told().isEmpty());
}

TEST_CASE("an instrument is built from an example: keyboard, manuals, choirs, registers", "[ui]") {
    Bench bench;
    auto& highest = bench.find<QComboBox>("buildHighest");
    bench.chooseIn("buildHighest", highest.findData(84)); // c‴
    auto& bass = bench.find<QComboBox>("buildBass");
    bench.chooseIn("buildBass", bass.findData(QStringLiteral("short C/E")));
    CHECK(bench.instrument().compass.keys.size() == 45); // C/E to c‴; common practice, no source
    CHECK_FALSE(bench.find<QComboBox>("buildLowest").isEnabled());
    auto& manuals = bench.find<QSpinBox>("buildManuals");
    manuals.setValue(1);
    CHECK(bench.instrument().coupler == Coupler::None);
    CHECK_FALSE(bench.find<QComboBox>("buildCoupler").isEnabled());
    const std::size_t choirs = bench.instrument().choirs.size();
    const QList<QAction*> kinds = bench.find<QPushButton>("addChoir").menu()->actions();
    REQUIRE(kinds.size() == 3);
    kinds[2]->trigger();
    REQUIRE(bench.instrument().choirs.size() == choirs + 1);
    CHECK(bench.instrument().choirs.back().footage == Footage::Sixteen);
    auto& registers = bench.find<QTableWidget>("registerTable");
    const int last = registers.rowCount() - 1;
    CHECK(bench.instrument().registers.back().choir == choirs);
    Bench::type(registers, last, register_column::kName, QStringLiteral("deep sixteen"));
    CHECK(bench.instrument().registers.back().name == "deep sixteen");
    Bench::type(registers, last, register_column::kTravel, QStringLiteral("5"));
    CHECK(bench.instrument().registers.back().stagger == Approx(5.0));
    registers.setCurrentCell(0, 0);
    bench.find<QPushButton>("removeRegister").click();
    CHECK(registers.rowCount() == last);
    bench.find<QDoubleSpinBox>("buildStandard").setValue(392.0);
    CHECK(bench.instrument().pitchStandardHz == Approx(392.0));
}

TEST_CASE("what cannot be is told, and the field shows again what is", "[ui]") {
    const Bench bench;
    auto& positions = bench.find<QLineEdit>("buildPositions");
    const QString before = positions.text();
    for (const char* wrong : {"1, 2", "0, 0", "zero", "0, 99", ""}) {
        positions.setText(QString::fromLatin1(wrong));
        Q_EMIT positions.editingFinished();
        INFO(wrong);
        CHECK(bench.told().contains(QStringLiteral("semitones")));
        CHECK(positions.text() == before);
    }
    CHECK_FALSE(bench.model.unsaved());
    positions.setText(QStringLiteral("0, +1"));
    Q_EMIT positions.editingFinished();
    CHECK(bench.instrument().positions == std::vector<int>{0, 1});
    CHECK(bench.told().isEmpty());
}

TEST_CASE("the logbook tells saved instruments apart by the names of their files", "[ui]") {
    const TemporaryFolder folder;
    const auto savedAs = [&](const char* name) {
        Bench bench;
        bench.model.rename(QStringLiteral("House instrument (invented)"));
        const QString file = QString::fromStdString((folder.path() / name).string());
        REQUIRE(bench.model.save(file));
        CHECK_FALSE(bench.model.unsaved());
        REQUIRE(bench.model.choose(file));
        return bench.instrument().id;
    };
    CHECK(savedAs("Upstairs one.quillbench") == "upstairs-one");
    CHECK(savedAs("cellar.json") == "cellar");
    CHECK(savedAs("spinet.json") == "own-spinet"); // not that of the example
}
