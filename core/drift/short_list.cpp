#include "core/drift/short_list.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

namespace quillbench {

namespace {

/// Tolerances are met when they are met to this.
constexpr double kHair = 1e-9;
/// Branches looked at before a good list stands for the best.
constexpr int kMostBranches = 20000;

/// The question as a graph: strings, and intervals between them. Each interval allows or forbids: both left, one tuned.
class Knot {
public:
    Knot(const std::map<StringId, Cents>& deviations,
         std::span<const HeardInterval> intervals,
         Cents shift) {
        const auto indexOf = [&](StringId string) {
            const auto [at, fresh] = index_.emplace(string, strings_.size());
            if (fresh) {
                strings_.push_back(string);
                const auto found = deviations.find(string);
                const Cents off = found == deviations.end() ? Cents(0.0) : found->second;
                off_.push_back((off - shift).value());
                edgesOf_.emplace_back();
            }
            return at->second;
        };
        for (const HeardInterval& one : intervals) {
            const Edge edge{
                indexOf(one.lower), indexOf(one.upper), one.tolerance.value() + kHair, one.weight};
            edgesOf_[edge.a].push_back(edges_.size());
            edgesOf_[edge.b].push_back(edges_.size());
            edges_.push_back(edge);
        }
    }

    /// Indices of the fewest strings to tune; says whether that is proven.
    std::vector<std::size_t> fewest(bool& proven) {
        std::vector<bool> choices(strings_.size(), false); // true: tuned
        for (std::size_t i = 0; i < strings_.size(); ++i) {
            if (!choices[i] && mustBeTuned(i)) {
                tune(choices, i);
            }
        }
        std::vector<std::size_t> result;
        proven = true;
        for (const std::vector<std::size_t>& part : components(choices)) {
            best_.reset();
            branches_ = 0;
            search(choices, part);
            proven = proven && branches_ < kMostBranches;
            choices = *best_;
        }
        for (std::size_t i = 0; i < choices.size(); ++i) {
            if (choices[i]) {
                result.push_back(i);
            }
        }
        return result;
    }

    [[nodiscard]] StringId string(std::size_t i) const { return strings_[i]; }

    /// How far a string is from where it would be put.
    [[nodiscard]] double off(std::size_t i) const { return off_[i]; }

    [[nodiscard]] double wrongWeight(const std::vector<double>& off) const {
        double sum = 0.0;
        for (const Edge& edge : edges_) {
            sum += wrong(edge, off) ? edge.weight : 0.0;
        }
        return sum;
    }

    [[nodiscard]] std::size_t wrongCount() const {
        return static_cast<std::size_t>(std::count_if(
            edges_.begin(), edges_.end(), [this](const Edge& edge) { return wrong(edge, off_); }));
    }

    [[nodiscard]] const std::vector<double>& offs() const { return off_; }

private:
    struct Edge {
        std::size_t a;
        std::size_t b;
        double tolerance;
        double weight;
    };

    static bool wrong(const Edge& edge, const std::vector<double>& off) {
        return std::abs(off[edge.b] - off[edge.a]) > edge.tolerance;
    }

    [[nodiscard]] std::size_t other(const Edge& edge, std::size_t i) const {
        return edge.a == i ? edge.b : edge.a;
    }

    /// Its interval is wrong, and tuning the other string would not mend that.
    [[nodiscard]] bool mustBeTuned(std::size_t i) const {
        return std::any_of(edgesOf_[i].begin(), edgesOf_[i].end(), [&](std::size_t e) {
            return wrong(edges_[e], off_) && std::abs(off_[i]) > edges_[e].tolerance;
        });
    }

    /// Tuning one string draws along those that would then be wrong against it.
    void tune(std::vector<bool>& choices, std::size_t i) const {
        std::vector<std::size_t> todo{i};
        while (!todo.empty()) {
            const std::size_t at = todo.back();
            todo.pop_back();
            if (choices[at]) {
                continue;
            }
            choices[at] = true;
            for (const std::size_t e : edgesOf_[at]) {
                const std::size_t next = other(edges_[e], at);
                if (!choices[next] && std::abs(off_[next]) > edges_[e].tolerance) {
                    todo.push_back(next);
                }
            }
        }
    }

    /// An interval that is wrong and of which no string is to be tuned yet.
    [[nodiscard]] std::optional<std::size_t>
    firstWrong(const std::vector<bool>& choices, const std::vector<std::size_t>& part) const {
        std::optional<std::size_t> found;
        std::size_t mostOpen = 0;
        for (const std::size_t i : part) {
            for (const std::size_t e : edgesOf_[i]) {
                const Edge& edge = edges_[e];
                if (wrong(edge, off_) && !choices[edge.a] && !choices[edge.b] &&
                    (!found || edgesOf_[i].size() > mostOpen)) {
                    found = e;
                    mostOpen = edgesOf_[i].size();
                }
            }
        }
        return found;
    }

    /// Groups of strings that wrong intervals bind together.
    [[nodiscard]] std::vector<std::vector<std::size_t>>
    components(const std::vector<bool>& choices) const {
        std::vector<std::vector<std::size_t>> parts;
        std::vector<bool> seen(strings_.size(), false);
        for (std::size_t start = 0; start < strings_.size(); ++start) {
            if (seen[start] || choices[start]) {
                continue;
            }
            std::vector<std::size_t> part;
            std::vector<std::size_t> todo{start};
            seen[start] = true;
            while (!todo.empty()) {
                const std::size_t at = todo.back();
                todo.pop_back();
                part.push_back(at);
                for (const std::size_t e : edgesOf_[at]) {
                    const std::size_t next = other(edges_[e], at);
                    const bool binds = wrong(edges_[e], off_) ||
                                       std::abs(off_[next]) > edges_[e].tolerance ||
                                       std::abs(off_[at]) > edges_[e].tolerance;
                    if (binds && !seen[next] && !choices[next]) {
                        seen[next] = true;
                        todo.push_back(next);
                    }
                }
            }
            parts.push_back(std::move(part));
        }
        return parts;
    }

    static std::size_t tuned(const std::vector<bool>& choices) {
        return static_cast<std::size_t>(std::count(choices.begin(), choices.end(), true));
    }

    /// Branches on a wrong interval: the one string is tuned, or it is left and the other is.
    void search(const std::vector<bool>& choices, const std::vector<std::size_t>& part) {
        if (++branches_ > kMostBranches && best_) {
            return;
        }
        if (best_ && tuned(choices) + least(choices, part) >= tuned(*best_)) {
            return;
        }
        const auto edge = firstWrong(choices, part);
        if (!edge) {
            best_ = choices;
            return;
        }
        std::size_t a = edges_[*edge].a;
        std::size_t b = edges_[*edge].b;
        if (edgesOf_[a].size() < edgesOf_[b].size()) {
            std::swap(a, b);
        }
        for (const std::size_t one : {a, b}) {
            std::vector<bool> next = choices;
            tune(next, one);
            search(next, part);
        }
    }

    /// Wrong intervals without a string in common need a string each.
    [[nodiscard]] std::size_t least(const std::vector<bool>& choices,
                                    const std::vector<std::size_t>& part) const {
        std::set<std::size_t> used;
        std::size_t count = 0;
        for (const std::size_t i : part) {
            for (const std::size_t e : edgesOf_[i]) {
                const Edge& edge = edges_[e];
                if (wrong(edge, off_) && !choices[edge.a] && !choices[edge.b] &&
                    used.count(edge.a) == 0 && used.count(edge.b) == 0) {
                    used.insert(edge.a);
                    used.insert(edge.b);
                    ++count;
                }
            }
        }
        return count;
    }

    std::map<StringId, std::size_t> index_;
    std::vector<StringId> strings_;
    std::vector<double> off_; ///< from where it would be put, cents
    std::vector<Edge> edges_;
    std::vector<std::vector<std::size_t>> edgesOf_;
    std::optional<std::vector<bool>> best_;
    int branches_ = 0;
};

} // namespace

ShortList shortList(const std::map<StringId, Cents>& deviations,
                    std::span<const HeardInterval> intervals,
                    Cents shift) {
    Knot knot(deviations, intervals, shift);
    ShortList list;
    list.shift = shift;
    list.wrongBefore = knot.wrongCount();
    std::vector<std::size_t> open = knot.fewest(list.fewest);
    std::vector<double> off = knot.offs();
    double wrong = knot.wrongWeight(off);
    while (!open.empty()) {
        auto best = open.begin();
        double least = 0.0;
        for (auto one = open.begin(); one != open.end(); ++one) {
            std::vector<double> after = off;
            after[*one] = 0.0;
            const double left = knot.wrongWeight(after);
            if (one == open.begin() || left < least) {
                best = one;
                least = left;
            }
        }
        list.strings.push_back({knot.string(*best), Cents(-knot.off(*best)), wrong - least});
        off[*best] = 0.0;
        wrong = least;
        open.erase(best);
    }
    return list;
}

ShortList reanchored(const std::map<StringId, Cents>& deviations,
                     std::span<const HeardInterval> intervals,
                     Cents most) {
    ShortList best = shortList(deviations, intervals);
    std::vector<Cents> candidates;
    candidates.reserve(deviations.size());
    for (const auto& [string, deviation] : deviations) {
        candidates.push_back(deviation);
    }
    std::sort(candidates.begin(), candidates.end());
    // Between neighbouring strings nothing changes that a step of a tenth of a cent would miss by more.
    std::vector<Cents> tried;
    for (const Cents shift : candidates) {
        if (abs(shift) > most || (!tried.empty() && shift - tried.back() < Cents(0.1))) {
            continue;
        }
        tried.push_back(shift);
        ShortList list = shortList(deviations, intervals, shift);
        const bool fewer = list.strings.size() < best.strings.size();
        const bool nearer =
            list.strings.size() == best.strings.size() && abs(list.shift) < abs(best.shift);
        if (fewer || nearer) {
            best = std::move(list);
        }
    }
    return best;
}

} // namespace quillbench
