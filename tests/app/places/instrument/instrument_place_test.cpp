#include "app/formats/text_file.hpp"
#include "app/places/instrument/compass_view.hpp"
#include "app/places/instrument/instrument_model.hpp"
#include "app/places/instrument/instrument_page.hpp"
#include "app/places/instrument/instrument_text.hpp"
#include "app/text/format.hpp"
#include "core/instrument/examples.hpp"
#include "tests/app/tuning_at_hand.hpp"
#include "tests/support/temporary_folder.hpp"

#include <QApplication>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <cmath>

using namespace quillbench;
using namespace quillbench::test;

namespace {

struct Workshop {
    TuningModel tuning;
    InstrumentModel model{tuning};
    InstrumentPage page{model, tuning};

    Workshop() { page.resize(1200, 760); }

    template <typename Widget>
    [[nodiscard]] Widget& find(const char* name) const {
        auto* found = page.findChild<Widget*>(QString::fromLatin1(name));
        INFO(name);
        REQUIRE(found != nullptr);
        return *found;
    }
};

QString cell(const QTableWidget& table, int row, int column) {
    REQUIRE(table.item(row, column) != nullptr);
    return table.item(row, column)->text();
}

} // namespace

TEST_CASE("every example is shown whole: registers, choirs, strings", "[ui]") {
    const Workshop shop;
    auto& list = shop.find<QComboBox>("instrumentList");
    for (const Instrument& one : exampleInstruments()) {
        list.setCurrentIndex(list.findData(toQString(one.id)));
        Q_EMIT list.activated(list.currentIndex());
        INFO(one.id);
        CHECK(shop.model.instrument().id == one.id);
        CHECK(shop.find<QTableWidget>("registerTable").rowCount() ==
              static_cast<int>(one.registers.size()));
        CHECK(shop.find<QTableWidget>("choirTable").rowCount() ==
              static_cast<int>(one.choirs.size()));
        CHECK(shop.find<QTableWidget>("stringTable").rowCount() ==
              static_cast<int>(one.choirs.front().strings.size()));
        CHECK(shop.find<QLabel>("instrumentFacts").text().contains(QStringLiteral("invented")));
    }
}

TEST_CASE("the table says what the law of the stretched string says", "[ui]") {
    const Workshop shop;
    const auto& table = shop.find<QTableWidget>("stringTable");
    const Instrument& shown = shop.model.instrument();
    for (const int row : {0, 20, table.rowCount() - 1}) {
        const StringId string{0, static_cast<std::size_t>(row)};
        const StringMake& make = shown.choirs[0].strings[string.course];
        // Mersenne's law, T = (2 L f)² · m/L, with m/L = ρ π d² / 4, worked out here by hand.
        const double twoLf =
            2.0 * make.length.value() / 1000.0 * nominalPitch(shown, string).value();
        const double d = make.diameter.value() / 1000.0;
        const double mass = materialOf(make).density.value() * 3.141592653589793 * d * d / 4.0;
        CHECK(cell(table, row, 6).toDouble() == Approx(twoLf * twoLf * mass).margin(0.06));
        CHECK(cell(table, row, 4).toDouble() == Approx(make.length.value()).margin(0.06));
    }
}

TEST_CASE("a margin is told as a range and never called safe", "[ui]") {
    Workshop shop;
    shop.model.think(440.0, {});
    const auto& table = shop.find<QTableWidget>("stringTable");
    CHECK(cell(table, 3, 8).contains(QStringLiteral(" to ")));
    for (const QLabel* label : shop.page.findChildren<QLabel*>()) {
        CHECK_FALSE(label->text().contains(QStringLiteral("safe"), Qt::CaseInsensitive));
    }
    CHECK(shop.find<QLabel>("changeCaution").text().contains(QStringLiteral("conservator")));
}

TEST_CASE("a change of pitch tells load and strings near breaking", "[ui]") {
    Workshop shop;
    const LoadChange none = shop.model.loadOfThought();
    CHECK(none.now.value() == Approx(none.then.value()));
    shop.find<QDoubleSpinBox>("changePitch").setValue(440.0);
    const LoadChange change = shop.model.loadOfThought();
    const double ratio = std::pow(440.0 / shop.model.instrument().pitchStandardHz, 2.0);
    CHECK(change.then / change.now == Approx(ratio).epsilon(1e-6));
    CHECK(shop.find<QLabel>("changeLoad").text().contains(QStringLiteral(" N")));
    shop.find<QDoubleSpinBox>("changeMargin").setValue(12.0);
    CHECK(shop.find<QTableWidget>("nearTable").rowCount() ==
          static_cast<int>(stringsWithin(change, 12.0).size()));
}

TEST_CASE("a string list is read, told and kept in a file that Tune takes", "[ui]") {
    const TemporaryFolder folder;
    const std::string csv = (folder.path() / "strings.csv").string();
    Workshop shop;
    const auto& keys = shop.model.instrument().compass.keys;
    REQUIRE(writeTextFile(csv,
                          "choir,key,length_mm,diameter_mm,material\n8," +
                              toAscii(keys.front().note) + ",1700,0.6,yellow-brass\n8," +
                              toAscii(keys.back().note) + ",130,0.2,iron\n"));
    const auto read = shop.model.importStrings(QString::fromStdString(csv));
    REQUIRE(read.hasValue());
    CHECK(read->contains(QStringLiteral("2 rows")));
    CHECK(shop.model.unsaved());
    CHECK_FALSE(shop.model.choiceId());
    CHECK_FALSE(shop.model.instrument().example);
    CHECK(cell(shop.find<QTableWidget>("stringTable"), 0, 4) == QStringLiteral("1700.0"));
    const QString file = QString::fromStdString((folder.path() / "own.json").string());
    shop.model.rename(QStringLiteral("House spinet (invented)"));
    REQUIRE(shop.model.save(file));
    TuningChoice choice = firstOctave();
    choice.instrument = *shop.model.choiceId();
    TuningModel tuning;
    REQUIRE(tuning.choose(choice));
    CHECK(tuning.instrument().name == "House spinet (invented)");
    CHECK(tuning.instrument().choirs[0].strings.front().length.value() == Approx(1700.0));
}

TEST_CASE("a list that does not fit is refused with its line", "[ui]") {
    const TemporaryFolder folder;
    const std::string csv = (folder.path() / "bad.csv").string();
    REQUIRE(writeTextFile(csv, "choir,key,length_mm\n8,C2,minus\n"));
    Workshop shop;
    const auto read = shop.model.importStrings(QString::fromStdString(csv));
    REQUIRE_FALSE(read.hasValue());
    CHECK(read.error().text.find("bad.csv") != std::string::npos);
    CHECK_FALSE(shop.model.unsaved());
}

TEST_CASE("the arrows lead from string to string and say each in words", "[ui]") {
    const Workshop shop;
    auto& plots = shop.find<CompassView>("compassPlots");
    REQUIRE(plots.picture().panels.size() == 4);
    for (const int key : {Qt::Key_Right, Qt::Key_Right, Qt::Key_PageUp}) {
        QKeyEvent event(QEvent::KeyPress, key, Qt::NoModifier);
        QApplication::sendEvent(&plots, &event);
    }
    CHECK(plots.course() == 14);
    CHECK(shop.find<QLabel>("stringHere").text() == plots.picture().wordsOfCourse[14]);
    CHECK(plots.accessibleDescription().contains(plots.picture().wordsOfCourse[14]));
    CHECK(shop.find<QTableWidget>("stringTable").currentRow() == 14);
}

TEST_CASE("the instrument's place fits on a small screen at twice the size", "[ui]") {
    Workshop shop;
    CHECK(shop.page.minimumSizeHint().width() <= 560);
    CHECK(shop.page.minimumSizeHint().height() <= 340);
    // 1280 pixels at 200 % are 640, less the edge and a scroll bar: nothing has to be scrolled sideways.
    shop.page.resize(510, 340);
    shop.page.show();
    CHECK(shop.page.widget()->minimumSizeHint().width() <= 490);
}
