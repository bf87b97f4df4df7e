#include "audio/virtual_source.hpp"

#include "audio/playback_stream.hpp"
#include "audio/spsc_ring.hpp"
#include "audio/thread_role.hpp"
#include "core/support/contract.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <condition_variable>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

namespace quillbench {
namespace {

using Clock = std::chrono::steady_clock;

constexpr std::size_t kVirtualRingBlocks = 2048; // 2.7 s in blocks of 64
constexpr std::size_t kCommands = 1024;
constexpr std::size_t kRendered = 64; // frames at once: a command waits for at most so many
constexpr auto kSleep = std::chrono::milliseconds(3);
constexpr auto kSleepBeforeRest = std::chrono::milliseconds(200); // a command wakes it
constexpr Seconds kGoesOnWithin{0.3};  // a loudspeaker that rested; longer is not waited for
constexpr float kNotHeard = 1e-5F;     // −100 dB re full scale
constexpr Seconds kAskAgainAfter{1.0}; // where it opened only after it was asked
constexpr Seconds kMostBehind{0.5};    // after the computer slept, what was missed is left out

} // namespace

struct VirtualSource::Body {
    SampleRate rate;
    Pace pace = Pace::RealTime;
    std::shared_ptr<PlaybackStream> playback;
    SoundFinish finish;

    std::mutex instrumentMutex; // between ordinary threads: renderer and inspect()
    std::unique_ptr<VirtualInstrument> instrument;

    SpscRing<VirtualCommand> commands{kCommands};
    std::optional<VirtualCommand> refused; // by a full instrument; goes first next time
    SpscRing<AudioBlock> ring{kVirtualRingBlocks};
    std::atomic<std::int64_t> next{0}; // frame
    std::atomic<bool> running{false};
    std::atomic<double> restsAfterS{VirtualSource::kRestsAfter.count()};

    std::atomic<bool> touched{false}; // by inspect()
    std::atomic<bool> resting{false};
    std::function<void()> goesOn; // set before the thread runs

    // Of the renderer.
    bool finishSounds = false; // more than the instrument may, where there is a finish
    Clock::time_point lastSound;
    bool quiet = false;                         // for long
    std::optional<Clock::time_point> restAsked; // none while the loudspeaker plays
    Clock::time_point wakeAsked;

    std::mutex sleepMutex;
    std::condition_variable_any wake;
    std::jthread thread; // last: joined before the rest goes

    void applyCommands() {
        VirtualCommand command;
        while (refused || commands.tryPop(command)) {
            const VirtualCommand now = refused ? *refused : command;
            refused.reset();
            if (!instrument->apply(now)) {
                refused = now;
                return;
            }
        }
    }

    void render(AudioBlock& block, std::size_t frames) {
        const std::lock_guard lock(instrumentMutex);
        applyCommands();
        const std::int64_t first = next.load(std::memory_order_relaxed);
        block.first = FrameIndex(first);
        block.count = static_cast<std::uint32_t>(frames);
        block.discontinuity = false;
        instrument->render({block.samples.data(), frames});
        if (finish) {
            const std::span<float> heard(block.samples.data(), frames);
            finish(heard);
            finishSounds = std::any_of(heard.begin(), heard.end(), [](float sample) {
                return std::fabs(sample) > kNotHeard;
            });
        }
        next.store(first + static_cast<std::int64_t>(frames), std::memory_order_relaxed);
    }

    void renderOnward(std::size_t frames) {
        AudioBlock block;
        render(block, frames);
        // A full ring means that nobody takes: the jump of frames is seen when somebody does.
        (void)ring.tryPush(block);
        if (playback && !restAsked) {
            playback->write({block.samples.data(), frames});
        }
    }

    /// Where it rests. Not between its look at what was done and its sleep.
    void wakeUp() {
        { const std::lock_guard lock(sleepMutex); }
        wake.notify_one();
    }

    [[nodiscard]] bool sounds() {
        if (refused || commands.size() > 0 || finishSounds || touched.exchange(false)) {
            return true;
        }
        const std::lock_guard lock(instrumentMutex);
        return instrument->sounds();
    }

    /// Where nothing but a room is heard for long, all stands still until something is done.
    void chooseRest(Clock::time_point now) {
        if (sounds()) {
            lastSound = now;
            quiet = false;
            if (restAsked) {
                restAsked.reset();
                wakeAsked = now;
                playback->setResting(false);
            }
            return;
        }
        quiet = now - lastSound > Seconds(restsAfterS.load(std::memory_order_relaxed));
        if (quiet && playback && playback->state().phase != EnginePhase::Idle &&
            (!restAsked || now - *restAsked > kAskAgainAfter)) {
            restAsked = now;
            playback->setResting(true);
        }
    }

    /// Until something is done; or for a while, where the loudspeaker does not rest yet.
    void sleepUntilTouched(const std::stop_token& stop) {
        const auto done = [this] { return touched || commands.size() > 0; };
        std::unique_lock lock(sleepMutex);
        if (playback && playback->state().phase != EnginePhase::Idle) {
            wake.wait_for(lock, stop, kSleepBeforeRest, done);
            return;
        }
        resting = true;
        wake.wait(lock, stop, done);
        resting = false;
        lock.unlock();
        if (goesOn) {
            goesOn();
        }
    }

    void run(const std::stop_token& stop) {
        setThreadRole(ThreadRole::Renderer);
        bool byClock = false;
        Clock::time_point started;
        std::int64_t base = 0; // frame at `started`
        lastSound = Clock::now();
        while (!stop.stop_requested()) {
            const Clock::time_point now = Clock::now();
            chooseRest(now);
            if (playback && !restAsked && playback->state().phase == EnginePhase::Running) {
                byClock = false;
                while (playback->room() >= kRendered) {
                    renderOnward(kRendered);
                }
            } else if (playback && !restAsked && now - wakeAsked < kGoesOnWithin) {
                byClock = false; // what woke it waits, so that its beginning is heard
            } else {
                const std::int64_t at = next.load(std::memory_order_relaxed);
                const Seconds behind =
                    Seconds(now - started) - rate.duration(FrameCount(at - base));
                if (!byClock || behind > kMostBehind) {
                    byClock = true;
                    started = now;
                    base = at;
                }
                const std::int64_t due = base + rate.frames(Seconds(now - started)).value();
                while (next.load(std::memory_order_relaxed) +
                           static_cast<std::int64_t>(kRendered) <=
                       due) {
                    renderOnward(kRendered);
                }
            }
            if (quiet && byClock) {
                sleepUntilTouched(stop);
                byClock = false; // frames did not pass meanwhile
                continue;
            }
            std::unique_lock lock(sleepMutex);
            wake.wait_for(lock, stop, kSleep, [] { return false; });
        }
    }
};

VirtualSource::VirtualSource(std::unique_ptr<VirtualInstrument> instrument,
                             SampleRate rate,
                             Pace pace,
                             std::shared_ptr<PlaybackStream> playback,
                             SoundFinish finish)
    : body_(std::make_unique<Body>()) {
    EXPECTS(instrument != nullptr);
    EXPECTS(playback == nullptr || playback->sampleRate() == rate);
    body_->rate = rate;
    body_->pace = pace;
    body_->playback = std::move(playback);
    body_->finish = std::move(finish);
    body_->next.store(instrument->now().value(), std::memory_order_relaxed);
    body_->instrument = std::move(instrument);
}

VirtualSource::~VirtualSource() = default;

bool VirtualSource::send(const VirtualCommand& command) {
    const bool taken = body_->commands.tryPush(command);
    body_->wakeUp();
    return taken;
}

void VirtualSource::setRestsAfter(Seconds quiet) {
    body_->restsAfterS.store(quiet.count(), std::memory_order_relaxed);
}

void VirtualSource::inspect(const std::function<void(VirtualInstrument&)>& look) {
    body_->touched = true;
    body_->wakeUp();
    const std::lock_guard lock(body_->instrumentMutex);
    look(*body_->instrument);
}

FrameIndex VirtualSource::now() const {
    return FrameIndex(body_->next.load(std::memory_order_relaxed));
}

SampleRate VirtualSource::sampleRate() const {
    return body_->rate;
}

Result<void> VirtualSource::start() {
    Body& body = *body_;
    if (!body.running.exchange(true) && body.pace == Pace::RealTime) {
        body.thread = std::jthread([&body](const std::stop_token& stop) { body.run(stop); });
    }
    return {};
}

void VirtualSource::stop() {
    body_->running = false;
    body_->thread = std::jthread();
}

bool VirtualSource::take(AudioBlock& block) {
    Body& body = *body_;
    if (body.pace == Pace::RealTime) {
        return body.ring.tryPop(block);
    }
    if (!body.running) {
        return false;
    }
    body.render(block, AudioBlock::kMaxFrames);
    return true;
}

bool VirtualSource::rests() const {
    return body_->resting;
}

void VirtualSource::whenItGoesOn(std::function<void()>&& call) {
    body_->goesOn = std::move(call);
}

EngineState VirtualSource::state() const {
    return {body_->running ? EnginePhase::Running : EnginePhase::Idle, std::nullopt};
}

} // namespace quillbench
