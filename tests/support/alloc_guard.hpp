#pragma once

#include <cstddef>

namespace quillbench::test {

/// Counts what the calling thread takes from and gives back to the heap through C++ while it lives. Linking
/// alloc_guard.cpp replaces the global operator new; not together with sanitizers, which replace it too.
class AllocGuard {
public:
    AllocGuard();
    AllocGuard(const AllocGuard&) = delete;
    AllocGuard& operator=(const AllocGuard&) = delete;
    ~AllocGuard();

    [[nodiscard]] std::size_t allocations() const;
    [[nodiscard]] std::size_t releases() const;
};

} // namespace quillbench::test
