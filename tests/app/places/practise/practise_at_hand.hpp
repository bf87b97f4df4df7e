#pragma once

#include "app/places/practise/practise_model.hpp"
#include "app/places/practise/practise_sound.hpp"
#include "audio/virtual_source.hpp"
#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

namespace quillbench::test {

/// A place to practise without a loudspeaker, and with an analysis that answers at once.
struct PractiseAtHand {
    PractiseSound sound;
    PractiseModel model{sound,
                        *findExample("double-8-8-4"),
                        TunedScale{*findTemperament("werckmeister-3"), ReferencePitch{}},
                        1,
                        [](const std::function<void()>& work) { work(); }};

    PractiseAtHand() { model.enter(); }

    void
    wish(ExerciseKind kind, PracticeInterval interval, EarRegister where = EarRegister::Tenor) {
        model.wish({kind, interval, where});
        REQUIRE(model.exercise());
    }

    /// What leaves for the loudspeaker meanwhile.
    [[nodiscard]] std::vector<float> hear(double seconds) const {
        std::vector<float> heard;
        const auto frames = static_cast<std::size_t>(seconds * sound.rate().hz());
        AudioBlock block;
        while (heard.size() < frames && sound.source()->take(block)) {
            heard.insert(heard.end(), block.samples.begin(), block.samples.begin() + block.count);
        }
        return heard;
    }

    /// Taps evenly.
    void tapAt(double rate, int count) {
        for (int i = 0; i < count; ++i) {
            model.tapAt(Seconds(0.5 + i / rate));
        }
    }

    /// Where the ear is sent to listen.
    [[nodiscard]] double trueRate() const {
        return model.exercise()->multiple * std::abs(model.exercise()->beat.perSecond());
    }
};

} // namespace quillbench::test
