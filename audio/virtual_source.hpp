#pragma once

#include "audio/audio_source.hpp"
#include "core/virtual/command.hpp"

#include <functional>
#include <memory>
#include <span>

namespace quillbench {

class PlaybackStream;
class VirtualInstrument;

/// What is done to the sound of an instrument before anybody hears it, in place. Called by the renderer, never while
/// inspect() looks; must not throw.
using SoundFinish = std::function<void(std::span<float>)>;

/// The virtual instrument as a source of sound. It is rendered once, and the same samples go to the analysis and, where
/// there is one, to the loudspeaker.
/// Pace::RealTime: an ordinary thread renders as the loudspeaker plays, or by the clock where no output device runs.
/// Pace::AsTaken: take() renders; nothing is played.
class VirtualSource final : public AudioSource {
public:
    /// `playback` may be null; it must have the same rate and is started and stopped by its owner.
    VirtualSource(std::unique_ptr<VirtualInstrument> instrument,
                  SampleRate rate,
                  Pace pace = Pace::RealTime,
                  std::shared_ptr<PlaybackStream> playback = nullptr,
                  SoundFinish finish = {});
    ~VirtualSource() override;

    /// What the player does. Commands are done in the order sent, none is lost: false when 1024 wait already (send it
    /// again later). **Thread** one player.
    [[nodiscard]] bool send(const VirtualCommand& command);

    /// Where nothing sounds for so long everything stands still, the loudspeaker and the frames too, until the next
    /// command or inspect(), whose sound comes some hundredths of a second later then. No thread wakes meanwhile. A
    /// loudspeaker that is opened during a rest plays silence until then. **Thread** any.
    static constexpr Seconds kRestsAfter{20.0};
    void setRestsAfter(Seconds quiet);

    /// Looks at the instrument between two blocks (its plucks and their truth, where a string rests), or puts another in
    /// its place, whose frames then count for commands. The sound waits meanwhile: be brief. **Thread** any ordinary thread.
    void inspect(const std::function<void(VirtualInstrument&)>& look);

    /// The frame that is rendered next: VirtualCommand::at counts on this scale. **Thread** any.
    [[nodiscard]] FrameIndex now() const;

    [[nodiscard]] SampleRate sampleRate() const override;
    [[nodiscard]] Result<void> start() override;
    void stop() override;
    [[nodiscard]] bool take(AudioBlock& block) override;
    [[nodiscard]] EngineState state() const override;
    [[nodiscard]] bool rests() const override;
    void whenItGoesOn(std::function<void()>&& call) override;

private:
    struct Body;
    std::unique_ptr<Body> body_;
};

} // namespace quillbench
