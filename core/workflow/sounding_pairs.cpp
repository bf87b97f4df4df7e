#include "core/workflow/sounding_pairs.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace quillbench {

namespace {

struct Listened {
    IntervalKind kind;
    double weight;
};

constexpr Listened kWithin[] = {{IntervalKind::Octave, 1.0},
                                {IntervalKind::Fifth, 0.5},
                                {IntervalKind::Fourth, 0.3},
                                {IntervalKind::MajorThird, 0.3}};
constexpr double kAcrossWeight = 2.0;

std::vector<std::size_t> all(std::size_t count) {
    std::vector<std::size_t> numbers(count);
    std::iota(numbers.begin(), numbers.end(), std::size_t{0});
    return numbers;
}

SoundingPair
pairOf(const FactsOfString& factsOf, StringId a, StringId b, IntervalKind kind, double weight) {
    const Hertz ha = factsOf(a).target;
    const Hertz hb = factsOf(b).target;
    SoundingPair pair{ha <= hb ? a : b, ha <= hb ? b : a, kind, weight, 0.0};
    pair.beatsPerCent = hertzPerCent(std::min(ha, hb) * intervalOf(kind).pair.ofLower);
    return pair;
}

} // namespace

std::vector<SoundingPair> soundingPairs(const Instrument& instrument,
                                        const FactsOfString& factsOf,
                                        const Programme& programme) {
    const std::vector<std::size_t> keys =
        programme.keys.empty() ? all(instrument.compass.keys.size()) : programme.keys;
    const std::vector<std::size_t> choirs =
        programme.choirs.empty() ? all(instrument.choirs.size()) : programme.choirs;
    const auto stringAt = [&](std::size_t choir, std::size_t key) {
        return StringId{choir, courseOf(instrument, key, programme.position)};
    };
    std::vector<SoundingPair> pairs;
    for (const std::size_t key : keys) {
        for (std::size_t i = 0; i < choirs.size(); ++i) {
            for (std::size_t j = i + 1; j < choirs.size(); ++j) {
                const int octaves = std::abs(octavesAbove(instrument.choirs[choirs[i]].footage) -
                                             octavesAbove(instrument.choirs[choirs[j]].footage));
                const IntervalKind kind = octaves == 0   ? IntervalKind::Unison
                                          : octaves == 1 ? IntervalKind::Octave
                                                         : IntervalKind::Fifteenth;
                pairs.push_back(pairOf(factsOf,
                                       stringAt(choirs[i], key),
                                       stringAt(choirs[j], key),
                                       kind,
                                       kAcrossWeight));
            }
        }
    }
    for (const std::size_t lower : keys) {
        for (const std::size_t upper : keys) {
            const auto kind = intervalAsSpelled(instrument.compass.keys[lower].note,
                                                instrument.compass.keys[upper].note);
            const auto* const listened =
                std::find_if(std::begin(kWithin), std::end(kWithin), [&](const Listened& one) {
                    return kind == one.kind;
                });
            if (listened == std::end(kWithin)) {
                continue;
            }
            for (const std::size_t choir : choirs) {
                pairs.push_back(pairOf(factsOf,
                                       stringAt(choir, lower),
                                       stringAt(choir, upper),
                                       listened->kind,
                                       listened->weight));
            }
        }
    }
    return pairs;
}

} // namespace quillbench
