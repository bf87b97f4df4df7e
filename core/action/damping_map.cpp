#include "core/action/damping_map.hpp"

#include "core/action/smooth_curve.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace quillbench {

namespace {

constexpr std::size_t kFewestDampedKeys = 8;
constexpr double kDampingScatters = 3.5;
constexpr double kSlowTimes = 1.8;    // longer than usual
constexpr double kSlowSeconds = 0.15; // and at least so much
constexpr double kLateSeconds = 0.12;
constexpr double kPartialDb = 10.0;
constexpr double kHeardResidualDb = -32.0; // below it nobody minds
constexpr double kShortestStop = 0.005;

struct Column {
    std::vector<double> x;
    std::vector<double> y;
};

struct Against {
    double usual = 0.0;
    double away = 0.0;
    double scatter = 0.0;
};

std::vector<Against> against(const Column& column) {
    std::vector<Against> out;
    if (column.x.empty()) {
        return out;
    }
    const SmoothCurve curve = smoothCurve(column.x, column.y);
    for (std::size_t i = 0; i < column.x.size(); ++i) {
        out.push_back({curve.fitted[i], column.y[i] - curve.fitted[i], curve.scale});
    }
    return out;
}

/// The lower of the middle two where they are even in number: one bad pluck of two names nobody.
double lowerMedianBy(const std::vector<const DampedPluck*>& plucks, double DampedPluck::*field) {
    std::vector<double> values;
    for (const DampedPluck* pluck : plucks) {
        if (pluck->found) {
            values.push_back(pluck->*field);
        }
    }
    if (values.empty()) {
        return 0.0;
    }
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>((values.size() - 1) / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Certainty of a number beyond its limit, by how far beyond in scatters of the register.
double sureness(const Against& one, double limit) {
    return normalBelow((one.away - 0.5 * limit) / std::max(one.scatter, 0.1 * limit));
}

void judge(DampingMap& map,
           const DampingKey& key,
           const Against& stop,
           const Against& held,
           const Against& residual) {
    if (key.count - key.undamped < 2) {
        return;
    }
    const auto far = [](const Against& one, double limit) {
        return one.away > std::max(limit, kDampingScatters * one.scatter);
    };
    if (far(stop, std::log(kSlowTimes)) && key.stopSeconds > key.usualSeconds + kSlowSeconds) {
        map.findings.push_back({key.key,
                                DampingFault::Slow,
                                key.stopSeconds - key.usualSeconds,
                                sureness(stop, std::log(kSlowTimes))});
    } else if (far(residual, kPartialDb) && key.residualDb > kHeardResidualDb) {
        map.findings.push_back(
            {key.key, DampingFault::Partial, residual.away, sureness(residual, kPartialDb)});
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
    out.residualDb = release.residualDb;
    return out;
}

DampingMap mapDamping(std::span<const DampedPluck> plucks) {
    std::map<std::size_t, std::vector<const DampedPluck*>> byKey;
    for (const DampedPluck& pluck : plucks) {
        byKey[pluck.key].push_back(&pluck);
    }
    DampingMap map;
    Column stops;
    Column holds;
    Column residuals;
    for (const auto& [number, own] : byKey) {
        DampingKey key;
        key.key = number;
        key.count = static_cast<int>(own.size());
        key.undamped = static_cast<int>(
            std::count_if(own.begin(), own.end(), [](const DampedPluck* p) { return !p->found; }));
        key.stopSeconds = lowerMedianBy(own, &DampedPluck::stopSeconds);
        key.heldSeconds = lowerMedianBy(own, &DampedPluck::heldSeconds);
        key.residualDb = lowerMedianBy(own, &DampedPluck::residualDb);
        map.keys.push_back(key);
        if (key.undamped < key.count) {
            const auto x = static_cast<double>(number);
            for (Column* column : {&stops, &holds, &residuals}) {
                column->x.push_back(x);
            }
            stops.y.push_back(std::log(std::max(key.stopSeconds, kShortestStop)));
            holds.y.push_back(key.heldSeconds);
            residuals.y.push_back(key.residualDb);
        }
    }
    map.enough = map.keys.size() >= kFewestDampedKeys;
    const std::vector<Against> stop = against(stops);
    const std::vector<Against> held = against(holds);
    const std::vector<Against> residual = against(residuals);
    std::size_t i = 0;
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
        key.usualSeconds = std::exp(stop[i].usual);
        key.usualHeld = held[i].usual;
        if (map.enough) {
            judge(map, key, stop[i], held[i], residual[i]);
        }
        ++i;
    }
    return map;
}

} // namespace quillbench
