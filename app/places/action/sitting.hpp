#pragma once

#include "app/places/action/action_pictures.hpp"
#include "app/places/action/press_listener.hpp"
#include "core/action/damping_map.hpp"
#include "core/action/evenness.hpp"
#include "core/action/repetition.hpp"
#include "core/action/stagger_map.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <utility>
#include <vector>

namespace quillbench {

/// What was measured of one instrument in one sitting, by register; slow presses by the set of registers that were on.
/// Where no register is on alone (`alone` has none) there is nothing of one. **Thread** any, one at a time.
class ActionSitting {
public:
    using Alone = std::optional<std::size_t>;

    void forget();

    /// What a task measured with the registers that are on.
    void forget(ActionTask task, Alone alone, std::uint64_t on);

    void addVoice(std::size_t reg, const VoicedPluck& pluck) { voices_[reg].push_back(pluck); }

    void addDamper(std::size_t reg, const DampedPluck& pluck) { dampers_[reg].push_back(pluck); }

    void addPress(std::uint64_t on, const SlowPress& press) { presses_[on].push_back(press); }

    /// In place of what was known of the key with this register.
    void setRepetition(std::size_t reg, std::size_t key, const RepetitionReading& reading) {
        repeats_[reg][key] = reading;
    }

    void setSolo(std::size_t reg, std::size_t key, SoloKept solo) {
        solos_[{reg, key}] = std::move(solo);
    }

    /// None: nullptr.
    [[nodiscard]] SoloKept solo(std::size_t reg, std::size_t key) const;

    [[nodiscard]] EvennessReport evenness(Alone alone) const;
    /// Of every other register that was played alone.
    [[nodiscard]] std::map<std::size_t, EvennessReport> otherRegisters(std::size_t reg) const;
    [[nodiscard]] DampingMap damping(Alone alone) const;
    [[nodiscard]] StaggerMap stagger(std::uint64_t on, const std::vector<StaggerRow>& rows) const;
    [[nodiscard]] std::map<std::size_t, RepetitionReading> repetition(Alone alone) const;

    /// Of `keys` keys, those on which every row was heard alone.
    [[nodiscard]] std::size_t keysKnownAlone(const std::vector<StaggerRow>& rows,
                                             std::size_t keys) const;

private:
    std::map<std::size_t, std::vector<VoicedPluck>> voices_;
    std::map<std::size_t, std::vector<DampedPluck>> dampers_;
    std::map<std::size_t, std::map<std::size_t, RepetitionReading>> repeats_;
    std::map<std::uint64_t, std::vector<SlowPress>> presses_;
    std::map<std::pair<std::size_t, std::size_t>, SoloKept> solos_;
};

} // namespace quillbench
