#include "core/action/stagger_map.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <set>
#include <vector>

using namespace quillbench;

namespace {

// 4′ first, then back 8′, then front 8′, 0.8 mm apart: common practice, no source.
const std::vector<StaggerRow> kThreeRows{{2, 2.0, true}, {0, 2.8, true}, {1, 3.6, true}};
const std::vector<StaggerRow> kTwoRows{{0, 2.2, true}, {1, 3.0, true}};

struct Keyboard {
    std::vector<StaggerRow> rows = kThreeRows;
    std::map<std::size_t, double> wholeShift;                    ///< mm by register
    std::map<std::pair<std::size_t, std::size_t>, double> stray; ///< mm by key, register
    std::size_t keys = 61;
    int presses = 3;
    double jackScatter = 0.06; ///< mm
    double finger = 0.2;       ///< relative scatter of the speed
    double mistaken = 0.03;    ///< presses whose registers are confused
};

std::vector<SlowPress> pressed(const Keyboard& made, std::uint64_t seed) {
    Random random(seed);
    std::vector<SlowPress> presses;
    for (std::size_t key = 0; key < made.keys; ++key) {
        std::map<std::size_t, double> travel;
        for (const StaggerRow& row : made.rows) {
            travel[row.reg] = row.travel + made.jackScatter * random.normal();
            if (const auto whole = made.wholeShift.find(row.reg); whole != made.wholeShift.end()) {
                travel[row.reg] += whole->second;
            }
            if (const auto stray = made.stray.find({key, row.reg}); stray != made.stray.end()) {
                travel[row.reg] += stray->second;
            }
        }
        for (int i = 0; i < made.presses; ++i) {
            const double speed = 20.0 * std::exp(made.finger * random.normal()); // mm/s
            SlowPress press;
            press.key = key;
            press.sure = 0.9;
            for (const auto& [reg, at] : travel) {
                press.plucks.push_back({reg, at / speed + 0.0005 * random.normal(), 0.93});
            }
            if (random.uniform() < made.mistaken) {
                std::swap(press.plucks[0].reg, press.plucks[1].reg);
            }
            std::sort(press.plucks.begin(), press.plucks.end(), [](const auto& a, const auto& b) {
                return a.seconds < b.seconds;
            });
            presses.push_back(press);
        }
    }
    return presses;
}

const StaggerFinding* strayAt(const StaggerMap& map, std::size_t key) {
    const auto found = std::find_if(map.findings.begin(),
                                    map.findings.end(),
                                    [key](const StaggerFinding& f) { return f.key == key; });
    return found == map.findings.end() ? nullptr : &*found;
}

} // namespace

TEST_CASE(
    "a regulated keyboard is as intended, and at most two keys in a hundred are named falsely",
    "[action]") {
    std::size_t keys = 0;
    std::size_t named = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        Keyboard made;
        made.rows = seed % 2 == 0 ? kTwoRows : kThreeRows;
        const StaggerMap map = mapStagger(pressed(made, seed), made.rows);
        CHECK_FALSE(map.wholeIsOff());
        std::set<std::size_t> unlike;
        for (const StaggerFinding& finding : map.findings) {
            unlike.insert(finding.key);
        }
        keys += made.keys;
        named += unlike.size();
    }
    INFO(named << " of " << keys);
    CHECK(static_cast<double>(named) <= 0.02 * static_cast<double>(keys));
}

TEST_CASE("strays are found, with the jack to turn and the way", "[action]") {
    int found = 0;
    int named = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        Keyboard made;
        made.stray[{10, 0}] = -0.75; // back 8′ with the 4′
        made.stray[{25, 1}] = -1.2;  // front 8′ before the back 8′
        made.stray[{40, 1}] = 1.2;   // front 8′ far too late
        made.stray[{50, 2}] = 0.8;   // 4′ with the back 8′
        const StaggerMap map = mapStagger(pressed(made, seed), made.rows);
        const StaggerFinding* together = strayAt(map, 10);
        const StaggerFinding* wrong = strayAt(map, 25);
        const StaggerFinding* late = strayAt(map, 40);
        const StaggerFinding* four = strayAt(map, 50);
        for (const StaggerFinding* one : {together, wrong, late, four}) {
            found += one != nullptr ? 1 : 0;
        }
        if (together != nullptr && wrong != nullptr && late != nullptr && four != nullptr) {
            named += together->jack == 0U && together->turn == JackTurn::Later ? 1 : 0;
            named += wrong->fault == StaggerFault::WrongOrder && wrong->jack == 1U &&
                             wrong->turn == JackTurn::Later
                         ? 1
                         : 0;
            named += late->fault == StaggerFault::LastTooLate && late->jack == 1U ? 1 : 0;
            named += four->jack == 2U && four->turn == JackTurn::Earlier ? 1 : 0;
        }
    }
    INFO(found << " found, " << named << " named, of 160");
    CHECK(found >= 152);
    CHECK(named >= 136);
}

TEST_CASE("what a whole register does comes first and makes no list of 61 jacks", "[action]") {
    const auto seed = GENERATE(range(1U, 6U));
    Keyboard made;
    SECTION("a row that plucks after the next one") {
        made.wholeShift[0] = 1.4;
        made.stray[{30, 1}] = -0.7;
        const StaggerMap map = mapStagger(pressed(made, seed), made.rows);
        REQUIRE(map.wholeIsOff());
        CHECK(map.pairs[1].what == RowsDo::OtherWayRound);
        CHECK(map.findings.size() <= 3);
    }
    SECTION("two rows as one") {
        made.wholeShift[0] = 0.8;
        const StaggerMap map = mapStagger(pressed(made, seed), made.rows);
        CHECK(map.pairs[1].what == RowsDo::Together);
        CHECK(map.findings.size() <= 3);
    }
    SECTION("a row that moved a little towards the next") {
        made.wholeShift[0] = 0.5;
        const StaggerMap map = mapStagger(pressed(made, seed), made.rows);
        CHECK(map.pairs[1].what == RowsDo::TooNarrow);
    }
}

TEST_CASE("without adjusters the jack is named, but no screw", "[action]") {
    Keyboard made;
    for (StaggerRow& row : made.rows) {
        row.adjusters = false;
    }
    made.stray[{10, 0}] = -0.8;
    const StaggerMap map = mapStagger(pressed(made, 1), made.rows);
    const StaggerFinding* finding = strayAt(map, 10);
    REQUIRE(finding != nullptr);
    CHECK_FALSE(finding->adjusters);
}

TEST_CASE("a register that is never told apart on one key is named there", "[action]") {
    Keyboard made;
    std::vector<SlowPress> presses = pressed(made, 2);
    for (SlowPress& press : presses) {
        if (press.key == 33) {
            std::erase_if(press.plucks, [](const PressPluck& pluck) { return pluck.reg == 0; });
        }
    }
    const StaggerMap map = mapStagger(presses, made.rows);
    const StaggerFinding* finding = strayAt(map, 33);
    REQUIRE(finding != nullptr);
    CHECK(finding->fault == StaggerFault::PluckNotHeard);
    CHECK(finding->jack == 0U);
}

TEST_CASE("one press of a key, or a few keys, give no finding", "[action]") {
    Keyboard made;
    made.presses = 1;
    made.stray[{10, 0}] = -0.8;
    CHECK(mapStagger(pressed(made, 1), made.rows).findings.empty());
    made.presses = 3;
    made.keys = 4;
    CHECK_FALSE(mapStagger(pressed(made, 1), made.rows).enough);
    CHECK(mapStagger({}, made.rows).keys.empty());
}
