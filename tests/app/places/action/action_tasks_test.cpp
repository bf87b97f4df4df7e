#include "tests/app/places/action/action_bench.hpp"

#include <algorithm>
#include <set>

using namespace quillbench;
using namespace quillbench::test;

namespace {

constexpr std::size_t kLowKey = 22;
constexpr std::size_t kHighKey = 32;

std::set<std::size_t> keysNamed(const ActionModel& model) {
    std::set<std::size_t> keys;
    for (const ActionJob& job : jobsOf(model, findingsOf(model))) {
        keys.insert(job.key);
    }
    return keys;
}

} // namespace

TEST_CASE("a jack that strays is found by slow presses, with its register and the way to turn",
          "[ui][action][slow]") {
    // Its row of back 8′ plucks 0.8 mm after the 4′: this jack plucks with it.
    ActionBench bench({{StringFault::Kind::StrayJack, {0, 26}, -0.75}});
    bench.model.choose(ActionTask::Stagger);
    constexpr std::size_t kLastSlow = 29;
    for (const std::size_t reg : {0U, 1U, 2U}) {
        bench.draw({reg});
        for (std::size_t key = kLowKey; key < kLastSlow; ++key) {
            bench.play(key, 0.75, 0.3);
        }
        bench.listen(0.5);
    }
    bench.draw({0, 1, 2});
    CHECK(bench.model.keysKnownAlone() >= 5);
    bench.player.setKeySpeed(0.1);
    for (std::size_t key = kLowKey; key < kLastSlow; ++key) {
        for (int press = 0; press < 2; ++press) {
            bench.play(key, 0.9, 1.1);
        }
    }
    bench.listen(1.0);
    const StaggerMap map = bench.model.stagger();
    CHECK(map.enough);
    CHECK(map.keys.size() == kLastSlow - kLowKey);
    CHECK_FALSE(map.wholeIsOff());
    REQUIRE(keysNamed(bench.model) == std::set<std::size_t>{26});
    CHECK(map.findings.front().jack == 0U);
    CHECK(map.findings.front().turn == JackTurn::Later);
    const std::vector<ActionJob> jobs = jobsOf(bench.model, findingsOf(bench.model));
    CHECK(jobs.front().what.contains(QStringLiteral("stop at resistance")));
}

TEST_CASE("a late damper and a jack that hangs are found by short strokes", "[ui][action][slow]") {
    ActionBench bench({{StringFault::Kind::LateDamper, {0, 25}, 0.35},
                       {StringFault::Kind::HangingJack, {0, 29}, 0.0}});
    bench.model.choose(ActionTask::Dampers);
    bench.draw({0});
    for (int round = 0; round < 2; ++round) {
        for (std::size_t key = kLowKey; key < kHighKey; ++key) {
            bench.play(key, 0.35, 2.2);
        }
    }
    bench.listen(2.0);
    const DampingMap map = bench.model.damping();
    for (const DampingKey& key : map.keys) {
        UNSCOPED_INFO("key " << key.key << ": held " << key.heldSeconds << " stop "
                             << key.stopSeconds << " undamped " << key.undamped << " of "
                             << key.count);
    }
    CHECK(keysNamed(bench.model).contains(25));
    CHECK(keysNamed(bench.model).size() <= 2);
}

TEST_CASE("a key struck ten times repeats, and a hanging jack does not", "[ui][action]") {
    ActionBench bench({{StringFault::Kind::HangingJack, {0, 29}, 0.0}});
    bench.model.choose(ActionTask::Repetition);
    bench.draw({0});
    for (const std::size_t key : {24U, 29U}) {
        for (int stroke = 0; stroke < 10; ++stroke) {
            bench.play(key, 0.12, 0.12);
        }
        bench.listen(3.0);
    }
    const auto repeats = bench.model.repetition();
    REQUIRE(repeats.contains(24));
    CHECK(repeats.at(24).plucks.size() == 10);
    CHECK(repeats.at(24).missed == 0);
    REQUIRE(repeats.contains(29));
    CHECK(repeats.at(29).hangs);
    CHECK(keysNamed(bench.model) == std::set<std::size_t>{29});
}

TEST_CASE("the key that is struck is known however seldom the window looks", "[ui][action]") {
    const double every = GENERATE(0.033, 0.09, 0.23);
    ActionBench bench({{StringFault::Kind::HangingJack, {0, 13}, 0.0}});
    bench.model.choose(ActionTask::Repetition);
    bench.draw({0});
    bench.listen(1.0);
    std::vector<std::size_t> struck;
    for (const std::size_t key : {10U, 11U, 40U, 13U}) {
        struck.push_back(key);
        for (int stroke = 0; stroke < 10; ++stroke) {
            bench.lookEvery = std::min(every, 0.12);
            bench.play(key, 0.12, 0.12);
        }
        bench.lookEvery = every;
        bench.listen(3.0);
    }
    const auto repeats = bench.model.repetition();
    INFO("a look every " << every << " s, " << repeats.size() << " keys, the lowest "
                         << (repeats.empty() ? 0 : repeats.begin()->first));
    CHECK(repeats.size() == struck.size());
    for (const std::size_t key : struck) {
        REQUIRE(repeats.contains(key));
        CHECK(repeats.at(key).plucks.size() == (key == 13 ? 1 : 10));
    }
    CHECK(keysNamed(bench.model) == std::set<std::size_t>{13});
}
