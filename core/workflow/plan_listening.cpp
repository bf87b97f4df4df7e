#include "core/workflow/plan_builder.hpp"

#include <algorithm>
#include <cstdlib>

namespace quillbench::detail {

namespace {

/// How many keys of a choir a first look takes. Common practice, no source.
constexpr std::size_t kLookKeys = 12;
constexpr int kMiddleC = 60;
constexpr int kTenorC = 48;

bool isIron(const Instrument& instrument, StringId string) {
    const std::string& material = instrument.choirs[string.choir].strings[string.course].material;
    return material == "iron" || material == "steel";
}

std::vector<StringId> reached(const PlanBuilder& builder, std::size_t choir) {
    std::vector<StringId> strings;
    const std::size_t count = builder.instrument().choirs[choir].strings.size();
    for (std::size_t course = 0; course < count; ++course) {
        if (keyAt(builder.instrument(), course, builder.options().position)) {
            strings.push_back({choir, course});
        }
    }
    return strings;
}

void addSweep(PlanBuilder& builder, Phase phase, std::vector<StringId> strings) {
    if (strings.empty()) {
        return;
    }
    TuningStep step = builder.stepFor(strings.front(), phase, StepWork::Sweep);
    step.sweep = std::move(strings);
    builder.add(std::move(step));
}

/// The string of a choir nearest a key, among those that fit.
template <typename Fits>
std::optional<StringId>
nearest(const PlanBuilder& builder, std::size_t choir, int midi, const Fits& fits) {
    std::optional<StringId> best;
    int distance = 0;
    for (const StringId string : reached(builder, choir)) {
        const int away = std::abs(
            keyNote(builder.instrument(), string, builder.options().position).midiNumber() - midi);
        if (fits(string) && (!best || away < distance)) {
            best = string;
            distance = away;
        }
    }
    return best;
}

/// A brass string of the bass, an iron one of the middle, one of the 4′ (or of the top where there is none).
std::vector<StringId> sentinels(const PlanBuilder& builder) {
    const Instrument& instrument = builder.instrument();
    const std::size_t reference = builder.options().reference;
    const auto any = [](StringId) { return true; };
    const auto iron = [&](StringId string) { return isIron(instrument, string); };
    const auto brass = [&](StringId string) { return !isIron(instrument, string); };
    std::vector<StringId> strings;
    const auto take = [&](const std::optional<StringId>& string) {
        if (string && std::find(strings.begin(), strings.end(), *string) == strings.end()) {
            strings.push_back(*string);
        }
    };
    const auto bass = nearest(builder, reference, kTenorC - 12, brass);
    take(bass ? bass : nearest(builder, reference, kTenorC - 12, any));
    const auto middle = nearest(builder, reference, kMiddleC, iron);
    take(middle ? middle : nearest(builder, reference, kMiddleC, any));
    const auto choirs = builder.choirsInOrder();
    const auto four = std::find_if(choirs.begin(), choirs.end(), [&](std::size_t choir) {
        return instrument.choirs[choir].footage == Footage::Four;
    });
    take(nearest(builder, four == choirs.end() ? reference : *four, kMiddleC + 12, any));
    return strings;
}

/// About a dozen keys, spread over the compass.
std::vector<StringId> spread(const std::vector<StringId>& all) {
    if (all.size() <= kLookKeys) {
        return all;
    }
    std::vector<StringId> some;
    some.reserve(kLookKeys);
    for (std::size_t i = 0; i < kLookKeys; ++i) {
        some.push_back(all[i * (all.size() - 1) / (kLookKeys - 1)]);
    }
    return some;
}

} // namespace

void addListening(PlanBuilder& builder) {
    const std::vector<std::size_t> choirs = builder.choirsInOrder();
    if (builder.options().runThrough) {
        for (std::size_t row = 0; row < builder.instrument().registers.size(); ++row) {
            const std::size_t choir = builder.instrument().registers[row].choir;
            const std::vector<StringId> strings = reached(builder, choir);
            if (strings.empty()) {
                continue;
            }
            TuningStep step = builder.stepFor(strings.front(), Phase::RunThrough, StepWork::Sweep);
            if (const auto solo = soloRegister(builder.instrument(), choir); solo != row) {
                // A row at the nut is run through by itself, on its own manual.
                step.alone.manual = builder.instrument().registers[row].manual;
                step.alone.registration.coupled = false;
                step.alone.registration.on[*solo] = false;
                step.alone.registration.on[row] = true;
                step.together = step.alone;
            }
            step.sweep = strings;
            builder.add(std::move(step));
        }
    }
    if (builder.options().warmUp) {
        // The three sound from different choirs; each is drawn when its turn comes.
        addSweep(builder, Phase::WarmUp, sentinels(builder));
    }
    if (builder.options().firstLook) {
        for (const std::size_t choir : choirs) {
            addSweep(builder, Phase::FirstLook, spread(reached(builder, choir)));
        }
    }
}

void addRecheck(PlanBuilder& builder) {
    if (!builder.options().recheck) {
        return;
    }
    for (const std::size_t choir : builder.choirsInOrder()) {
        if (builder.instrument().choirs[choir].footage == Footage::Four &&
            choir != builder.options().reference) {
            addSweep(builder, Phase::Recheck, reached(builder, choir));
        }
    }
    std::vector<StringId> octave;
    const int low = builder.options().bearingsFrom.midiNumber();
    for (const StringId string : reached(builder, builder.options().reference)) {
        const int midi =
            keyNote(builder.instrument(), string, builder.options().position).midiNumber();
        if (midi >= low && midi <= low + 12) {
            octave.push_back(string);
        }
    }
    addSweep(builder, Phase::Recheck, std::move(octave));
}

void addRoughPass(PlanBuilder& builder, std::size_t choir) {
    const auto& moves = builder.options().expectedMove;
    if (choir >= moves.size() || abs(moves[choir]) <= builder.options().roughAbove) {
        return;
    }
    const std::size_t count = builder.instrument().choirs[choir].strings.size();
    for (std::size_t course = 0; course < count; ++course) {
        if (builder.reachOf({choir, course})) {
            builder.add(builder.stepFor({choir, course}, Phase::RoughPass, StepWork::SetForNow));
        }
    }
}

} // namespace quillbench::detail
