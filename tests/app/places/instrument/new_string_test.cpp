#include "app/places/instrument/instrument_model.hpp"
#include "app/places/instrument/instrument_page.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <QComboBox>
#include <QDateTime>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <cmath>

using namespace quillbench;
using namespace quillbench::test;

namespace {

struct StringBench {
    TuningModel tuning;
    InstrumentModel model{tuning};
    InstrumentPage page{model, tuning};

    template <typename Widget>
    [[nodiscard]] Widget& find(const char* name) const {
        auto* found = page.findChild<Widget*>(QString::fromLatin1(name));
        INFO(name);
        REQUIRE(found != nullptr);
        return *found;
    }
};

/// A string put on some days ago, set an hour later, that sank by a law of 2 cents an e-fold.
NewString sankSlowly(StringId string, double daysAgo) {
    NewString made;
    made.string = string;
    made.putOn.milliseconds =
        QDateTime::currentMSecsSinceEpoch() - static_cast<std::int64_t>(daysAgo * 86400000.0);
    made.lastSet = 0.04;
    double from = 0.04;
    for (const double to : {0.5, 1.0, 1.9}) {
        const double moved = -2.0 * std::log((0.1 + to) / (0.1 + from));
        made.seen.push_back({from, to, Cents(moved), Cents(0.3)});
        from = to;
    }
    return made;
}

} // namespace

TEST_CASE("which wire fits a broken string is shown, and can be put into the list and taken back",
          "[ui]") {
    const StringBench bench;
    auto& key = bench.find<QComboBox>("newStringKey");
    auto& wires = bench.find<QTableWidget>("wireTable");
    key.setCurrentIndex(30);
    const StringMake before = bench.model.instrument().choirs[0].strings[30];
    CHECK(bench.find<QDoubleSpinBox>("newStringLength").value() ==
          Approx(before.length.value()).margin(0.06));
    REQUIRE(wires.rowCount() >= 3);
    CHECK(bench.find<QLabel>("wireBeside").text().contains(QStringLiteral("By the neighbours")));
    // Iron's values are from memory: the star stands on the screen, and what it means below.
    CHECK(wires.item(0, 0)->text().contains(QLatin1Char('*')));
    CHECK(bench.find<QLabel>("wireMarks").text().contains(QStringLiteral("value from memory")));
    CHECK(bench.find<QLabel>("newStringCaution").text().contains(QStringLiteral("eyes away")));
    wires.setCurrentCell(1, 0);
    CHECK(bench.find<QLabel>("wireSound").text().contains(wires.item(1, 1)->text()));
    const double chosen = wires.item(1, 1)->text().toDouble();
    bench.find<QPushButton>("fitWire").click();
    CHECK(bench.model.instrument().choirs[0].strings[30].diameter.value() == Approx(chosen));
    CHECK(bench.find<QLabel>("instrumentTold").text().contains(QStringLiteral("logbook")));
    CHECK(key.currentIndex() == 30); // it stays at its string
    bench.find<QPushButton>("undoInstrument").click();
    CHECK(bench.model.instrument().choirs[0].strings[30] == before);
}

TEST_CASE("another length asks for another wire", "[ui]") {
    const StringBench bench;
    bench.find<QComboBox>("newStringKey").setCurrentIndex(30);
    const auto& wires = bench.find<QTableWidget>("wireTable");
    const double thick = wires.item(0, 1)->text().toDouble();
    auto& length = bench.find<QDoubleSpinBox>("newStringLength");
    length.setValue(1.1 * length.value());
    // T ~ (d·L)²: the same tension on a longer string needs thinner wire.
    CHECK(wires.item(0, 1)->text().toDouble() < thick);
}

TEST_CASE("the settling plan says what it is known from", "[ui]") {
    StringBench bench;
    bench.find<QComboBox>("newStringKey").setCurrentIndex(30);
    const auto& plan = bench.find<QLabel>("settlingPlan");
    CHECK(plan.text().contains(QStringLiteral("common practice, no source")));
    CHECK(plan.text().contains(QStringLiteral("Bring it up again")));
    bench.model.setNewStrings({sankSlowly({0, 10}, 60.0), sankSlowly({0, 30}, 2.0)});
    CHECK(plan.text().contains(QStringLiteral("Learned from 2 new strings")));
    CHECK(plan.text().contains(QStringLiteral("put on 2 days ago")));
    bench.find<QComboBox>("newStringKey").setCurrentIndex(31);
    CHECK(plan.text().startsWith(QStringLiteral("Once it is on")));
    CHECK(plan.text().contains(QStringLiteral("Learned from 2 new strings")));
}
