#include "core/action/damping_map.hpp"

#include "core/action/smooth_curve.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace quillbench {

namespace {

constexpr std::size_t kFewestDampedKeys = 8;
constexpr double kDampingScatters = 3.5;
constexpr double kSlowTimes = 1.8;    // longer than usual
constexpr double kSlowSeconds = 0.15; // and at least so much
constexpr double kLateSeconds = 0.12;
constexpr double kEarlyFall = 20.0; // dB a second: 4 dB more in a touch of 0.2 s
constexpr double kEarlyTimes =
    1.6; // as fast as usual: high strings fall fast and scatter by as much
constexpr double kFallFrom = 0.05; // s after the pluck
constexpr double kFallTo = 0.6;
constexpr double kShortestTouch = 0.22;
constexpr double kLeastFall = 0.12;
constexpr double kBeforeRelease = 0.02;
constexpr double kPartialDb = 15.0;
constexpr double kPartialScatters = 2.8;
constexpr double kHeardLingeringDb = -32.0; // below it nobody minds
constexpr std::size_t kNeighbours = 2;
constexpr double kShortestStop = 0.005;

struct Against {
    double usual = 0.0;
    double away = 0.0;
    double scatter = 0.0;
};

/// A quantity key by key.
using Column = std::map<std::size_t, double>;

std::map<std::size_t, Against> against(const Column& column) {
    std::vector<double> x;
    std::vector<double> y;
    x.reserve(column.size());
    y.reserve(column.size());
    for (const auto& [key, value] : column) {
        x.push_back(static_cast<double>(key));
        y.push_back(value);
    }
    std::map<std::size_t, Against> out;
    if (x.empty()) {
        return out;
    }
    const SmoothCurve curve = smoothCurve(x, y);
    std::size_t i = 0;
    for (const auto& [key, value] : column) {
        out[key] = {curve.fitted[i], value - curve.fitted[i], curve.scale};
        ++i;
    }
    return out;
}

/// The lower of the middle two where they are even in number: one bad pluck of two names nobody. Nothing where no damper was
/// heard, or no pluck says.
template <typename Value>
std::optional<double> middleBy(const std::vector<const DampedPluck*>& plucks,
                               Value DampedPluck::*field) {
    std::vector<double> values;
    values.reserve(plucks.size());
    for (const DampedPluck* pluck : plucks) {
        const std::optional<double> value = pluck->*field;
        if (pluck->found && value) {
            values.push_back(*value);
        }
    }
    if (values.empty()) {
        return std::nullopt;
    }
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>((values.size() - 1) / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Certainty of a number beyond its limit, by how far beyond in scatters of the register.
double sureness(const Against& one, double limit) {
    return normalBelow((one.away - 0.5 * limit) / std::max(one.scatter, 0.1 * limit));
}

/// What the keys of a register do, each against the curve of all.
struct Compared {
    std::map<std::size_t, Against> stop; ///< logarithms
    std::map<std::size_t, Against> held;
    std::map<std::size_t, Against> lingering;
    std::map<std::size_t, Against> fall;
};

void judge(DampingMap& map, const DampingKey& key, const Compared& all) {
    if (key.count - key.undamped < 2) {
        return;
    }
    const auto far = [](const Against& one, double limit, double scatters = kDampingScatters) {
        return one.away > std::max(limit, scatters * one.scatter);
    };
    const Against& stop = all.stop.at(key.key);
    const Against& held = all.held.at(key.key);
    const auto lingering = all.lingering.find(key.key);
    if (far(stop, std::log(kSlowTimes)) && key.stopSeconds > key.usualSeconds + kSlowSeconds) {
        map.findings.push_back({key.key,
                                DampingFault::Slow,
                                key.stopSeconds - key.usualSeconds,
                                sureness(stop, std::log(kSlowTimes))});
    } else if (lingering != all.lingering.end() &&
               far(lingering->second, kPartialDb, kPartialScatters) &&
               *key.lingeringDb > kHeardLingeringDb) {
        map.findings.push_back({key.key,
                                DampingFault::Partial,
                                lingering->second.away,
                                sureness(lingering->second, kPartialDb)});
    }
    if (far(held, kLateSeconds)) {
        map.findings.push_back(
            {key.key, DampingFault::Late, held.away, sureness(held, kLateSeconds)});
    }
    if (const auto fall = all.fall.find(key.key);
        fall != all.fall.end() && far(fall->second, kEarlyFall) &&
        fall->second.away > (kEarlyTimes - 1.0) * fall->second.usual) {
        map.findings.push_back(
            {key.key, DampingFault::Early, fall->second.away, sureness(fall->second, kEarlyFall)});
    }
}

/// What lingers beside a string that its damper does not hold is that string, heard while its neighbour is played: of
/// neighbours only the worst is named, and the others are heard again once it is mended.
void leaveNeighboursOut(std::vector<DampingFinding>& findings) {
    const std::vector<DampingFinding> all = findings;
    const auto isNeighbours = [&](const DampingFinding& one) {
        return one.fault == DampingFault::Partial &&
               std::any_of(all.begin(), all.end(), [&](const DampingFinding& other) {
                   const auto apart = std::max(one.key, other.key) - std::min(one.key, other.key);
                   return other.fault == DampingFault::Partial && apart <= kNeighbours &&
                          other.amount > one.amount;
               });
    };
    findings.erase(std::remove_if(findings.begin(), findings.end(), isNeighbours), findings.end());
}

} // namespace

DampedPluck dampedPluck(std::size_t key, double pluck, const ReleaseReading& release) {
    DampedPluck out;
    out.key = key;
    out.found = release.found;
    out.heldSeconds = release.found ? release.release.count() - pluck : 0.0;
    out.stopSeconds = release.stop.count();
    out.lingeringDb = release.lingeringDb;
    return out;
}

std::optional<double> fallWhileHeld(
    std::span<const float> samples, SampleRate rate, Hertz string, Seconds pluck, Seconds release) {
    const std::vector<double> sound(samples.begin(), samples.end());
    const CombPower power = combPower(sound, rate.hz(), string.value(), 0.0);
    // What dies away in play is easily taken for released sooner than it was.
    const double held = std::max(release.count() - kBeforeRelease, pluck.count() + kShortestTouch);
    const double to = std::min(pluck.count() + kFallTo, held) - 0.5 * power.frameSeconds;
    const double from = pluck.count() + kFallFrom + 0.5 * power.frameSeconds;
    double count = 0.0;
    double t = 0.0;
    double tt = 0.0;
    double y = 0.0;
    double ty = 0.0;
    for (std::size_t i = 0; i < power.db.size(); ++i) {
        const double at = power.firstSeconds + static_cast<double>(i) * power.hopSeconds - from;
        if (at < 0.0 || at > to - from) {
            continue;
        }
        count += 1.0;
        t += at;
        tt += at * at;
        y += power.db[i];
        ty += at * power.db[i];
    }
    if (to - from < kLeastFall || count < 3.0) {
        return std::nullopt;
    }
    return (t * y / count - ty) / (tt - t * t / count);
}

DampingMap mapDamping(std::span<const DampedPluck> plucks) {
    std::map<std::size_t, std::vector<const DampedPluck*>> byKey;
    for (const DampedPluck& pluck : plucks) {
        byKey[pluck.key].push_back(&pluck);
    }
    DampingMap map;
    map.keys.reserve(byKey.size());
    Column stops;
    Column holds;
    Column falls;
    Column lingering;
    for (const auto& [number, own] : byKey) {
        DampingKey key;
        key.key = number;
        key.count = static_cast<int>(own.size());
        key.undamped = static_cast<int>(
            std::count_if(own.begin(), own.end(), [](const DampedPluck* p) { return !p->found; }));
        key.stopSeconds = middleBy(own, &DampedPluck::stopSeconds).value_or(0.0);
        key.heldSeconds = middleBy(own, &DampedPluck::heldSeconds).value_or(0.0);
        key.fall = middleBy(own, &DampedPluck::fall);
        key.lingeringDb = middleBy(own, &DampedPluck::lingeringDb);
        map.keys.push_back(key);
        if (key.undamped < key.count) {
            stops[number] = std::log(std::max(key.stopSeconds, kShortestStop));
            holds[number] = key.heldSeconds;
        }
        if (key.lingeringDb) {
            lingering[number] = *key.lingeringDb;
        }
        if (key.fall) {
            falls[number] = *key.fall;
        }
    }
    map.enough = map.keys.size() >= kFewestDampedKeys;
    const Compared all{against(stops), against(holds), against(lingering), against(falls)};
    for (DampingKey& key : map.keys) {
        if (key.undamped >= 2 && 2 * key.undamped > key.count) {
            map.findings.push_back({key.key,
                                    DampingFault::NotAtAll,
                                    0.0,
                                    1.0 - std::pow(0.25, static_cast<double>(key.undamped))});
        }
        if (key.undamped == key.count) {
            continue;
        }
        key.usualSeconds = std::exp(all.stop.at(key.key).usual);
        key.usualHeld = all.held.at(key.key).usual;
        if (key.fall) {
            key.usualFall = all.fall.at(key.key).usual;
        }
        if (map.enough) {
            judge(map, key, all);
        }
    }
    leaveNeighboursOut(map.findings);
    return map;
}

} // namespace quillbench
