#pragma once

namespace quillbench::soak {

/// The longest that PortAudio has waited for one of its callbacks, in milliseconds, the first hundred left out (pages and
/// caches are cold). Measured around the callback, by taking the place of Pa_OpenStream when the program is linked: under
/// the rules of the callback itself nothing asks the clock. **Thread** any.
[[nodiscard]] double longestCallbackMs();

} // namespace quillbench::soak
