#pragma once

#include "core/analysis/pair_heard.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <vector>

namespace quillbench {

/// The breath of a pair made audible at a part of its speed: a tone at `at` that swells and sinks as the breath did, its
/// loudest point at a tenth of full scale, with soft ends. **Range** 0 < speed ≤ 1; `at` below half the rate; empty for a
/// breath of fewer than two points. **Accuracy** slow_breath_test.
[[nodiscard]] std::vector<float>
slowBreath(const Breath& breath, Hertz at, double speed, SampleRate rate);

} // namespace quillbench
