#include "app/places/action/damper_listener.hpp"

#include "app/places/action/ready_ones.hpp"
#include "core/action/damping_map.hpp"

#include <utility>

namespace quillbench {

namespace {

constexpr Seconds kLeastDamped{0.5}; // of sound from the pluck on, to judge a damper
constexpr Seconds kHeldOn{2.0};      // so long without a damper is not a short touch any more

} // namespace

void DamperListener::await(const DamperAwaited& pluck) {
    awaited_.push_back(pluck);
}

void DamperListener::plucked(FrameIndex at) {
    for (DamperAwaited& pluck : awaited_) {
        if (pluck.pluck < at && !pluck.next) {
            pluck.next = at;
        }
    }
}

std::vector<DamperListener::Over> DamperListener::over(FrameIndex now, FrameCount before) {
    std::vector<Over> over;
    std::vector<DamperAwaited> later;
    over.reserve(awaited_.size());
    later.reserve(awaited_.size());
    for (const DamperAwaited& pluck : awaited_) {
        if (pluck.next) {
            over.push_back({pluck, *pluck.next - before});
        } else if (now >= pluck.due) {
            over.push_back({pluck, pluck.due});
        } else {
            later.push_back(pluck);
        }
    }
    awaited_ = std::move(later);
    return over;
}

bool DamperListener::listen(const Over& over, const KeptSound& heard) {
    const Seconds after = heard.rate.duration(over.upTo - over.pluck.pluck);
    if (heard.samples.empty() || after < kLeastDamped) {
        return false;
    }
    HeardDamper damper;
    damper.key = over.pluck.key;
    damper.reg = over.pluck.reg;
    damper.pluck = heard.rate.duration(over.pluck.pluck - heard.first).count();
    damper.held = after >= kHeldOn;
    listening_.push_back(std::async(
        std::launch::async,
        [damper, rate = heard.rate, string = over.pluck.string, samples = heard.samples]() mutable {
            damper.release = hearRelease(samples, rate, string);
            if (damper.release.found) {
                damper.fall = fallWhileHeld(
                    samples, rate, string, Seconds(damper.pluck), damper.release.release);
            }
            return damper;
        }));
    return true;
}

std::vector<HeardDamper> DamperListener::take() {
    return takeReady(listening_);
}

void DamperListener::dropAwaited() {
    awaited_.clear();
}

void DamperListener::forget() {
    awaited_.clear();
    listening_.clear();
}

void DamperListener::finish() const {
    for (const std::future<HeardDamper>& one : listening_) {
        one.wait();
    }
}

} // namespace quillbench
