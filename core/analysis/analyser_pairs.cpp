#include "core/analysis/analyser_impl.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>

namespace quillbench {

using namespace detail;

namespace {

/// An earlier string sounds on if its own partials have not lost so much by then; looked at once more later, when the
/// damper of a key that was let go at the same time has fallen.
constexpr double kSoundsOnDb = 12.0;

constexpr Seconds kSoundsOnFor{8.0};

/// Of two that are, the first may have lost more: it is not yet past the quick part of its decay.
constexpr double kSoundsOnTogetherDb = 24.0;

constexpr double kLookLong = 0.08;

} // namespace

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

/// Where nothing asks for two strings, or for one of them alone first, one that sounds is alone.
void Analyser::Impl::learnLevels() {
    const ExpectedString* const string = expected(*current->string);
    const bool twoAsked = target->pairs && target->with;
    const bool oneAsked = twoAsked && target->withAlone && current->string == target->with;
    const bool alone =
        current->alsoSounding <= 0.0 && !beats.listening() && (!twoAsked || oneAsked);
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
    const bool lowerExpected = target->withAlone && lower.id == target->with;
    return kind &&
           pairEar.bothSound(
               placeOf(lower), placeOf(upper), intervalOf(*kind).pair, lower.id, lowerExpected);
}

/// Two keys played at once: first the two that were asked for, then any two that make an interval.
void Analyser::Impl::lookForChord() {
    current->lookedForChord = true;
    if (current->at < historyStart) {
        return;
    }
    if (current->string) {
        pairEar.hear(soundFrom(current->at).samples);
    }
    const auto asked = target->pairs ? askedPair() : std::nullopt;
    const bool both = asked && bothSound(*(*asked)[0], *(*asked)[1]);
    if (current->string && !both) {
        learnLevels();
    }
    if (!target->pairs) {
        return;
    }
    if (beats.listening()) {
        if (asked && pairEar.knows((*asked)[0]->id) && !both) {
            leavePartner();
        }
        return;
    }
    if (both) {
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

} // namespace quillbench
