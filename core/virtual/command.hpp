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
        PluckString, ///< one string alone, by hand; it rings until its key goes up or it is damped
        DampString,  ///< one string is damped as by its jack
        RegisterOn,  ///< register `reg`
        RegisterOff,
        Couple, ///< every key of the lowest manual takes the other manuals' jacks with it
        Uncouple,
        TurnPin, ///< pin of `string` by `amount` degrees (positive sharpens); 0 lets the hammer go
        PressString, ///< the string is pressed between nut and pin: `amount` cents sharp until 0
        LayFelt, ///< between the strings of choir `string.choir`: none of them rings until it is taken away
        TakeFelt,
        DampAll,
    };

    Kind kind = Kind::KeyDown;
    FrameIndex at; ///< past instants are done at once
    std::size_t manual = 0;
    std::size_t key = 0;
    std::size_t reg = 0;
    StringId string;
    double amount =
        0.0; ///< degrees, cents, key speed or strength of the pluck in (0, 1] (0 = ordinary)
};

static_assert(std::is_trivially_copyable_v<VirtualCommand>);

} // namespace quillbench
