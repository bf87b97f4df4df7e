#include "audio/tone_voices.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {
namespace {

constexpr double kFadeS = 0.01;
constexpr int kMostPartials = 16;

} // namespace

ToneVoices::ToneVoices(SampleRate rate) : rate_(rate) {
}

double ToneVoices::sample(const Voice& voice) noexcept {
    // sin kθ = 2 cos θ sin (k−1)θ − sin (k−2)θ
    const double angle = 2.0 * std::numbers::pi * voice.phase;
    const double twiceCos = 2.0 * std::cos(angle);
    double before = 0.0;
    double sine = std::sin(angle);
    double sum = 0.0;
    for (int k = 1; k <= voice.partials; ++k) {
        sum += sine / k;
        const double next = twiceCos * sine - before;
        before = sine;
        sine = next;
    }
    return voice.amplitude * sum;
}

void ToneVoices::addTo(std::span<float> samples, const ToneRequest& request) noexcept {
    const double fadeStep = 1.0 / (kFadeS * rate_.hz());
    for (std::size_t v = 0; v < voices_.size(); ++v) {
        Voice& voice = voices_[v];
        double target = 0.0;
        if (v < request.voices.size()) {
            const ToneVoice& wanted = request.voices[v];
            const double periods = wanted.frequency.value() / rate_.hz();
            if (periods > 0.0 && periods < 0.5) {
                target = std::min(wanted.level.amplitude(), 1.0);
                voice.step = periods;
                const int fit = static_cast<int>(0.5 / periods);
                voice.partials = std::clamp(wanted.partials, 1, std::min(kMostPartials, fit));
            }
        }
        for (float& out : samples) {
            if (target <= 0.0 && voice.amplitude <= 0.0) {
                voice.phase = 0.0;
                break;
            }
            voice.amplitude += std::clamp(target - voice.amplitude, -fadeStep, fadeStep);
            out += static_cast<float>(sample(voice));
            voice.phase += voice.step;
            voice.phase -= std::floor(voice.phase);
        }
    }
}

} // namespace quillbench
