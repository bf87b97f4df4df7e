#pragma once

#include <span>
#include <vector>

namespace quillbench {

/// The same sound at another sample rate; sample i of the result stands for the instant i/toHz.
/// **Range** both rates 8 000 to 192 000 Hz. **Accuracy** −60 dB up to 0.4 of the lower rate
/// (resample_test). **Source** windowed sinc, Kaiser's window [Kaiser1974].
[[nodiscard]] std::vector<double>
resample(std::span<const float> samples, double fromHz, double toHz);

} // namespace quillbench
