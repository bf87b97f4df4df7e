#pragma once

#include "app/models/choices.hpp"

#include <string>

namespace quillbench {

/// All that the plan of a session is made from, as the logbook keeps it. The same choice gives the same text; options
/// that are as usual are not in it, so that sessions kept before there were any read alike.
[[nodiscard]] std::string inputsOf(const TuningChoice& choice, bool virtualInstrument);

/// The options that a session was begun with, out of inputsOf(); as usual where it says nothing of them. Tolerances
/// beyond their range are brought into it.
[[nodiscard]] SessionOptions optionsIn(const std::string& inputs);

/// The choice with the pitch that a session went on at after its first look, out of inputsOf(), where it was begun at
/// the same standard; unchanged otherwise.
[[nodiscard]] TuningChoice withPitchIn(const std::string& inputs, TuningChoice choice);

} // namespace quillbench
