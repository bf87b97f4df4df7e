#pragma once

#include <optional>

namespace quillbench {

/// Learns which side of pure a string lies from how the beat of a pair moves while the player turns its pin, where
/// neither string was heard alone: the string turned sharper and the beat got faster, so it was sharp already. A
/// sequential test over plucks [Wald1945]: between two plucks the middle of the two lines moves by half of what
/// the upper string moved, and that must agree with the change of the signed beat; a beat that went through stillness
/// changes sides.
/// **Thread** any; a value.
class DirectionByMovement {
public:
    /// One pluck: size of the beat and middle of the two lines, both at the lowest pair, in Hz, with their
    /// standard deviations (> 0).
    void pluck(double size, double sizeDeviation, double middle, double middleDeviation);

    /// Probability that the upper string is wide.
    [[nodiscard]] double wide() const { return wide_; }

    /// Two chances in a hundred of being wrong on either side end the test.
    [[nodiscard]] bool decided() const { return wide_ < 0.02 || wide_ > 0.98; }

private:
    struct Pluck {
        double size;
        double sizeDeviation;
        double middle;
        double middleDeviation;
    };

    std::optional<Pluck> last_;
    double wide_ = 0.5;
};

} // namespace quillbench
