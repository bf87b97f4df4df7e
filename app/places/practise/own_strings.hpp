#pragma once

#include "core/analysis/target.hpp"
#include "core/practise/exercise.hpp"
#include "core/practise/practice_pair.hpp"

#include <functional>
#include <memory>
#include <optional>

namespace quillbench {

/// The strings that a learner plays on the instrument that stands there, as the analysis hears them. It keeps what is
/// said of the pair that was asked for until somebody wants to know. **Thread** GUI.
class OwnStrings {
public:
    /// What a string of the instrument should sound.
    using Expect = std::function<ExpectedString(StringId)>;

    /// **Range** `instrument` outlives this.
    OwnStrings(const Instrument& instrument, Expect expect)
        : instrument_(&instrument),
          expect_(std::move(expect)) {}

    [[nodiscard]] const Instrument& instrument() const { return *instrument_; }

    /// Another question: what was heard is forgotten.
    void ask(const Exercise& exercise);

    /// Every string of the choirs that are asked for, listened to in pairs. Null before ask().
    [[nodiscard]] const std::shared_ptr<const AnalysisTarget>& target() const { return target_; }

    /// What was heard so far counts no more.
    void begin();

    /// As they sound, and the last word on them. Others than those asked for only leave otherPair().
    void follow(const PairHeard& heard);
    void hear(const PairReading& reading);

    /// The pair that was asked for sounds.
    [[nodiscard]] bool sounding() const { return sounding_; }

    /// Two other strings were heard last.
    [[nodiscard]] bool otherPair() const { return other_; }

    /// What the newest whole sound of the pair was; not while it sounds again, nor one during which the pin turned.
    [[nodiscard]] std::optional<PracticeMeasured> measured() const;

private:
    [[nodiscard]] bool asked(StringId lower, StringId upper) const;

    const Instrument* instrument_;
    Expect expect_;
    std::optional<Exercise> exercise_;
    std::shared_ptr<const AnalysisTarget> target_;
    bool sounding_ = false;
    bool other_ = false;
    std::optional<PairHeard> drawn_; ///< the last picture of the newest sound
    std::optional<PairReading> reading_;
};

} // namespace quillbench
