#include "core/action/voice_history.hpp"

#include "core/support/median.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace quillbench {

namespace {

constexpr std::size_t kFewestShared = 10;
constexpr std::size_t kFewestPasses = 3;
constexpr double kShortestDays = 60.0;
constexpr double kYearDays = 365.25;
constexpr double kWornDb = 3.0;
constexpr double kChangeScatters = 3.1; // as in evenness: 0.2 % of ordinary keys lie farther
constexpr double kScatterOfMedian = 1.4826;
constexpr double kMedianAgainstMean =
    1.2533; // √(π/2): deviation of a median against that of a mean
// Student's t, 97.5 %, for 1 to 10 degrees of freedom; standard tables, value from memory.
constexpr std::array kStudent{12.71, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228};

double studentOf(std::size_t freedom) {
    // Beyond the table: 1.96 + 2.4/n, within 0.01 of it.
    return freedom <= kStudent.size() ? kStudent[freedom - 1]
                                      : 1.96 + 2.4 / static_cast<double>(freedom);
}

struct Scattered {
    double middle = 0.0;
    double scatter = 0.0;
};

Scattered scatteredAbout(const std::vector<double>& values) {
    Scattered out;
    out.middle = medianOf(values);
    std::vector<double> away;
    away.reserve(values.size());
    for (const double value : values) {
        away.push_back(std::abs(value - out.middle));
    }
    out.scatter = kScatterOfMedian * medianOf(away);
    return out;
}

PassDifference differenceOf(const std::vector<double>& values) {
    PassDifference out;
    if (values.size() < kFewestShared) {
        return out;
    }
    const Scattered all = scatteredAbout(values);
    out.amount = all.middle;
    out.uncertainty =
        kMedianAgainstMean * all.scatter / std::sqrt(static_cast<double>(values.size()));
    out.keys = values.size();
    return out;
}

using VoicePair = std::pair<const KeptVoice*, const KeptVoice*>;

std::vector<VoicePair> sharedKeys(const KeptPass& first, const KeptPass& second) {
    std::map<std::size_t, const KeptVoice*> known;
    for (const KeptVoice& voice : first.keys) {
        known[voice.key] = &voice;
    }
    std::vector<VoicePair> shared;
    for (const KeptVoice& voice : second.keys) {
        if (const auto found = known.find(voice.key); found != known.end()) {
            shared.emplace_back(found->second, &voice);
        }
    }
    return shared;
}

std::vector<KeyChange> changesOf(const std::vector<VoicePair>& shared) {
    std::vector<double> differences;
    differences.reserve(shared.size());
    for (const auto& [before, after] : shared) {
        differences.push_back(after->strength - before->strength);
    }
    std::vector<KeyChange> changed;
    if (differences.size() < kFewestShared) {
        return changed;
    }
    const Scattered usual = scatteredAbout(differences);
    for (std::size_t i = 0; i < shared.size(); ++i) {
        KeyChange change;
        change.key = shared[i].second->key;
        change.amount = differences[i] - usual.middle;
        change.uncertainty = std::hypot(shared[i].first->strengthU, shared[i].second->strengthU);
        const double chance = std::max(usual.scatter, change.uncertainty);
        if (std::abs(change.amount) >= std::max(kUnequalDb, kChangeScatters * chance)) {
            changed.push_back(change);
        }
    }
    std::sort(changed.begin(), changed.end(), [](const KeyChange& a, const KeyChange& b) {
        return std::abs(a.amount) > std::abs(b.amount);
    });
    return changed;
}

const VoicePoint* atKey(const VoiceCurve& curve, std::size_t key) {
    const auto found = std::find_if(curve.points.begin(),
                                    curve.points.end(),
                                    [key](const VoicePoint& point) { return point.key == key; });
    return found == curve.points.end() ? nullptr : &*found;
}

/// Days and displacements against the first pass that has enough.
struct WearPoints {
    std::vector<double> days;
    std::vector<double> db;
};

WearPoints wearPoints(std::span<const KeptPass> passes) {
    WearPoints points;
    const KeptPass* first = nullptr;
    for (const KeptPass& pass : passes) {
        const KeptPass& base = first != nullptr ? *first : pass;
        const PassDifference since = comparePasses(base, pass).displacement;
        if (since.keys == 0) {
            continue;
        }
        first = &base;
        points.days.push_back(pass.day);
        points.db.push_back(since.amount);
    }
    return points;
}

} // namespace

KeptPass passOf(const EvennessReport& report, double day) {
    KeptPass pass;
    pass.day = day;
    for (const VoicePoint& strength : report.curve(VoiceQuality::Strength).points) {
        const VoicePoint* level = atKey(report.curve(VoiceQuality::Level), strength.key);
        const VoicePoint* brightness = atKey(report.curve(VoiceQuality::Brightness), strength.key);
        const VoicePoint* sustain = atKey(report.curve(VoiceQuality::Sustain), strength.key);
        if (level == nullptr || brightness == nullptr || sustain == nullptr) {
            continue;
        }
        const VoicePoint* moved = atKey(report.curve(VoiceQuality::Displacement), strength.key);
        pass.keys.push_back({strength.key,
                             level->value,
                             brightness->value,
                             sustain->value,
                             strength.away,
                             strength.uncertainty,
                             moved != nullptr ? std::optional(moved->value) : std::nullopt});
    }
    return pass;
}

PassComparison comparePasses(const KeptPass& first, const KeptPass& second) {
    const std::vector<VoicePair> shared = sharedKeys(first, second);
    std::vector<double> level;
    std::vector<double> brightness;
    std::vector<double> sustain;
    std::vector<double> displacement;
    for (const auto& [before, after] : shared) {
        level.push_back(after->level - before->level);
        brightness.push_back(after->brightness - before->brightness);
        sustain.push_back(after->sustain - before->sustain);
        if (before->displacement && after->displacement) {
            displacement.push_back(*after->displacement - *before->displacement);
        }
    }
    return {differenceOf(level),
            differenceOf(brightness),
            differenceOf(sustain),
            differenceOf(displacement),
            changesOf(shared)};
}

WearOutlook wearOf(std::span<const KeptPass> passes) {
    WearOutlook out;
    const WearPoints points = wearPoints(passes);
    const std::size_t count = points.days.size();
    if (count < kFewestPasses || points.days.back() - points.days.front() < kShortestDays) {
        return out;
    }
    double day = 0.0;
    double db = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        day += points.days[i] / static_cast<double>(count);
        db += points.db[i] / static_cast<double>(count);
    }
    double spread = 0.0;
    double product = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        spread += (points.days[i] - day) * (points.days[i] - day);
        product += (points.days[i] - day) * (points.db[i] - db);
    }
    const double slope = product / spread;
    double squares = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        const double miss = points.db[i] - db - slope * (points.days[i] - day);
        squares += miss * miss;
    }
    const std::size_t freedom = count - 2;
    const double half =
        studentOf(freedom) * std::sqrt(squares / static_cast<double>(freedom) / spread);
    out.known = true;
    out.perYear = kYearDays * slope;
    out.lowest = kYearDays * (slope - half);
    out.highest = kYearDays * (slope + half);
    if (out.highest < 0.0) {
        const double last = db + slope * (points.days.back() - day);
        const double first = db + slope * (points.days.front() - day);
        const double left = std::max(0.0, kWornDb + last - first);
        out.soonestDays = left / (half - slope);
        out.latestDays = left / (-slope - half);
    }
    return out;
}

} // namespace quillbench
