#include "core/analysis/analyser_impl.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace quillbench {

using namespace detail;

namespace {

/// A reading costs more than all else; it is renewed with every second snapshot, later with every fourth.
constexpr std::uint64_t kSnapshotsPerReading = 2;
constexpr std::uint64_t kSnapshotsPerLateReading = 4;
constexpr Seconds kLate{1.0};

/// Beginnings of sound closer than this belong to one key stroke: plectra touch before they pluck, and
/// registers are staggered. Common practice, no source.
constexpr Seconds kOneStroke{0.12};
/// Of two beginnings in one stroke the later is the pluck if it rises at least this share of the earlier.
constexpr double kLaterRise = 0.4;

/// A string that is plucked again within this time sounded itself before the pluck: that is no room to be taken off.
constexpr Seconds kAgain{0.6};
/// What is heard before such a pluck: jack and plectrum, no string.
constexpr Seconds kBeforeAgain{0.03};

/// Whatever sounds when listening begins, or again after a gap, seems to begin then: it does not.
constexpr Seconds kUnheard{0.1};

/// A pluck's own attack, no steady sound yet.
constexpr Seconds kAttack{0.01};

/// Damped: the level of 50 ms falls by this much within 0.1 s. A real g#″ alone loses up to 10 dB in it
/// soon after its pluck.
constexpr double kDamperFallDb = 14.0;
constexpr std::size_t kFallTicks = 12;
/// A string that has rung for its whole reading no longer falls fast by itself: with nothing else to be heard a bass
/// string that stops by this much in 0.3 s is damped too. Own measurement on the virtual instrument.
constexpr double kSlowFallDb = 10.0;
constexpr Seconds kBrightStart{0.25}; ///< the attack's own fall is no damper
constexpr Seconds kBeforeDamping{0.16};

/// After another string was plucked its partials may pass for a second string's this long.
constexpr Seconds kRingsOn{4.0};

/// A second string softer than this is one that rings along; a register left on is louder.
constexpr double kRingsAlongDb = -12.0;

/// A pluck less than this above the noise is read in noise.
constexpr double kNoisyDb = 10.0;

/// A pair is looked at with every second snapshot.
constexpr std::uint64_t kSnapshotsPerBeat = 2;
constexpr Seconds kLookAgain{0.5};

} // namespace

void Analyser::Impl::restart(FrameIndex first) {
    candidate.reset();
    if (current && !current->ended) {
        end(current->reading);
    }
    former.reset();
    partner.reset();
    damped = true;
    beats.restart(first);
    history.clear();
    historyStart = first;
    next = first;
    tickEnd = first + FrameCount(tickFrames);
    begin = first;
    steadyFrom = first;
    otherUntil = first;
    ticksToSnapshot = kTicksPerSnapshot;
    tickPower.fill(0.0);
    microphone.gap();
}

void Analyser::Impl::append(std::span<const float> samples) {
    if (history.size() + samples.size() > history.capacity()) {
        const std::size_t drop = history.size() - keep;
        history.erase(history.begin(), history.begin() + static_cast<std::ptrdiff_t>(drop));
        historyStart = historyStart + FrameCount(static_cast<std::int64_t>(drop));
    }
    history.insert(history.end(), samples.begin(), samples.end());
    next = next + FrameCount(static_cast<std::int64_t>(samples.size()));
}

StringReading Analyser::Impl::withWarnings(StringReading reading) const {
    reading.warnings |= current->warnings;
    const MicrophoneState state = microphone.state();
    reading.warnings |= state.automaticGain ? bit(Warning::AutomaticGain) : 0U;
    reading.warnings |= state.gated ? bit(Warning::Gated) : 0U;
    return reading;
}

/// The latest reading that used nothing from `at` on.
std::optional<StringReading> Analyser::Impl::readingBefore(FrameIndex at) const {
    for (std::size_t i = 0; i < recentCount; ++i) {
        const StringReading& reading =
            recent[(recentNewest + kRecentReadings - i) % kRecentReadings];
        if (reading.pluck + rate.frames(reading.used) <= at) {
            return reading;
        }
    }
    return std::nullopt;
}

/// Says the last word on the pluck.
void Analyser::Impl::end(std::optional<StringReading> reading) {
    StringReading last;
    if (reading) {
        last = *reading;
    } else {
        last.pluck = current->at;
        last.string = current->string.value_or(StringId{});
        last.warnings = bit(Warning::TooShort);
        last = withWarnings(last);
    }
    current->ended = true;
    current->listening = false;
    const bool alone = reading && last.standing == Standing::Ok && !beats.listening() &&
                       !last.has(Warning::TwoStrings);
    if (alone && target) {
        if (const auto partials = target->closely.find(last.string);
            partials != target->closely.end()) {
            beats.hearOut(last, partials->second);
        }
    }
    current->reading = last;
    waiting.tryPush(last);
    due = true;
    if (reading && current->string && !beats.listening()) {
        beats.heardAlone(last);
    }
}

void Analyser::Impl::onOnset(const Onset& onset) {
    if (nominalRate.duration(onset.at - begin) < kUnheard) {
        return;
    }
    std::optional<FrameIndex> beside;
    if (candidate) {
        if (nominalRate.duration(onset.at - candidate->at) < kOneStroke) {
            if (onset.rise >= kLaterRise * candidate->rise) {
                candidate->beside = candidate->at;
                candidate->at = onset.at;
                candidate->rise = onset.rise;
                candidate->look = 0;
            } else {
                candidate->beside = onset.at;
            }
            return;
        }
        if (candidate->verdict.pitch) {
            confirm();
        } else {
            beside = candidate->at;
        }
    }
    candidate = Candidate{};
    candidate->beside = beside;
    candidate->at = onset.at;
    candidate->rise = onset.rise;
    candidate->steadyFrom = steadyFrom;
    candidate->before = readingBefore(onset.at - nominalRate.frames(kTouch));
}

void Analyser::Impl::lookAtCandidate() {
    if (!candidate || candidate->at < historyStart) {
        candidate.reset();
        return;
    }
    while (candidate && since(candidate->at) >= KeyRecogniser::lookAfter(candidate->look)) {
        const auto pluck = static_cast<std::size_t>((candidate->at - historyStart).value());
        const auto steady = static_cast<std::size_t>(
            std::max<std::int64_t>(0, (candidate->steadyFrom - historyStart).value()));
        recogniser.expect(otherOfPair());
        candidate->verdict = recogniser.look(candidate->look, history, pluck, steady);
        ++candidate->look;
        if (candidate->verdict.settled && candidate->verdict.pitch) {
            confirm();
            candidate.reset();
        } else if (candidate->look == KeyRecogniser::kLooks || candidate->verdict.settled) {
            if (candidate->verdict.pitch) {
                confirm();
            }
            candidate.reset();
        }
    }
}

/// The candidate is a pluck: the one before has ended, this one is listened to where its string is known.
void Analyser::Impl::confirm() {
    const bool sameStroke = current && !current->ended &&
                            nominalRate.duration(candidate->at - current->at) < kOneStroke &&
                            (!current->string || current->string == candidate->verdict.string);
    if (current && !current->ended && !sameStroke) {
        end(candidate->before);
    }
    const bool unnamed = current && !current->string &&
                         nominalRate.duration(candidate->at - current->at) < kTogether;
    if (unnamed && !candidate->beside) {
        candidate->beside = current->at;
    }
    rememberEarlier();
    recentCount = 0;
    plucks += sameStroke ? 0U : 1U;
    const bool same = current && current->string == candidate->verdict.string;
    // A first pluck too short to be named counts as one of the same string.
    const bool again = current && (same || !current->string) &&
                       nominalRate.duration(candidate->at - current->at) < kAgain;
    if (!same) {
        otherUntil = current ? candidate->at : begin;
    }
    current = Current{};
    current->at = candidate->at;
    current->chordFrom = candidate->steadyFrom;
    current->lookedForChord = false;
    current->pitch = candidate->verdict.pitch.value_or(Hertz(0.0));
    current->aloneSince =
        nominalRate.duration(candidate->at - otherUntil) > kRingsOn || otherUntil == begin;
    current->string = candidate->verdict.string;
    current->again = again;
    steadyFrom = candidate->at + nominalRate.frames(kAttack);
    microphone.pluck(next - candidate->at);
    if (candidate->verdict.snrDb < kNoisyDb) {
        current->warnings |= bit(Warning::Noisy);
    }
    if (microphone.state().clipped) {
        current->warnings |= bit(Warning::Clipped);
    }
    if (target->asked && target->asked != current->string) {
        current->warnings |= bit(Warning::NotTheStringAsked);
    }
    if (!current->string) {
        StringReading unknown;
        unknown.pluck = current->at;
        current->reading = withWarnings(unknown);
        current->earliest = StringListener::kLongest;
        due = true;
        return;
    }
    const auto string = std::find_if(
        target->strings.begin(), target->strings.end(), [&](const ExpectedString& expected) {
            return expected.id == *current->string;
        });
    startListening(*string);
    if (target->pairs) {
        pairWithSameKey(*string);
        if (!beats.listening()) {
            pairWithEarlier(*string);
        }
        if (!beats.listening()) {
            pairWithOneBeside(*string);
        }
        // An earlier string that shares all its partials is not told by its own from the one plucked now.
        current->lookedForChord = beats.listening() && !partnerHidden(*string);
    }
    due = true;
}

const ExpectedString* Analyser::Impl::expected(StringId id) const {
    const auto found = std::find_if(target->strings.begin(),
                                    target->strings.end(),
                                    [id](const ExpectedString& one) { return one.id == id; });
    return found == target->strings.end() ? nullptr : &*found;
}

void Analyser::Impl::startListening(const ExpectedString& string) {
    ListeningFor what;
    what.string = string.id;
    what.target = string.target;
    what.inharmonicity = string.inharmonicity;
    what.range = target->range;
    const double offset = std::abs(candidate->verdict.offset.value());
    constexpr double kEdgeCents = 10.0;
    current->range = what.range;
    if (offset + kEdgeCents > what.range.value()) {
        what.range = Cents(offset + 2.0 * kEdgeCents);
    }
    for (const ExpectedString& other : target->strings) {
        if (other.id.course == string.id.course && other.id.choir != string.id.choir) {
            const double ratio = other.target / string.target;
            what.alsoSounding = std::max(what.alsoSounding, ratio);
        }
    }
    current->alsoSounding = what.alsoSounding;
    listener.begin(what, current->at);
    current->listening = true;
    current->earliest = StringListener::earliestReading(string.target);
    const Seconds before = current->again ? kBeforeAgain : StringListener::kBefore;
    listener.push(soundFrom(current->at - rate.frames(before)));
    if (since(current->at) >= current->earliest) {
        read();
    }
}

void Analyser::Impl::read() {
    StringReading reading = withWarnings(listener.reading());
    constexpr double kEdge = 0.95;
    if (reading.standing != Standing::Nothing &&
        std::abs(reading.deviation.value()) > kEdge * current->range.value()) {
        reading.warnings |= bit(Warning::OffTarget);
    }
    current->reading = reading;
    recentNewest = (recentNewest + 1) % kRecentReadings;
    recent[recentNewest] = reading;
    recentCount = std::min(recentCount + 1, kRecentReadings);
}

/// Once a pluck: is another string heard beside the one that is read?
void Analyser::Impl::lookForSecondString() {
    current->lookedForSecond = true;
    const bool read = current->reading && current->reading->standing != Standing::Nothing;
    if (!read || !current->aloneSince || current->at < historyStart) {
        return;
    }
    const auto second = secondStrings.find(soundFrom(current->at).samples, *current->reading);
    constexpr double kSameRatio = 0.1;
    if (!second || std::abs(second->multiple - current->alsoSounding) < kSameRatio) {
        return;
    }
    current->warnings |=
        bit(second->levelDb > kRingsAlongDb ? Warning::TwoStrings : Warning::RingingTwin);
}

/// By how many dB the level of 50 ms has fallen since so many ticks ago.
double Analyser::Impl::fallOver(std::size_t ticks) const {
    double now = 0.0;
    double earlier = 0.0;
    for (std::size_t i = 0; i < kLevelTicks; ++i) {
        now += tickPower[(levelTick + tickPower.size() - i) % tickPower.size()];
        earlier += tickPower[(levelTick + tickPower.size() - i - ticks) % tickPower.size()];
    }
    return Decibel::fromPower(earlier) - Decibel::fromPower(now);
}

/// Ends the pluck where a damper has taken hold of the string.
void Analyser::Impl::watchLevel(std::span<const float> samples) {
    double power = 0.0;
    for (const float sample : samples) {
        power += static_cast<double>(sample) * static_cast<double>(sample);
    }
    levelTick = (levelTick + 1) % tickPower.size();
    tickPower[levelTick] = power;
    if (!current || damped || since(current->at) < kBrightStart) {
        return;
    }
    const bool fell = fallOver(kFallTicks) > kDamperFallDb;
    const bool stopped =
        current->ended && !beats.listening() && fallOver(kSlowFallTicks) > kSlowFallDb;
    if (fell || stopped) {
        damped = true;
        beats.end();
        if (!current->ended) {
            const auto before = readingBefore(next - nominalRate.frames(kBeforeDamping));
            end(before ? before : current->reading);
        }
    }
}

void Analyser::Impl::tick() {
    const SoundBlock newest = soundFrom(tickEnd - FrameCount(tickFrames));
    microphone.push(newest.samples);
    const auto onset = detector.push(newest);
    if (current && current->listening) {
        listener.push(newest);
    }
    beats.push(newest.samples);
    if (onset) {
        onOnset(*onset);
    }
    if (candidate) {
        lookAtCandidate();
    }
    watchLevel(newest.samples);
    tickEnd = tickEnd + FrameCount(tickFrames);
    const bool regular = --ticksToSnapshot == 0;
    snapshotsDue += regular ? 1U : 0U;
    if (current && target) {
        if (!current->lookedForChord &&
            since(current->at) >= KeyRecogniser::lookAfter(kChordLook) &&
            holds(current->at, PairEar::kAfter)) {
            lookForChord();
        }
        if (partner && since(current->at) >= kLookAgain) {
            checkEarlier();
        }
    }
    if (regular && snapshotsDue % kSnapshotsPerBeat == 0) {
        beats.look();
    }
    if (current && !current->ended) {
        const Seconds heard = since(current->at);
        const bool first = current->listening && recentCount == 0 && heard >= current->earliest;
        const auto every = heard > kLate ? kSnapshotsPerLateReading : kSnapshotsPerReading;
        const bool turn = regular && snapshotsDue % every == 0;
        if (current->listening && heard >= current->earliest && (turn || first)) {
            read();
            due = due || first;
        }
        if (current->listening && !current->lookedForSecond &&
            holds(current->at, SecondStringFinder::kAfter)) {
            lookForSecondString();
        }
        if (heard >= StringListener::kLongest) {
            if (current->listening) {
                read();
            }
            end(current->reading);
        }
    }
    if (regular) {
        ticksToSnapshot = kTicksPerSnapshot;
        due = true;
    }
}

AnalysisSnapshot Analyser::Impl::snapshot() {
    AnalysisSnapshot shot;
    shot.sequence = ++sequence;
    shot.upTo = tickEnd - FrameCount(tickFrames);
    shot.pluckNumber = plucks;
    shot.gaps = gaps;
    shot.microphone = microphone.state();
    if (current) {
        shot.sounding = !current->ended;
        shot.pluck = current->at;
        shot.recognised = current->string;
        shot.reading = current->reading;
    }
    shot.pair = beats.heard();
    shot.finishedPair = beats.takeFinished();
    if (!waiting.empty()) {
        shot.finished = waiting[0];
        FixedVector<StringReading, 8> rest;
        for (std::size_t i = 1; i < waiting.size(); ++i) {
            rest.tryPush(waiting[i]);
        }
        waiting = rest;
    }
    return shot;
}

Analyser::Analyser(SampleRate rate, ClockCalibration clock)
    : impl_(std::make_unique<Impl>(rate, clock)) {
}

Analyser::~Analyser() = default;
Analyser::Analyser(Analyser&&) noexcept = default;
Analyser& Analyser::operator=(Analyser&&) noexcept = default;

void Analyser::setTarget(std::shared_ptr<const AnalysisTarget> target) {
    impl_->target = std::move(target);
    impl_->recogniser.setTarget(impl_->target ? *impl_->target : AnalysisTarget{});
    if (impl_->candidate) {
        impl_->candidate->look = 0;
        impl_->candidate->verdict = {};
    }
}

std::optional<AnalysisSnapshot> Analyser::push(const SoundBlock& block) {
    Impl& self = *impl_;
    if (!self.started) {
        self.started = true;
        self.restart(block.first);
    } else if (block.first != self.next || block.discontinuity) {
        ++self.gaps;
        self.restart(block.first);
        self.due = true;
    }
    std::span<const float> left = block.samples;
    while (!left.empty()) {
        const auto room = static_cast<std::size_t>((self.tickEnd - self.next).value());
        const std::size_t count = std::min(room, left.size());
        self.append(left.first(count));
        left = left.subspan(count);
        if (self.next == self.tickEnd) {
            self.tick();
        }
    }
    if (!self.due && self.waiting.empty()) {
        return std::nullopt;
    }
    self.due = false;
    return self.snapshot();
}

} // namespace quillbench
