#include "core/dsp/string_listener.hpp"

#include "core/dsp/clipping_watch.hpp"
#include "core/dsp/coarse_comb.hpp"
#include "core/dsp/constants.hpp"
#include "core/dsp/decimator.hpp"
#include "core/dsp/energy_model.hpp"
#include "core/dsp/heterodyne_bank.hpp"
#include "core/dsp/line_fit.hpp"
#include "core/dsp/own_beat.hpp"
#include "core/dsp/phase_track.hpp"
#include "core/dsp/stiff_comb.hpp"
#include "core/dsp/string_priors.hpp"
#include "core/dsp/string_verdict.hpp"
#include "core/dsp/sustain_fit.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quillbench {

namespace {

constexpr std::size_t kMostLines = HeterodyneBank::kMostPartials;
constexpr double kHighestListenedHz = 6000.0;
constexpr double kAttack = 0.015;      // seconds after the pluck that are left out
constexpr double kNoise = 0.035;       // seconds before the pluck that jack and plectrum may fill
constexpr double kRise = 4.0;          // power after the pluck over that before: 6 dB
constexpr double kSearchFrom = 0.03;   // seconds after the pluck where the coarse search begins
constexpr double kSearchLongest = 0.6; // seconds of sound in the coarse search
constexpr double kShortestHeardFrame = 0.012; // seconds
constexpr double kLongestHeardFrame = 0.2;
constexpr double kLowestPeriods4 = 40.0; // hertz: below, frames are three periods, not four
constexpr std::array<double, 3> kLaterAnchors{0.28, 0.6, 1.2}; // seconds after the pluck
constexpr double kProminence = 0.6;    // of the coarse comb; noise alone gives about 0.25
constexpr double kSure = 1.0;          // cents: less sure readings are weak
constexpr double kHopeless = 8.0;      // cents: nothing is said
constexpr double kOutside = 1.1;       // of the range: another string
constexpr double kTwoStrings = 9.0;    // cents apart: a false beat is narrower
constexpr double kEdge = 0.85;         // of the range: worth a remark
constexpr double kClippedPhase = 0.05; // radians: what clipping mixes into a partial
constexpr double kHumProminence = 1.2;

double firstAnchor(double hz) {
    return std::clamp(0.05 + 9.0 / hz, 0.13, 0.28);
}

} // namespace

struct StringListener::State {
    explicit State(SampleRate sampleRate)
        : rate(sampleRate),
          decimator(sampleRate),
          rateHz(decimator.outputRateHz()),
          bank(rateHz,
               static_cast<std::size_t>(kLongestHeardFrame * rateHz) + 8,
               static_cast<std::size_t>((kLongest.count() + 0.1) / (kShortestHeardFrame / 4.0)) +
                   16),
          finder(rateHz, static_cast<std::size_t>(kSearchLongest * rateHz) + 8) {
        sound.reserve(static_cast<std::size_t>((kBefore + kLongest).count() * rateHz) + 64);
    }

    [[nodiscard]] std::size_t sampleAt(double seconds) const {
        return pluckSample + static_cast<std::size_t>(seconds * rateHz);
    }

    /// End of the sound that is surely before the pluck: jack and plectrum are heard a little earlier.
    [[nodiscard]] std::size_t quietEnd() const {
        return pluckSample - std::min(pluckSample, static_cast<std::size_t>(kNoise * rateHz));
    }

    [[nodiscard]] bool hears(double mainsHz);
    void listenBefore(std::span<const double> hz);
    [[nodiscard]] bool louderAfter() const;
    void advance();
    void anchor(std::size_t upTo);
    [[nodiscard]] std::size_t references(std::size_t most, std::array<double, kMostLines>& hz);
    void fitComb(std::size_t upTo, std::size_t most);
    void settleReferences(std::size_t upTo);
    [[nodiscard]] std::size_t frameLength() const;
    void startBank(std::span<const double> hz);

    SampleRate rate;
    Decimator decimator;
    double rateHz;
    HeterodyneBank bank;
    CoarseCombFinder finder;
    std::vector<double> sound; // decimated

    ListeningFor what;
    StringPriors priors{};
    FrameIndex pluck;
    FrameIndex beginning; // first frame taken
    FrameIndex next;      // first not yet taken
    bool begun = false;
    bool started = false;
    bool over = false;
    std::size_t pluckSample = 0; // index of the pluck in `sound`
    int skipMultiples = 0;
    std::size_t anchors = 0;
    bool found = false;
    StiffComb comb;
    double prominence = 0;
    std::array<int, kMostLines> numbers{};   // partial number of each of the bank's tracks
    std::array<double, kMostLines> before{}; // power of a point of each track before the pluck
    ClippingWatch clipping;
    bool hum = false;
    bool plucked = false; // enough partials are louder after the pluck than before
};

StringListener::StringListener(SampleRate rate) : state_(std::make_unique<State>(rate)) {
}

StringListener::~StringListener() = default;
StringListener::StringListener(StringListener&&) noexcept = default;
StringListener& StringListener::operator=(StringListener&&) noexcept = default;

Seconds StringListener::earliestReading(Hertz target) {
    return Seconds(firstAnchor(target.value()) + 0.01);
}

void StringListener::begin(const ListeningFor& what, FrameIndex pluck) {
    EXPECTS(what.target.value() >= 15.0 && what.target.value() <= 4000.0);
    EXPECTS(what.range.value() >= 5.0 && what.range.value() <= 250.0);
    State& s = *state_;
    s.what = what;
    s.priors = stringPriors(what.target.value(), what.inharmonicity);
    s.pluck = pluck;
    s.begun = true;
    s.started = false;
    s.over = false;
    s.sound.clear();
    s.anchors = 0;
    s.found = false;
    s.plucked = false;
    s.hum = false;
    s.clipping.begin();
    s.prominence = 0;
    // A string an octave above shares our even partials, two octaves above every fourth.
    s.skipMultiples =
        what.alsoSounding > 1.5 ? static_cast<int>(std::lround(what.alsoSounding)) : 0;
}

void StringListener::push(const SoundBlock& block) {
    State& s = *state_;
    EXPECTS(s.begun);
    if (s.over || block.samples.empty()) {
        return;
    }
    std::span<const float> samples = block.samples;
    FrameIndex first = block.first;
    const FrameIndex from = s.pluck - s.rate.frames(kBefore);
    if (!s.started) {
        const std::int64_t early = (from - first).value();
        if (early >= static_cast<std::int64_t>(samples.size())) {
            return;
        }
        if (early > 0) {
            samples = samples.subspan(static_cast<std::size_t>(early));
            first = from;
        }
        EXPECTS(first <= s.pluck);
        s.decimator.begin(s.pluck.value(), first.value());
        s.pluckSample = static_cast<std::size_t>(-s.decimator.nextOutput());
        s.beginning = first;
        s.next = first;
        s.started = true;
    } else if (first != s.next || block.discontinuity) {
        s.over = true;
        return;
    }
    const FrameIndex end = s.pluck + s.rate.frames(kLongest);
    const std::int64_t room = (end - s.next).value();
    if (room <= static_cast<std::int64_t>(samples.size())) {
        samples = samples.first(static_cast<std::size_t>(std::max<std::int64_t>(room, 0)));
        s.over = true;
    }
    s.clipping.take(samples);
    s.decimator.push(samples, s.sound);
    s.next = s.next + FrameCount(static_cast<std::int64_t>(samples.size()));
    s.advance();
}

bool StringListener::finished() const {
    return state_->over;
}

void StringListener::State::advance() {
    while (anchors <= kLaterAnchors.size()) {
        const double first = firstAnchor(what.target.value());
        const double at = anchors == 0 ? first : kLaterAnchors[anchors - 1];
        if (sound.size() < sampleAt(at)) {
            break;
        }
        if (anchors == 0) {
            hum = hears(50.0) || hears(60.0);
        }
        if (anchors == 0 || at > 1.3 * first) {
            anchor(sampleAt(at));
        }
        ++anchors;
    }
    if (found) {
        bank.extend(sound);
    }
}

/// Mains of this frequency, with harmonics, before the pluck.
bool StringListener::State::hears(double mainsHz) {
    const std::span<const double> quiet = std::span<const double>(sound).first(quietEnd());
    if (static_cast<double>(quiet.size()) < 0.25 * rateHz) {
        return false;
    }
    const CoarseComb mains = finder.find(quiet, {}, {mainsHz, 5.0, 1e-9, 0});
    return mains.prominence > kHumProminence;
}

/// Finds the comb in the sound before sample `upTo` and settles the references of the frames.
void StringListener::State::anchor(std::size_t upTo) {
    const std::size_t from = sampleAt(kSearchFrom);
    if (static_cast<double>(upTo - from) < kSearchLongest * rateHz) {
        const CoarseComb coarse = finder.find(
            std::span<const double>(sound).subspan(from, upTo - from),
            std::span<const double>(sound).first(quietEnd()),
            {what.target.value(), what.range.value(), priors.inharmonicity, skipMultiples});
        prominence = coarse.prominence;
        found = coarse.prominence > kProminence;
        comb = coarse.comb;
    }
    if (!found) {
        return;
    }
    for (const std::size_t most : {std::size_t{8}, std::size_t{16}, kMostLines}) {
        fitComb(upTo, most);
    }
    settleReferences(upTo);
}

std::size_t StringListener::State::references(std::size_t most,
                                              std::array<double, kMostLines>& hz) {
    const double top = std::min(kHighestListenedHz, 0.42 * rate.hz());
    std::size_t count = 0;
    for (int n = 1; n <= static_cast<int>(kMostLines) && count < most; ++n) {
        const double partial = comb.partial(n);
        if (partial > top) {
            break;
        }
        if (skipMultiples > 0 && n % skipMultiples == 0) {
            continue;
        }
        numbers[count] = n;
        hz[count] = partial;
        ++count;
    }
    return count;
}

std::size_t StringListener::State::frameLength() const {
    const double periods = comb.f0 < kLowestPeriods4 ? 3.0 : 4.0;
    const double seconds =
        std::min(std::max(periods / comb.f0, kShortestHeardFrame), kLongestHeardFrame);
    return static_cast<std::size_t>(std::lround(seconds * rateHz));
}

void StringListener::State::startBank(std::span<const double> hz) {
    bank.begin(sampleAt(kAttack), frameLength(), hz);
}

void StringListener::State::fitComb(std::size_t upTo, std::size_t most) {
    std::array<double, kMostLines> hz{};
    const std::size_t count = references(most, hz);
    startBank({hz.data(), count});
    bank.extend({sound.data(), upTo});
    if (bank.frames() < 3) {
        return;
    }
    std::array<MeasuredPartial, kMostLines> measured{};
    std::size_t good = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const DampedLine line = fitDampedLine(bank.track(i), bank.hopSeconds());
        const double cents = 0.15 * kCent * hz[i];
        if (std::abs(line.offsetHz) < 0.4 * comb.f0 && line.offsetSd < 0.1 * comb.f0) {
            measured[good++] = {static_cast<double>(numbers[i]),
                                hz[i] + line.offsetHz,
                                std::hypot(line.offsetSd, 0.05, cents)};
        }
    }
    if (good < 1) {
        return;
    }
    const StiffCombFit fit =
        fitStiffComb({measured.data(), good}, comb, priors.inharmonicity, priors.inharmonicityLnSd);
    const double away = std::abs(std::log(fit.comb.pitch() / what.target.value())) / kCent;
    if (std::isfinite(fit.comb.f0) && away < 1.3 * what.range.value() + 10.0) {
        comb = fit.comb;
    }
}

void StringListener::State::settleReferences(std::size_t upTo) {
    std::array<double, kMostLines> hz{};
    const std::size_t count = references(kMostLines, hz);
    startBank({hz.data(), count});
    bank.extend({sound.data(), upTo});
    if (bank.frames() < 3) {
        return;
    }
    for (std::size_t i = 0; i < count; ++i) {
        const DampedLine line = fitDampedLine(bank.track(i), bank.hopSeconds());
        const double cents = std::abs(line.offsetHz) / (hz[i] * kCent);
        if (line.offsetSd < 2.0 && std::abs(line.offsetHz) < 0.1 * comb.f0 && cents < 20.0) {
            hz[i] += line.offsetHz;
        }
    }
    listenBefore({hz.data(), count});
    startBank({hz.data(), count});
    bank.extend({sound.data(), upTo});
    plucked = louderAfter();
}

/// Power at each reference before the pluck.
void StringListener::State::listenBefore(std::span<const double> hz) {
    before.fill(0.0);
    bank.begin(0, frameLength(), hz);
    bank.extend({sound.data(), quietEnd()});
    for (std::size_t i = 0; i < hz.size(); ++i) {
        before[i] = meanPointPower(bank, i);
    }
}

bool StringListener::State::louderAfter() const {
    std::size_t louder = 0;
    for (std::size_t i = 0; i < bank.partials(); ++i) {
        const PhaseTrack track = followPhase(bank, i, numbers[i], 0.0, 0.0);
        const std::size_t first = track.points.size() > 1 ? 1 : 0;
        louder += !track.points.empty() && track.points[first].power > kRise * before[i] ? 1U : 0U;
    }
    const auto partials = static_cast<double>(bank.partials());
    return static_cast<double>(louder) >= std::max(std::min(2.0, partials), 0.15 * partials);
}

/// The partials heard so far and what they say together.
struct StringListener::Heard {
    std::array<PhaseTrack, kMostLines> tracks;
    std::array<PartialDecay, kMostLines> decays{};
    std::size_t count = 0; ///< of tracks; 0 where no string is heard
    std::optional<EnergyModel> energy;
    SustainFit fit;

    [[nodiscard]] std::span<const PhaseTrack> heard() const { return {tracks.data(), count}; }
};

void StringListener::hear(Heard& heard) const {
    const State& s = *state_;
    if (!s.begun || !s.started || !s.found || !s.plucked) {
        return;
    }
    for (std::size_t i = 0; i < s.bank.partials(); ++i) {
        heard.tracks[heard.count] = followPhase(
            s.bank, i, s.numbers[i], static_cast<double>(s.pluckSample) / s.rateHz, s.before[i]);
        heard.count += heard.tracks[heard.count].points.size() >= 2 ? 1U : 0U;
    }
    if (heard.count == 0) {
        return;
    }
    const double clippedUntil =
        s.rate.duration(s.beginning + FrameCount(s.clipping.end()) - s.pluck).count();
    for (std::size_t i = 0; i < heard.count; ++i) {
        for (PhasePoint& point : heard.tracks[i].points) {
            point.variance += point.t < clippedUntil ? kClippedPhase * kClippedPhase : 0.0;
        }
    }
    decaysOf(heard.heard(), s.priors, heard.decays);
    const std::span<const PartialDecay> decays(heard.decays.data(), heard.count);
    heard.energy.emplace(heard.heard(), decays);
    heard.fit = fitSustain(heard.heard(), *heard.energy, decays, s.comb, s.priors);
}

StringReading StringListener::reading() const {
    Heard heard;
    hear(heard);
    return readingOf(heard);
}

std::optional<ListeningTrace> StringListener::trace() const {
    Heard heard;
    hear(heard);
    if (readingOf(heard).standing == Standing::Nothing) {
        return std::nullopt;
    }
    ListeningTrace trace;
    trace.tracks.assign(heard.heard().begin(), heard.heard().end());
    trace.comb = heard.fit.comb;
    const double rest = heard.fit.startCents - heard.fit.glideCents;
    for (std::size_t k = 0; k < trace.glide.size(); ++k) {
        const double t = static_cast<double>(k) * ListeningTrace::kGlideStep;
        trace.glide[k] = rest + heard.fit.glideCents * heard.energy->energy(t);
    }
    return trace;
}

StringReading StringListener::readingOf(const Heard& heard) const {
    const State& s = *state_;
    StringReading reading;
    reading.string = s.what.string;
    reading.pluck = s.pluck;
    reading.target = s.what.target;
    if (!s.begun || !s.started) {
        return reading;
    }
    reading.used = s.rate.duration(s.next - s.pluck);
    if (heard.count == 0) {
        if (s.anchors == 0) {
            reading.warnings |= static_cast<std::uint32_t>(Warning::TooShort);
        }
        return reading;
    }
    const SustainFit& fit = heard.fit;

    reading.pitch = Hertz(fit.pitchHz);
    reading.pitchUncertainty = fit.pitchSdCents * hertzPerCent(reading.pitch);
    reading.deviation = interval(reading.target, reading.pitch);
    reading.deviationUncertainty = Cents(fit.pitchSdCents);
    reading.startSharpness = Cents(fit.startCents);
    reading.startSharpnessUncertainty = Cents(fit.startSdCents);
    reading.fundamental = Hertz(fit.comb.f0);
    reading.inharmonicity = fit.comb.b;
    reading.inharmonicityUncertainty = fit.comb.b * fit.lnBSd;
    for (std::size_t i = 0; i < heard.count; ++i) {
        reading.partials.tryPush(
            partialOf(heard.tracks[i], heard.decays[i], fit.partials[i], fit.trust[i]));
    }
    reading.standing = fit.pitchSdCents < kSure ? Standing::Ok : Standing::Weak;
    const double away = std::abs(reading.deviation.value()) / s.what.range.value();
    if (away > kOutside || fit.pitchSdCents > kHopeless ||
        !isOneString(heard.heard(), fit, s.skipMultiples)) {
        StringReading nothing;
        nothing.string = reading.string;
        nothing.pluck = reading.pluck;
        nothing.target = reading.target;
        nothing.used = reading.used;
        nothing.warnings = static_cast<std::uint32_t>(Warning::NotTheStringAsked);
        return nothing;
    }
    const auto warn = [&](bool when, Warning warning) {
        reading.warnings |= when ? static_cast<std::uint32_t>(warning) : 0U;
    };
    warn(away > kEdge, Warning::OffTarget);
    warn(s.hum, Warning::Hum);
    if (const auto beat = findOwnBeat(heard.heard(), fit.pitchHz)) {
        reading.ownBeat = beat->rate;
        warn(true, beat->splitCents < kTwoStrings ? Warning::FalseBeat : Warning::TwoStrings);
    }
    warn(s.clipping.found(), Warning::Clipped);
    return reading;
}

} // namespace quillbench
