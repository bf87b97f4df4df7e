#pragma once

#include "core/practise/exercise.hpp"

namespace quillbench {

/// Makes the next question harder after a right answer and easier after a wrong one, so that three of four are right:
/// the weighted up-down method, a step towards easier three times as long as one towards harder. The steps shrink at the
/// turns. It only chooses questions; where the ear stands is estimated from all answers (ThresholdEstimate).
/// **Source** [Kaernbach1991], steps up and down in the ratio p : 1 − p; that such staircases come to rest near their
/// aim, not at it, [GarciaPerez1998].
class Staircase {
public:
    /// **Range** start > 0; it is held inside the scale.
    Staircase(const DifficultyScale& scale, double start);

    /// Where to ask next.
    [[nodiscard]] double level() const;

    void answered(bool right);

    /// Changes of direction so far.
    [[nodiscard]] int turns() const { return turns_; }

private:
    void hold();

    double easiest_ = 0.0; ///< logarithms
    double hardest_ = 0.0;
    double logLevel_ = 0.0;
    int turns_ = 0;
    int last_ = 0; ///< +1 right, −1 wrong, 0 none yet
};

} // namespace quillbench
