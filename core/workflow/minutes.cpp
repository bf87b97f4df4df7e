#include "core/workflow/minutes.hpp"

#include "core/workflow/sounding_pairs.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

/// Slower than this is not heard within a note of a few seconds ([Houtsma1987] and the decay of a plucked string).
constexpr double kNotHeard = 0.1;
/// Beats a second at which an interval is half as wrong as it can be. Common practice, no source.
constexpr double kHalfWrong = 1.0;
/// A gain smaller than this of all that sounds wrong is not worth a pin.
constexpr double kWorthIt = 1e-4;
/// What lies this near its place is left alone.
constexpr double kInPlaceCents = 0.5;

double wrong(double beats) {
    const double heard = std::max(0.0, std::abs(beats) - kNotHeard);
    return heard * heard / (heard * heard + kHalfWrong * kHalfWrong);
}

/// Deviations and pairs with an index from string to pairs, so that moving one string asks its own pairs only.
class Wrongness {
public:
    Wrongness(std::vector<SoundingPair> pairs, std::map<StringId, Cents> deviations)
        : pairs_(std::move(pairs)),
          deviations_(std::move(deviations)) {
        for (std::size_t i = 0; i < pairs_.size(); ++i) {
            pairsOf_[pairs_[i].lower].push_back(i);
            pairsOf_[pairs_[i].upper].push_back(i);
        }
    }

    [[nodiscard]] double total() const {
        double sum = 0.0;
        for (const SoundingPair& pair : pairs_) {
            sum += of(pair, at(pair.lower), at(pair.upper));
        }
        return sum;
    }

    /// How much less is wrong when a string goes to its place.
    [[nodiscard]] double gainOf(StringId string) const {
        const auto found = pairsOf_.find(string);
        double gain = 0.0;
        for (const std::size_t i :
             found == pairsOf_.end() ? std::vector<std::size_t>{} : found->second) {
            const SoundingPair& pair = pairs_[i];
            const Cents lower = at(pair.lower);
            const Cents upper = at(pair.upper);
            gain += of(pair, lower, upper) - of(pair,
                                                pair.lower == string ? Cents(0.0) : lower,
                                                pair.upper == string ? Cents(0.0) : upper);
        }
        return gain;
    }

    [[nodiscard]] Cents at(StringId string) const {
        const auto found = deviations_.find(string);
        return found == deviations_.end() ? Cents(0.0) : found->second;
    }

    void put(StringId string) { deviations_[string] = Cents(0.0); }

    [[nodiscard]] bool isUsed(StringId string) const { return pairsOf_.count(string) != 0; }

private:
    static double of(const SoundingPair& pair, Cents lower, Cents upper) {
        return pair.weight * wrong((upper - lower).value() * pair.beatsPerCent);
    }

    std::vector<SoundingPair> pairs_;
    std::map<StringId, Cents> deviations_;
    std::map<StringId, std::vector<std::size_t>> pairsOf_;
};

/// Leaves off choirs of which a needed string is broken, as long as another choir of the same pitch is left.
Programme withoutBroken(const Instrument& instrument,
                        Programme programme,
                        const std::set<StringId>& broken,
                        UseOfMinutes& use) {
    if (programme.choirs.empty()) {
        for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
            programme.choirs.push_back(choir);
        }
    }
    const auto needed = [&](StringId string) {
        const auto key = keyAt(instrument, string.course, programme.position);
        return key && (programme.keys.empty() ||
                       std::find(programme.keys.begin(), programme.keys.end(), *key) !=
                           programme.keys.end());
    };
    for (const StringId string : broken) {
        const auto here = std::find(programme.choirs.begin(), programme.choirs.end(), string.choir);
        if (here == programme.choirs.end() || !needed(string)) {
            continue;
        }
        const Footage footage = instrument.choirs[string.choir].footage;
        const bool eight = footage == Footage::Eight;
        const auto eights =
            std::count_if(programme.choirs.begin(), programme.choirs.end(), [&](std::size_t choir) {
                return instrument.choirs[choir].footage == Footage::Eight;
            });
        // An octave choir can always be left off; of the 8′ one has to stay.
        if ((!eight && eights > 0) || (eight && eights > 1)) {
            use.choirsOff.push_back(string.choir);
            programme.choirs.erase(here);
        } else {
            use.missing.push_back(string);
        }
    }
    return programme;
}

} // namespace

UseOfMinutes bestUse(Seconds available,
                     const Instrument& instrument,
                     const FactsOfString& factsOf,
                     const std::map<StringId, Cents>& deviations,
                     const Programme& programme,
                     const PlayerSpeed& speed,
                     const std::set<StringId>& broken) {
    UseOfMinutes use;
    const Programme played = withoutBroken(instrument, programme, broken, use);
    Wrongness wrongness(soundingPairs(instrument, factsOf, played), deviations);
    use.before = use.after = wrongness.total();
    std::set<StringId> open;
    for (const auto& [string, deviation] : deviations) {
        if (abs(deviation).value() > kInPlaceCents && broken.count(string) == 0 &&
            wrongness.isUsed(string)) {
            open.insert(string);
        }
    }
    Seconds spent{0};
    while (!open.empty() && spent + speed.toTune <= available) {
        // Every string takes this player as long as any other, so the most gain a second is the most gain.
        auto best = open.begin();
        double most = 0.0;
        for (auto one = open.begin(); one != open.end(); ++one) {
            const double gain = wrongness.gainOf(*one);
            if (gain > most) {
                most = gain;
                best = one;
            }
        }
        if (most <= kWorthIt * std::max(use.before, 1e-9)) {
            break;
        }
        spent += speed.toTune;
        use.strings.push_back({*best, -wrongness.at(*best), most / use.before, spent});
        use.after -= most;
        wrongness.put(*best);
        open.erase(best);
    }
    return use;
}

double soundsWrong(const Instrument& instrument,
                   const FactsOfString& factsOf,
                   const std::map<StringId, Cents>& deviations,
                   const Programme& programme) {
    return Wrongness(soundingPairs(instrument, factsOf, programme), deviations).total();
}

} // namespace quillbench
