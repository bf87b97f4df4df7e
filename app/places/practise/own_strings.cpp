#include "app/places/practise/own_strings.hpp"

namespace quillbench {

namespace {

/// A learner's strings may be well off.
constexpr Cents kOwnRange{60.0};

/// As the command line's reading of a pair.
BeatReading asReading(const PairReading& pair) {
    BeatReading reading;
    reading.found = true;
    reading.weak = pair.weak;
    reading.beat = pair.beat;
    reading.beatUncertainty = pair.uncertainty;
    reading.direction = pair.still ? BeatDirection::Pure : pair.direction;
    reading.lowerOwnBeat = pair.lowerOwnBeat;
    return reading;
}

} // namespace

void OwnStrings::ask(const Exercise& exercise) {
    exercise_ = exercise;
    auto target = std::make_shared<AnalysisTarget>();
    target->pairs = true;
    target->asked = exercise.upper;
    target->range = kOwnRange;
    for (std::size_t choir = 0; choir < instrument_->choirs.size(); ++choir) {
        if (choir != exercise.lower.choir && choir != exercise.upper.choir) {
            continue;
        }
        for (std::size_t course = 0; course < instrument_->choirs[choir].strings.size(); ++course) {
            target->strings.push_back(expect_(StringId{choir, course}));
        }
    }
    target_ = std::move(target);
    begin();
}

void OwnStrings::begin() {
    sounding_ = false;
    other_ = false;
    drawn_.reset();
    reading_.reset();
}

bool OwnStrings::asked(StringId lower, StringId upper) const {
    return exercise_ && lower == exercise_->lower && upper == exercise_->upper;
}

void OwnStrings::follow(const PairHeard& heard) {
    if (!asked(heard.lower, heard.upper)) {
        sounding_ = false;
        return;
    }
    sounding_ = heard.sounding;
    if (heard.sounding) {
        other_ = false;
        drawn_ = heard;
    }
}

void OwnStrings::hear(const PairReading& reading) {
    other_ = !asked(reading.lower, reading.upper);
    if (other_ || reading.moving) {
        return;
    }
    sounding_ = false;
    reading_ = reading;
}

std::optional<PracticeMeasured> OwnStrings::measured() const {
    if (!reading_ || sounding_) {
        return std::nullopt;
    }
    PracticeMeasured measured;
    measured.reading = asReading(*reading_);
    if (drawn_ && drawn_->pluck == reading_->pluck) {
        measured.breath = *drawn_;
    }
    return measured;
}

} // namespace quillbench
