#pragma once

#include "core/pitch/note.hpp"

#include <span>
#include <string>
#include <string_view>

namespace quillbench {

/// One line of the grammar of Helmholtz names.
struct NoteNameRule {
    std::string_view written;
    std::string_view means;
};

/// The grammar that parseHelmholtz reads, for the manual and for --help.
[[nodiscard]] std::span<const NoteNameRule> helmholtzGrammar();

/// "c'" for C4, "A" for A2, "G," for G1, "f♯'" for F♯4. B natural is written H and B flat B♭, which neither the
/// English nor the German reader can take for the other. **Source** [Helmholtz1863].
[[nodiscard]] std::string toHelmholtz(const Note& note);

/// Reads a Helmholtz name. **Errors** BadArgument; what can be read in two ways (B, CC, c4, C') is refused with
/// both readings named.
[[nodiscard]] Result<Note> parseHelmholtz(std::string_view text);

} // namespace quillbench
