#include "core/drift/short_list.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace quillbench;

namespace {

StringId string(std::size_t course) {
    return StringId{0, course};
}

bool allRight(const std::map<StringId, Cents>& deviations,
              const std::vector<HeardInterval>& intervals,
              Cents shift,
              const std::set<StringId>& tuned) {
    const auto at = [&](StringId id) {
        const auto found = deviations.find(id);
        return tuned.count(id) != 0        ? shift
               : found == deviations.end() ? Cents(0.0)
                                           : found->second;
    };
    for (const HeardInterval& one : intervals) {
        if (abs(at(one.upper) - at(one.lower)) > one.tolerance + Cents(1e-9)) {
            return false;
        }
    }
    return true;
}

/// Tries every set of strings.
std::size_t bruteForce(const std::map<StringId, Cents>& deviations,
                       const std::vector<HeardInterval>& intervals,
                       Cents shift,
                       std::size_t strings) {
    std::size_t fewest = strings;
    for (unsigned mask = 0; mask < (1U << strings); ++mask) {
        std::set<StringId> tuned;
        for (std::size_t i = 0; i < strings; ++i) {
            if ((mask >> i) & 1U) {
                tuned.insert(string(i));
            }
        }
        if (tuned.size() < fewest && allRight(deviations, intervals, shift, tuned)) {
            fewest = tuned.size();
        }
    }
    return fewest;
}

} // namespace

TEST_CASE("the short list is as short as trying every set finds", "[unit]") {
    Random random(23);
    for (int run = 0; run < 300; ++run) {
        constexpr std::size_t kStrings = 10;
        std::map<StringId, Cents> deviations;
        for (std::size_t i = 0; i < kStrings; ++i) {
            deviations[string(i)] = Cents(random.uniform(-2.0, 2.0));
        }
        std::vector<HeardInterval> intervals;
        for (std::size_t a = 0; a < kStrings; ++a) {
            for (std::size_t b = a + 1; b < kStrings; ++b) {
                if (random.uniform() < 0.35) {
                    intervals.push_back(
                        {string(a), string(b), Cents(random.uniform(0.5, 2.0)), 1.0});
                }
            }
        }
        const Cents shift(random.uniform(-0.5, 0.5));
        const ShortList list = shortList(deviations, intervals, shift);
        std::set<StringId> tuned;
        for (const ShortListed& one : list.strings) {
            tuned.insert(one.string);
            CHECK(one.move.value() == Approx((shift - deviations[one.string]).value()));
        }
        INFO("run " << run);
        CHECK(list.fewest);
        CHECK(allRight(deviations, intervals, shift, tuned));
        CHECK(tuned.size() == bruteForce(deviations, intervals, shift, kStrings));
    }
}

TEST_CASE("an instrument in tune is left alone", "[unit]") {
    const std::map<StringId, Cents> deviations{{string(0), Cents(0.4)}, {string(1), Cents(-0.3)}};
    const std::vector<HeardInterval> intervals{{string(0), string(1), Cents(1.0), 1.0}};
    const ShortList list = shortList(deviations, intervals);
    CHECK(list.strings.empty());
    CHECK(list.wrongBefore == 0);
}

TEST_CASE("the string that mends most comes first", "[unit]") {
    std::map<StringId, Cents> deviations;
    std::vector<HeardInterval> intervals;
    for (std::size_t i = 1; i < 6; ++i) {
        intervals.push_back({string(0), string(i), Cents(1.0), 1.0});
    }
    intervals.push_back({string(6), string(7), Cents(1.0), 1.0});
    deviations[string(0)] = Cents(3.0);
    deviations[string(7)] = Cents(-3.0);
    const ShortList list = shortList(deviations, intervals);
    REQUIRE(list.strings.size() == 2);
    CHECK(list.strings[0].string == string(0));
    CHECK(list.strings[0].gain == Approx(5.0));
    CHECK(list.strings[1].string == string(7));
}

TEST_CASE("an instrument that sank as a whole keeps its pitch and has few strings tuned",
          "[unit]") {
    // Twenty strings 6 cents flat, two of them elsewhere: against the standard any list is as long as the keyboard
    // where a tuned string draws its neighbours along; re-anchored it is two.
    std::map<StringId, Cents> deviations;
    std::vector<HeardInterval> intervals;
    for (std::size_t i = 0; i < 20; ++i) {
        deviations[string(i)] = Cents(-6.0);
        if (i > 0) {
            intervals.push_back({string(i - 1), string(i), Cents(1.0), 1.0});
        }
    }
    deviations[string(4)] = Cents(-10.0);
    deviations[string(11)] = Cents(-3.0);
    CHECK(shortList(deviations, intervals).strings.size() == 20);
    const ShortList list = reanchored(deviations, intervals);
    CHECK(list.shift.value() == Approx(-6.0));
    CHECK(list.strings.size() == 2);
    CHECK(reanchored(deviations, intervals, Cents(2.0)).strings.size() == 20);
}
