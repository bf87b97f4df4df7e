#include "core/support/contract.hpp"

#include <cstdio>
#include <cstdlib>

namespace quillbench::detail {

void contractBroken(const char* kind, const char* condition, const char* file, int line) noexcept {
    std::fprintf(stderr, "%s:%d: broken contract (%s): %s\n", file, line, kind, condition);
    std::abort();
}

} // namespace quillbench::detail
