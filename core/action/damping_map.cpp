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
constexpr double kPartialDb = 10.0;
constexpr double kHeardLingeringDb = -32.0; // below it nobody minds
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

/// The lower of the middle two where they are even in number: one bad pluck of two names nobody. Nothing where no
/// damper was heard, or no pluck says.
template <typename Value>
std::optional<double> lowerMedianBy(const std::vector<const DampedPluck*>& plucks,
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
};

void judge(DampingMap& map, const DampingKey& key, const Compared& all) {
    if (key.count - key.undamped < 2) {
        return;
    }
    const auto far = [](const Against& one, double limit) {
        return one.away > std::max(limit, kDampingScatters * one.scatter);
    };
    const Against& stop = all.stop.at(key.key);
    const Against& held = all.held.at(key.key);
    const auto lingering = all.lingering.find(key.key);
    if (far(stop, std::log(kSlowTimes)) && key.stopSeconds > key.usualSeconds + kSlowSeconds) {
        map.findings.push_back({key.key,
                                DampingFault::Slow,
                                key.stopSeconds - key.usualSeconds,
                                sureness(stop, std::log(kSlowTimes))});
    } else if (lingering != all.lingering.end() && far(lingering->second, kPartialDb) &&
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

DampingMap mapDamping(std::span<const DampedPluck> plucks) {
    std::map<std::size_t, std::vector<const DampedPluck*>> byKey;
    for (const DampedPluck& pluck : plucks) {
        byKey[pluck.key].push_back(&pluck);
    }
    DampingMap map;
    map.keys.reserve(byKey.size());
    Column stops;
    Column holds;
    Column lingering;
    for (const auto& [number, own] : byKey) {
        DampingKey key;
        key.key = number;
        key.count = static_cast<int>(own.size());
        key.undamped = static_cast<int>(
            std::count_if(own.begin(), own.end(), [](const DampedPluck* p) { return !p->found; }));
        key.stopSeconds = lowerMedianBy(own, &DampedPluck::stopSeconds).value_or(0.0);
        key.heldSeconds = lowerMedianBy(own, &DampedPluck::heldSeconds).value_or(0.0);
        key.lingeringDb = lowerMedianBy(own, &DampedPluck::lingeringDb);
        map.keys.push_back(key);
        if (key.undamped < key.count) {
            stops[number] = std::log(std::max(key.stopSeconds, kShortestStop));
            holds[number] = key.heldSeconds;
        }
        if (key.lingeringDb) {
            lingering[number] = *key.lingeringDb;
        }
    }
    map.enough = map.keys.size() >= kFewestDampedKeys;
    const Compared all{against(stops), against(holds), against(lingering)};
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
        if (map.enough) {
            judge(map, key, all);
        }
    }
    return map;
}

} // namespace quillbench
