#pragma once

#include "app/formats/fault_file.hpp"
#include "app/places/action/action_model.hpp"

#include <QString>
#include <vector>

namespace quillbench {

/// What the model's present task has found; only that task's part is filled.
struct ActionFindings {
    EvennessReport evenness;
    DampingMap damping;
    StaggerMap stagger;
    std::map<std::size_t, RepetitionReading> repetition;
};

[[nodiscard]] ActionFindings findingsOf(const ActionModel& model);

/// What to do now, in one sentence or two.
[[nodiscard]] QString actionSentence(const ActionModel& model, const ActionFindings& findings);

/// What the whole register does, before any single jack; empty where it cannot be said yet.
[[nodiscard]] QString wholeText(const ActionModel& model, const ActionFindings& findings);

/// The jacks to do, the surest first.
[[nodiscard]] std::vector<ActionJob> jobsOf(const ActionModel& model,
                                            const ActionFindings& findings);

/// Something that was measured of a key.
struct KeyEvidence {
    FaultMeasure measure = FaultMeasure::Strength;
    QString text;
};

/// All that was measured of a key with the registers that are on; empty where nothing was.
[[nodiscard]] std::vector<KeyEvidence> evidenceOf(const ActionModel& model, std::size_t key);

/// The map over the keyboard.
[[nodiscard]] ActionMapPicture actionMap(const ActionModel& model,
                                         const ActionFindings& findings,
                                         std::optional<std::size_t> chosen);

/// "A♯3".
[[nodiscard]] QString keyName(const ActionModel& model, std::size_t key);

/// "back 8′".
[[nodiscard]] QString registerName(const ActionModel& model, std::size_t reg);

} // namespace quillbench
