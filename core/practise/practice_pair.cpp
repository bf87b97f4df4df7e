#include "core/practise/practice_pair.hpp"

#include "core/analysis/breath_track.hpp"
#include "core/dsp/beat_follower.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

constexpr Seconds kAlone{2.6};
constexpr Seconds kMeasuredFor{2.5}; ///< after the pluck: what the beat's definition speaks of
constexpr Cents kLookedFor{60.0};
constexpr int kMostCorrections = 8;
constexpr double kTrueEnough = 0.003; // beats a second
constexpr int kLooksASecond = 15;

VirtualCommand pluckString(StringId string, FrameIndex at) {
    VirtualCommand command;
    command.kind = VirtualCommand::Kind::PluckString;
    command.at = at;
    command.string = string;
    return command;
}

/// A sound of the pair's instrument, with the plucks in it.
struct PairPlayed {
    std::vector<float> samples;
    std::vector<PluckRecord> plucks;
};

PairPlayed playPair(VirtualInstrument& sounding,
                    const std::vector<VirtualCommand>& commands,
                    std::size_t frames) {
    for (const VirtualCommand& command : commands) {
        sounding.apply(command);
    }
    PairPlayed played;
    played.samples.resize(frames);
    sounding.render(played.samples);
    while (const auto pluck = sounding.takePluck()) {
        played.plucks.push_back(*pluck);
    }
    return played;
}

std::size_t framesOf(const PracticePair& pair, Seconds length) {
    return static_cast<std::size_t>(pair.settings.sampleRate.frames(length).value());
}

std::vector<double> inDouble(const std::vector<float>& samples) {
    return {samples.begin(), samples.end()};
}

Hertz& pitchIn(PracticePair& pair, StringId string) {
    return pair.settings.pitches[string.choir][string.course];
}

Hertz pitchIn(const PracticePair& pair, StringId string) {
    return pair.settings.pitches[string.choir][string.course];
}

std::optional<KnownString> lowerAlone(const PracticePair& pair) {
    VirtualInstrument sounding(*pair.instrument, pair.settings);
    const PairPlayed played =
        playPair(sounding, {pluckString(pair.lower, firstPluck(pair))}, framesOf(pair, kAlone));
    return hearAlone(inDouble(played.samples),
                     pair.settings.sampleRate,
                     kPluckAfter,
                     kAlone,
                     pitchIn(pair, pair.lower),
                     kLookedFor,
                     meetingOnes(intervalOf(pair.interval).pair.ofLower));
}

/// The breath of a sound, by the same looks as while a string is tuned.
PairHeard breathOf(const PracticePair& pair,
                   const std::vector<float>& samples,
                   const std::optional<KnownString>& lower) {
    const PartialPair partials = intervalOf(pair.interval).pair;
    FollowedPair followed;
    followed.lowerPartial = partials.ofLower;
    followed.upperPartial = partials.ofUpper;
    followed.lower = lower ? lower->sustain : pitchIn(pair, pair.lower);
    followed.inharmonicity = lower ? lower->inharmonicity : 0.0;
    followed.lowerDeviation = lower ? lower->deviation : Cents(1.0);
    followed.lowerKnown = lower.has_value();
    followed.range = kLookedFor;
    BeatFollower follower(pair.settings.sampleRate);
    follower.begin(followed);
    BreathTrack track;
    track.begin(std::nullopt);
    PairHeard heard;
    heard.lower = pair.lower;
    heard.upper = pair.upper;
    heard.interval = pair.interval;
    heard.followed = std::min(static_cast<std::size_t>(pair.multiple), follower.pairs()) - 1;
    track.stayWithFollowed();
    const std::size_t hop = framesOf(pair, Seconds(1.0 / kLooksASecond));
    std::size_t done = framesOf(pair, kPluckAfter);
    const std::size_t pluck = done;
    while (done < samples.size()) {
        const std::size_t count = std::min(hop, samples.size() - done);
        follower.push(std::span(samples).subspan(done, count));
        done += count;
        const double now = static_cast<double>(done - pluck) / pair.settings.sampleRate.hz();
        track.look(follower, partials, now, std::nullopt, heard);
    }
    return heard;
}

} // namespace

PinBehaviour ordinaryPin() {
    PinBehaviour pin;
    pin.backlash = 0.15;
    pin.springBack = 0.5;
    pin.slip = 0.04;
    return pin;
}

StringId pinOf(const PracticePair& pair) {
    return pair.pin.value_or(pair.upper);
}

VirtualSettings practiceStrings(const Instrument& instrument,
                                const std::function<Hertz(const Note&)>& pitchOfKey,
                                std::uint64_t seed,
                                SampleRate rate) {
    VirtualSettings settings;
    settings.sampleRate = rate;
    settings.seed = seed;
    settings.actionNoise = false;
    settings.pins = ordinaryPin();
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        std::vector<Hertz> pitches;
        pitches.reserve(instrument.choirs[choir].strings.size());
        for (std::size_t course = 0; course < instrument.choirs[choir].strings.size(); ++course) {
            pitches.push_back(targetPitch(instrument, {choir, course}, pitchOfKey));
        }
        settings.pitches.push_back(std::move(pitches));
    }
    return settings;
}

PracticePair pairOf(const Instrument& instrument,
                    const Exercise& exercise,
                    const std::function<Hertz(const Note&)>& pitchOfKey,
                    SampleRate rate) {
    PracticePair pair;
    pair.instrument = &instrument;
    pair.lower = exercise.lower;
    pair.upper = exercise.upper;
    pair.interval = intervalOf(exercise.interval);
    pair.multiple = exercise.multiple;
    pair.settings = practiceStrings(instrument, pitchOfKey, exercise.seed, rate);
    Hertz& upper = pitchIn(pair, pair.upper);
    upper = upperAtBeat(pair.interval, pitchIn(pair, pair.lower), exercise.beat);
    double slope = intervalOf(pair.interval).pair.ofUpper;
    std::optional<std::pair<double, double>> before; // upper string, its beat
    for (int i = 0; i < kMostCorrections; ++i) {
        const auto now = trueBeat(pair);
        if (!now || std::abs(now->perSecond() - exercise.beat.perSecond()) < kTrueEnough) {
            break;
        }
        // Coupled strings do not follow their pins evenly: the secant says how they do.
        if (before && std::abs(upper.value() - before->first) > 0.0) {
            const double seen =
                (now->perSecond() - before->second) / (upper.value() - before->first);
            slope = std::clamp(seen, 0.5 * slope, 2.0 * slope);
        }
        before = {upper.value(), now->perSecond()};
        upper = Hertz(upper.value() + (exercise.beat - *now).perSecond() / slope);
    }
    return pair;
}

FrameIndex firstPluck(const PracticePair& pair) {
    return FrameIndex(
        pair.settings.sampleRate.frames(kPluckAfter - VirtualInstrument::kHandContact).value());
}

std::vector<VirtualCommand> pluckBoth(const PracticePair& pair, FrameIndex at) {
    return {pluckString(pair.lower, at), pluckString(pair.upper, at)};
}

std::vector<VirtualCommand> dampBoth(const PracticePair& pair, FrameIndex at) {
    std::vector<VirtualCommand> commands = pluckBoth(pair, at);
    for (VirtualCommand& command : commands) {
        command.kind = VirtualCommand::Kind::DampString;
    }
    return commands;
}

std::vector<float> soundOf(const PracticePair& pair, Seconds length) {
    EXPECTS(length > kPluckAfter);
    VirtualInstrument sounding(*pair.instrument, pair.settings);
    return playPair(sounding, pluckBoth(pair, firstPluck(pair)), framesOf(pair, length)).samples;
}

std::optional<BeatRate> trueBeat(const PracticePair& pair) {
    VirtualInstrument sounding(*pair.instrument, pair.settings);
    const PairPlayed played =
        playPair(sounding, pluckBoth(pair, firstPluck(pair)), framesOf(pair, 2.0 * kPluckAfter));
    const auto of = [&played](StringId string) {
        return std::find_if(played.plucks.begin(),
                            played.plucks.end(),
                            [string](const PluckRecord& pluck) { return pluck.string == string; });
    };
    const auto lower = of(pair.lower);
    const auto upper = of(pair.upper);
    if (lower == played.plucks.end() || upper == played.plucks.end()) {
        return std::nullopt;
    }
    const PartialPair partials = intervalOf(pair.interval).pair;
    const auto meeting =
        sounding.coincidentPair(*lower, partials.ofLower, *upper, partials.ofUpper);
    return meeting ? std::optional(meeting->beat()) : std::nullopt;
}

PracticeMeasured measure(const PracticePair& pair, Seconds length) {
    EXPECTS(length >= Seconds(1.0) && length <= Seconds(12.0));
    const PartialPair partials = intervalOf(pair.interval).pair;
    const std::vector<float> samples = soundOf(pair, length);
    PracticeMeasured measured;
    PairQuestion question;
    question.lowerPartial = partials.ofLower;
    question.upperPartial = partials.ofUpper;
    question.lowerTarget = pitchIn(pair, pair.lower);
    question.upperTarget = upperAtBeat(pair.interval, question.lowerTarget, BeatRate(0.0));
    question.range = kLookedFor;
    question.lower = lowerAlone(pair);
    measured.reading = hearPair(inDouble(samples),
                                pair.settings.sampleRate,
                                kPluckAfter,
                                kPluckAfter,
                                std::min(length, kPluckAfter + kMeasuredFor),
                                question);
    measured.breath = breathOf(pair, samples, question.lower);
    measured.truth = trueBeat(pair);
    return measured;
}

} // namespace quillbench
