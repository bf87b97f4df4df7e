// A program of its own: it counts every allocation.
#include "tests/core/virtual/playing.hpp"

#include <catch2/catch.hpp>

#include <atomic>
#include <cstdlib>
#include <new>

namespace {

std::atomic<long> allocations{0};

} // namespace

void* operator new(std::size_t size) {
    ++allocations;
    if (void* const memory = std::malloc(size == 0 ? 1 : size)) {
        return memory;
    }
    throw std::bad_alloc();
}

void* operator new(std::size_t size, std::align_val_t alignment) {
    ++allocations;
    const auto step = static_cast<std::size_t>(alignment);
    if (void* const memory = std::aligned_alloc(step, (size + step - 1) / step * step)) {
        return memory;
    }
    throw std::bad_alloc();
}

void operator delete(void* memory, std::align_val_t) noexcept {
    std::free(memory);
}

void operator delete(void* memory, std::size_t, std::align_val_t) noexcept {
    std::free(memory);
}

void operator delete(void* memory) noexcept {
    std::free(memory);
}

void operator delete(void* memory, std::size_t) noexcept {
    std::free(memory);
}

using namespace quillbench;
using namespace quillbench::test;
using Kind = VirtualCommand::Kind;

TEST_CASE("the count of allocations bites", "[rt]") {
    const long before = allocations;
    const std::vector<float> something(100);
    CHECK(allocations > before);
    CHECK(something.size() == 100);
}

TEST_CASE("nothing is allocated while the instrument plays", "[rt]") {
    const Instrument& made = exampleInstruments().front();
    VirtualSettings settings = quiet(made);
    settings.room.noise = Decibel::fromAmplitude(1e-3);
    settings.room.hum = Decibel::fromAmplitude(1e-3);
    settings.actionNoise = true;
    settings.soundingLimit = 6;
    VirtualInstrument instrument(made, settings);
    std::vector<float> block(480);
    const long before = allocations;
    for (std::size_t i = 0; i < 60; ++i) {
        const std::size_t key = (7 * i) % made.compass.keys.size();
        instrument.apply(onKey(i % 3 == 2 ? Kind::KeyUp : Kind::KeyDown, 0, key));
        instrument.apply(onString(Kind::TurnPin, 0, {0, key}, 0.1));
        instrument.apply(onString(Kind::PluckString, 0, {i % 2, key}));
        if (i % 20 == 19) {
            instrument.apply(command(Kind::DampAll, 0));
        }
        instrument.render(block);
        while (instrument.takePluck()) {
        }
    }
    CHECK(allocations == before);
    CHECK(rms(block) > 0.0);
}
