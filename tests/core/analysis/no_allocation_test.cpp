// A program of its own: it counts every allocation.
#include "core/analysis/analyser.hpp"
#include "tests/support/string_trials.hpp"

#include <catch2/catch.hpp>

#include <atomic>
#include <cstdlib>
#include <new>

namespace {

std::atomic<long> allocations{0};

} // namespace

// Not inlined: GCC would take the pair malloc and delete, or new and free, for a mistake.
[[gnu::noinline]] void* operator new(std::size_t size) {
    ++allocations;
    if (void* const memory = std::malloc(size == 0 ? 1 : size)) {
        return memory;
    }
    throw std::bad_alloc();
}

[[gnu::noinline]] void operator delete(void* memory) noexcept {
    std::free(memory);
}

[[gnu::noinline]] void operator delete(void* memory, std::size_t) noexcept {
    std::free(memory);
}

using namespace quillbench;
using namespace quillbench::trials;

TEST_CASE("the count of allocations bites", "[rt]") {
    const long before = allocations;
    const std::vector<float> something(100);
    CHECK(allocations > before);
    CHECK(something.size() == 100);
}

TEST_CASE("the analyser allocates nothing while it listens", "[rt]") {
    const SampleRate rate(48000.0);
    std::vector<float> sound(432000);
    Random random(1);
    addNoise(sound, random, Decibel::fromAmplitude(1e-3), true);
    auto target = std::make_shared<AnalysisTarget>();
    target->strings = choirStrings(0, 0.5, 415.0, 29, 61);
    for (std::size_t i = 0; i < 8; ++i) {
        const double at = 48000.0 * (0.5 + 0.7 * static_cast<double>(i));
        const double hz = target->strings[7 * i].target.value();
        SyntheticPluck(drawString(random, hz)).addTo(sound, rate, at, Decibel::fromAmplitude(0.1));
        addKnock(sound, rate, random, at + 16800.0, Decibel::fromAmplitude(0.05));
    }
    Analyser analyser(rate, {});
    analyser.setTarget(target);
    std::uint64_t plucks = 0;
    std::uint64_t gaps = 0;
    int finished = 0;
    const std::span<const float> whole(sound);
    const long before = allocations;
    for (std::size_t i = 0; i + 256 <= sound.size(); i += 256) {
        const bool lost = i == 358400;
        const auto shot =
            analyser.push({FrameIndex(static_cast<std::int64_t>(i)), whole.subspan(i, 256), lost});
        if (shot) {
            plucks = shot->pluckNumber;
            gaps = shot->gaps;
            finished += shot->finished ? 1 : 0;
        }
    }
    CHECK(allocations == before);
    CHECK(plucks >= 6);
    CHECK(finished >= 6);
    CHECK(gaps == 1);
}
