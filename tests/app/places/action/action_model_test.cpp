#include "tests/app/places/action/action_bench.hpp"

#include <algorithm>
#include <set>

using namespace quillbench;
using namespace quillbench::test;

namespace {

constexpr std::size_t kFirstKey = 18;
constexpr std::size_t kLastKey = 38;

std::set<std::size_t> keysToDo(const ActionModel& model) {
    std::set<std::size_t> keys;
    for (const ActionJob& job : jobsOf(model, findingsOf(model))) {
        keys.insert(job.key);
    }
    return keys;
}

} // namespace

TEST_CASE("weak plectra of the virtual instrument are found by playing it", "[ui][action]") {
    ActionBench bench({{StringFault::Kind::WeakPlectrum, {0, 23}, 0.3},
                       {StringFault::Kind::WeakPlectrum, {0, 32}, 0.28}});
    bench.model.choose(ActionTask::Evenness);
    bench.draw({0});
    for (int round = 0; round < 2; ++round) {
        for (std::size_t key = kFirstKey; key < kLastKey; ++key) {
            bench.play(key, 0.8, 0.25);
        }
    }
    bench.listen(1.0);
    const EvennessReport report = bench.model.evenness();
    for (const VoicePoint& point : report.curve(VoiceQuality::Strength).points) {
        UNSCOPED_INFO("key " << point.key << ": " << point.away << " dB of " << point.count);
    }
    CHECK(report.keys == kLastKey - kFirstKey);
    CHECK(keysToDo(bench.model) == std::set<std::size_t>{23, 32});
    for (const VoiceFinding& finding : report.findings) {
        CHECK(finding.cause != VoiceCause::Place);
    }
    CHECK(bench.model.keysKnownAlone() == kLastKey - kFirstKey);
}
