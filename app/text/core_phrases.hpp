#pragma once

#include <span>

namespace quillbench {

/// The context of the engine's phrases in the translations.
inline constexpr const char* kCoreContext = "Core";

/// What the engine says, with %1 … %9 for what it puts in: what is wrong and how to mend it. What stands before a colon
/// (a file, a field) is left out.
[[nodiscard]] std::span<const char* const> errorPhrases();

/// Likewise what it says of fields, lines and cells of files that people write.
[[nodiscard]] std::span<const char* const> fieldPhrases();

/// Names and notes of its examples, registers, wires, temperaments and bearing plans.
[[nodiscard]] std::span<const char* const> namePhrases();

} // namespace quillbench
