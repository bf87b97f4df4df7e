#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// A row of jacks as the instrument's description has it.
struct StaggerRow {
    std::size_t reg = 0; ///< index into Instrument::registers
    double travel = 0.0; ///< millimetres of key travel at which it should pluck
    bool adjusters = false;
};

/// One pluck of a slow press.
struct PressPluck {
    std::size_t reg = 0;
    double seconds = 0.0;
    double confidence = 1.0; ///< that it was this register, 0 to 1
};

/// A key that went down slowly with several registers on.
struct SlowPress {
    std::size_t key = 0;
    std::vector<PressPluck> plucks; ///< in order of time
    double sure = 1.0;              ///< that there were so many, 0 to 1
};

/// The time between two rows that follow each other in the intended order; negative where they pluck the other way
/// round.
struct StaggerGap {
    double seconds = 0.0;
    double parts =
        1.0; ///< of what it is over the register: 1 is usual, 0 together, negative the other way round
};

/// One key: medians of its presses.
struct StaggerKey {
    std::size_t key = 0;
    int presses = 0;
    std::vector<std::optional<double>>
        at; ///< s after the first pluck, for each row in the intended order
    std::vector<std::optional<StaggerGap>> gaps; ///< one less than rows
    std::vector<std::size_t> order;              ///< registers by their time
};

/// What two rows do towards each other over the whole keyboard.
enum class RowsDo { AsIntended, OtherWayRound, Together, TooNarrow, TooWide };

struct RowPair {
    std::size_t first = 0;  ///< register that should pluck first
    std::size_t second = 0; ///< and the one after it
    RowsDo what = RowsDo::AsIntended;
    double usualSeconds = 0.0; ///< median over the keys, signed
    double share = 1.0;        ///< of the time from the first pluck to the last; 1 with two rows
    double intendedShare = 1.0;
    double confidence = 0.0; ///< part of the keys that agree
};

enum class StaggerFault {
    Together,      ///< two pluck as one: a heavy key
    WrongOrder,    ///< against what the register does
    LastTooLate,   ///< little dip is left after it
    PluckNotHeard, ///< a register that is on was not told apart, or did not pluck
};

enum class JackTurn { Earlier, Later, Either };

struct StaggerFinding {
    std::size_t key = 0;
    StaggerFault fault = StaggerFault::Together;
    std::size_t first = 0; ///< the two registers concerned, in the intended order
    std::size_t second = 0;
    std::optional<std::size_t>
        jack; ///< the register whose jack strays from both others, where that can be told
    JackTurn turn = JackTurn::Either;
    bool adjusters = false; ///< that jack (or both) can be adjusted
    double parts = 0.0;     ///< of the usual gap
    double confidence = 0.0;
};

struct StaggerMap {
    std::vector<StaggerRow> rows; ///< in the intended order
    std::vector<RowPair> pairs;   ///< what the whole register does
    std::vector<StaggerKey> keys; ///< ascending
    std::vector<StaggerFinding>
        findings;        ///< the surest first; against what the whole register does
    bool enough = false; ///< keys enough to say what the register does

    [[nodiscard]] bool wholeIsOff() const;
};

/// Takes slow presses together: medians of each key's presses (times depend on the finger), what the rows do over the
/// whole keyboard, then the keys that differ from that. A finding needs two presses of the key that agree.
/// **Range** 2 to 5 rows. **Accuracy** stagger_map_test "strays are found …", false findings ≤ 2 % of keys.
/// **Source** limits: common practice, no source.
[[nodiscard]] StaggerMap mapStagger(std::span<const SlowPress> presses,
                                    std::vector<StaggerRow> rows);

} // namespace quillbench
