#pragma once

#include "audio/analysis_engine.hpp"
#include "core/action/stagger_map.hpp"
#include "core/dsp/stagger/stagger_listener.hpp"

#include <cstdint>
#include <future>
#include <memory>
#include <vector>

namespace quillbench {

/// One pluck of a register and key alone, 16 kHz.
using SoloKept = std::shared_ptr<const std::vector<float>>;

inline constexpr double kSoloRate = 16000.0; ///< frames a second

/// What is asked about one slow press.
struct PressAsked {
    std::size_t key = 0;
    std::uint64_t on = 0;         ///< registers
    std::vector<StaggerRow> rows; ///< that are on
    StaggerQuestion question;     ///< a choir for each of them
    std::vector<SoloKept> solos;  ///< what the question looks at
};

/// What was made of one slow press.
struct DecidedPress {
    std::uint64_t on = 0; ///< registers
    std::size_t rows = 0; ///< that were on
    bool known = false;   ///< each by its voice alone
    SlowPress press;
};

/// Listens to slow presses on another thread: half a second's work each. **Thread** GUI; the destructor waits.
class PressListener {
public:
    void listen(PressAsked asked, KeptSound sound);

    /// What was decided since.
    [[nodiscard]] std::vector<DecidedPress> take();

    void forget();

    /// Waits for what is being listened to; take() has it then.
    void finish() const;

private:
    std::vector<std::future<DecidedPress>> deciding_;
};

} // namespace quillbench
