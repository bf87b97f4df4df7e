#pragma once

#include "core/support/random.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <array>
#include <cstdint>
#include <span>

namespace quillbench {

/// A short noise of wood, quill or felt: a band of noise that dies away.
struct KnockKind {
    Hertz centre;
    double bandwidth = 1.0; ///< re the centre
    Seconds decay60{0.05};
    double level = 0.01; ///< RMS at its start
};

/// The knocks that sound now. Nothing here allocates; a knock beyond the last place is left out.
class Knocks {
public:
    explicit Knocks(SampleRate rate);

    void start(const KnockKind& kind, std::uint64_t seed);

    void addTo(std::span<float> into);

    /// Whether any of them is still heard.
    [[nodiscard]] bool sound() const;

private:
    struct Knock {
        Random random{0};
        double level = 0.0; ///< 0: free
        double keep = 0.0;  ///< a frame
        double feed = 0.0;
        double back = 0.0;
        double in = 0.0;
        double y1 = 0.0;
        double y2 = 0.0;
    };

    SampleRate rate_;
    std::array<Knock, 48> knocks_;
};

} // namespace quillbench
