#pragma once

#include "core/units/cents.hpp"

#include <cstddef>
#include <span>
#include <utility>
#include <vector>

namespace quillbench {

/// What a new string did between two moments of its age, its pin untouched.
struct SettlingSighting {
    double from = 0.0; ///< days after it was put on, ≥ 0: when it was last set
    double to = 0.0;   ///< days after it was put on, > from: when it was heard again
    Cents moved;       ///< by itself, without what the rest of the instrument did; + is up
    Cents uncertainty; ///< one standard deviation, > 0
};

/// All that was seen of one new string.
using SettlingHistory = std::vector<SettlingSighting>;

/// A number with the interval that holds nine tenths.
struct SettlingRange {
    double middle = 0.0;
    double low = 0.0;
    double high = 0.0;
};

/// How new strings of one instrument sink: moved = −A·ln((τ + to)/(τ + from)), as wire creeps under tension: every
/// so-manyfold of its age it loses as much again. A, in cents for each e-fold of age, differs from string to string; τ,
/// when the clock of that law begins, is the instrument's. Kept as a weighted grid over both for a string of which
/// nothing is known yet.
/// **Source** logarithmic creep and the prior: common practice, no source.
class SettlingLaw {
public:
    /// Of an instrument none of whose strings was replaced yet.
    SettlingLaw();

    /// Learned from strings replaced before: the prior updated by each, with how much they differ among themselves.
    /// **Accuracy** settling_test: over simulated instruments the interval for a string to come holds the truth in
    /// 85 to 97 %. One wild sighting in twenty is allowed for. A string without a sighting says nothing.
    [[nodiscard]] static SettlingLaw learned(std::span<const SettlingHistory> strings);

    /// The law of one string that was seen itself. **Range** its sightings are not among those learned from.
    [[nodiscard]] SettlingLaw of(const SettlingHistory& own) const;

    /// Strings and sightings that it rests on; 0: the prior alone.
    [[nodiscard]] std::size_t strings() const { return strings_; }

    [[nodiscard]] std::size_t sightings() const { return sightings_; }

    /// Cents that a string sinks between two ages in days; positive is down. **Range** 0 ≤ from ≤ to.
    [[nodiscard]] SettlingRange sinks(double from, double to) const;

    /// The age at which a string that was set at `from` will have sunk by `cents`. **Range** from ≥ 0; cents > 0.
    /// Never more than kLongestSettling after it.
    [[nodiscard]] SettlingRange sunkBy(double from, Cents cents) const;

    /// The age from which it sinks by less than `cents` in `days`. **Range** both > 0. At most kLongestSettling.
    [[nodiscard]] SettlingRange calmFrom(Cents cents, double days) const;

    static constexpr double kLongestSettling = 365.0; ///< days

private:
    struct Cell {
        double tau = 0.0;  ///< days
        double fold = 0.0; ///< A, cents
        double weight = 0.0;
    };

    explicit SettlingLaw(std::vector<Cell> cells) : cells_(std::move(cells)) {}

    template <typename Quantity>
    [[nodiscard]] SettlingRange rangeOf(Quantity quantity) const;

    std::vector<Cell> cells_;
    std::size_t strings_ = 0;
    std::size_t sightings_ = 0;
};

/// When a new string is to be brought up again.
struct SettlingStep {
    SettlingRange age;  ///< days after it was put on
    SettlingRange sunk; ///< cents below where it was set, if it is done at the middle of that
};

struct SettlingPlan {
    std::vector<SettlingStep> steps; ///< each supposes that the one before was done in time
    SettlingRange calm;              ///< age in days from which it is left to the ordinary tunings
};

/// It is brought up whenever it is expected to have sunk by `allowed`, until it sinks by less than `calm` in a
/// fortnight. **Range** lastSet ≥ 0: its age in days when it was last set; allowed, calm > 0.
/// **Source** common practice, no source.
[[nodiscard]] SettlingPlan planSettling(const SettlingLaw& law,
                                        double lastSet,
                                        Cents allowed = Cents(5.0),
                                        Cents calm = Cents(2.0));

} // namespace quillbench
