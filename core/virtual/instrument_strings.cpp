#include "core/support/contract.hpp"
#include "core/virtual/instrument_body.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kContactLoss = 400.0; // 1/s while the plectrum touches
constexpr double kFadeLoss = 300.0;    // 1/s of a string that has to make room

} // namespace

double VirtualInstrument::Body::driftCents(const Course& course) const {
    const double hours = static_cast<double>(now.value()) / rate.hz() / 3600.0;
    return course.perKelvin.value() * kelvinPerHour * hours;
}

Hertz VirtualInstrument::Body::restOf(const Course& course) const {
    // Tension grows in proportion to the wire wound up, the pitch with its root.
    const double perDegree = 2.0 * course.perDegree.value() * kLogCent;
    const double tension = std::max(1.0 + perDegree * course.pin.angle(), 0.01);
    const double cents = course.pressed + driftCents(course);
    return Hertz(course.reference.value() * std::sqrt(tension) * std::exp(cents * kLogCent));
}

double VirtualInstrument::Body::inharmonicityAt(const Course& course, Hertz rest) const {
    const double ratio = course.reference / rest;
    return course.inharmonicity * ratio * ratio;
}

void VirtualInstrument::Body::retune(Course& course) {
    const Hertz rest = restOf(course);
    course.driftAtTune = driftCents(course);
    course.motion.tune(rest, inharmonicityAt(course, rest));
    couplingsStale = true;
}

void VirtualInstrument::Body::refreshDamping(Course& course) {
    const double extra = (course.touched ? kContactLoss : 0.0) + (course.fading ? kFadeLoss : 0.0);
    course.motion.damp(course.free() ? course.brushes : 1.0, extra, course.held);
    couplingsStale = true;
}

void VirtualInstrument::Body::wake(std::size_t index) {
    Course& course = courses[index];
    if (!course.playing) {
        course.playing = true;
        playing.push_back(index);
    }
}

VibratingString VirtualInstrument::Body::stringAt(const PluckRecord& pluck) const {
    const std::size_t at = indexOf(pluck.string);
    EXPECTS(at < courses.size());
    VibratingString string(courses[at].motion.voice(), rate.hz());
    string.tune(pluck.rest, pluck.inharmonicity);
    for (std::size_t m = 0; m < pluck.modes; ++m) {
        string.setMode(m, {pluck.state[2 * m], pluck.state[2 * m + 1]});
    }
    return string;
}

void VirtualInstrument::Body::findCouplings() {
    // A string that is free and was not plucked takes from each that was, partial by partial where both lie
    // close. The rate is a part of both decays, which are losses into the same bridge [Weinreich1977]; a
    // plucked string takes nothing, so that its pitch stays what its truth says.
    constexpr double kPart = 0.25;
    constexpr double kFarthestHz = 15.0;
    couplings.clear();
    for (std::size_t to = 0; to < courses.size(); ++to) {
        const Course& taker = courses[to];
        if (!taker.free() || taker.plucked || taker.broken) {
            continue;
        }
        for (const std::size_t from : playing) {
            const Course& giver = courses[from];
            if (from == to || !giver.plucked) {
                continue;
            }
            const VibratingString& a = giver.motion;
            const VibratingString& b = taker.motion;
            for (std::size_t m = 0; m < a.modes(); m += 2) {
                const double ratio = a.restAngle(m) / b.restAngle(0);
                const auto number = static_cast<std::size_t>(std::lround(ratio));
                if (number == 0 || 2 * number > b.modes() || couplings.size() == kMostCouplings) {
                    continue;
                }
                const std::size_t n = 2 * (number - 1);
                const double apart = std::abs(a.restAngle(m) - b.restAngle(n)) * rate.hz() /
                                     (2.0 * std::numbers::pi);
                if (apart < kFarthestHz) {
                    const double shared =
                        kPart * std::sqrt(a.voice().decay[m] * b.voice().decay[n]);
                    couplings.push_back({from, m, to, n, shared});
                }
            }
        }
    }
}

void VirtualInstrument::Body::limitPolyphony() {
    if (playing.size() <= soundingLimit) {
        return;
    }
    std::size_t staying = 0;
    Course* quietest = nullptr;
    double least = 0.0;
    for (const std::size_t index : playing) {
        Course& course = courses[index];
        if (course.fading) {
            continue;
        }
        ++staying;
        const double power = course.motion.power();
        if (quietest == nullptr || power < least) {
            quietest = &course;
            least = power;
        }
    }
    if (staying > soundingLimit && quietest != nullptr) {
        quietest->fading = true;
        quietest->plucked = false;
        refreshDamping(*quietest);
    }
}

void VirtualInstrument::Body::openSegment() {
    limitPolyphony();
    if (couplingsStale) {
        findCouplings();
        couplingsStale = false;
    }
    for (const std::size_t index : playing) {
        Course& course = courses[index];
        course.motion.openSegment((driftCents(course) - course.driftAtTune) * kLogCent);
    }
    segmentStart = now;
    segmentOpen = true;
}

void VirtualInstrument::Body::closeSegment() {
    if (!segmentOpen) {
        return;
    }
    segmentOpen = false;
    const auto frames = static_cast<std::size_t>((now - segmentStart).value());
    const double seconds = static_cast<double>(frames) / rate.hz();
    for (const std::size_t index : playing) {
        courses[index].motion.closeSegment(frames);
    }
    for (const Coupling& coupling : couplings) {
        const Course& giver = courses[coupling.from];
        if (giver.playing) {
            Course& taker = courses[coupling.to];
            taker.motion.addToMode(coupling.toMode,
                                   coupling.rate * seconds * giver.motion.mode(coupling.fromMode));
            wake(coupling.to);
        }
    }
    const auto still = [this](std::size_t index) {
        Course& course = courses[index];
        course.playing = course.motion.prune();
        if (!course.playing && course.fading) {
            course.fading = false;
            refreshDamping(course);
        }
        return !course.playing;
    };
    playing.erase(std::remove_if(playing.begin(), playing.end(), still), playing.end());
}

void VirtualInstrument::Body::addStrings(std::span<float> into) {
    const std::span lanes(rows.data(), into.size());
    for (auto& row : lanes) {
        row = VibratingString::Lanes{};
    }
    for (const std::size_t index : playing) {
        courses[index].motion.addTo(lanes);
    }
    for (std::size_t k = 0; k < into.size(); ++k) {
        double sum = 0.0;
        for (std::size_t lane = 0; lane < VibratingString::kLanes; ++lane) {
            sum += lanes[k][lane];
        }
        into[k] = static_cast<float>(sum);
    }
}

} // namespace quillbench
