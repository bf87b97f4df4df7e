#include "audio/spsc_ring.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <deque>
#include <vector>

using namespace quillbench;

TEST_CASE("a ring does what a bounded queue does, whatever is pushed and popped", "[unit]") {
    const auto seed = GENERATE(range(1, 21));
    Random random(static_cast<std::uint64_t>(seed));
    SpscRing<int> ring(1 + random.bits() % 40);
    std::deque<int> model; // a bounded queue written the plain way
    int next = 0;
    for (int step = 0; step < 2000; ++step) {
        const std::size_t count = random.bits() % 17;
        if (random.bits() % 2 == 0) {
            std::vector<int> items(count);
            for (int& item : items) {
                item = next++;
            }
            const std::size_t fits = std::min(count, ring.capacity() - model.size());
            CHECK(ring.push(items) == fits);
            model.insert(model.end(), items.begin(), items.begin() + static_cast<long>(fits));
        } else {
            std::vector<int> items(count);
            const std::size_t there = std::min(count, model.size());
            REQUIRE(ring.pop(items) == there);
            for (std::size_t i = 0; i < there; ++i) {
                CHECK(items[i] == model.front());
                model.pop_front();
            }
        }
        CHECK(ring.size() == model.size());
    }
}

TEST_CASE("a full ring refuses and an empty one gives nothing", "[unit]") {
    SpscRing<int> ring(4);
    REQUIRE(ring.capacity() == 4);
    for (int i = 0; i < 4; ++i) {
        CHECK(ring.tryPush(i));
    }
    CHECK_FALSE(ring.tryPush(99));
    int item = -1;
    for (int i = 0; i < 4; ++i) {
        CHECK(ring.tryPop(item));
        CHECK(item == i);
    }
    CHECK_FALSE(ring.tryPop(item));
}
