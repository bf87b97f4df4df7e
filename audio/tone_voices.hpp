#pragma once

#include "audio/playback_stream.hpp"

#include <array>
#include <cstddef>
#include <span>

namespace quillbench {

/// Makes the sound of ToneRequests: phases run on through changes, levels move over 10 ms.
/// **Real-time** fit for the callback.
class ToneVoices {
public:
    explicit ToneVoices(SampleRate rate);

    /// Adds the tones to what is there.
    void addTo(std::span<float> samples, const ToneRequest& request) noexcept;

private:
    struct Voice {
        double phase = 0.0;     // periods of partial 1
        double amplitude = 0.0; // now, of partial 1
        double step = 0.0;      // periods a frame
        int partials = 1;
    };

    [[nodiscard]] static double sample(const Voice& voice) noexcept;

    SampleRate rate_;
    std::array<Voice, 4> voices_;
};

} // namespace quillbench
