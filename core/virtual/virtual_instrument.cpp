#include "core/virtual/virtual_instrument.hpp"

#include "core/support/contract.hpp"
#include "core/virtual/instrument_body.hpp"
#include "core/virtual/sustain_truth.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr Seconds kSustainFrom{0.10};
constexpr Seconds kSustainTo{2.5};

} // namespace

VirtualInstrument::VirtualInstrument(const Instrument& instrument, const VirtualSettings& settings)
    : body_(std::make_unique<Body>(instrument, settings)) {
}

VirtualInstrument::VirtualInstrument(VirtualInstrument&&) noexcept = default;

VirtualInstrument& VirtualInstrument::operator=(VirtualInstrument&&) noexcept = default;

VirtualInstrument::~VirtualInstrument() = default;

bool VirtualInstrument::apply(const VirtualCommand& command) noexcept {
    return body_->take(command);
}

void VirtualInstrument::render(std::span<float> into) noexcept {
    Body& body = *body_;
    constexpr auto kGrid = static_cast<std::int64_t>(VibratingString::kSegment);
    while (!into.empty()) {
        body.performDue();
        if (!body.segmentOpen) {
            body.openSegment();
        }
        std::int64_t frames = kGrid - body.now.value() % kGrid;
        frames = std::min(frames, static_cast<std::int64_t>(into.size()));
        if (!body.waiting.empty()) {
            frames = std::min(frames, (body.waiting.front().at - body.now).value());
        }
        const auto count = static_cast<std::size_t>(frames);
        body.addStrings(into.first(count));
        body.knocks.addTo(into.first(count));
        body.room.addTo(into.first(count));
        into = into.subspan(count);
        body.now = body.now + FrameCount(frames);
        if (body.now.value() % kGrid == 0) {
            body.closeSegment();
        }
    }
}

FrameIndex VirtualInstrument::now() const noexcept {
    return body_->now;
}

bool VirtualInstrument::sounds() const noexcept {
    return !body_->playing.empty() || !body_->waiting.empty() || body_->knocks.sound();
}

Hertz VirtualInstrument::restPitch(StringId string) const {
    const std::size_t at = body_->indexOf(string);
    EXPECTS(at < body_->courses.size());
    return body_->restOf(body_->courses[at]);
}

Cents VirtualInstrument::centsPerDegree(StringId string) const {
    const std::size_t at = body_->indexOf(string);
    EXPECTS(at < body_->courses.size());
    const Body::Course& course = body_->courses[at];
    const double ratio = course.reference / body_->restOf(course);
    return course.perDegree * (ratio * ratio);
}

bool VirtualInstrument::registerOn(std::size_t reg) const {
    EXPECTS(reg < body_->registersOn.size());
    return body_->registersOn[reg];
}

std::optional<PluckRecord> VirtualInstrument::takePluck() noexcept {
    Body& body = *body_;
    if (body.recordCount == 0) {
        return std::nullopt;
    }
    const PluckRecord& record = body.records[body.firstRecord];
    body.firstRecord = (body.firstRecord + 1) % kMostRecords;
    --body.recordCount;
    return record;
}

PluckTruth VirtualInstrument::truth(const PluckRecord& pluck) const {
    const VibratingString string = body_->stringAt(pluck);
    PluckTruth truth;
    truth.rest = pluck.rest;
    truth.inharmonicity = pluck.inharmonicity;
    truth.partials = meanFrequencies(string, body_->rate, kSustainFrom, kSustainTo);
    const double f0 = pluck.rest.value() / std::sqrt(1.0 + pluck.inharmonicity);
    StiffComb comb{Hertz(f0), pluck.inharmonicity};
    if (!truth.partials.empty()) {
        comb = fitStiffComb(truth.partials, comb);
    }
    truth.sustain = comb.f0 * std::sqrt(1.0 + comb.inharmonicity);
    truth.glide = Cents(std::log1p(string.sharpness()) / kLogCent);
    truth.start = truth.glide + interval(truth.sustain, truth.rest);
    return truth;
}

std::optional<CoincidentPair> VirtualInstrument::coincidentPair(const PluckRecord& lower,
                                                                int lowerPartial,
                                                                const PluckRecord& upper,
                                                                int upperPartial) const {
    const FrameIndex later = std::max(lower.at, upper.at);
    const auto mean = [&](const PluckRecord& pluck, int number) -> std::optional<Hertz> {
        const Seconds waited = body_->rate.duration(later - pluck.at);
        for (const auto& partial : meanFrequencies(
                 body_->stringAt(pluck), body_->rate, waited + kSustainFrom, waited + kSustainTo)) {
            if (partial.number == number) {
                return partial.mean;
            }
        }
        return std::nullopt;
    };
    const std::optional<Hertz> low = mean(lower, lowerPartial);
    const std::optional<Hertz> high = mean(upper, upperPartial);
    if (!low || !high) {
        return std::nullopt;
    }
    return CoincidentPair{*low, *high};
}

} // namespace quillbench
