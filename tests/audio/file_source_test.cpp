#include "audio/file_source.hpp"
#include "core/support/random.hpp"
#include "tests/support/deadline.hpp"
#include "tests/support/sound_files.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>

#include <chrono>
#include <limits>
#include <vector>

using namespace quillbench;

namespace {

std::vector<float> noise(std::size_t count) {
    Random random(21);
    std::vector<float> samples(count);
    for (float& sample : samples) {
        sample = static_cast<float>(random.uniform(-1.0, 1.0));
    }
    return samples;
}

} // namespace

TEST_CASE("a file gives the same samples as a source of sound", "[unit]") {
    const test::TemporaryFolder folder;
    const auto path = folder.path() / "a.wav";
    const auto samples = noise(GENERATE(1U, 256U, 10000U));
    REQUIRE(test::writeSound(path, samples, 44100, 1, SF_FORMAT_WAV | SF_FORMAT_FLOAT));
    auto source = FileSource::open(path, Pace::AsTaken);
    REQUIRE(source);
    CHECK((*source)->sampleRate().hz() == 44100.0);
    AudioBlock block;
    CHECK_FALSE((*source)->take(block)); // not started
    CHECK((*source)->state().phase == EnginePhase::Idle);
    REQUIRE((*source)->start());
    CHECK((*source)->state().phase == EnginePhase::Running);
    std::vector<float> taken;
    while ((*source)->take(block)) {
        CHECK(block.first.value() == static_cast<std::int64_t>(taken.size()));
        CHECK_FALSE(block.discontinuity);
        const auto view = block.view();
        taken.insert(taken.end(), view.samples.begin(), view.samples.end());
    }
    CHECK(taken == samples);
    CHECK((*source)->state().phase == EnginePhase::Ended);
}

TEST_CASE("a paced file comes no faster than it sounds", "[unit]") {
    const test::TemporaryFolder folder;
    const auto path = folder.path() / "a.wav";
    REQUIRE(test::writeSound(path, noise(12000), 48000, 1, SF_FORMAT_WAV | SF_FORMAT_FLOAT));
    auto source = FileSource::open(path, Pace::RealTime);
    REQUIRE(source);
    const auto start = std::chrono::steady_clock::now();
    REQUIRE((*source)->start());
    std::int64_t taken = 0;
    AudioBlock block;
    bool early = false;
    CHECK(test::becomesTrue(
        [&] {
            while ((*source)->take(block)) {
                taken += block.count;
                const Seconds passed = std::chrono::steady_clock::now() - start;
                early = early || static_cast<double>(taken) / 48000.0 > passed.count();
            }
            return (*source)->state().phase == EnginePhase::Ended;
        },
        Seconds(20)));
    CHECK(taken == 12000);
    CHECK_FALSE(early);
}

TEST_CASE("a file that turns out damaged ends as Failed and says why", "[unit]") {
    const test::TemporaryFolder folder;
    const auto path = folder.path() / "a.wav";
    auto samples = noise(3000);
    samples[2000] = std::numeric_limits<float>::infinity();
    REQUIRE(test::writeSound(path, samples, 48000, 1, SF_FORMAT_WAV | SF_FORMAT_FLOAT));
    auto source = FileSource::open(path, Pace::AsTaken);
    REQUIRE(source);
    REQUIRE((*source)->start());
    AudioBlock block;
    int blocks = 0;
    while ((*source)->take(block)) {
        ++blocks;
    }
    CHECK(blocks == 7); // 1792 frames
    const EngineState state = (*source)->state();
    CHECK(state.phase == EnginePhase::Failed);
    REQUIRE(state.error);
    CHECK(state.error->text.find("sample 2000") != std::string::npos);
}
