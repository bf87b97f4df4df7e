#include "core/analysis/analyser.hpp"

#include "core/analysis/beat_listener.hpp"
#include "core/analysis/key_recogniser.hpp"
#include "core/analysis/microphone_monitor.hpp"
#include "core/analysis/pair_ear.hpp"
#include "core/analysis/second_string.hpp"
#include "core/dsp/pluck_detector.hpp"
#include "core/dsp/string_listener.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

namespace quillbench {

namespace {

/// Everything happens at ticks of the sound, so that blocks do not matter.
constexpr double kTicksPerSecond = 120.0;
constexpr int kTicksPerSnapshot = 4;

/// A reading costs more than all else; it is renewed with every second snapshot, later with every fourth.
constexpr std::uint64_t kSnapshotsPerReading = 2;
constexpr std::uint64_t kSnapshotsPerLateReading = 4;
constexpr Seconds kLate{1.0};

/// Beginnings of sound closer than this belong to one key stroke: plectra touch before they pluck, and
/// registers are staggered. Common practice, no source.
constexpr Seconds kOneStroke{0.12};
/// Of two beginnings in one stroke the later is the pluck if it rises at least this share of the earlier.
constexpr double kLaterRise = 0.4;

/// The plectrum rests on the string up to this long before the next pluck: what was heard then is not used.
constexpr Seconds kTouch{0.025};

/// A string that is plucked again within this time sounded itself before the pluck: that is no room to be taken off.
constexpr Seconds kAgain{0.6};
/// What is heard before such a pluck: jack and plectrum, no string.
constexpr Seconds kBeforeAgain{0.03};

/// Whatever sounds when listening begins, or again after a gap, seems to begin then: it does not.
constexpr Seconds kUnheard{0.1};

/// A pluck's own attack, no steady sound yet.
constexpr Seconds kAttack{0.01};

/// Sound that is kept: what the recogniser and the listener want before a pluck, and its late recognition.
constexpr Seconds kHistory{1.6};

/// Damped: the level of 50 ms falls by this much within 0.1 s. A real g#″ alone loses up to 10 dB in it
/// soon after its pluck.
constexpr double kDamperFallDb = 14.0;
constexpr std::size_t kLevelTicks = 6;
constexpr std::size_t kFallTicks = 12;
/// A string that has rung for its whole reading no longer falls fast by itself: with nothing else to be heard a bass
/// string that stops by this much in 0.3 s is damped too. Own measurement on the virtual instrument.
constexpr double kSlowFallDb = 10.0;
constexpr std::size_t kSlowFallTicks = 36;
constexpr Seconds kBrightStart{0.25}; ///< the attack's own fall is no damper
constexpr Seconds kBeforeDamping{0.16};

/// After another string was plucked its partials may pass for a second string's this long.
constexpr Seconds kRingsOn{4.0};

/// A second string softer than this is one that rings along; a register left on is louder.
constexpr double kRingsAlongDb = -12.0;

/// A pluck less than this above the noise is read in noise.
constexpr double kNoisyDb = 10.0;

constexpr std::size_t kRecentReadings = 8;

/// A pair is looked at with every second snapshot.
constexpr std::uint64_t kSnapshotsPerBeat = 2;
/// Two keys played together are told apart this long after the pluck (look 2 of the recogniser).
constexpr int kChordLook = 2;
/// An earlier string sounds on if its own partials have not lost so much by then; looked at once more later, when the
/// damper of a key that was let go at the same time has fallen.
constexpr double kSoundsOnDb = 12.0;
constexpr Seconds kLookAgain{0.5};
constexpr Seconds kSoundsOnFor{8.0};
/// Two keys that are meant to sound together go down within this.
constexpr Seconds kTogether{0.5};
/// Of two that are, the first may have lost more: it is not yet past the quick part of its decay.
constexpr double kSoundsOnTogetherDb = 24.0;
constexpr double kLookLong = 0.08;

std::uint32_t bit(Warning warning) {
    return static_cast<std::uint32_t>(warning);
}

} // namespace

struct Analyser::Impl {
    Impl(SampleRate nominal, ClockCalibration clock)
        : rate(nominal.corrected(clock)),
          nominalRate(nominal),
          detector(nominal),
          recogniser(nominal),
          listener(rate),
          secondStrings(rate),
          pairEar(rate),
          microphone(nominal),
          beats(nominal, rate),
          tickFrames(static_cast<std::int64_t>(nominal.hz() / kTicksPerSecond)),
          keep(static_cast<std::size_t>(kHistory.count() * nominal.hz())) {
        history.reserve(2 * keep + static_cast<std::size_t>(tickFrames));
    }

    /// A beginning of sound of which it is not known yet whether it is a pluck.
    struct Candidate {
        FrameIndex at;
        FrameIndex steadyFrom;
        double rise = 0;
        int look = 0;
        KeyVerdict verdict;
        std::optional<StringReading> before; ///< last reading of the pluck before it
        std::optional<FrameIndex> beside;    ///< another one, too near to be known by itself
    };

    /// The last pluck.
    struct Current {
        FrameIndex at;
        std::optional<StringId> string;
        std::uint32_t warnings = 0;
        Cents range;
        double alsoSounding = 0; ///< as ListeningFor's
        bool again = false;      ///< the same string was plucked just before
        bool aloneSince = false; ///< no other string was plucked shortly before
        bool lookedForSecond = false;
        Seconds earliest{0}; ///< first reading, after the pluck
        bool listening = false;
        bool ended = false;
        bool lookedForChord = true; ///< no second key is to be looked for any more
        FrameIndex chordFrom;       ///< the recogniser's steadyFrom
        Hertz pitch;                ///< as recognised
        std::optional<StringReading> reading;
    };

    /// A string that was plucked before the last pluck.
    struct Earlier {
        ExpectedString string;
        Hertz pitch;
        FrameIndex at;
        double before = 0; ///< its own partials then, dB
    };

    [[nodiscard]] Seconds since(FrameIndex at) const { return nominalRate.duration(next - at); }

    [[nodiscard]] SoundBlock soundFrom(FrameIndex at) const {
        const FrameIndex from = std::max(at, historyStart);
        const auto offset = static_cast<std::size_t>((from - historyStart).value());
        return {from, std::span<const float>(history).subspan(offset), false};
    }

    void restart(FrameIndex first);
    void append(std::span<const float> samples);
    void tick();
    void onOnset(const Onset& onset);
    void lookAtCandidate();
    void confirm();
    void startListening(const ExpectedString& string);
    void read();
    void end(std::optional<StringReading> reading);
    void lookForSecondString();
    [[nodiscard]] double fallOver(std::size_t ticks) const;
    void watchLevel(std::span<const float> samples);
    void rememberEarlier();
    void pairWithSameKey(const ExpectedString& string);
    void pairWithEarlier(const ExpectedString& string);
    [[nodiscard]] std::optional<StringId> otherOfPair() const;
    [[nodiscard]] bool askedTogether(StringId one, StringId other) const;
    [[nodiscard]] std::optional<std::array<const ExpectedString*, 2>> askedPair() const;
    [[nodiscard]] bool bothSound(const ExpectedString& lower, const ExpectedString& upper) const;
    void learnLevels();
    void leavePartner();
    [[nodiscard]] bool partnerHidden(const ExpectedString& string) const;
    void pairWithOneBeside(const ExpectedString& string);
    [[nodiscard]] bool twoStringsBegan(FrameIndex one, FrameIndex other) const;
    [[nodiscard]] Decibel powerOver(FrameIndex from, FrameCount length) const;
    void lookForChord();
    void beginPair(const ExpectedString& one,
                   FrameIndex onePluck,
                   const ExpectedString& other,
                   FrameIndex otherPluck);
    void checkEarlier();
    [[nodiscard]] double ownLevel(const Earlier& of, Hertz other, FrameIndex until) const;
    [[nodiscard]] const ExpectedString* expected(StringId id) const;
    [[nodiscard]] std::optional<StringReading> readingBefore(FrameIndex at) const;
    [[nodiscard]] StringReading withWarnings(StringReading reading) const;
    [[nodiscard]] AnalysisSnapshot snapshot();

    SampleRate rate; ///< by the calibrated clock: for frequencies
    SampleRate nominalRate;
    PluckDetector detector;
    KeyRecogniser recogniser;
    StringListener listener;
    SecondStringFinder secondStrings;
    PairEar pairEar;
    MicrophoneMonitor microphone;
    BeatListener beats;
    std::int64_t tickFrames;
    std::size_t keep;

    std::shared_ptr<const AnalysisTarget> target;
    std::vector<float> history;
    FrameIndex historyStart;
    FrameIndex next;
    FrameIndex tickEnd;
    bool started = false;
    int ticksToSnapshot = kTicksPerSnapshot;
    std::uint64_t snapshotsDue = 0; ///< since listening began
    bool due = false;               ///< a snapshot is to be returned

    std::optional<Candidate> candidate;
    std::optional<Current> current;
    std::optional<Earlier> former;  ///< the pluck before, while it may sound on
    std::optional<Earlier> partner; ///< the earlier string of the pair that is listened to
    Hertz partnerOf;                ///< pitch of the other one
    double mostFall = 0;            ///< dB: more, and the partner was damped
    std::uint64_t plucks = 0;
    bool damped = false;   ///< a damper ended the last pluck, or a gap: it is not known to sound on
    FrameIndex otherUntil; ///< since then one string alone was plucked, again and again
    FrameIndex begin;      ///< of the unbroken sound
    FrameIndex steadyFrom; ///< the last pluck, or the beginning of the sound
    std::array<StringReading, kRecentReadings> recent{};
    std::size_t recentCount = 0;
    std::size_t recentNewest = 0;
    FixedVector<StringReading, 8> waiting; ///< finished, not yet told
    std::array<double, kLevelTicks + kSlowFallTicks> tickPower{};
    std::size_t levelTick = 0;
    std::uint64_t sequence = 0;
    std::uint64_t gaps = 0;
};

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
    if (alone && target && target->asked == last.string && !target->closely.empty()) {
        beats.hearOut(last, target->closely);
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

/// Of the two strings that were asked for together one was plucked a moment ago: the other one.
std::optional<StringId> Analyser::Impl::otherOfPair() const {
    const bool begun = target && target->pairs && target->asked && target->with && current &&
                       !current->ended &&
                       nominalRate.duration(candidate->at - current->at) < kTogether;
    if (!begun) {
        return std::nullopt;
    }
    return current->string == target->with    ? target->asked
           : current->string == target->asked ? target->with
                                              : std::nullopt;
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

/// The pluck that is about to be followed by another: its string may sound on.
void Analyser::Impl::rememberEarlier() {
    beats.end();
    former.reset();
    partner.reset();
    const bool sounded = current && current->string && target->pairs &&
                         current->string != candidate->verdict.string &&
                         since(current->at) < kSoundsOnFor && !damped;
    const ExpectedString* const string = sounded ? expected(*current->string) : nullptr;
    if (string != nullptr) {
        const bool read = current->reading && current->reading->standing != Standing::Nothing;
        former =
            Earlier{*string, read ? current->reading->pitch : string->target, current->at, 0.0};
    }
    damped = false;
}

/// One key with two registers on: two strings, unless one of them was plucked by hand.
void Analyser::Impl::pairWithSameKey(const ExpectedString& string) {
    const ExpectedString* other = nullptr;
    int others = 0;
    for (const ExpectedString& one : target->strings) {
        if (one.id.course == string.id.course && one.id.choir != string.id.choir) {
            other = &one;
            ++others;
        }
    }
    if (others > 0) {
        current->warnings |= bit(Warning::TwoStrings);
    }
    if (others == 1) {
        beginPair(string, current->at, *other, current->at);
    }
}

/// The key before is still held.
void Analyser::Impl::pairWithEarlier(const ExpectedString& string) {
    if (!former || !intervalBetween(std::min(former->string.target, string.target),
                                    std::max(former->string.target, string.target))) {
        return;
    }
    const Hertz pitch = candidate->verdict.pitch.value_or(string.target);
    former->before = ownLevel(*former, pitch, current->at - rate.frames(kTouch));
    const bool together = askedTogether(former->string.id, string.id) &&
                          nominalRate.duration(current->at - former->at) < kTogether;
    mostFall = together ? kSoundsOnTogetherDb : kSoundsOnDb;
    if (former->before - ownLevel(*former, pitch, next) > mostFall) {
        return;
    }
    partner = former;
    partnerOf = pitch;
    beginPair(former->string, former->at, string, current->at);
}

/// Whether the earlier string of the pair shares all its partials with the one plucked now: its level tells nothing.
bool Analyser::Impl::partnerHidden(const ExpectedString& string) const {
    const auto kind = partner ? intervalBetween(string.target, partner->string.target)
                              : std::optional<IntervalKind>();
    return kind && intervalOf(*kind).pair.ofUpper == 1;
}

/// Of the two strings that were asked for together the other was plucked so shortly before or after that it could not be
/// named by itself.
void Analyser::Impl::pairWithOneBeside(const ExpectedString& string) {
    const bool ofPair = target->asked && target->with &&
                        (string.id == *target->asked || string.id == *target->with);
    if (!ofPair || !candidate->beside || !twoStringsBegan(candidate->at, *candidate->beside)) {
        return;
    }
    const ExpectedString* const other =
        expected(string.id == *target->asked ? *target->with : *target->asked);
    if (other != nullptr) {
        beginPair(*other, *candidate->beside, string, current->at);
    }
}

/// Whether two beginnings of sound were two strings: after a knock hardly anything sounds that did not before.
bool Analyser::Impl::twoStringsBegan(FrameIndex one, FrameIndex other) const {
    constexpr Seconds kKnock{0.015};
    constexpr Seconds kHeard{0.045};
    constexpr double kLouderDb = 1.0;
    const FrameIndex first = std::min(one, other);
    const FrameIndex second = std::max(one, other);
    const auto after = [&](FrameIndex at) {
        return powerOver(at + nominalRate.frames(kKnock), nominalRate.frames(kHeard)).value();
    };
    const double between =
        powerOver(second - nominalRate.frames(kHeard), nominalRate.frames(kHeard)).value();
    return nominalRate.duration(second - first) < kTogether &&
           after(second) - after(first) < kSoundsOnDb && after(second) - between > kLouderDb;
}

Decibel Analyser::Impl::powerOver(FrameIndex from, FrameCount length) const {
    const auto first =
        static_cast<std::size_t>(std::max<std::int64_t>(0, (from - historyStart).value()));
    const auto end = std::min(first + static_cast<std::size_t>(length.value()), history.size());
    double power = 1e-12;
    for (std::size_t i = first; i < end; ++i) {
        power += static_cast<double>(history[i]) * static_cast<double>(history[i]);
    }
    return Decibel::fromPower(power);
}

/// Level in dB of the partials of an earlier string that another one does not share, over 80 ms before `until`; of all
/// its partials where it shares every one.
double Analyser::Impl::ownLevel(const Earlier& of, Hertz other, FrameIndex until) const {
    const auto length = static_cast<std::size_t>(kLookLong * nominalRate.hz());
    const auto end = static_cast<std::size_t>(
        std::clamp<std::int64_t>((until - historyStart).value(),
                                 static_cast<std::int64_t>(length),
                                 static_cast<std::int64_t>(history.size())));
    double own = 0.0;
    double all = 0.0;
    for (int n = 1; n <= 6; ++n) {
        const double hz = n * of.pitch.value();
        const double near = std::max(1.0, std::round(hz / other.value())) * other.value();
        std::complex<double> sum = 0.0;
        for (std::size_t i = 0; i < length; ++i) {
            const double place = (static_cast<double>(i) + 0.5) / static_cast<double>(length);
            const double window = 0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * place);
            sum +=
                window * static_cast<double>(history[end - length + i]) *
                std::polar(1.0, -2.0 * std::numbers::pi * hz * static_cast<double>(i) / rate.hz());
        }
        all += std::norm(sum);
        own += std::abs(near - hz) > 2.5 / kLookLong ? std::norm(sum) : 0.0;
    }
    return Decibel::fromPower(own > 0.0 ? own : all).value();
}

void Analyser::Impl::beginPair(const ExpectedString& one,
                               FrameIndex onePluck,
                               const ExpectedString& other,
                               FrameIndex otherPluck) {
    // Of a unison the choir named first is the reference.
    const bool inOrder = abs(interval(one.target, other.target)) < Cents(60.0)
                             ? one.id.choir < other.id.choir
                             : one.target < other.target;
    const ExpectedString& lower = inOrder ? one : other;
    const ExpectedString& upper = inOrder ? other : one;
    if (!intervalBetween(lower.target, upper.target)) {
        return;
    }
    const FrameIndex lowerPluck = inOrder ? onePluck : otherPluck;
    const FrameIndex upperPluck = inOrder ? otherPluck : onePluck;
    const IntervalKind kind = *intervalBetween(lower.target, upper.target);
    if (intervalOf(kind).pair.ofUpper == 1) {
        current->warnings |= bit(Warning::TwoStrings); // no partial of the upper one is its own
    }
    beats.begin(lower,
                upper,
                target->asked,
                lowerPluck,
                upperPluck,
                soundFrom(std::max(lowerPluck, upperPluck)).samples);
}

bool Analyser::Impl::askedTogether(StringId one, StringId other) const {
    return target->asked && target->with &&
           ((one == target->asked && other == target->with) ||
            (one == target->with && other == target->asked));
}

/// Where nothing asks for two strings, one that sounds is alone.
void Analyser::Impl::learnLevels() {
    const ExpectedString* const string = expected(*current->string);
    const bool alone =
        current->alsoSounding <= 0.0 && !beats.listening() && !(target->pairs && target->with);
    if (string != nullptr && alone) {
        pairEar.learn(string->id, {current->pitch, string->inharmonicity});
    }
}

/// The two strings asked for together, the lower first, where the last pluck was of one of them.
std::optional<std::array<const ExpectedString*, 2>> Analyser::Impl::askedPair() const {
    if (!target->asked || !target->with || !current->string ||
        (current->string != target->asked && current->string != target->with)) {
        return std::nullopt;
    }
    const ExpectedString* const one = expected(*target->asked);
    const ExpectedString* const other = expected(*target->with);
    if (one == nullptr || other == nullptr) {
        return std::nullopt;
    }
    return other->target < one->target ? std::array{other, one} : std::array{one, other};
}

/// By what the pair ear heard of the last pluck.
bool Analyser::Impl::bothSound(const ExpectedString& lower, const ExpectedString& upper) const {
    const auto kind = intervalBetween(lower.target, upper.target);
    const auto placeOf = [this](const ExpectedString& string) {
        constexpr Cents kOutOfTune{30.0};
        return current->string == string.id
                   ? PairEar::Place{current->pitch, string.inharmonicity}
                   : PairEar::Place{string.target, string.inharmonicity, kOutOfTune};
    };
    return kind &&
           pairEar.bothSound(placeOf(lower), placeOf(upper), intervalOf(*kind).pair, lower.id);
}

/// Two keys played at once: first the two that were asked for, then any two that make an interval.
void Analyser::Impl::lookForChord() {
    current->lookedForChord = true;
    if (current->at < historyStart) {
        return;
    }
    if (current->string) {
        pairEar.hear(soundFrom(current->at).samples);
        learnLevels();
    }
    if (!target->pairs) {
        return;
    }
    const auto asked = askedPair();
    if (beats.listening()) {
        if (asked && pairEar.knows((*asked)[0]->id) && !bothSound(*(*asked)[0], *(*asked)[1])) {
            leavePartner();
        }
        return;
    }
    if (asked && bothSound(*(*asked)[0], *(*asked)[1])) {
        current->warnings |= bit(Warning::TwoStrings);
        beginPair(*(*asked)[0], current->at, *(*asked)[1], current->at);
        return;
    }
    const auto pluck = static_cast<std::size_t>((current->at - historyStart).value());
    const auto steady = static_cast<std::size_t>(
        std::max<std::int64_t>(0, (current->chordFrom - historyStart).value()));
    const auto two = recogniser.lookForTwo(kChordLook, history, pluck, steady);
    const ExpectedString* const lower = two ? expected(*(*two)[0].string) : nullptr;
    const ExpectedString* const upper = two ? expected(*(*two)[1].string) : nullptr;
    if (lower == nullptr || upper == nullptr) {
        return;
    }
    current->warnings |= bit(Warning::TwoStrings);
    beginPair(*lower, current->at, *upper, current->at);
}

/// The earlier string does not sound any more.
void Analyser::Impl::leavePartner() {
    beats.forget();
    current->warnings &= ~bit(Warning::TwoStrings);
    partner.reset();
}

/// The key before may have been let go with this pluck.
void Analyser::Impl::checkEarlier() {
    if (partner->before - ownLevel(*partner, partnerOf, next) > mostFall) {
        leavePartner();
    }
    partner.reset();
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
            since(current->at) >= KeyRecogniser::lookAfter(kChordLook)) {
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
            heard >= SecondStringFinder::kAfter) {
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
