#pragma once

#include "core/support/random.hpp"
#include "core/virtual/virtual_instrument.hpp"

namespace quillbench {

/// A pin in its block. The hammer turns its head; its foot follows once the friction of the wood is
/// overcome (backlash), sometimes with a jump (slip), and part of the twist is felt by the string until the
/// hammer is let go (spring-back). Angles in degrees, positive sharpens, 0 where it stood at first.
class TuningPin {
public:
    TuningPin(PinBehaviour behaviour, Random random);

    void turn(double degrees);

    void letGo();

    /// What the string feels.
    [[nodiscard]] double angle() const;

private:
    PinBehaviour behaviour_;
    Random random_;
    double head_ = 0.0;
    double foot_ = 0.0;
};

} // namespace quillbench
