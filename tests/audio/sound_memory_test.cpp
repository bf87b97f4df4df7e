#include "audio/sound_memory.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <vector>

using namespace quillbench;

TEST_CASE("what is kept is the last of what was heard, however it was cut", "[audio]") {
    const auto seed = GENERATE(range(1U, 9U));
    Random random(seed);
    SoundMemory memory(1000);
    std::int64_t at = 0;
    for (int block = 0; block < 40; ++block) {
        std::vector<float> samples(static_cast<std::size_t>(random.uniform(1.0, 256.0)));
        for (std::size_t i = 0; i < samples.size(); ++i) {
            samples[i] = static_cast<float>(at + static_cast<std::int64_t>(i));
        }
        memory.push({FrameIndex(at), samples, false});
        at += static_cast<std::int64_t>(samples.size());
    }
    CHECK(memory.end() == FrameIndex(at));
    CHECK(memory.first() == FrameIndex(std::max<std::int64_t>(0, at - 1000)));
    const std::vector<float> all = memory.copy(FrameIndex(0), FrameIndex(at + 50));
    REQUIRE(all.size() == 1000);
    for (std::size_t i = 0; i < all.size(); ++i) {
        REQUIRE(all[i] == Approx(static_cast<double>(at - 1000 + static_cast<std::int64_t>(i))));
    }
    CHECK(memory.copy(FrameIndex(at - 10), FrameIndex(at - 4)).size() == 6);
    CHECK(memory.copy(FrameIndex(at - 4), FrameIndex(at - 10)).empty());
}

TEST_CASE("a gap forgets what was before", "[audio]") {
    SoundMemory memory(1000);
    const std::vector<float> samples(100, 0.5F);
    memory.push({FrameIndex(0), samples, false});
    memory.push({FrameIndex(150), samples, false});
    CHECK(memory.first() == FrameIndex(150));
    CHECK(memory.copy(FrameIndex(0), FrameIndex(400)).size() == 100);
    memory.push({FrameIndex(250), samples, true});
    CHECK(memory.first() == FrameIndex(250));
}
