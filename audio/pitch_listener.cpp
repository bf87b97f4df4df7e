#include "audio/pitch_listener.hpp"

#include "audio/source_reader.hpp"

#include <cmath>
#include <mutex>
#include <utility>

namespace quillbench {
namespace {

constexpr double kCentsPerMillionth = 1200.0 / 0.6931471805599453 * 1e-6;

} // namespace

struct PitchListener::Body {
    Body(std::shared_ptr<AudioSource> from, ClockCalibration calibration)
        : clock(calibration),
          follower(from->sampleRate().corrected(calibration)),
          reader(std::move(from),
                 {[this](const AudioBlock& block, bool gap) { hear(block, gap); },
                  [this](const EngineState& state) { show(state); }}) {}

    ClockCalibration clock;

    // Of the thread that listens.
    SteadyPitchFollower follower;
    PitchHearing now;

    mutable std::mutex mutex;
    PitchHearing shown;

    [[nodiscard]] std::optional<SteadyPitch> reading() const {
        std::optional<SteadyPitch> tone = follower.reading();
        if (tone) {
            tone->uncertainty = Cents(
                std::hypot(tone->uncertainty.value(), clock.ppmUncertainty * kCentsPerMillionth));
        }
        return tone;
    }

    void hear(const AudioBlock& block, bool gap) {
        if (gap) {
            follower.restart();
        }
        follower.push({block.samples.data(), block.count});
        const std::optional<SteadyPitch> tone = reading();
        if (now.tone && (!tone || tone->length < now.tone->length)) {
            now.before.push_back(*now.tone);
        }
        now.tone = tone;
        now.sounds = follower.sounds();
    }

    void show(const EngineState& state) {
        now.source = state;
        const std::lock_guard lock(mutex);
        shown = now;
    }

    SourceReader reader; // last: its thread is joined before the rest goes
};

PitchListener::PitchListener(std::shared_ptr<AudioSource> source, ClockCalibration clock)
    : body_(std::make_unique<Body>(std::move(source), clock)) {
}

PitchListener::~PitchListener() = default;

PitchHearing PitchListener::hearing() const {
    const std::lock_guard lock(body_->mutex);
    return body_->shown;
}

} // namespace quillbench
