#include "core/analysis/beat_listener.hpp"

#include "core/analysis/breath_track.hpp"
#include "core/analysis/direction_by_movement.hpp"
#include "core/analysis/snapshot.hpp"
#include "core/dsp/beat_follower.hpp"
#include "core/dsp/constants.hpp"
#include "core/dsp/decimator.hpp"
#include "core/dsp/known_string.hpp"
#include "core/dsp/tied_pair/tied_pair.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace quillbench {

namespace {

/// The attack is no steady sound yet.
constexpr double kFrom = 0.06;
constexpr double kFirstReading = 0.6;
/// By its definition a beat is the mean up to here.
constexpr double kMeanTo = 2.5;
constexpr double kLive = 0.7;
/// The joint fit of both strings costs a tenth of a second: it is made twice, and once more at an early end.
constexpr double kJointAt[] = {1.0, kMeanTo};
/// The whole range is searched again at these.
constexpr double kSearchAt[] = {0.6, 0.9, 1.4, 2.0};

/// A string plucked again does not lie quite where it lay: cents, one standard deviation.
constexpr double kAgainCents = 0.35;
/// A kept reading ages: cents a second (1.5 cents in 20 minutes), and no more than this.
constexpr double kDriftPerSecond = 1.5 / 1200.0;
constexpr double kMostDriftCents = 4.0;
/// The middle of two strings plucked again, as far as the strength of the plucks moves it: cents.
constexpr double kMiddleCents = 0.3;
/// Further from where a string was read lies another one that rang along.
constexpr double kOtherStringCents = 3.0;
/// Less of a string is not enough to tell its polarisations apart.
constexpr Seconds kShortestHeardOut{0.8};
/// A mean frequency is less sure than its own fit says. **Source** own measurement on the virtual instrument.
constexpr double kHeardOut = 2.0;
constexpr double kHeardOutCents = 0.03;
/// Of the mean that another pluck would change.
constexpr double kFragile = 0.6;
/// Less of a string alone is no reference.
constexpr Seconds kShortestAlone{0.5};
/// The plectrum rests on the next string this long before it plucks.
constexpr Seconds kPairTouch{0.03};

/// A damper: every band falls by so much within so long; a beat's trough never comes to all of them at once.
constexpr double kDampedDb = 10.0;
constexpr double kDampedIn = 0.25;

/// 95 % of a normal distribution.
constexpr double kCredible = 1.96;
/// Two choirs of five octaves; the sound of each is 160 kB.
constexpr std::size_t kMostKnown = 128;
/// Of a string alone no more is kept than its mean frequency asks for, and a little before the pluck.
constexpr Seconds kLongestAlone{2.55};
constexpr Seconds kBeforeAlone{0.02};

/// A string that was heard alone.
struct Alone {
    StringId string;
    FrameIndex pluck;
    Seconds used{0};
    Hertz target;
    Hertz pitch;
    Cents deviation;
    std::size_t slot = 0;   ///< where its sound is kept
    std::size_t length = 0; ///< samples of it, from a little before the pluck on; 0: none
    Seconds pluckInSound{0};
    std::optional<KnownString> closely; ///< once it was needed
    int closelyPartial = 0;
};

} // namespace

std::optional<IntervalKind> intervalBetween(Hertz lower, Hertz upper) {
    constexpr double kPairReachCents = 60.0;
    const double size = interval(lower, upper).value();
    for (const Interval& one : intervals()) {
        if (std::abs(size - one.pureSize().value()) < kPairReachCents) {
            return one.kind;
        }
    }
    return std::nullopt;
}

double earWeight(Hertz frequency) {
    const double f2 = frequency.value() * frequency.value();
    const auto square = [](double x) { return x * x; };
    const double gain = square(12194.0) * f2 * f2 /
                        ((f2 + square(20.6)) * (f2 + square(12194.0)) *
                         std::sqrt((f2 + square(107.7)) * (f2 + square(737.9))));
    return 20.0 * std::log10(std::max(gain, 1e-10)) + 2.0;
}

struct BeatListener::Impl {
    Impl(SampleRate nominalRate, SampleRate calibrated)
        : nominal(nominalRate),
          decimator(nominalRate),
          sparse(calibrated.hz() / decimator.factor()),
          follower(calibrated),
          keep(static_cast<std::size_t>(kHistory.count() * decimator.outputRateHz())),
          slotLength(static_cast<std::size_t>((kBeforeAlone + kLongestAlone).count() *
                                              decimator.outputRateHz()) +
                     1),
          sounds(std::make_unique_for_overwrite<float[]>(kMostKnown * slotLength)) {
        history.reserve(keep + keep / 4);
        known.reserve(kMostKnown);
    }

    [[nodiscard]] double since(FrameIndex at) const { return nominal.duration(next - at).count(); }

    /// An instant on the axis of `history`, in its own seconds.
    [[nodiscard]] Seconds inHistory(FrameIndex at) const {
        const double samples = static_cast<double>((at - origin).value()) / decimator.factor() -
                               static_cast<double>(dropped);
        return Seconds(samples / sparse.hz());
    }

    [[nodiscard]] Alone* aloneOf(StringId string);
    void keepSound(Alone& alone) const;
    void findReference();
    void forgetAlone(const Alone& alone);
    void hearOutAlone(Alone& alone, int partial) const;
    [[nodiscard]] std::optional<KnownString> knownAlone(const Alone& alone, int partial) const;
    [[nodiscard]] double driftOf(const Alone& alone) const;
    void startFollowing(std::span<const float> sound);
    void findLowerByItsOwn();
    [[nodiscard]] PairQuestion question(bool last) const;
    void readJointly(double to, bool last);
    void readFollowed(double now);
    void follow(double now);
    void tell();
    [[nodiscard]] bool damped() const;
    void finish(PairReading& reading) const;
    void giveDirection(PairReading& reading) const;

    SampleRate nominal;
    Decimator decimator;
    SampleRate sparse; ///< of `history`, by the true clock
    BeatFollower follower;
    std::size_t keep;
    std::vector<double> history;
    std::int64_t dropped = 0; ///< samples of history that are gone
    FrameIndex origin;
    FrameIndex next;

    std::vector<Alone> known; ///< newest last
    std::size_t slotLength;
    std::unique_ptr<float[]> sounds; ///< of known strings, a slot each; untouched until used

    bool listening = false;
    std::optional<PairHeard> heard;
    ExpectedString lower;
    ExpectedString upper;
    FrameIndex lowerPluck;
    FrameIndex upperPluck;
    const Interval* kind = nullptr;
    ReferenceKind reference = ReferenceKind::None;
    std::optional<KnownString> lowerKnown;
    std::optional<KnownString> upperKnown; ///< where nothing is known of the lower one
    Hertz lowerAt;                         ///< partial 1, the best that is known
    Cents lowerDeviation;

    double nextLook = 0.0;
    std::size_t joints = 0;
    std::size_t searches = 0;
    std::optional<FollowedBeat> followed;
    std::optional<FollowedBeat> live;
    std::optional<PairReading> joint;
    bool told = false; ///< the last word on this pluck was said
    BreathTrack track;
    DirectionByMovement movement;
    FixedVector<PairReading, 4> finished;
};

Alone* BeatListener::Impl::aloneOf(StringId string) {
    const auto found = std::find_if(
        known.rbegin(), known.rend(), [string](const Alone& one) { return one.string == string; });
    return found == known.rend() ? nullptr : &*found;
}

/// The sound of a string alone, while it is still there. Counted from `origin`, so that it never depends on blocks.
void BeatListener::Impl::keepSound(Alone& alone) const {
    const double pluck = static_cast<double>((alone.pluck - origin).value()) / decimator.factor();
    const auto first = static_cast<std::int64_t>(pluck - kBeforeAlone.count() * sparse.hz());
    const Seconds used = kBeforeAlone + std::min(alone.used, kLongestAlone);
    const auto count = static_cast<std::int64_t>(used.count() * sparse.hz());
    const auto kept = dropped + static_cast<std::int64_t>(history.size());
    if (first < dropped) {
        return;
    }
    alone.pluckInSound = Seconds((pluck - static_cast<double>(first)) / sparse.hz());
    const auto from = history.begin() + (first - dropped);
    alone.length = std::min(slotLength, static_cast<std::size_t>(std::min(count, kept - first)));
    std::transform(from,
                   from + static_cast<std::ptrdiff_t>(alone.length),
                   sounds.get() + alone.slot * slotLength,
                   [](double x) { return static_cast<float>(x); });
}

/// Its pin is worked at: nothing heard of it before tells where it stands, now or later. Slots stay without gaps.
void BeatListener::Impl::forgetAlone(const Alone& alone) {
    const std::size_t freed = alone.slot;
    known.erase(known.begin() + (&alone - known.data()));
    const auto last = std::find_if(
        known.begin(), known.end(), [this](const Alone& one) { return one.slot == known.size(); });
    if (last != known.end()) {
        const float* const from = sounds.get() + last->slot * slotLength;
        std::copy(from, from + last->length, sounds.get() + freed * slotLength);
        last->slot = freed;
    }
}

double BeatListener::Impl::driftOf(const Alone& alone) const {
    return std::min(kDriftPerSecond * since(alone.pluck), kMostDriftCents);
}

/// Hears out what a string sounded like alone, for pairs that meet at `partial` of it; once.
void BeatListener::Impl::hearOutAlone(Alone& alone, int partial) const {
    if (alone.used < kShortestAlone || alone.length == 0 || alone.closelyPartial == partial) {
        return;
    }
    const float* const kept = sounds.get() + alone.slot * slotLength;
    const std::vector<double> sound(kept, kept + alone.length);
    const Seconds stop(static_cast<double>(sound.size()) / sparse.hz());
    auto out = hearAlone(sound,
                         sparse,
                         alone.pluckInSound,
                         stop,
                         alone.target,
                         Cents(std::abs(interval(alone.target, alone.pitch).value()) + 20.0),
                         meetingOnes(partial));
    // Another string that rang along may have been taken for it.
    if (out && abs(interval(alone.pitch, out->sustain)).value() < kOtherStringCents) {
        out->record = recordAlone(sound, sparse, alone.pluckInSound, stop, *out, partial);
        alone.closely = std::move(out);
        alone.closelyPartial = partial;
    }
}

/// What is known of a string that was heard out for pairs at `partial`, widened by how long ago that was.
std::optional<KnownString> BeatListener::Impl::knownAlone(const Alone& alone, int partial) const {
    if (!alone.closely || alone.closelyPartial != partial) {
        return std::nullopt;
    }
    std::optional<KnownString> string = alone.closely;
    const double drift = driftOf(alone);
    string->deviation = Cents(std::hypot(string->deviation.value(), drift));
    string->drift = Cents(drift);
    return string;
}

/// What is known of the lower string: heard out where its sound is still there, else its kept reading. Where its pin is
/// worked at, the upper one may be known.
void BeatListener::Impl::findReference() {
    reference = ReferenceKind::None;
    lowerKnown.reset();
    upperKnown.reset();
    lowerAt = lower.target;
    lowerDeviation = Cents(20.0);
    if (Alone* const alone = aloneOf(lower.id)) {
        lowerAt = alone->pitch;
        lowerDeviation = Cents(std::hypot(alone->deviation.value(), driftOf(*alone), kAgainCents));
        hearOutAlone(*alone, kind->pair.ofLower);
        lowerKnown = knownAlone(*alone, kind->pair.ofLower);
        reference = lowerKnown ? ReferenceKind::HeardAlone : ReferenceKind::Kept;
        if (!lowerKnown) {
            lowerKnown = keptString(alone->pitch, lowerDeviation);
        }
        return;
    }
    if (Alone* const above = aloneOf(upper.id)) {
        hearOutAlone(*above, kind->pair.ofUpper);
        upperKnown = knownAlone(*above, kind->pair.ofUpper);
    }
}

void BeatListener::Impl::startFollowing(std::span<const float> sound) {
    FollowedPair pair;
    pair.lowerPartial = kind->pair.ofLower;
    pair.upperPartial = kind->pair.ofUpper;
    pair.lower = lowerAt;
    pair.inharmonicity = lowerKnown ? lowerKnown->inharmonicity : lower.inharmonicity;
    pair.lowerDeviation = lowerDeviation;
    pair.lowerKnown = reference != ReferenceKind::None;
    pair.lowerAgo = nominal.duration(heard->pluck - lowerPluck);
    pair.upperAgo = nominal.duration(heard->pluck - upperPluck);
    follower.begin(pair);
    follower.push(sound);
    followed.reset();
    live.reset();
}

/// An interval whose lower string was never heard alone: partials that the upper string does not share place it.
void BeatListener::Impl::findLowerByItsOwn() {
    const Seconds from = inHistory(heard->pluck);
    const Seconds to(static_cast<double>(history.size()) / sparse.hz());
    const auto out = hearAlone(history, sparse, from, to, lower.target, Cents(60.0));
    if (!out) {
        return;
    }
    reference = ReferenceKind::OwnPartials;
    lowerAt = out->sustain;
    lowerDeviation = Cents(std::hypot(out->deviation.value(), kAgainCents));
}

/// The record of the lower string alone costs a quarter of a second: it counts in the last word.
PairQuestion BeatListener::Impl::question(bool last) const {
    PairQuestion asked;
    asked.lowerPartial = kind->pair.ofLower;
    asked.upperPartial = kind->pair.ofUpper;
    asked.lowerTarget = lowerKnown ? lowerKnown->sustain : lower.target;
    asked.upperTarget = upper.target;
    asked.lower = lowerKnown;
    asked.firstPluck = std::min(inHistory(lowerPluck), inHistory(upperPluck));
    asked.upper = upperKnown;
    for (std::optional<KnownString>* const string : {&asked.lower, &asked.upper}) {
        if (*string && !last) {
            (*string)->record.reset();
        }
    }
    return asked;
}

void BeatListener::Impl::giveDirection(PairReading& reading) const {
    const bool unsure = reading.direction == BeatDirection::Unknown && !reading.still;
    if (unsure && movement.decided()) {
        reading.byMovement = true;
        reading.direction = movement.wide() > 0.5 ? BeatDirection::Wide : BeatDirection::Narrow;
        const double size = std::abs(reading.beat.perSecond());
        reading.beat = BeatRate(movement.wide() > 0.5 ? size : -size);
    }
}

/// Fills in what follows from beat, uncertainty and direction.
void BeatListener::Impl::finish(PairReading& reading) const {
    reading.lower = lower.id;
    reading.upper = upper.id;
    reading.interval = kind->kind;
    reading.pluck = heard->pluck;
    reading.reference = reference;
    reading.moving = track.moved();
    const double f = kind->pair.ofLower * lowerAt.value();
    // Less sound tells less: in proportion to what two seconds can tell.
    reading.stillLimit =
        stillLimit(Hertz(f)) * std::max(1.0, 2.0 / std::max(reading.used.count(), 0.1));
    const double size = std::abs(reading.beat.perSecond());
    const double u = reading.uncertainty;
    reading.still = size <= reading.stillLimit.perSecond() &&
                    size + u <= 2.0 * reading.stillLimit.perSecond() &&
                    (reading.direction == BeatDirection::Pure || size < 2.0 * u ||
                     size + kCredible * u <= reading.stillLimit.perSecond());
    if (reading.still) {
        reading.direction = BeatDirection::Pure;
    }
    giveDirection(reading);
    const bool sized = reading.direction == BeatDirection::Unknown;
    const double middle = sized ? size : reading.beat.perSecond();
    reading.low = BeatRate(middle - kCredible * u);
    reading.high = BeatRate(middle + kCredible * u);
    if (sized) {
        reading.low = std::max(reading.low, BeatRate(0.0));
    }
}

/// Both strings fitted together, over what was heard up to `to` after the later pluck.
void BeatListener::Impl::readJointly(double to, bool last) {
    const Seconds zero = inHistory(heard->pluck);
    if (zero.count() < 0.0) {
        return; // longer ago than the sound that is kept
    }
    const Seconds lowerFrom =
        std::max(inHistory(lowerPluck), zero - Seconds(0.2)); // before that it is the same
    const BeatReading out = hearPair(history,
                                     sparse,
                                     lowerFrom,
                                     std::max(inHistory(upperPluck), zero - Seconds(0.2)),
                                     zero + Seconds(to),
                                     question(last));
    if (!out.found) {
        return;
    }
    PairReading reading;
    reading.used = Seconds(to);
    reading.beat = out.beat;
    reading.uncertainty = out.beatUncertainty;
    reading.direction = out.direction;
    reading.weak = out.weak;
    reading.lowerOwnBeat = out.lowerOwnBeat;
    reading.joint = true;
    finish(reading);
    reading.reference = upperKnown ? ReferenceKind::HeardAlone : reference;
    joint = reading;
}

void BeatListener::Impl::readFollowed(double now) {
    const double to = std::min(now, kMeanTo);
    bool search = !followed;
    while (searches < std::size(kSearchAt) && now >= kSearchAt[searches]) {
        ++searches;
        search = true;
    }
    followed = follower.beatOver(
        Seconds(kFrom), Seconds(to), search ? std::optional<FollowedBeat>() : followed);
}

/// The reading to show, and the picture.
void BeatListener::Impl::follow(double now) {
    readFollowed(now);
    if (now >= kFrom + kLive) {
        live = follower.beatOver(Seconds(now - kLive), Seconds(now), live ? live : followed);
    } else {
        live = followed;
    }
    track.look(follower, kind->pair, now, live, *heard);
    while (joints < std::size(kJointAt) && now >= kJointAt[joints]) {
        if (!track.moved()) {
            readJointly(kJointAt[joints], joints + 1 == std::size(kJointAt));
        }
        ++joints;
    }
    if (joint && !track.moved()) {
        heard->reading = joint;
    } else if (followed && now >= kFirstReading) {
        const bool moving = track.moved() && live;
        const FollowedBeat& best = moving ? *live : *followed;
        PairReading reading;
        reading.used = Seconds(std::min(now, kMeanTo));
        reading.beat = moving ? best.beat : best.sustain;
        reading.uncertainty = moving ? best.uncertainty : best.sustainUncertainty;
        reading.direction = best.wide > 0.95   ? BeatDirection::Wide
                            : best.wide < 0.05 ? BeatDirection::Narrow
                                               : BeatDirection::Unknown;
        finish(reading);
        reading.weak = reading.uncertainty > std::max(reading.stillLimit.perSecond(),
                                                      0.1 * std::abs(reading.beat.perSecond()));
        heard->reading = reading;
    }
}

/// Says the last word on this pluck, once.
void BeatListener::Impl::tell() {
    if (!told && heard->reading) {
        told = true;
        finished.tryPush(*heard->reading);
    }
}

bool BeatListener::Impl::damped() const {
    const std::size_t points = follower.points();
    const auto back = static_cast<std::size_t>(kDampedIn / follower.hop().count());
    if (points < 2 * back) {
        return false;
    }
    for (std::size_t k = 0; k < follower.pairs(); ++k) {
        const double fall = follower.level(k, points - 1 - back) - follower.level(k, points - 1);
        if (fall < kDampedDb) {
            return false;
        }
    }
    return follower.pairs() > 1;
}

BeatListener::BeatListener(SampleRate nominal, SampleRate calibrated)
    : impl_(std::make_unique<Impl>(nominal, calibrated)) {
}

BeatListener::~BeatListener() = default;
BeatListener::BeatListener(BeatListener&&) noexcept = default;
BeatListener& BeatListener::operator=(BeatListener&&) noexcept = default;

void BeatListener::restart(FrameIndex first) {
    Impl& self = *impl_;
    end();
    self.history.clear();
    self.dropped = 0;
    self.origin = first;
    self.next = first;
    self.decimator.begin(first.value(), first.value());
}

void BeatListener::push(std::span<const float> samples) {
    Impl& self = *impl_;
    const std::size_t most = samples.size() / static_cast<std::size_t>(self.decimator.factor()) + 2;
    if (self.history.size() + most > self.history.capacity()) {
        const std::size_t drop = self.history.size() + most - self.keep;
        self.history.erase(self.history.begin(),
                           self.history.begin() + static_cast<std::ptrdiff_t>(drop));
        self.dropped += static_cast<std::int64_t>(drop);
    }
    self.decimator.push(samples, self.history);
    self.next = self.next + FrameCount(static_cast<std::int64_t>(samples.size()));
    if (self.listening) {
        self.follower.push(samples);
    }
}

void BeatListener::heardAlone(const StringReading& reading) {
    Impl& self = *impl_;
    if (reading.standing != Standing::Ok || reading.has(Warning::TwoStrings)) {
        return;
    }
    Alone alone;
    alone.slot = self.known.size();
    Alone* replaced = self.aloneOf(reading.string);
    if (replaced == nullptr && self.known.size() == kMostKnown) {
        replaced = &self.known.front();
    }
    if (replaced != nullptr) {
        alone.slot = replaced->slot;
        self.known.erase(self.known.begin() + (replaced - self.known.data()));
    }
    alone.string = reading.string;
    alone.pluck = reading.pluck;
    alone.used = reading.used - kPairTouch;
    alone.target = reading.target;
    alone.pitch = reading.pitch;
    alone.deviation = reading.deviationUncertainty;
    self.keepSound(alone);
    self.known.push_back(std::move(alone));
}

void BeatListener::hearOut(StringReading& reading, std::span<const int> partials) const {
    const Impl& self = *impl_;
    const Seconds from = self.inHistory(reading.pluck);
    const Seconds to(static_cast<double>(self.history.size()) / self.sparse.hz());
    if (from.count() <= 0.0 || reading.used < kShortestHeardOut) {
        return;
    }
    const auto out = hearAlone(self.history,
                               self.sparse,
                               from,
                               std::min(from + reading.used - kPairTouch, to),
                               reading.target,
                               Cents(std::abs(reading.deviation.value()) + 20.0),
                               partials);
    // Another string that rang along may have been taken for it.
    if (!out || abs(interval(reading.pitch, out->sustain)).value() > kOtherStringCents) {
        return;
    }
    for (const KnownPartial& partial : out->partials) {
        for (std::size_t i = 0; partial.polarisation && i < reading.partials.size(); ++i) {
            PartialReading& heard = reading.partials[i];
            if (heard.number == partial.number) {
                const double hz = partial.polarisation->meanHz;
                heard.frequency = Hertz(hz);
                heard.frequencyUncertainty =
                    std::hypot(kHeardOut * partial.polarisation->meanDeviation,
                               kHeardOutCents * kCent * hz,
                               kFragile * partial.polarisation->fragility);
            }
        }
    }
}

void BeatListener::begin(const ExpectedString& lower,
                         const ExpectedString& upper,
                         std::optional<StringId> worked,
                         FrameIndex lowerPluck,
                         FrameIndex upperPluck,
                         std::span<const float> sound) {
    Impl& self = *impl_;
    const auto kind = intervalBetween(lower.target, upper.target);
    EXPECTS(kind.has_value());
    end();
    const bool another =
        !self.heard || self.heard->lower != lower.id || self.heard->upper != upper.id;
    if (another) {
        self.movement = DirectionByMovement();
    }
    self.lower = lower;
    self.upper = upper;
    self.lowerPluck = lowerPluck;
    self.upperPluck = upperPluck;
    self.kind = &intervalOf(*kind);
    const PairHeard before = self.heard.value_or(PairHeard());
    self.heard = PairHeard();
    self.heard->lower = lower.id;
    self.heard->upper = upper.id;
    self.heard->interval = *kind;
    self.heard->pluck = std::max(lowerPluck, upperPluck);
    self.heard->sounding = true;
    self.track.begin(another ? std::optional<std::size_t>() : before.followed);
    self.joint.reset();
    self.told = false;
    self.joints = 0;
    self.searches = 0;
    self.listening = true;
    if (const Alone* const turned = worked ? self.aloneOf(*worked) : nullptr) {
        self.forgetAlone(*turned);
    }
    self.findReference();
    self.startFollowing(sound);
}

void BeatListener::look() {
    Impl& self = *impl_;
    if (!self.listening || self.follower.points() == 0) {
        return;
    }
    const double now = self.follower.timeOf(self.follower.points() - 1).count();
    const bool unison = self.kind->kind == IntervalKind::Unison;
    if (self.reference == ReferenceKind::None && !unison && now >= kFirstReading - 0.1 &&
        self.searches == 0) {
        self.findLowerByItsOwn();
        self.searches = 1;
        if (self.reference == ReferenceKind::OwnPartials) {
            self.follower.place(self.lowerAt, self.lowerDeviation);
        }
    }
    if (self.damped() || now > kLongest.count()) {
        end();
        return;
    }
    self.follow(now);
    if (self.joints == std::size(kJointAt)) {
        self.tell();
    }
}

void BeatListener::end() {
    Impl& self = *impl_;
    if (!self.listening) {
        return;
    }
    self.listening = false;
    self.heard->sounding = false;
    const double now =
        self.follower.points() > 0 ? self.follower.timeOf(self.follower.points() - 1).count() : 0.0;
    if (self.joints < std::size(kJointAt) && now >= kFirstReading + 0.2 && !self.track.moved()) {
        // What was heard while the damper fell is not the strings'.
        self.readJointly(std::min(now - kDampedIn - 0.05, kMeanTo), true);
    }
    if (self.followed && now >= kFirstReading && !self.track.moved()) {
        const double f = self.follower.frequency(0).value();
        self.movement.pluck(std::abs(self.followed->sustain.perSecond()),
                            self.followed->sustainUncertainty,
                            self.followed->meanHz,
                            std::hypot(self.followed->meanUncertainty, kMiddleCents * kCent * f));
    }
    if (self.joint && !self.track.moved()) {
        self.giveDirection(*self.joint);
        self.heard->reading = self.joint;
    }
    self.tell();
}

bool BeatListener::listening() const {
    return impl_->listening;
}

const std::optional<PairHeard>& BeatListener::heard() const {
    return impl_->heard;
}

std::optional<PairReading> BeatListener::takeFinished() {
    Impl& self = *impl_;
    if (self.finished.empty()) {
        return std::nullopt;
    }
    const PairReading oldest = self.finished[0];
    FixedVector<PairReading, 4> rest;
    for (std::size_t i = 1; i < self.finished.size(); ++i) {
        rest.tryPush(self.finished[i]);
    }
    self.finished = rest;
    return oldest;
}

void BeatListener::forget() {
    end();
    impl_->heard.reset();
}

} // namespace quillbench
