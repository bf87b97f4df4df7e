#include "tests/support/alloc_guard.hpp"

#include <cstdlib>
#include <new>

namespace {

thread_local bool counting = false;
thread_local std::size_t taken = 0;
thread_local std::size_t given = 0;

void* take(std::size_t size, std::size_t alignment) {
    taken += counting ? 1U : 0U;
    // aligned_alloc asks for whole multiples
    const std::size_t whole = (size + alignment - 1) / alignment * alignment;
    void* const memory = std::aligned_alloc(alignment, whole == 0 ? alignment : whole);
    if (memory == nullptr) {
        throw std::bad_alloc();
    }
    return memory;
}

void give(void* memory) {
    given += counting && memory != nullptr ? 1U : 0U;
    std::free(memory);
}

} // namespace

void* operator new(std::size_t size) {
    return take(size, alignof(std::max_align_t));
}

void* operator new[](std::size_t size) {
    return take(size, alignof(std::max_align_t));
}

void* operator new(std::size_t size, std::align_val_t alignment) {
    return take(size, static_cast<std::size_t>(alignment));
}

void* operator new[](std::size_t size, std::align_val_t alignment) {
    return take(size, static_cast<std::size_t>(alignment));
}

void operator delete(void* memory) noexcept {
    give(memory);
}

void operator delete[](void* memory) noexcept {
    give(memory);
}

void operator delete(void* memory, std::size_t /*size*/) noexcept {
    give(memory);
}

void operator delete[](void* memory, std::size_t /*size*/) noexcept {
    give(memory);
}

void operator delete(void* memory, std::align_val_t /*alignment*/) noexcept {
    give(memory);
}

void operator delete[](void* memory, std::align_val_t /*alignment*/) noexcept {
    give(memory);
}

void operator delete(void* memory, std::size_t /*size*/, std::align_val_t /*alignment*/) noexcept {
    give(memory);
}

void operator delete[](void* memory,
                       std::size_t /*size*/,
                       std::align_val_t /*alignment*/) noexcept {
    give(memory);
}

namespace quillbench::test {

AllocGuard::AllocGuard() {
    taken = 0;
    given = 0;
    counting = true;
}

AllocGuard::~AllocGuard() {
    counting = false;
}

std::size_t AllocGuard::allocations() const {
    return taken;
}

std::size_t AllocGuard::releases() const {
    return given;
}

} // namespace quillbench::test
