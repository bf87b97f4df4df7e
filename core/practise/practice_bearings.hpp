#pragma once

#include "core/practise/practice_pair.hpp"
#include "core/temperament/bearings.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace quillbench {

/// The two strings of a step as they sound when it is done exactly: they truly beat as it asks. Nothing where the
/// instrument lacks a string; a step from the pitch standard needs a second 8′.
/// **Range** `instrument` outlives the pair. **Accuracy** as pairOf. **Thread** any.
[[nodiscard]] std::optional<PracticePair> pairAsLaid(const Instrument& instrument,
                                                     const TunedScale& scale,
                                                     const BearingStep& step,
                                                     SampleRate rate);

/// How one step was left.
struct BearingLeft {
    std::size_t step = 0; ///< of PracticeBearings
    BeatRate left;        ///< when it was left, against what was wanted; + = wide
    Cents interval;       ///< likewise, of the interval
    Cents
        note; ///< at the end, of the note that was set from the temperament's; + = sharp. 0 of a check
};

/// A bearing plan set by ear on a virtual instrument, one step after the other: the notes that it sets stand some cents
/// away at first, each stays as its pin was left. A step from the pitch standard is set to the second 8′ string of that
/// key, which stands for the fork. Steps that the instrument lacks the strings for are left out.
class PracticeBearings {
public:
    /// **Range** `instrument` outlives this. `seed` decides where the strings stand at first.
    PracticeBearings(const Instrument& instrument,
                     const TunedScale& scale,
                     const BearingPlan& plan,
                     std::uint64_t seed,
                     SampleRate rate);

    [[nodiscard]] const std::vector<BearingStep>& steps() const { return steps_; }

    /// The step to do; steps().size() when all are done.
    [[nodiscard]] std::size_t at() const { return at_; }

    [[nodiscard]] bool done() const { return at_ == steps_.size(); }

    /// Whether a pin is turned in a step; else it is a check.
    [[nodiscard]] bool sets(std::size_t step) const;

    /// The two strings of a step as they stand now, with the pin that is turned. **Range** step < steps().size().
    [[nodiscard]] PracticePair pair(std::size_t step) const;

    /// A step as a question, without what sounds. **Range** step < steps().size().
    [[nodiscard]] const Exercise& question(std::size_t step) const { return exercises_[step]; }

    /// The step to do as a question: what the two do now, what they shall do. **Range** not done().
    [[nodiscard]] Exercise exercise() const;

    /// The string of the step's pin rests at this pitch: on to the next. Of a check the pitch says nothing.
    /// **Range** not done().
    void leave(Hertz rests);

    /// Back to the step before, to set it again; nothing at the first.
    void back();

    /// The steps that were left so far, in order.
    [[nodiscard]] std::vector<BearingLeft> left() const;

private:
    const Instrument* instrument_;
    VirtualSettings strings_;
    std::vector<BearingStep> steps_;
    std::vector<Exercise> exercises_; ///< one a step, without what sounds at first
    std::vector<StringId> pins_;      ///< one a step
    std::vector<Hertz> wanted_; ///< one a step: where its pin's string belongs in the temperament
    std::vector<BearingLeft> left_; ///< one a step that was left
    std::size_t at_ = 0;
};

} // namespace quillbench
