#pragma once

namespace quillbench::detail {

/// Prints the broken promise to standard error and aborts. Never called from an audio callback.
[[noreturn]] void
contractBroken(const char* kind, const char* condition, const char* file, int line) noexcept;

} // namespace quillbench::detail

/// What a function asks of its caller; checked in every build.
#define EXPECTS(condition)                                                                         \
    ((condition)                                                                                   \
         ? static_cast<void>(0)                                                                    \
         : ::quillbench::detail::contractBroken("expects", #condition, __FILE__, __LINE__))

/// What a function promises its caller; checked in every build.
#define ENSURES(condition)                                                                         \
    ((condition)                                                                                   \
         ? static_cast<void>(0)                                                                    \
         : ::quillbench::detail::contractBroken("ensures", #condition, __FILE__, __LINE__))
