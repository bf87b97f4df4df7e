#include "core/action/stagger_map.hpp"

#include "core/action/smooth_curve.hpp"
#include "core/support/contract.hpp"
#include "core/support/median.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace quillbench {

namespace {

constexpr std::size_t kFewestStaggerKeys = 6;
constexpr double kTogetherSeconds = 0.004; // nobody feels two plucks so close as two
constexpr double kTogetherParts = 0.35;
constexpr double kReversedParts = -0.12;
constexpr double kLateParts = 1.75;
constexpr double kLateAgainstOthers = 1.5;
constexpr double kMakesRoom = 1.35; // a gap that grew because its neighbour shrank
constexpr double kShrunk = 0.6;
constexpr double kNarrowShare = 0.5;
constexpr double kWideShare = 1.7;
constexpr double kWholeTogether = 0.006; // s
constexpr double kAgree = 0.6;           // of the keys
constexpr double kSureFinding = 0.5;     // two of three presses, heard well

using Presses = std::map<std::size_t, std::vector<const SlowPress*>>;

const PressPluck* pluckOf(const SlowPress& press, std::size_t reg) {
    const auto found = std::find_if(press.plucks.begin(),
                                    press.plucks.end(),
                                    [reg](const PressPluck& pluck) { return pluck.reg == reg; });
    return found == press.plucks.end() ? nullptr : &*found;
}

/// Time from the first row's pluck to the second's in one press.
std::optional<double> gapOf(const SlowPress& press, std::size_t first, std::size_t second) {
    const PressPluck* a = pluckOf(press, first);
    const PressPluck* b = pluckOf(press, second);
    if (a == nullptr || b == nullptr) {
        return std::nullopt;
    }
    return b->seconds - a->seconds;
}

std::vector<double>
gapsOf(const std::vector<const SlowPress*>& presses, std::size_t first, std::size_t second) {
    std::vector<double> gaps;
    for (const SlowPress* press : presses) {
        if (const auto gap = gapOf(*press, first, second)) {
            gaps.push_back(*gap);
        }
    }
    return gaps;
}

StaggerKey keyOfPresses(std::size_t key,
                        const std::vector<const SlowPress*>& presses,
                        const std::vector<StaggerRow>& rows) {
    StaggerKey out;
    out.key = key;
    out.presses = static_cast<int>(presses.size());
    std::vector<std::pair<double, std::size_t>> times;
    for (const StaggerRow& row : rows) {
        std::vector<double> at;
        for (const SlowPress* press : presses) {
            if (const PressPluck* pluck = pluckOf(*press, row.reg)) {
                at.push_back(pluck->seconds - press->plucks.front().seconds);
            }
        }
        out.at.emplace_back(at.empty() ? std::nullopt : std::optional(medianOf(at)));
        if (out.at.back()) {
            times.emplace_back(*out.at.back(), row.reg);
        }
    }
    std::stable_sort(
        times.begin(), times.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (const auto& [time, reg] : times) {
        out.order.push_back(reg);
    }
    for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
        std::vector<double> gaps = gapsOf(presses, rows[i].reg, rows[i + 1].reg);
        out.gaps.emplace_back(gaps.empty() ? std::nullopt
                                           : std::optional(StaggerGap{medianOf(gaps), 1.0}));
    }
    return out;
}

/// What the rows do over the whole keyboard.
std::vector<RowPair> wholeOf(const std::vector<StaggerKey>& keys,
                             const std::vector<StaggerRow>& rows) {
    std::vector<RowPair> pairs;
    double total = 0.0;
    const double intended = rows.back().travel - rows.front().travel;
    for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
        RowPair pair{rows[i].reg, rows[i + 1].reg};
        std::vector<double> gaps;
        for (const StaggerKey& key : keys) {
            if (key.gaps[i]) {
                gaps.push_back(key.gaps[i]->seconds);
            }
        }
        pair.usualSeconds = gaps.empty() ? 0.0 : medianOf(gaps);
        total += std::abs(pair.usualSeconds);
        const auto agree = std::count_if(gaps.begin(), gaps.end(), [&](double gap) {
            return (gap > 0.0) == (pair.usualSeconds > 0.0);
        });
        pair.confidence =
            gaps.empty() ? 0.0 : static_cast<double>(agree) / static_cast<double>(gaps.size());
        pairs.push_back(pair);
    }
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        RowPair& pair = pairs[i];
        pair.share = total > 0.0 ? pair.usualSeconds / total : 0.0;
        pair.intendedShare =
            intended > 0.0 ? (rows[i + 1].travel - rows[i].travel) / intended : 1.0;
        if (std::abs(pair.usualSeconds) < kWholeTogether) {
            pair.what = RowsDo::Together;
        } else if (pair.usualSeconds < 0.0 && pair.confidence >= kAgree) {
            pair.what = RowsDo::OtherWayRound;
        } else if (pairs.size() > 1 && pair.share < kNarrowShare * pair.intendedShare) {
            pair.what = RowsDo::TooNarrow;
        } else if (pairs.size() > 1 && pair.share > kWideShare * pair.intendedShare) {
            pair.what = RowsDo::TooWide;
        }
    }
    return pairs;
}

/// That the presses which agree heard the right registers.
double confidenceIn(const std::vector<const SlowPress*>& presses,
                    const RowPair& pair,
                    double low,
                    double high) {
    double sum = 0.0;
    int agreeing = 0;
    for (const SlowPress* press : presses) {
        const auto gap = gapOf(*press, pair.first, pair.second);
        const double parts = gap ? *gap / pair.usualSeconds : 0.0;
        if (gap && parts > low && parts < high) {
            ++agreeing;
            sum += press->sure * std::min(pluckOf(*press, pair.first)->confidence,
                                          pluckOf(*press, pair.second)->confidence);
        }
    }
    return agreeing < 2 ? 0.0 : sum / static_cast<double>(presses.size());
}

/// Which of two jacks that are too close strays: the one that left room on its other side, or else the one without
/// a second neighbour.
void nameJack(StaggerFinding& finding,
              const StaggerKey& key,
              const std::vector<StaggerRow>& rows,
              std::size_t pair) {
    const auto partsOf = [&](std::size_t i) -> std::optional<double> {
        return i < key.gaps.size() && key.gaps[i] ? std::optional(key.gaps[i]->parts)
                                                  : std::nullopt;
    };
    const auto before = pair > 0 ? partsOf(pair - 1) : std::nullopt;
    const auto after = partsOf(pair + 1);
    if (!before && !after) {
        return;
    }
    const bool firstStrays = (before && *before > kMakesRoom) || (!before && *after <= kMakesRoom);
    finding.jack = rows[firstStrays ? pair : pair + 1].reg;
    finding.turn = firstStrays ? JackTurn::Earlier : JackTurn::Later;
}

bool anyAdjusts(const StaggerFinding& finding, const std::vector<StaggerRow>& rows) {
    return std::any_of(rows.begin(), rows.end(), [&](const StaggerRow& row) {
        const bool concerned = finding.jack ? *finding.jack == row.reg
                                            : row.reg == finding.first || row.reg == finding.second;
        return concerned && row.adjusters;
    });
}

/// Whether the last row comes far later than the finger explains, and not only because the one before it is early.
bool comesLate(const StaggerKey& key, std::size_t pair) {
    if (pair + 1 != key.gaps.size() || key.gaps[pair]->parts < kLateParts) {
        return false;
    }
    for (std::size_t other = 0; other < pair; ++other) {
        if (!key.gaps[other] || key.gaps[other]->parts < kShrunk ||
            key.gaps[pair]->parts < kLateAgainstOthers * std::max(key.gaps[other]->parts, 1.0)) {
            return false;
        }
    }
    return true;
}

void findInGaps(StaggerMap& map, const StaggerKey& key, const Presses& presses) {
    const auto& own = presses.at(key.key);
    for (std::size_t i = 0; i < map.pairs.size(); ++i) {
        const RowPair& pair = map.pairs[i];
        // Two rows that are not where they should be are set right as rows before any single jack of them is judged.
        if (!key.gaps[i] || pair.what != RowsDo::AsIntended || key.presses < 2) {
            continue;
        }
        const double parts = key.gaps[i]->parts;
        StaggerFinding finding;
        finding.key = key.key;
        finding.first = pair.first;
        finding.second = pair.second;
        finding.parts = parts;
        const double close =
            std::max(kTogetherParts, kTogetherSeconds / std::abs(pair.usualSeconds));
        if (parts < kReversedParts && key.gaps[i]->seconds * pair.usualSeconds < 0.0) {
            finding.fault = StaggerFault::WrongOrder;
            finding.confidence = confidenceIn(own, pair, -1e9, close);
            nameJack(finding, key, map.rows, i);
        } else if (parts < close) {
            finding.fault = StaggerFault::Together;
            finding.confidence = confidenceIn(own, pair, -1e9, 1.6 * close);
            nameJack(finding, key, map.rows, i);
        } else if (comesLate(key, i)) {
            finding.fault = StaggerFault::LastTooLate;
            finding.confidence = confidenceIn(own, pair, 0.7 * kLateParts, 1e9);
            finding.jack = pair.second;
            finding.turn = JackTurn::Earlier;
        } else {
            continue;
        }
        finding.adjusters = anyAdjusts(finding, map.rows);
        if (finding.confidence >= kSureFinding) {
            map.findings.push_back(finding);
        }
    }
}

void findSilent(StaggerMap& map, const StaggerKey& key, const Presses& presses) {
    const auto& own = presses.at(key.key);
    for (std::size_t row = 0; row < map.rows.size() && key.presses >= 2; ++row) {
        const std::size_t reg = map.rows[row].reg;
        double without = 0.0;
        int agreeing = 0;
        for (const SlowPress* press : own) {
            const bool silent = pluckOf(*press, reg) == nullptr;
            agreeing += silent ? 1 : 0;
            without += silent ? press->sure : 0.0;
        }
        StaggerFinding finding;
        finding.key = key.key;
        finding.fault = StaggerFault::PluckNotHeard;
        finding.first = reg;
        finding.second = reg;
        finding.jack = reg;
        finding.adjusters = map.rows[row].adjusters;
        finding.confidence = without / static_cast<double>(own.size());
        if (agreeing >= 2 && finding.confidence > kSureFinding) {
            map.findings.push_back(finding);
        }
    }
}

} // namespace

bool StaggerMap::wholeIsOff() const {
    return std::any_of(pairs.begin(), pairs.end(), [](const RowPair& pair) {
        return pair.what != RowsDo::AsIntended;
    });
}

StaggerMap mapStagger(std::span<const SlowPress> presses, std::vector<StaggerRow> rows) {
    EXPECTS(rows.size() >= 2);
    std::stable_sort(rows.begin(), rows.end(), [](const StaggerRow& a, const StaggerRow& b) {
        return a.travel < b.travel;
    });
    StaggerMap map;
    map.rows = std::move(rows);
    Presses byKey;
    for (const SlowPress& press : presses) {
        if (!press.plucks.empty()) {
            byKey[press.key].push_back(&press);
        }
    }
    for (const auto& [key, own] : byKey) {
        map.keys.push_back(keyOfPresses(key, own, map.rows));
    }
    map.enough = map.keys.size() >= kFewestStaggerKeys;
    if (map.keys.empty()) {
        return map;
    }
    map.pairs = wholeOf(map.keys, map.rows);
    for (StaggerKey& key : map.keys) {
        for (std::size_t i = 0; i < map.pairs.size(); ++i) {
            if (key.gaps[i] && std::abs(map.pairs[i].usualSeconds) > 0.0) {
                key.gaps[i]->parts = key.gaps[i]->seconds / map.pairs[i].usualSeconds;
            }
        }
    }
    if (!map.enough) {
        return map;
    }
    for (const StaggerKey& key : map.keys) {
        findInGaps(map, key, byKey);
        findSilent(map, key, byKey);
    }
    std::stable_sort(map.findings.begin(),
                     map.findings.end(),
                     [](const StaggerFinding& a, const StaggerFinding& b) {
                         return a.confidence > b.confidence;
                     });
    return map;
}

} // namespace quillbench
