#pragma once

#include "core/instrument/instrument.hpp"
#include "core/units/frames.hpp"

#include <cstddef>
#include <type_traits>

namespace quillbench {

/// Something a player does to the virtual instrument at an instant. Trivially copyable: travels in a
/// single-producer queue, and none is lost.
struct VirtualCommand {
    enum class Kind {
        KeyDown, ///< key `key` on manual `manual` goes down; the registers that are on pluck in their order
        KeyUp,       ///< the key is let go: jacks fall, dampers touch
        PluckString, ///< one string alone, by hand
        RegisterOn,  ///< register `reg`
        RegisterOff,
        TurnPin,     ///< pin of `string` by `amount` degrees (positive sharpens)
        PressString, ///< the string is pressed between nut and pin: `amount` cents sharp until 0
        DampAll,
    };

    Kind kind = Kind::KeyDown;
    FrameIndex at; ///< past instants are done at once
    std::size_t manual = 0;
    std::size_t key = 0;
    std::size_t reg = 0;
    StringId string;
    double amount = 0.0; ///< degrees, cents, or key speed in (0, 1] (0 = ordinary)
};

static_assert(std::is_trivially_copyable_v<VirtualCommand>);

} // namespace quillbench
