#include "core/dsp/beat_follower.hpp"

#include "core/dsp/constants.hpp"
#include "core/dsp/string_priors.hpp"
#include "core/support/contract.hpp"

#include <Eigen/Core>
#include <Eigen/LU>

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

namespace quillbench {

namespace {

using Complex = std::complex<double>;

constexpr double kPointsPerSecond = 60.0;

/// Envelope frames: four periods of the lower string part its partials; never so long that a fast beat is smeared.
constexpr double kFramePeriods = 4.0;
constexpr double kShortestS = 0.030;
constexpr double kLongestS = 0.085;

/// The ear takes faster beats for roughness.
constexpr double kFastestFollowed = 15.0;

/// Real partials scatter about the stiff comb by tenths of a cent (DEVELOPERS.md, "Virtual instrument").
constexpr double kScatterCents = 0.35;
/// Bands count as tied while that scatter turns the highest of them by no more than this much, in turns.
constexpr double kTiedTurns = 0.3;

/// Two lines may not cancel each other: share of the Gram matrix's diagonal that is added to it.
constexpr double kRidge = 2e-3;

constexpr std::size_t kFewestPoints = 12;
/// More points than this are thinned out: what beats slower than 15 Hz needs no more.
constexpr std::size_t kMostFollowed = 90;

/// Neighbouring frames overlap and their model errors are alike: so many of them count as one beyond their overlap.
constexpr double kAlike = 8.0;

struct Band {
    int multiple = 1;
    double centre = 0.0; ///< Hz
    double phaseStep = 0.0;
    std::vector<Complex> window; ///< Hann times the carrier
    std::vector<Complex> points; ///< ring of kMostPoints
};

/// What the fit moves: beat, place of the lower line re the centre, both at rest, and how much sharper the lower and the
/// upper line began; all at the lowest pair, Hz.
using Parameters = std::array<double, 4>;
constexpr std::size_t kParameters = 4;

/// How much sharper than at rest a pluck begins: about as much more or less, cents (string_priors).
constexpr double kGlideCents = 0.9;
/// The beat's definition.

} // namespace

struct BeatFollower::Impl {
    explicit Impl(SampleRate sampleRate) : rate(sampleRate.hz()) {}

    void makePoint(std::size_t end);
    [[nodiscard]] bool choose(double from, double to);
    void findDecays();
    double residuals(const Parameters& at, std::vector<Complex>& into);
    double refine(Parameters& at, int steps);
    [[nodiscard]] Eigen::Matrix4d system(const Parameters& at, std::size_t count);

    /// Standard deviation of a line's glide, Hz.
    [[nodiscard]] double glideSpread(std::size_t line) const {
        return glidePrior[line] + 0.1 * kCent * bands.front().centre;
    }

    [[nodiscard]] double meanGlide(double from, double to) const;
    [[nodiscard]] double priorCost(const Parameters& at) const;
    [[nodiscard]] std::vector<double> startsFor();
    [[nodiscard]] FollowedBeat readOff(const Parameters& at);
    [[nodiscard]] double meanOffset() const;

    double rate;
    FollowedPair pair;
    double tie = 0.0; ///< Hz from the centre at the lowest pair: prior of the lower line's place
    double tieDeviation = 0.2; ///< its standard deviation
    std::vector<Band> bands;
    std::size_t used = 0;   ///< bands that are fitted: fewer the longer the stretch
    std::size_t length = 0; ///< samples of a frame
    std::size_t hop = 1;
    std::vector<float> recent;
    std::size_t recentStart = 0; ///< of recent[0], in samples after the pluck
    std::size_t made = 0;

    // The stretch that is fitted.
    std::vector<std::size_t> chosen;
    std::vector<double> times;
    std::vector<double> decays;   ///< per band
    std::vector<double> noise;    ///< variance per band
    std::vector<double> energies; ///< per band
    double correlation = 1.0;
    std::vector<double> sizes; ///< [band][point]: how far the decay has gone
    std::vector<double>
        glidePhase; ///< [point]: ∫ of the glide, whose rate dies with the energy of the motion
    std::vector<Complex> r0;
    std::vector<Complex> r1;
    std::array<std::vector<Complex>, kParameters> jacobian;
    Eigen::Matrix4d covariance;
    Eigen::Vector4d gradient;
    double glideDecay = 2.0;
    std::array<double, 2>
        glidePrior{}; ///< Hz at the lowest pair, mean and deviation alike, of both lines
};

void BeatFollower::Impl::makePoint(std::size_t end) {
    const std::size_t first = end - length - recentStart;
    const double centreTime = static_cast<double>(end) - 0.5 * (static_cast<double>(length) + 1.0);
    for (Band& band : bands) {
        double re = 0.0;
        double im = 0.0;
        for (std::size_t i = 0; i < length; ++i) {
            const auto x = static_cast<double>(recent[first + i]);
            re += x * band.window[i].real();
            im += x * band.window[i].imag();
        }
        const double turn = -kTwoPi * std::remainder(band.phaseStep * centreTime, 1.0);
        band.points[made % kMostPoints] = Complex(re, im) * std::polar(1.0, turn);
    }
    ++made;
}

/// Takes the points of a stretch, thinned out where there are many.
bool BeatFollower::Impl::choose(double from, double to) {
    chosen.clear();
    times.clear();
    const double step = static_cast<double>(hop) / rate;
    const double first = 0.5 * static_cast<double>(length) / rate;
    const std::size_t oldest = made > kMostPoints ? made - kMostPoints : 0;
    const auto count = static_cast<std::size_t>(std::max(0.0, (to - from) / step));
    const std::size_t every = count / kMostFollowed + 1;
    for (std::size_t i = oldest; i < made; ++i) {
        const double t = first + static_cast<double>(i) * step;
        if (t >= from && t <= to && i % every == 0) {
            chosen.push_back(i);
            times.push_back(t);
        }
    }
    const double overlap = static_cast<double>(length) / 4.0 / static_cast<double>(hop * every);
    correlation = kAlike * std::max(1.0, 2.67 * overlap);
    const double wander = kScatterCents * kCent * bands.front().centre * (to - from);
    used = static_cast<std::size_t>(
        std::clamp(kTiedTurns / wander, 1.0, static_cast<double>(bands.size())));
    if (pair.lowerPartial != pair.upperPartial) {
        used = 1; // stiffness pulls the higher pairs of an interval away from multiples of its beat
    }
    return chosen.size() >= kFewestPoints;
}

/// One decay a band, from the slope of its energy; equal for both lines.
void BeatFollower::Impl::findDecays() {
    energies.assign(used, 0.0);
    decays.assign(used, 1.0);
    const double duration = times.back() - times.front();
    double slowest = 20.0;
    for (std::size_t b = 0; b < used; ++b) {
        double early = 0.0;
        double late = 0.0;
        for (std::size_t m = 0; m < chosen.size(); ++m) {
            const double power = std::norm(bands[b].points[chosen[m] % kMostPoints]);
            (2 * m < chosen.size() ? early : late) += power;
            energies[b] += power;
        }
        if (early > 0.0 && late > 0.0) {
            // A beat may lift either half: what is known of such strings counts as much as a second of sound.
            const StringPriors priors = stringPriors(pair.lower.value(), 0.0);
            const double usual =
                priors.decayRate *
                relativeDecay(bands[b].multiple * pair.lowerPartial, bands[b].centre);
            const double heard = std::clamp(std::log(early / late) / duration, 0.0, 30.0);
            decays[b] = (heard * duration + usual) / (duration + 1.0);
        }
        slowest = std::min(slowest, decays[b]);
    }
    glideDecay = std::clamp(2.0 * slowest, 0.5, 10.0);
    const double glide = kGlideCents * kCent * bands.front().centre;
    glidePrior = {glide * std::exp(-glideDecay * pair.lowerAgo.count()),
                  glide * std::exp(-glideDecay * pair.upperAgo.count())};
    sizes.clear();
    glidePhase.clear();
    for (const double t : times) {
        glidePhase.push_back((1.0 - std::exp(-glideDecay * t)) / glideDecay);
    }
    for (const double decay : decays) {
        for (const double t : times) {
            sizes.push_back(std::exp(-decay * t));
        }
    }
}

/// What the two lines leave of every band; returns the cost. In units of each band's noise.
double BeatFollower::Impl::residuals(const Parameters& at, std::vector<Complex>& into) {
    const std::size_t count = times.size();
    into.resize(count * used);
    const double effective = static_cast<double>(count) / correlation;
    double cost = priorCost(at);
    std::array<Complex, kMostFollowed + 2> a;
    std::array<Complex, kMostFollowed + 2> b;
    for (std::size_t k = 0; k < used; ++k) {
        const double multiple = bands[k].multiple;
        Complex ab = 0.0;
        Complex az = 0.0;
        Complex bz = 0.0;
        double aa = 0.0;
        for (std::size_t m = 0; m < count; ++m) {
            const double t = times[m];
            const double size = sizes[k * count + m];
            a[m] = std::polar(size, kTwoPi * multiple * (at[1] * t + at[2] * glidePhase[m]));
            b[m] =
                std::polar(size, kTwoPi * multiple * ((at[1] + at[0]) * t + at[3] * glidePhase[m]));
            const Complex z = bands[k].points[chosen[m] % kMostPoints];
            aa += size * size;
            ab += std::conj(a[m]) * b[m];
            az += std::conj(a[m]) * z;
            bz += std::conj(b[m]) * z;
        }
        const double diagonal = aa * (1.0 + kRidge);
        const double determinant = diagonal * diagonal - std::norm(ab);
        const Complex x = (diagonal * az - ab * bz) / determinant;
        const Complex y = (diagonal * bz - std::conj(ab) * az) / determinant;
        double left = kRidge * aa * (std::norm(x) + std::norm(y));
        const double scale = noise.empty() ? 1.0 : 1.0 / std::sqrt(noise[k]);
        for (std::size_t m = 0; m < count; ++m) {
            const Complex z = bands[k].points[chosen[m] % kMostPoints];
            const Complex rest = z - x * a[m] - y * b[m];
            left += std::norm(rest);
            into[k * count + m] = rest * scale;
        }
        cost += effective * std::log(std::max(left, 1e-5 * energies[k] + 1e-24));
    }
    return cost;
}

double BeatFollower::Impl::priorCost(const Parameters& at) const {
    const double place = (at[1] - tie) / tieDeviation;
    double sum = pair.lowerKnown ? place * place : 0.0;
    for (std::size_t line = 0; line < 2; ++line) {
        const double gliding = (at[2 + line] - glidePrior[line]) / glideSpread(line);
        sum += gliding * gliding;
    }
    return 0.5 * sum;
}

/// Gauss–Newton with shortened steps; leaves the covariance.
double BeatFollower::Impl::refine(Parameters& at, int steps) {
    const std::size_t count = times.size();
    double cost = 0.0;
    for (int step = 0; step <= steps; ++step) {
        noise.clear();
        cost = residuals(at, r0);
        const Eigen::Matrix4d h = system(at, count);
        covariance = h.inverse();
        if (step == steps) {
            break;
        }
        const Eigen::Vector4d change = -covariance * gradient;
        noise.clear();
        bool better = false;
        for (const double share : {1.0, 0.4, 0.16, 0.064}) {
            Parameters moved = at;
            for (std::size_t p = 0; p < kParameters; ++p) {
                moved[p] += share * std::clamp(change[static_cast<Eigen::Index>(p)], -1.0, 1.0);
            }
            const double there = residuals(moved, r1);
            if (there < cost) {
                better = there < cost - 1e-3;
                at = moved;
                break;
            }
        }
        if (!better) {
            steps = step + 1;
        }
    }
    return cost;
}

/// Normal matrix and gradient of the residuals, priors included, each band in units of what it leaves.
Eigen::Matrix4d BeatFollower::Impl::system(const Parameters& at, std::size_t count) {
    noise.resize(used);
    for (std::size_t k = 0; k < used; ++k) {
        double sum = 0.0;
        for (std::size_t m = 0; m < count; ++m) {
            sum += std::norm(r0[k * count + m]);
        }
        noise[k] = std::max(sum, 1e-5 * energies[k]) / static_cast<double>(count) + 1e-24;
    }
    (void)residuals(at, r0);
    constexpr double kProbe = 1e-4;
    for (std::size_t p = 0; p < kParameters; ++p) {
        Parameters moved = at;
        moved[p] += kProbe;
        (void)residuals(moved, jacobian[p]);
        for (std::size_t i = 0; i < r0.size(); ++i) {
            jacobian[p][i] = (jacobian[p][i] - r0[i]) / kProbe;
        }
    }
    Eigen::Matrix4d h = Eigen::Matrix4d::Zero();
    gradient.setZero();
    for (std::size_t p = 0; p < kParameters; ++p) {
        const auto row = static_cast<Eigen::Index>(p);
        for (std::size_t i = 0; i < r0.size(); ++i) {
            gradient[row] += (std::conj(jacobian[p][i]) * r0[i]).real();
        }
        for (std::size_t q = 0; q <= p; ++q) {
            const auto column = static_cast<Eigen::Index>(q);
            for (std::size_t i = 0; i < r0.size(); ++i) {
                h(row, column) += (std::conj(jacobian[p][i]) * jacobian[q][i]).real();
            }
            h(column, row) = h(row, column);
        }
    }
    h *= 2.0 / correlation;
    gradient *= 2.0 / correlation;
    if (pair.lowerKnown) {
        h(1, 1) += 1.0 / (tieDeviation * tieDeviation);
        gradient[1] += (at[1] - tie) / (tieDeviation * tieDeviation);
    }
    for (std::size_t line = 0; line < 2; ++line) {
        const auto row = static_cast<Eigen::Index>(2 + line);
        const double spread = glideSpread(line);
        h(row, row) += 1.0 / (spread * spread);
        gradient[row] += (at[2 + line] - glidePrior[line]) / (spread * spread);
    }
    h.diagonal().array() += 1e-3; // never singular: nothing is known to better than 30 Hz at worst
    return h;
}

/// Mean of the glide's course over a stretch after the pluck; 1 at the pluck.
double BeatFollower::Impl::meanGlide(double from, double to) const {
    return (std::exp(-glideDecay * from) - std::exp(-glideDecay * to)) / (glideDecay * (to - from));
}

/// Middle of the sound in the lowest bands, Hz from the centre at the lowest pair: slope of the phase, by energy.
double BeatFollower::Impl::meanOffset() const {
    const double step = static_cast<double>(hop) / rate;
    double weighted = 0.0;
    double weights = 0.0;
    for (std::size_t k = 0; k < used; ++k) {
        const Band& band = bands[k];
        Complex turn = 0.0;
        for (std::size_t m = 0; m + 1 < chosen.size(); ++m) {
            const std::size_t i = chosen[m];
            if (i + 1 < made) {
                turn +=
                    band.points[(i + 1) % kMostPoints] * std::conj(band.points[i % kMostPoints]);
            }
        }
        weighted += std::abs(turn) * std::arg(turn) / (kTwoPi * step) / band.multiple;
        weights += std::abs(turn);
    }
    return weights > 0.0 ? weighted / weights : 0.0;
}

/// Beats to start from: the deepest places of the cost along the range, at most three.
std::vector<double> BeatFollower::Impl::startsFor() {
    const double reach = std::min(
        kFastestFollowed, bands.front().centre * (std::exp(pair.range.value() * kCent) - 1.0));
    const double duration = times.back() - times.front();
    const double top = bands[used - 1].multiple;
    const double step = std::max(0.03, 0.3 / duration / std::sqrt(top));
    const double mean = pair.lowerKnown ? 0.0 : meanOffset();
    std::vector<std::pair<double, double>> costs;
    const auto most = static_cast<int>(reach / step);
    for (int i = pair.lowerKnown ? -most : 1; i <= most; ++i) {
        const double beat = i * step;
        const double place = pair.lowerKnown ? tie : mean - 0.5 * beat;
        costs.emplace_back(residuals({beat, place, glidePrior[0], glidePrior[1]}, r0), beat);
    }
    std::vector<std::pair<double, double>> minima;
    for (std::size_t i = 0; i < costs.size(); ++i) {
        const bool left = i == 0 || costs[i].first <= costs[i - 1].first;
        const bool right = i + 1 == costs.size() || costs[i].first <= costs[i + 1].first;
        if (left && right) {
            minima.push_back(costs[i]);
        }
    }
    std::sort(minima.begin(), minima.end());
    std::vector<double> starts;
    for (std::size_t i = 0; i < std::min<std::size_t>(3, minima.size()); ++i) {
        starts.push_back(minima[i].second);
    }
    return starts;
}

/// Folds the spread of real partials into what the curvature says.
FollowedBeat BeatFollower::Impl::readOff(const Parameters& at) {
    const double scatter = kScatterCents * kCent * bands.front().centre;
    const auto beatWith = [&](double glide, BeatRate& beat, double& deviation) {
        const Eigen::Vector4d weights(1.0, 0.0, -glide, glide);
        beat = BeatRate(at[0] + glide * (at[3] - at[2]));
        deviation = std::sqrt(weights.dot(covariance * weights) + scatter * scatter);
    };
    FollowedBeat result;
    beatWith(meanGlide(times.front(), times.back()), result.beat, result.uncertainty);
    beatWith(meanGlide(kSustainFrom, kSustainTo), result.sustain, result.sustainUncertainty);
    const Eigen::Vector4d middle(0.5, 1.0, 0.0, 0.0);
    result.meanHz = bands.front().centre + at[1] + 0.5 * at[0];
    result.meanUncertainty = std::sqrt(middle.dot(covariance * middle) + 0.25 * scatter * scatter);
    result.fit = at;
    return result;
}

BeatFollower::BeatFollower(SampleRate rate) : impl_(std::make_unique<Impl>(rate)) {
    EXPECTS(rate.hz() >= 8000.0 && rate.hz() <= 192000.0);
}

BeatFollower::~BeatFollower() = default;
BeatFollower::BeatFollower(BeatFollower&&) noexcept = default;
BeatFollower& BeatFollower::operator=(BeatFollower&&) noexcept = default;

void BeatFollower::begin(const FollowedPair& pair) {
    EXPECTS(pair.lower.value() >= 15.0 && pair.lower.value() <= 4000.0);
    EXPECTS(pair.lowerPartial >= 1 && pair.lowerPartial <= 12 && pair.upperPartial >= 1);
    Impl& self = *impl_;
    self.pair = pair;
    const double stiffness = pair.inharmonicity > 0.0
                                 ? pair.inharmonicity
                                 : stringPriors(pair.lower.value(), 0.0).inharmonicity;
    const double flexible = pair.lower.value() / std::sqrt(1.0 + stiffness);
    const double seconds = std::clamp(kFramePeriods / pair.lower.value(), kShortestS, kLongestS);
    self.length = static_cast<std::size_t>(seconds * self.rate);
    self.hop = static_cast<std::size_t>(self.rate / kPointsPerSecond);
    self.bands.clear();
    const bool unison = pair.lowerPartial == 1 && pair.upperPartial == 1;
    const int most = unison ? static_cast<int>(kMostPairs) : 3;
    for (int k = 1; k <= most; ++k) {
        const double n = k * pair.lowerPartial;
        const double hz = n * flexible * std::sqrt(1.0 + stiffness * n * n);
        if (k > 1 && hz > std::min(kTopHz, 0.4 * self.rate)) {
            break;
        }
        Band band;
        band.multiple = k;
        band.centre = hz;
        band.phaseStep = hz / self.rate;
        band.points.resize(kMostPoints);
        band.window.resize(self.length);
        double sum = 0.0;
        const double middle = 0.5 * (static_cast<double>(self.length) - 1.0);
        for (std::size_t i = 0; i < self.length; ++i) {
            const double place = static_cast<double>(i);
            const double hann =
                0.5 - 0.5 * std::cos(kTwoPi * (place + 0.5) / static_cast<double>(self.length));
            sum += hann;
            band.window[i] = hann * std::polar(1.0, -kTwoPi * band.phaseStep * (place - middle));
        }
        for (Complex& weight : band.window) {
            weight *= 2.0 / sum;
        }
        self.bands.push_back(std::move(band));
    }
    const double first = self.bands.front().centre;
    self.tieDeviation = std::hypot(pair.lowerDeviation.value(), kScatterCents) * kCent * first;
    self.tie = 0.0;
    self.recent.clear();
    self.recent.reserve(4 * self.length + 16384);
    self.recentStart = 0;
    self.made = 0;
    self.chosen.reserve(kMostPoints);
    self.times.reserve(kMostPoints);
    self.glidePhase.reserve(kMostFollowed + 2);
    self.sizes.reserve(kMostPairs * (kMostFollowed + 2));
    for (auto* list : {&self.r0, &self.r1}) {
        list->reserve(kMostPairs * (kMostFollowed + 2));
    }
    for (auto& list : self.jacobian) {
        list.reserve(kMostPairs * (kMostFollowed + 2));
    }
}

void BeatFollower::place(Hertz lower, Cents deviation) {
    Impl& self = *impl_;
    const double centre = self.bands.front().centre;
    self.tie = centre * (lower / self.pair.lower - 1.0);
    self.tieDeviation = std::hypot(deviation.value(), kScatterCents) * kCent * centre;
    self.pair.lowerKnown = true;
}

void BeatFollower::push(std::span<const float> samples) {
    Impl& self = *impl_;
    if (self.bands.empty()) {
        return;
    }
    while (!samples.empty()) {
        const std::size_t count = std::min<std::size_t>(samples.size(), 4096);
        if (self.recent.size() + count > self.recent.capacity()) {
            const std::size_t drop = self.recent.size() - self.length;
            self.recent.erase(self.recent.begin(),
                              self.recent.begin() + static_cast<std::ptrdiff_t>(drop));
            self.recentStart += drop;
        }
        self.recent.insert(self.recent.end(),
                           samples.begin(),
                           samples.begin() + static_cast<std::ptrdiff_t>(count));
        samples = samples.subspan(count);
        const std::size_t have = self.recentStart + self.recent.size();
        while (self.length + self.made * self.hop <= have) {
            self.makePoint(self.length + self.made * self.hop);
        }
    }
}

Seconds BeatFollower::hop() const {
    return Seconds(static_cast<double>(impl_->hop) / impl_->rate);
}

std::size_t BeatFollower::points() const {
    return impl_->made;
}

Seconds BeatFollower::timeOf(std::size_t point) const {
    return Seconds(
        (0.5 * static_cast<double>(impl_->length) + static_cast<double>(point * impl_->hop)) /
        impl_->rate);
}

std::size_t BeatFollower::pairs() const {
    return impl_->bands.size();
}

Hertz BeatFollower::frequency(std::size_t pair) const {
    EXPECTS(pair < pairs());
    return Hertz(impl_->bands[pair].centre);
}

Decibel BeatFollower::level(std::size_t pair, std::size_t point) const {
    EXPECTS(pair < pairs() && point < points());
    return Decibel::fromPower(std::norm(impl_->bands[pair].points[point % kMostPoints]));
}

std::optional<FollowedBeat>
BeatFollower::beatOver(Seconds from, Seconds to, const std::optional<FollowedBeat>& seed) {
    Impl& self = *impl_;
    if (self.bands.empty() || !self.choose(from.count(), to.count())) {
        return std::nullopt;
    }
    self.findDecays();
    if (self.energies.front() <= 0.0) {
        return std::nullopt;
    }
    const double mean = self.pair.lowerKnown ? 0.0 : self.meanOffset();
    const auto startAt = [&](double beat) {
        return Parameters{beat,
                          self.pair.lowerKnown ? self.tie : mean - 0.5 * beat,
                          self.glidePrior[0],
                          self.glidePrior[1]};
    };
    self.noise.clear();
    std::vector<Parameters> starts;
    if (seed) {
        starts.push_back(seed->fit);
    } else {
        for (const double beat : self.startsFor()) {
            starts.push_back(startAt(beat));
        }
    }
    // The other direction is tried where it could be: which one it is, is told by how much better it fits.
    const double doubtful =
        4.0 * self.tieDeviation + 0.5 / (self.times.back() - self.times.front());
    if (self.pair.lowerKnown && std::abs(starts.front()[0]) < doubtful) {
        starts.push_back(startAt(-starts.front()[0]));
    }
    double lowest = 0.0;
    std::array<double, 2> bySign{1e9, 1e9};
    std::optional<FollowedBeat> best;
    for (Parameters at : starts) {
        const double cost = self.refine(at, seed ? 3 : 6);
        const std::size_t side = at[0] > 0.0 ? 1 : 0;
        bySign[side] = std::min(bySign[side], cost);
        if (!best || cost < lowest) {
            lowest = cost;
            best = self.readOff(at);
        }
    }
    if (!self.pair.lowerKnown) {
        best->beat = abs(best->beat);
        best->sustain = abs(best->sustain);
        best->wide = 0.5;
        return best;
    }
    // Both sides that lie within the same dip are one: then its width tells the sign.
    const double within = 0.5 * std::erfc(-best->sustain.perSecond() / best->sustainUncertainty /
                                          std::numbers::sqrt2);
    const double odds = 1.0 / (1.0 + std::exp(std::clamp(bySign[1] - bySign[0], -40.0, 40.0)));
    best->wide = best->sustain.perSecond() > 0.0 ? std::min(within, odds) : std::max(within, odds);
    return best;
}

} // namespace quillbench
