#include "core/dsp/string_listener.hpp"

#include "core/dsp/coarse_comb.hpp"
#include "core/dsp/decimator.hpp"
#include "core/dsp/energy_model.hpp"
#include "core/dsp/heterodyne_bank.hpp"
#include "core/dsp/line_fit.hpp"
#include "core/dsp/own_beat.hpp"
#include "core/dsp/phase_track.hpp"
#include "core/dsp/stiff_comb.hpp"
#include "core/dsp/string_priors.hpp"
#include "core/dsp/sustain_fit.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr std::size_t kMost = HeterodyneBank::kMostPartials;
constexpr double kHighestHz = 6000.0;
constexpr double kAttack = 0.015;        // seconds after the pluck that are left out
constexpr double kNoise = 0.035;         // seconds before the pluck that jack and plectrum may fill
constexpr double kRise = 4.0;            // power after the pluck over that before: 6 dB
constexpr double kSearchFrom = 0.03;     // seconds after the pluck where the coarse search begins
constexpr double kSearchLongest = 0.6;   // seconds of sound in the coarse search
constexpr double kShortestFrame = 0.012; // seconds
constexpr double kLongestFrame = 0.2;
constexpr double kLowestPeriods4 = 40.0; // hertz: below, frames are three periods, not four
constexpr std::array<double, 3> kLaterAnchors{0.28, 0.6, 1.2}; // seconds after the pluck
constexpr double kProminence = 0.6; // of the coarse comb; noise alone gives about 0.25
constexpr double kSure = 1.0;       // cents: less sure readings are weak
constexpr double kDoubtful = 3.0;   // cents: nearly all partials have to fit
constexpr double kHopeless = 8.0;   // cents: nothing is said
constexpr double kOutside = 1.1;    // of the range: another string
constexpr int kLowerPartials = 12;
constexpr double kOnComb = 10.0;    // cents, and 0.3 Hz
constexpr double kTwoStrings = 9.0; // cents apart: a false beat is narrower
constexpr double kEdge = 0.85;      // of the range: worth a remark
constexpr double kHumProminence = 1.2;
constexpr double kCent = std::numbers::ln2 / 1200.0;

double firstAnchor(double hz) {
    return std::clamp(0.05 + 9.0 / hz, 0.13, 0.28);
}

} // namespace

/// Flat tops: runs of three samples or more that stay at the loudest level there has been.
class ClippingWatch {
public:
    void begin() { *this = ClippingWatch(); }

    void take(std::span<const float> samples) {
        for (const float sample : samples) {
            const float size = std::abs(sample);
            if (size > loudest_ * 1.001F) {
                loudest_ = size;
                flats_ = 0;
            }
            const bool flat = size > loudest_ * 0.999F && std::abs(sample - last_) < size * 1e-3F;
            run_ = flat ? run_ + 1 : 0;
            flats_ += run_ == 2 ? 1 : 0;
            last_ = sample;
        }
    }

    [[nodiscard]] bool found() const { return loudest_ > 0.01F && flats_ >= 4; }

private:
    float loudest_ = 0.0F;
    float last_ = 0.0F;
    int run_ = 0;
    int flats_ = 0;
};

struct StringListener::State {
    explicit State(SampleRate sampleRate)
        : rate(sampleRate),
          decimator(sampleRate),
          rateHz(decimator.outputRateHz()),
          bank(rateHz,
               static_cast<std::size_t>(kLongestFrame * rateHz) + 8,
               static_cast<std::size_t>((kLongest.count() + 0.1) / (kShortestFrame / 4.0)) + 16),
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
    [[nodiscard]] std::size_t references(std::size_t most, std::array<double, kMost>& hz);
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
    FrameIndex next; // first frame not yet taken
    bool begun = false;
    bool started = false;
    bool over = false;
    std::size_t pluckSample = 0; // index of the pluck in `sound`
    int skipMultiples = 0;
    std::size_t anchors = 0;
    bool found = false;
    StiffComb comb;
    double prominence = 0;
    std::array<int, kMost> numbers{};   // partial number of each of the bank's tracks
    std::array<double, kMost> before{}; // power of a point of each track before the pluck
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
    for (const std::size_t most : {std::size_t{8}, std::size_t{16}, kMost}) {
        fitComb(upTo, most);
    }
    settleReferences(upTo);
}

std::size_t StringListener::State::references(std::size_t most, std::array<double, kMost>& hz) {
    const double top = std::min(kHighestHz, 0.42 * rate.hz());
    std::size_t count = 0;
    for (int n = 1; n <= static_cast<int>(kMost) && count < most; ++n) {
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
    const double seconds = std::min(std::max(periods / comb.f0, kShortestFrame), kLongestFrame);
    return static_cast<std::size_t>(std::lround(seconds * rateHz));
}

void StringListener::State::startBank(std::span<const double> hz) {
    bank.begin(sampleAt(kAttack), frameLength(), hz);
}

void StringListener::State::fitComb(std::size_t upTo, std::size_t most) {
    std::array<double, kMost> hz{};
    const std::size_t count = references(most, hz);
    startBank({hz.data(), count});
    bank.extend({sound.data(), upTo});
    if (bank.frames() < 3) {
        return;
    }
    std::array<MeasuredPartial, kMost> measured{};
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
    std::array<double, kMost> hz{};
    const std::size_t count = references(kMost, hz);
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

namespace {

/// Decay and level of every track; what one string's partials share is learned from them together.
std::size_t decaysOf(std::span<const PhaseTrack> tracks,
                     const StringPriors& priors,
                     std::array<PartialDecay, kMost>& decays) {
    double ratio = 1.0;
    for (const int pass : {0, 1}) {
        double logs = 0.0;
        double weights = 0.0;
        for (std::size_t i = 0; i < tracks.size(); ++i) {
            decays[i] = EnergyModel::decayOf(tracks[i], priors, ratio);
            const double expected =
                priors.decayRate * relativeDecay(tracks[i].n, tracks[i].referenceHz) * ratio;
            const double heard = tracks[i].points[tracks[i].points.size() - 1].t;
            const double weight = heard * expected;
            logs += weight * std::log(decays[i].rate / expected);
            weights += weight;
        }
        if (pass == 0) {
            ratio = std::exp(logs / (weights + 0.5));
        }
    }
    return tracks.size();
}

/// Mean frequency of a partial over what was heard of it: least-squares slope of its phase.
PartialReading partialOf(const PhaseTrack& track, const PartialDecay& decay, double trust) {
    double s0 = 0.0;
    double st = 0.0;
    double stt = 0.0;
    double sy = 0.0;
    double sty = 0.0;
    for (const PhasePoint& point : track.points) {
        const double w = 1.0 / point.variance;
        s0 += w;
        st += w * point.t;
        stt += w * point.t * point.t;
        sy += w * point.phase;
        sty += w * point.t * point.phase;
    }
    const double lever = stt - st * st / s0;
    PartialReading reading;
    reading.number = track.n;
    const double turns = (sty - st * sy / s0) / lever / (2.0 * std::numbers::pi);
    reading.frequency = Hertz(track.referenceHz + turns);
    reading.frequencyUncertainty = std::sqrt(1.0 / lever) / (2.0 * std::numbers::pi);
    reading.level = Decibel::fromPower(decay.power);
    reading.decay60 = Seconds(6.907755 / decay.rate);
    reading.used = trust > 0.2;
    return reading;
}

} // namespace

namespace {

/// Whether the lower partials are those of one string: most lie on the comb, and not just every second or
/// third, which another note of the harmony would share.
bool isOneString(const StringReading& reading, const SustainFit& fit, int skipMultiples) {
    const StiffComb& comb = fit.comb;
    std::array<bool, kLowerPartials + 1> heard{};
    std::array<bool, kLowerPartials + 1> fits{};
    int last = 0;
    for (const PartialReading& partial : reading.partials) {
        if (partial.number > kLowerPartials) {
            break;
        }
        const double hz = partial.frequency.value();
        const double off = std::abs(std::log(hz / comb.partial(partial.number))) / kCent;
        const auto n = static_cast<std::size_t>(partial.number);
        heard[n] = true;
        fits[n] = off < kOnComb + 0.3 / (hz * kCent);
        last = partial.number;
    }
    const auto onComb = static_cast<double>(std::count(fits.begin(), fits.end(), true));
    const auto audible = static_cast<double>(std::count(heard.begin(), heard.end(), true));
    if (onComb < (fit.pitchSdCents < kDoubtful ? 0.4 : 0.8) * audible) {
        return false;
    }
    for (const int k : {2, 3}) {
        std::array<int, 2> all{}; // others, multiples of k
        std::array<int, 2> good{};
        for (int n = 1; n <= last; ++n) {
            if (skipMultiples == 0 || n % skipMultiples != 0) {
                const std::size_t which = n % k == 0 ? 1 : 0;
                ++all[which];
                good[which] += fits[static_cast<std::size_t>(n)] ? 1 : 0;
            }
        }
        if (all[1] >= 2 && all[0] >= 3 && good[1] > 0.6 * all[1] && good[0] < 0.25 * all[0]) {
            return false;
        }
    }
    return true;
}

} // namespace

StringReading StringListener::reading() const {
    const State& s = *state_;
    StringReading reading;
    reading.string = s.what.string;
    reading.pluck = s.pluck;
    reading.target = s.what.target;
    if (!s.begun || !s.started) {
        return reading;
    }
    reading.used = s.rate.duration(s.next - s.pluck);
    if (!s.found || !s.plucked) {
        if (s.anchors == 0) {
            reading.warnings |= static_cast<std::uint32_t>(Warning::TooShort);
        }
        return reading;
    }
    std::array<PhaseTrack, kMost> tracks;
    std::size_t count = 0;
    for (std::size_t i = 0; i < s.bank.partials(); ++i) {
        tracks[count] = followPhase(
            s.bank, i, s.numbers[i], static_cast<double>(s.pluckSample) / s.rateHz, s.before[i]);
        count += tracks[count].points.size() >= 2 ? 1U : 0U;
    }
    if (count == 0) {
        return reading;
    }
    const std::span<const PhaseTrack> heard(tracks.data(), count);
    std::array<PartialDecay, kMost> decays{};
    decaysOf(heard, s.priors, decays);
    const std::span<const PartialDecay> fading(decays.data(), count);
    const EnergyModel energy(heard, fading);
    const SustainFit fit = fitSustain(heard, energy, fading, s.comb, s.priors);

    reading.pitch = Hertz(fit.pitchHz);
    reading.pitchUncertainty = fit.pitchSdCents * hertzPerCent(reading.pitch);
    reading.deviation = interval(reading.target, reading.pitch);
    reading.deviationUncertainty = Cents(fit.pitchSdCents);
    reading.startSharpness = Cents(fit.startCents);
    reading.startSharpnessUncertainty = Cents(fit.startSdCents);
    reading.fundamental = Hertz(fit.comb.f0);
    reading.inharmonicity = fit.comb.b;
    reading.inharmonicityUncertainty = fit.comb.b * fit.lnBSd;
    for (std::size_t i = 0; i < count; ++i) {
        reading.partials.tryPush(partialOf(heard[i], decays[i], fit.trust[i]));
    }
    reading.standing = fit.pitchSdCents < kSure ? Standing::Ok : Standing::Weak;
    const double away = std::abs(reading.deviation.value()) / s.what.range.value();
    if (away > kOutside || fit.pitchSdCents > kHopeless ||
        !isOneString(reading, fit, s.skipMultiples)) {
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
    if (const auto beat = findOwnBeat(heard, fit.pitchHz)) {
        reading.ownBeat = beat->rate;
        warn(true, beat->splitCents < kTwoStrings ? Warning::FalseBeat : Warning::TwoStrings);
    }
    warn(s.clipping.found(), Warning::Clipped);
    return reading;
}

} // namespace quillbench
