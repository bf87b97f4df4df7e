#include "core/dsp/stagger/pluck_enumeration.hpp"

#include "core/dsp/stagger/small_system.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr std::size_t kPlacesApart = 6; // samples between two peaks of one correlation
constexpr std::size_t kNearby = 24;     // samples from a beginning to the solo's best place there
constexpr std::size_t kMostPlaces[] = {
    0, 200, 80, 30, 12}; // of each choir, by the number of choirs

double dot(std::span<const double> a, std::span<const double> b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        sum += a[i] * b[i];
    }
    return sum;
}

struct Place {
    std::size_t at = 0;
    double correlation = 0.0;
};

/// Correlations of one solo with the sound, for plucks at from … to − 1.
std::vector<double> correlations(std::span<const double> whitened,
                                 const SoloTemplate& solo,
                                 std::size_t from,
                                 std::size_t to) {
    std::vector<double> out(to - from, 0.0);
    for (std::size_t i = from; i < to; ++i) {
        const std::size_t skip = solo.lead > i ? solo.lead - i : 0;
        const std::size_t start = i + skip - solo.lead;
        const std::size_t count = std::min(solo.wave.size() - skip, whitened.size() - start);
        out[i - from] = dot(whitened.subspan(start, count),
                            std::span<const double>(solo.wave).subspan(skip, count));
    }
    return out;
}

std::vector<Place> bestPlaces(const std::vector<double>& correlation,
                              std::size_t from,
                              std::span<const std::size_t> wished,
                              std::size_t most) {
    std::vector<Place> peaks;
    const auto highestWithin = [&](std::size_t i, std::size_t reach) {
        const std::size_t low = i > reach ? i - reach : 0;
        const std::size_t high = std::min(correlation.size(), i + reach + 1);
        return static_cast<std::size_t>(
            std::max_element(correlation.begin() + static_cast<std::ptrdiff_t>(low),
                             correlation.begin() + static_cast<std::ptrdiff_t>(high)) -
            correlation.begin());
    };
    for (std::size_t i = 0; i < correlation.size(); ++i) {
        if (correlation[i] > 0.0 && highestWithin(i, kPlacesApart) == i) {
            peaks.push_back({from + i, correlation[i]});
        }
    }
    std::sort(peaks.begin(), peaks.end(), [](const Place& a, const Place& b) {
        return a.correlation > b.correlation;
    });
    if (peaks.size() > most) {
        peaks.resize(most);
    }
    for (const std::size_t place : wished) {
        if (place < from || place - from >= correlation.size()) {
            continue;
        }
        const std::size_t i = highestWithin(place - from, kNearby);
        const bool known = std::any_of(
            peaks.begin(), peaks.end(), [&](const Place& peak) { return peak.at == from + i; });
        if (correlation[i] > 0.0 && !known) {
            peaks.push_back({from + i, correlation[i]});
        }
    }
    return peaks;
}

/// Inner products of two solos, the second plucked `lag` samples after the first.
class Overlap {
public:
    Overlap(const SoloTemplate& first, const SoloTemplate& second)
        : reach_(static_cast<std::ptrdiff_t>(first.wave.size())),
          products_(2 * first.wave.size() + 1, 0.0) {
        const auto length = static_cast<std::ptrdiff_t>(first.wave.size());
        for (std::ptrdiff_t lag = -reach_; lag <= reach_; ++lag) {
            const std::ptrdiff_t start = std::max<std::ptrdiff_t>(lag, 0);
            const std::ptrdiff_t end = std::min(length, length + lag);
            double sum = 0.0;
            for (std::ptrdiff_t i = start; i < end; ++i) {
                sum += first.wave[static_cast<std::size_t>(i)] *
                       second.wave[static_cast<std::size_t>(i - lag)];
            }
            products_[static_cast<std::size_t>(lag + reach_)] = sum;
        }
    }

    [[nodiscard]] double at(std::ptrdiff_t lag) const {
        return lag < -reach_ || lag > reach_ ? 0.0
                                             : products_[static_cast<std::size_t>(lag + reach_)];
    }

private:
    std::ptrdiff_t reach_;
    std::vector<double> products_;
};

class Enumeration {
public:
    Enumeration(std::span<const SoloTemplate> solos, std::size_t kept) : kept_(kept) {
        for (std::size_t a = 0; a < solos.size(); ++a) {
            energy_.push_back(dot(solos[a].wave, solos[a].wave));
            for (std::size_t b = a + 1; b < solos.size(); ++b) {
                overlaps_.emplace_back(solos[a], solos[b]);
            }
        }
        count_ = solos.size();
    }

    /// All hypotheses of the choirs whose bit is set, the best first.
    void list(std::size_t choirs,
              const std::vector<std::vector<Place>>& places,
              std::vector<PluckHypothesis>& out) {
        members_.clear();
        for (std::size_t c = 0; c < count_; ++c) {
            if ((choirs >> c & 1U) != 0) {
                members_.push_back(c);
            }
        }
        found_.clear();
        chosen_.assign(members_.size(), {});
        descend(0, places);
        const auto better = [](const PluckHypothesis& a, const PluckHypothesis& b) {
            return a.score > b.score;
        };
        std::sort(found_.begin(), found_.end(), better);
        found_.resize(std::min(found_.size(), kept_));
        out.insert(out.end(), found_.begin(), found_.end());
    }

private:
    void descend(std::size_t depth, const std::vector<std::vector<Place>>& places) {
        if (depth == members_.size()) {
            judge();
            return;
        }
        for (const Place& place : places[members_[depth]]) {
            chosen_[depth] = place;
            descend(depth + 1, places);
        }
    }

    [[nodiscard]] double overlap(std::size_t a, std::size_t b, std::ptrdiff_t lag) const {
        std::size_t index = 0;
        for (std::size_t i = 0; i < a; ++i) {
            index += count_ - 1 - i;
        }
        return overlaps_[index + b - a - 1].at(lag);
    }

    void judge() {
        SmallSystem system;
        system.size = members_.size();
        for (std::size_t a = 0; a < system.size; ++a) {
            system.products[a][a] = energy_[members_[a]];
            system.wanted[a] = chosen_[a].correlation;
            for (std::size_t b = 0; b < a; ++b) {
                const auto lag = static_cast<std::ptrdiff_t>(chosen_[a].at) -
                                 static_cast<std::ptrdiff_t>(chosen_[b].at);
                system.products[a][b] = overlap(members_[b], members_[a], lag);
            }
        }
        const auto gains = system.solve();
        double explained = 0.0;
        for (std::size_t a = 0; a < system.size; ++a) {
            if (!(gains[a] > 0.0)) {
                return;
            }
            explained += gains[a] * system.wanted[a];
        }
        if (found_.size() >= 4 * kept_) {
            prune();
        }
        if (found_.size() >= kept_ && explained < least_) {
            return;
        }
        PluckHypothesis hypothesis;
        for (std::size_t i = 0; i < members_.size(); ++i) {
            hypothesis.plucks.tryPush({members_[i], chosen_[i].at, gains[i]});
        }
        hypothesis.score = explained;
        found_.push_back(hypothesis);
    }

    void prune() {
        std::nth_element(
            found_.begin(),
            found_.begin() + static_cast<std::ptrdiff_t>(kept_) - 1,
            found_.end(),
            [](const PluckHypothesis& a, const PluckHypothesis& b) { return a.score > b.score; });
        found_.resize(kept_);
        least_ = found_.back().score;
    }

    std::size_t count_ = 0;
    std::size_t kept_;
    std::vector<double> energy_;
    std::vector<Overlap> overlaps_;
    std::vector<std::size_t> members_;
    std::vector<Place> chosen_;
    std::vector<PluckHypothesis> found_;
    double least_ = 0.0;
};

} // namespace

std::vector<PluckHypothesis> enumeratePlucks(std::span<const double> whitened,
                                             std::span<const SoloTemplate> solos,
                                             std::size_t from,
                                             std::size_t to,
                                             std::span<const std::size_t> places,
                                             std::size_t keptOfEach) {
    EXPECTS(!solos.empty() && solos.size() <= kMostChoirsOfKey);
    EXPECTS(from < to && to <= whitened.size() && keptOfEach > 0);
    std::vector<std::vector<Place>> byChoir;
    for (const SoloTemplate& solo : solos) {
        byChoir.push_back(bestPlaces(
            correlations(whitened, solo, from, to), from, places, kMostPlaces[solos.size()]));
    }
    Enumeration enumeration(solos, keptOfEach);
    std::vector<PluckHypothesis> all;
    for (std::size_t choirs = 1; choirs < std::size_t{1} << solos.size(); ++choirs) {
        enumeration.list(choirs, byChoir, all);
    }
    return all;
}

} // namespace quillbench
