#pragma once

#include "app/models/virtual_player.hpp"
#include "app/places/action/action_model.hpp"
#include "app/places/action/action_text.hpp"
#include "audio/analysis_engine.hpp"
#include "audio/virtual_source.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <memory>
#include <variant>
#include <vector>

namespace quillbench::test {

/// The Action place at a virtual instrument, without window and clock: keys are played at instants of the sound, and
/// the model is told what the engine hears, as the window's timer would.
class ActionBench {
public:
    static constexpr double kBenchRate = 32000.0;

    explicit ActionBench(const std::vector<StringFault>& faults, std::uint64_t seed = 3) {
        chooseFirstOctave(tuning);
        VirtualSettings settings = mistuned(tuning, SampleRate(kBenchRate), seed, Cents(3.0));
        settings.faults = faults;
        source = std::make_shared<VirtualSource>(
            std::make_unique<VirtualInstrument>(tuning.instrument(), settings),
            SampleRate(kBenchRate),
            Pace::AsTaken);
        engine = std::make_unique<AnalysisEngine>(source);
        model.setSound([this](FrameIndex from, FrameIndex to) { return engine->sound(from, to); });
        player.setInstrument(source.get());
    }

    void draw(const std::vector<std::size_t>& registers) {
        Registration registration;
        for (const std::size_t reg : registers) {
            registration.on.set(reg);
        }
        registration.coupled = true;
        tuning.draw(registration);
        engine->setTarget(model.target());
    }

    /// The model is told what the next so many seconds bring.
    void listen(double seconds) {
        const int looks = static_cast<int>(std::ceil(seconds / lookEvery));
        for (int look = 0; look < looks; ++look) {
            static_cast<void>(engine->advance(SampleRate(kBenchRate).frames(Seconds(lookEvery))));
            for (const EngineEvent& event : engine->drainEvents()) {
                if (const auto* reading = std::get_if<StringReading>(&event)) {
                    model.hear(*reading);
                }
            }
            model.waitForPresses();
            if (const auto snapshot = engine->snapshot()) {
                model.advance(*snapshot);
            }
        }
    }

    void play(std::size_t key, double held, double after) {
        player.keyDown(key);
        listen(held);
        player.keyUp(key);
        listen(after);
    }

    double lookEvery = 0.033; ///< s: as the window's timer, or as a busy machine
    TuningModel tuning;
    ActionModel model{tuning};
    VirtualPlayer player{tuning};
    std::shared_ptr<VirtualSource> source;
    std::unique_ptr<AnalysisEngine> engine;
};

} // namespace quillbench::test
