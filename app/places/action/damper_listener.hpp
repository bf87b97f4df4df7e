#pragma once

#include "audio/analysis_engine.hpp"
#include "core/dsp/damper/release_fit.hpp"
#include "core/units/hertz.hpp"

#include <future>
#include <optional>
#include <vector>

namespace quillbench {

/// A pluck whose damper is still to come.
struct DamperAwaited {
    FrameIndex pluck;
    std::size_t key = 0;
    std::size_t reg = 0;
    Hertz string;
    FrameIndex due;                 ///< the end of what has to be heard
    std::optional<FrameIndex> next; ///< a later pluck ends it before
};

/// What was made of one key let go.
struct HeardDamper {
    std::size_t key = 0;
    std::size_t reg = 0;
    double pluck = 0.0; ///< s, on the scale of the release
    bool held = false;  ///< long enough to say that no damper came
    ReleaseReading release;
    std::optional<double> fall; ///< as fallWhileHeld says it
};

/// Waits for the sound after each pluck to be over, and listens to its damper on another thread: some tenths of a second
/// of work each. **Thread** GUI; the destructor waits.
class DamperListener {
public:
    /// A pluck together with the end of its sound.
    struct Over {
        DamperAwaited pluck;
        FrameIndex upTo;
    };

    void await(const DamperAwaited& pluck);

    /// Another string was plucked: what waits is heard up to there and no further.
    void plucked(FrameIndex at);

    /// Takes what is over by now; `before`: so long before the next pluck its sound ends.
    [[nodiscard]] std::vector<Over> over(FrameIndex now, FrameCount before);

    /// Begins to listen; false where the sound is too short to tell anything.
    bool listen(const Over& over, const KeptSound& heard);

    /// What was heard since.
    [[nodiscard]] std::vector<HeardDamper> take();

    /// Nothing is waited for any more; what is listened to goes on.
    void dropAwaited();

    /// Nothing is listened to any more either.
    void forget();

    /// Waits for what is being listened to; take() has it then.
    void finish() const;

private:
    std::vector<DamperAwaited> awaited_;
    std::vector<std::future<HeardDamper>> listening_;
};

} // namespace quillbench
