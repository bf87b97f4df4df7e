#include "app/places/action/sitting.hpp"

#include "core/instrument/instrument.hpp"

#include <algorithm>
#include <span>

namespace quillbench {

namespace {

/// No register has this number.
std::size_t numberOf(ActionSitting::Alone alone) {
    return alone.value_or(kMostRegisters);
}

} // namespace

void ActionSitting::forget() {
    *this = {};
}

void ActionSitting::forget(ActionTask task, Alone alone, std::uint64_t on) {
    switch (task) {
    case ActionTask::Stagger:
        presses_.erase(on);
        break;
    case ActionTask::Evenness:
        voices_.erase(numberOf(alone));
        break;
    case ActionTask::Dampers:
        dampers_.erase(numberOf(alone));
        break;
    case ActionTask::Repetition:
        repeats_.erase(numberOf(alone));
        break;
    }
}

SoloKept ActionSitting::solo(std::size_t reg, std::size_t key) const {
    const auto found = solos_.find({reg, key});
    return found == solos_.end() ? nullptr : found->second;
}

EvennessReport ActionSitting::evenness(Alone alone) const {
    const auto found = voices_.find(numberOf(alone));
    return compareKeys(found == voices_.end() ? std::span<const VoicedPluck>()
                                              : std::span<const VoicedPluck>(found->second));
}

std::map<std::size_t, EvennessReport> ActionSitting::otherRegisters(std::size_t reg) const {
    std::map<std::size_t, EvennessReport> reports;
    for (const auto& [other, plucks] : voices_) {
        if (other != reg) {
            reports[other] = compareKeys(plucks);
        }
    }
    return reports;
}

DampingMap ActionSitting::damping(Alone alone) const {
    const auto found = dampers_.find(numberOf(alone));
    return mapDamping(found == dampers_.end() ? std::span<const DampedPluck>()
                                              : std::span<const DampedPluck>(found->second));
}

StaggerMap ActionSitting::stagger(std::uint64_t on, const std::vector<StaggerRow>& rows) const {
    const auto found = presses_.find(on);
    if (rows.size() < 2 || found == presses_.end()) {
        return {};
    }
    return mapStagger(found->second, rows);
}

std::map<std::size_t, RepetitionReading> ActionSitting::repetition(Alone alone) const {
    const auto found = repeats_.find(numberOf(alone));
    return found == repeats_.end() ? std::map<std::size_t, RepetitionReading>() : found->second;
}

std::size_t ActionSitting::keysKnownAlone(const std::vector<StaggerRow>& rows,
                                          std::size_t keys) const {
    std::size_t known = 0;
    for (std::size_t key = 0; key < keys; ++key) {
        known += std::all_of(rows.begin(),
                             rows.end(),
                             [&](const StaggerRow& row) {
                                 return solos_.contains({row.reg, key});
                             })
                     ? 1U
                     : 0U;
    }
    return known;
}

} // namespace quillbench
