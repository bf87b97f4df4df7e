#include "core/analysis/key_recogniser.hpp"

#include "core/analysis/beat_listener.hpp"
#include "core/analysis/line_floor.hpp"
#include "core/dsp/fft.hpp"
#include "core/support/contract.hpp"
#include "core/units/decibel.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

namespace quillbench {

namespace {

constexpr std::array<double, KeyRecogniser::kLooks> kLookS{0.10, 0.15, 0.30, 0.45};

/// Below these pitches a look is too short to part the partials: three periods' main lobe.
constexpr std::array<double, KeyRecogniser::kLooks> kLowestHz{190.0, 95.0, 15.0, 15.0};

/// Left out after the pluck: the attack is no comb yet.
constexpr double kSkipS = 0.006;

/// Left out before the pluck: the plectrum touches the string up to this long before (common practice, no source).
constexpr double kTouchS = 0.025;

/// Prediction of what rang on is trusted to this share of its power: polarisations beat, the more the longer
/// the look (measured on synthetic strings with splits of 0.3 to 1.2 cents and a knock instead of a pluck).
constexpr std::array<double, KeyRecogniser::kLooks> kPredictionError{0.02, 0.02, 0.04, 0.08};

/// Where the sound before is too short to predict from, a line must have kept this share of its power to count:
/// damped strings fade, plucked ones do not. And all lines together must have kept that share: what a damped
/// string uncovers, hum for one, is not new.
constexpr double kKept = 0.7;
constexpr double kKeptInAll = 0.25;

/// Evidence needed to call the sound a string. Noise reaches 1 in one of 100 looks, knocks 8, 5, 2 and 1
/// (test "what is no string").
constexpr std::array<double, KeyRecogniser::kLooks> kHeard{10.0, 10.0, 6.0, 5.5};

/// Evidence that the best pitch needs over the next, and as a share of all evidence before the last look.
constexpr std::array<double, KeyRecogniser::kLooks> kMargin{5.0, 5.0, 4.0, 2.0};
constexpr std::array<double, KeyRecogniser::kLooks> kMarginShare{0.15, 0.15, 0.15, 0.0};

/// Every comb is followed to the same frequency, so that an octave has no more slots than its fundamental has;
/// high strings a little further.
constexpr double kHighestPartialHz = 10000.0;
constexpr double kUsualPartialHz = 6000.0;
constexpr double kPartialsOfHighStrings = 10.0;
/// A comb that has lost this much is not followed further.
constexpr double kGivenUp = 14.0;

/// Grid of pitches that compete, in cents.
constexpr double kStepCents = 3.0;

/// What a sound brings with it itself, re its loudest line: skirts of its window, steps of its samples. A recording
/// that is silent to the last bit before the pluck has no other floor.
constexpr double kOwnDirt = 1e-9;
/// Power of a line re the noise floor counts as ln(1 + S/8), and no line for more than this: one loud line is no comb.
constexpr double kSoftening = 8.0;
constexpr double kMostEvidence = 8.0;

/// What a slot of the comb costs whether it is filled or not: twice what noise alone fills in.
constexpr double kSlotCost = 0.9;

/// What an empty slot costs below the first filled one, where bodies radiate well: a missing fundamental belongs
/// to the bass.
constexpr double kLeadingCost = 2.5;
constexpr double kRadiatesHz = 250.0;
constexpr double kFilled = 2.0;

/// A slot may be this much weaker than its neighbours before it counts against the comb (11 dB).
constexpr double kTolerance = 2.5;

/// Two strings together: evidence that each one's own partials need, how many of them must be there, and of how
/// many. Partials of the two closer than this many bins cannot be told apart.
constexpr double kOwnEvidence = 9.0;
constexpr int kOwnLooked = 5;
constexpr int kOwnFilled = 4;
constexpr int kOwnSlots = 16;
/// So much more must two strings explain than the best single one.
constexpr double kTwoOverOne = 8.0;
constexpr double kApartBins = 2.6;
constexpr double kApartShare = 0.012; // 20 cents: stiffness is known no better up there
/// Strings that may be one of the two: the best of all.
constexpr std::size_t kMostStrings = 8;

/// Two strings may be told apart beyond this distance.
constexpr double kSameCents = 60.0;
constexpr double kReachCents = 50.0;
/// What speaks for a string that is waited for, in nepers: about two of its lines.
constexpr double kAwaited = 12.0;
constexpr double kFarReachCents = 160.0;
/// A string that was heard far from its place is taken for another that stands so much nearer to where that belongs.
constexpr double kNearerToAnother = 25.0; // cents

double cents(double from, double to) {
    return 1200.0 * std::log2(to / from);
}

/// Inharmonicity where the make is unknown: law through 23 measured strings, 46 to 931 Hz
/// (DEVELOPERS.md, "Real strings").
double usualInharmonicity(double hz) {
    return 1.6e-5 * (1.0 + std::pow(hz / 110.0, 1.5));
}

struct Look {
    double predictionError = 0;
    std::size_t length = 0; ///< frames of the window
    double binHz = 0;
    std::unique_ptr<RealFft> fft;
    std::vector<double> window; ///< Hann
};

struct GridPoint {
    double hz = 0;
    double inharmonicity = 0;
    bool known = false; ///< inharmonicity comes from the string's make
};

} // namespace

struct KeyRecogniser::Impl {
    explicit Impl(SampleRate sampleRate);

    void transform(const Look& look,
                   std::span<const float> sound,
                   std::vector<std::complex<double>>& spectrum);
    void newEnergy(const Look& look,
                   std::span<const float> sound,
                   std::size_t pluck,
                   std::size_t steadyFrom);
    void weighLines(const Look& look);
    [[nodiscard]] double combEvidence(const Look& look, double hz, double inharmonicity) const;
    [[nodiscard]] double
    ownEvidence(const Look& look, const GridPoint& one, const GridPoint& other) const;
    [[nodiscard]] std::optional<std::size_t> bestAround(const ExpectedString& string) const;
    [[nodiscard]] std::size_t scoreGrid(const Look& look);
    [[nodiscard]] double refine(const Look& look, const GridPoint& point) const;
    [[nodiscard]] const ExpectedString* stringAt(double hz) const;
    [[nodiscard]] bool mayBeAsked(double hz) const;
    [[nodiscard]] double prior(double hz) const;

    double rateHz;
    AnalysisTarget target;
    const ExpectedString* asked = nullptr;
    const ExpectedString* awaited = nullptr;
    std::vector<GridPoint> grid;
    std::vector<double> score;
    std::array<Look, kLooks> looks;
    std::vector<double> padded;
    std::vector<std::complex<double>> after;
    std::vector<std::complex<double>> before1;
    std::vector<std::complex<double>> before2;
    std::vector<double> power;    ///< new energy by bin
    std::vector<double> ringing;  ///< predicted power by bin
    std::vector<double> evidence; ///< ln(1 + S/8) by bin
    std::vector<double> floor;    ///< of the noise, by bin
    std::vector<double> sorted;
    double newPower = 0;   ///< sum of `power`
    double noisePower = 0; ///< sum of its floor
    std::size_t bins = 0;  ///< in use in the present look
};

KeyRecogniser::Impl::Impl(SampleRate sampleRate) : rateHz(sampleRate.hz()) {
    EXPECTS(rateHz >= 8000.0 && rateHz <= 192000.0);
    std::size_t largest = 0;
    for (std::size_t i = 0; i < looks.size(); ++i) {
        Look& look = looks[i];
        look.predictionError = kPredictionError[i];
        look.length = static_cast<std::size_t>((kLookS[i] - kSkipS) * rateHz);
        const std::size_t size = std::bit_ceil(look.length + look.length / 2);
        look.fft = std::make_unique<RealFft>(size);
        look.binHz = rateHz / static_cast<double>(size);
        look.window.resize(look.length);
        for (std::size_t k = 0; k < look.length; ++k) {
            look.window[k] =
                0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * (static_cast<double>(k) + 0.5) /
                                     static_cast<double>(look.length));
        }
        largest = std::max(largest, size);
    }
    padded.resize(largest);
    for (auto* spectrum : {&after, &before1, &before2}) {
        spectrum->resize(largest / 2 + 1);
    }
    for (auto* list : {&power, &ringing, &evidence, &floor, &sorted}) {
        list->resize(largest / 2 + 1);
    }
}

/// Windowed transform of `sound`, at most the look's length; a shorter one is stretched under the window and scaled,
/// so that a steady line has the power it would have in full.
void KeyRecogniser::Impl::transform(const Look& look,
                                    std::span<const float> sound,
                                    std::vector<std::complex<double>>& spectrum) {
    const std::size_t size = look.fft->size();
    const double stretch = static_cast<double>(look.length) / static_cast<double>(sound.size());
    std::fill_n(padded.begin(), size, 0.0);
    for (std::size_t k = 0; k < sound.size(); ++k) {
        const auto place = static_cast<std::size_t>(static_cast<double>(k) * stretch);
        padded[k] = stretch * look.window[place] * static_cast<double>(sound[k]);
    }
    look.fft->transform(std::span(padded).first(size), std::span(spectrum).first(size / 2 + 1));
}

/// A line that decays alone in its bin turns by the same complex factor between windows at equal distances: with
/// two windows before the pluck, h apart, the window 2h after the second holds X₂·(X₂/X₁)².
void KeyRecogniser::Impl::newEnergy(const Look& look,
                                    std::span<const float> sound,
                                    std::size_t pluck,
                                    std::size_t steadyFrom) {
    const double highest = std::min(kHighestPartialHz * 1.03, 0.46 * rateHz);
    bins = std::min(static_cast<std::size_t>(highest / look.binHz), look.fft->size() / 2);
    const auto skip = static_cast<std::size_t>(kSkipS * rateHz);
    const auto touch = static_cast<std::size_t>(kTouchS * rateHz);
    const std::size_t first = pluck + skip;
    transform(look, sound.subspan(first, look.length), after);
    const std::size_t hop = (look.length + touch + skip + 1) / 2;
    const bool predict = first >= steadyFrom + 3 * hop;
    const std::size_t beforeEnd = pluck > touch ? pluck - touch : 0;
    const bool compare = !predict && beforeEnd > steadyFrom + look.length / 4;
    if (predict) {
        transform(look, sound.subspan(first - 2 * hop, look.length), before2);
        transform(look, sound.subspan(first - 3 * hop, look.length), before1);
    } else if (compare) {
        const std::size_t count = std::min(look.length, beforeEnd - steadyFrom);
        transform(look, sound.subspan(beforeEnd - count, count), before2);
    }
    double all = 0.0;
    double allBefore = 0.0;
    for (std::size_t k = 0; k < bins; ++k) {
        power[k] = std::norm(after[k]);
        all += power[k];
        allBefore += compare ? std::norm(before2[k]) : 0.0;
        ringing[k] = 0.0;
        if (predict) {
            std::complex<double> turn = 0.0;
            if (std::norm(before1[k]) > 0.0) {
                turn = before2[k] / before1[k];
                const double size = std::abs(turn);
                turn *= size > 1.0 ? 1.0 / size : 1.0;
            }
            const std::complex<double> expected = before2[k] * turn * turn;
            power[k] = std::min(power[k], std::norm(after[k] - expected));
            ringing[k] = std::norm(expected);
        } else if (compare && power[k] < kKept * std::norm(before2[k])) {
            ringing[k] = std::norm(before2[k]) / look.predictionError;
        }
    }
    if (all < kKeptInAll * allBefore) {
        std::fill_n(power.begin(), bins, 0.0);
    }
}

void KeyRecogniser::Impl::weighLines(const Look& look) {
    const std::span<const double> heard = std::span(power).first(bins);
    findLineFloor(heard, look.binHz, std::span(floor).first(bins), sorted);
    newPower = 0.0;
    noisePower = 0.0;
    const double own = kOwnDirt * *std::max_element(heard.begin(), heard.end());
    for (std::size_t k = 0; k < bins; ++k) {
        newPower += power[k];
        noisePower += floor[k];
        const double noise = floor[k] + look.predictionError * ringing[k] + own;
        evidence[k] = noise > 0.0
                          ? std::min(kMostEvidence, std::log1p(power[k] / (kSoftening * noise)))
                          : 0.0;
    }
}

double KeyRecogniser::Impl::combEvidence(const Look& look, double hz, double inharmonicity) const {
    const double flexible = hz / std::sqrt(1.0 + inharmonicity) / look.binHz;
    const double highest =
        std::clamp(kPartialsOfHighStrings * hz, kUsualPartialHz, kHighestPartialHz) / look.binHz;
    const double limit = std::min(highest, static_cast<double>(bins) - 2.0);
    double sum = 0.0;
    double best = 0.0;
    double last = 0.0;       // slot n − 1
    double beforeLast = 0.0; // slot n − 2
    bool begun = false;
    for (int n = 1;; ++n) {
        const double at = n * flexible * std::sqrt(1.0 + inharmonicity * n * n);
        if (at > limit || sum < best - kGivenUp) {
            break;
        }
        const double slot = evidence[static_cast<std::size_t>(std::lround(at))];
        begun = begun || slot > kFilled;
        sum += slot - (begun || at * look.binHz < kRadiatesHz ? kSlotCost : kLeadingCost);
        if (n >= 2) {
            const double lacking = 0.5 * (beforeLast + slot) - last - kTolerance;
            sum -= 0.5 * std::max(0.0, lacking);
        }
        best = std::max(best, sum);
        beforeLast = last;
        last = slot;
    }
    return best;
}

/// Evidence for the partials of `one` that `other` does not share; 0 where the lowest of them are not there.
double KeyRecogniser::Impl::ownEvidence(const Look& look,
                                        const GridPoint& one,
                                        const GridPoint& other) const {
    const auto partial = [&look](const GridPoint& point, int n) {
        const double flexible = point.hz / std::sqrt(1.0 + point.inharmonicity) / look.binHz;
        return n * flexible * std::sqrt(1.0 + point.inharmonicity * n * n);
    };
    const double limit = std::min(kUsualPartialHz / look.binHz, static_cast<double>(bins) - 2.0);
    double sum = 0.0;
    double best = 0.0;
    int looked = 0;
    int filled = 0;
    for (int n = 1; looked < kOwnSlots; ++n) {
        const double at = partial(one, n);
        if (at > limit) {
            break;
        }
        const int near = std::max(1, static_cast<int>(std::lround(at / partial(other, 1))));
        bool shared = false;
        for (int m = std::max(1, near - 1); m <= near + 1; ++m) {
            shared =
                shared || std::abs(partial(other, m) - at) < std::max(kApartBins, kApartShare * at);
        }
        if (shared) {
            continue;
        }
        const double slot = evidence[static_cast<std::size_t>(std::lround(at))];
        sum += slot - kSlotCost;
        best = std::max(best, sum);
        if (looked < kOwnLooked) {
            filled += slot > kFilled ? 1 : 0;
        }
        ++looked;
    }
    const int wanted = std::min(kOwnFilled, looked);
    return looked >= 3 && filled >= wanted ? best : 0.0;
}

/// The grid point near a string's target that scored best.
std::optional<std::size_t> KeyRecogniser::Impl::bestAround(const ExpectedString& string) const {
    const double middle = cents(grid.front().hz, string.target.value()) / kStepCents;
    const double reach = kReachCents / kStepCents;
    const auto last = static_cast<double>(grid.size() - 1);
    if (middle + reach < 0.0 || middle - reach > last) {
        return std::nullopt;
    }
    const auto from = static_cast<std::size_t>(std::max(0.0, middle - reach));
    const auto to = static_cast<std::size_t>(std::min(last, middle + reach));
    const auto begin = score.begin() + static_cast<std::ptrdiff_t>(from);
    const auto end = score.begin() + static_cast<std::ptrdiff_t>(to) + 1;
    return static_cast<std::size_t>(std::max_element(begin, end) - score.begin());
}

/// Scores every pitch of the grid: with the inharmonicity expected first, with more and less of it where that
/// could still win. Returns the winner.
std::size_t KeyRecogniser::Impl::scoreGrid(const Look& look) {
    constexpr double kHopeful = 0.35;
    double highest = 0.0;
    for (std::size_t i = 0; i < grid.size(); ++i) {
        score[i] = combEvidence(look, grid[i].hz, grid[i].inharmonicity);
        highest = std::max(highest, score[i]);
    }
    std::size_t best = 0;
    for (std::size_t i = 0; i < grid.size(); ++i) {
        const GridPoint& point = grid[i];
        if (score[i] >= kHopeful * highest) {
            const double reach = point.known ? 1.4 : 2.2;
            for (const double b : {point.inharmonicity / reach, point.inharmonicity * reach}) {
                score[i] = std::max(score[i], combEvidence(look, point.hz, b));
            }
        }
        const bool wins = score[i] + prior(point.hz) > score[best] + prior(grid[best].hz);
        best = wins ? i : best;
    }
    return best;
}

/// Partials' own peaks, interpolated, against n·√(1+B·n²): least squares for a shift in cents and a change of B,
/// twice, the second time without the outliers.
double KeyRecogniser::Impl::refine(const Look& look, const GridPoint& point) const {
    constexpr double kOutlierCents = 20.0;
    double shift = 0.0;
    double bend = 0.0; // cents per n²
    const double flexible = point.hz / std::sqrt(1.0 + point.inharmonicity);
    for (int pass = 0; pass < 2; ++pass) {
        // Prior: B within a factor of two.
        const double bendSpread = 865.6 * point.inharmonicity;
        double sw = 0.0;
        double sx = 0.0;
        double sxx = 1.0 / (bendSpread * bendSpread);
        double sy = 0.0;
        double sxy = 0.0;
        for (int n = 1; n <= 30; ++n) {
            const double stiff = std::sqrt(1.0 + point.inharmonicity * n * n);
            const double bent = std::exp2((shift + bend * n * n) / 1200.0);
            const double at = n * flexible * stiff * bent / look.binHz;
            if (at + 4.0 > static_cast<double>(bins)) {
                break;
            }
            const auto middle = static_cast<std::size_t>(std::lround(at));
            std::size_t peak = middle;
            for (std::size_t k = middle > 3 ? middle - 2 : 1; k <= middle + 2; ++k) {
                peak = power[k] > power[peak] ? k : peak;
            }
            const double left = power[peak - 1];
            const double right = power[peak + 1];
            if (evidence[peak] < kFilled || power[peak] <= left || power[peak] <= right ||
                left <= 0.0 || right <= 0.0) {
                continue;
            }
            const double a = std::log(left);
            const double b = std::log(power[peak]);
            const double c = std::log(right);
            const double fraction = 0.5 * (a - c) / (a - 2.0 * b + c);
            const double hz = (static_cast<double>(peak) + fraction) * look.binHz;
            const double y = cents(n * flexible * stiff, hz);
            if (pass > 0 && std::abs(y - shift - bend * n * n) > kOutlierCents) {
                continue;
            }
            // A line is placed to a share of a bin that shrinks with its level.
            const double spread = cents(hz, hz + 0.1 * look.binHz) + 0.5;
            const double weight = 1.0 / (spread * spread);
            const double x = static_cast<double>(n) * n;
            sw += weight;
            sx += weight * x;
            sxx += weight * x * x;
            sy += weight * y;
            sxy += weight * x * y;
        }
        const double determinant = sw * sxx - sx * sx;
        if (!(determinant > 1e-9 * sw * sxx)) {
            break;
        }
        shift = (sxx * sy - sx * sxy) / determinant;
        bend = (sw * sxy - sx * sy) / determinant;
    }
    return point.hz * std::exp2(std::clamp(shift + bend, -25.0, 25.0) / 1200.0);
}

/// Whether a pitch may be that of the string asked for, as far off as it is allowed to be.
bool KeyRecogniser::Impl::mayBeAsked(double hz) const {
    const double from = cents(asked->target.value(), hz);
    if (std::abs(from) <= kReachCents) {
        return true;
    }
    if (!target.askedMayBeFar || std::abs(from) > kFarReachCents) {
        return false;
    }
    return !target.askedLast ||
           std::none_of(
               target.strings.begin(), target.strings.end(), [&](const ExpectedString& other) {
                   return other.id.course != asked->id.course &&
                          std::abs(cents(other.target.value(), hz)) + kNearerToAnother <
                              std::abs(from - target.askedLast->value());
               });
}

double KeyRecogniser::Impl::prior(double hz) const {
    if (awaited != nullptr && std::abs(cents(awaited->target.value(), hz)) <= kReachCents) {
        return kAwaited;
    }
    return asked != nullptr && mayBeAsked(hz) ? 2.0 : 0.0;
}

/// Every choir has one string a key, so that strings of one key share their course. The deepest string explains
/// the others of its key: it speaks for the key, and the string asked for is taken where it belongs to that key.
const ExpectedString* KeyRecogniser::Impl::stringAt(double hz) const {
    if (asked != nullptr && mayBeAsked(hz)) {
        return asked;
    }
    const ExpectedString* nearest = nullptr;
    double nearestDistance = kReachCents;
    for (const ExpectedString& string : target.strings) {
        const double distance = std::abs(cents(string.target.value(), hz));
        const bool nearer = distance < nearestDistance - 1e-9 &&
                            (nearest == nullptr || string.id.course + 6 >= nearest->id.course);
        // Strings of two choirs at one pitch: the later key of the deeper choir.
        const bool sameButDeeper = nearest != nullptr && distance <= nearestDistance + 20.0 &&
                                   distance <= kReachCents &&
                                   string.id.course > nearest->id.course + 6;
        if (nearer || sameButDeeper) {
            nearest = &string;
            nearestDistance = distance;
        }
    }
    if (nearest != nullptr && asked != nullptr && nearest->id.course == asked->id.course) {
        return asked;
    }
    return nearest;
}

KeyRecogniser::KeyRecogniser(SampleRate rate) : impl_(std::make_unique<Impl>(rate)) {
}

KeyRecogniser::~KeyRecogniser() = default;
KeyRecogniser::KeyRecogniser(KeyRecogniser&&) noexcept = default;
KeyRecogniser& KeyRecogniser::operator=(KeyRecogniser&&) noexcept = default;

void KeyRecogniser::setTarget(const AnalysisTarget& target) {
    Impl& self = *impl_;
    self.target = target;
    self.asked = nullptr;
    self.awaited = nullptr;
    self.grid.clear();
    self.score.clear();
    if (self.target.strings.empty()) {
        return;
    }
    double lowest = self.target.strings.front().target.value();
    double highest = lowest;
    for (const ExpectedString& string : self.target.strings) {
        EXPECTS(string.target.value() >= 15.0 && string.target.value() <= 6000.0);
        lowest = std::min(lowest, string.target.value());
        highest = std::max(highest, string.target.value());
        if (self.target.asked == string.id) {
            self.asked = &string;
        }
    }
    // Pitches beyond the compass compete too: an octave above the top must not pass for the top. Not where a
    // look cannot part the partials.
    constexpr double kLowestForeignHz = 30.0;
    const double from = std::max(lowest / 2.2, std::min(lowest / 1.06, kLowestForeignHz));
    const double to = std::min({highest * 4.4, 6500.0, 0.4 * self.rateHz});
    const auto points = static_cast<std::size_t>(std::max(1.0, cents(from, to) / kStepCents)) + 1;
    for (std::size_t i = 0; i < points; ++i) {
        GridPoint point;
        point.hz = from * std::exp2(static_cast<double>(i) * kStepCents / 1200.0);
        point.inharmonicity = usualInharmonicity(point.hz);
        double nearest = kSameCents;
        for (const ExpectedString& string : self.target.strings) {
            const double distance = std::abs(cents(string.target.value(), point.hz));
            if (distance < nearest && string.inharmonicity > 0.0) {
                nearest = distance;
                point.inharmonicity = string.inharmonicity;
                point.known = true;
            }
        }
        self.grid.push_back(point);
    }
    self.score.resize(self.grid.size());
}

void KeyRecogniser::expect(std::optional<StringId> string) {
    Impl& self = *impl_;
    const auto& strings = self.target.strings;
    const auto found = std::find_if(strings.begin(), strings.end(), [&](const ExpectedString& one) {
        return string == one.id;
    });
    self.awaited = found == strings.end() ? nullptr : &*found;
}

Seconds KeyRecogniser::lookAfter(int look) {
    EXPECTS(look >= 0 && look < kLooks);
    return Seconds(kLookS[static_cast<std::size_t>(look)]);
}

KeyVerdict KeyRecogniser::look(int look,
                               std::span<const float> sound,
                               std::size_t pluck,
                               std::size_t steadyFrom) {
    EXPECTS(look >= 0 && look < kLooks);
    Impl& self = *impl_;
    const auto index = static_cast<std::size_t>(look);
    const Look& plan = self.looks[index];
    EXPECTS(pluck + static_cast<std::size_t>(kLookS[index] * self.rateHz) <= sound.size());
    KeyVerdict verdict;
    if (self.grid.empty()) {
        verdict.settled = true;
        return verdict;
    }
    self.newEnergy(plan, sound, pluck, steadyFrom);
    self.weighLines(plan);
    const std::size_t best = self.scoreGrid(plan);
    const double hz = self.grid[best].hz;
    double second = 0.0;
    for (std::size_t i = 0; i < self.grid.size(); ++i) {
        if (std::abs(static_cast<double>(i) - static_cast<double>(best)) * kStepCents >
            kSameCents) {
            second = std::max(second, self.score[i] + self.prior(self.grid[i].hz));
        }
    }
    verdict.evidence = self.score[best];
    verdict.margin = self.score[best] + self.prior(hz) - second;
    verdict.snrDb = (Decibel::fromPower(std::max(0.0, self.newPower - self.noisePower)) -
                     Decibel::fromPower(self.noisePower));
    if (verdict.evidence < kHeard[index]) {
        return verdict;
    }
    const double pitch = self.refine(plan, self.grid[best]);
    verdict.pitch = Hertz(pitch);
    const double needed = std::max(kMargin[index], kMarginShare[index] * verdict.evidence);
    if (verdict.margin < needed || hz < kLowestHz[index]) {
        return verdict;
    }
    const ExpectedString* const string = self.stringAt(pitch);
    // A foreign pitch is believed late: a knock before a pluck is easily taken for one.
    constexpr int kForeignLook = 2;
    verdict.settled = string != nullptr || look >= kForeignLook;
    if (string != nullptr) {
        verdict.string = string->id;
        // The other choir of the key asked for says nothing of where this one stands.
        const Cents offset = interval(string->target, Hertz(pitch));
        verdict.offset = abs(offset) <= Cents(kFarReachCents) ? offset : Cents(0.0);
    }
    return verdict;
}

std::optional<std::array<KeyVerdict, 2>> KeyRecogniser::lookForTwo(int look,
                                                                   std::span<const float> sound,
                                                                   std::size_t pluck,
                                                                   std::size_t steadyFrom) {
    EXPECTS(look >= 0 && look < kLooks);
    Impl& self = *impl_;
    const auto index = static_cast<std::size_t>(look);
    const Look& plan = self.looks[index];
    EXPECTS(pluck + static_cast<std::size_t>(kLookS[index] * self.rateHz) <= sound.size());
    if (self.grid.empty()) {
        return std::nullopt;
    }
    self.newEnergy(plan, sound, pluck, steadyFrom);
    self.weighLines(plan);
    (void)self.scoreGrid(plan);

    struct Candidate {
        const ExpectedString* string;
        std::size_t point;
        double score;
    };

    std::array<Candidate, kMostStrings + 1> best{};
    std::size_t count = 0;
    for (const ExpectedString& string : self.target.strings) {
        const auto point = self.bestAround(string);
        if (!point || self.score[*point] < kHeard[index]) {
            continue;
        }
        // The best, in order, by insertion.
        std::size_t place = count;
        while (place > 0 && best[place - 1].score < self.score[*point]) {
            best[place] = best[place - 1];
            --place;
        }
        best[place] = {&string, *point, self.score[*point]};
        count = std::min(count + 1, kMostStrings);
    }
    // The two together must explain more than any one string, also one that is not there.
    double highest = *std::max_element(self.score.begin(), self.score.end()) + kTwoOverOne;
    std::optional<std::array<KeyVerdict, 2>> found;
    for (std::size_t i = 0; i < count; ++i) {
        for (std::size_t j = 0; j < count; ++j) {
            const Candidate& low = best[i];
            const Candidate& high = best[j];
            const auto kind = intervalBetween(low.string->target, high.string->target);
            if (!kind || intervalOf(*kind).pair.ofUpper == 1) {
                continue;
            }
            const GridPoint& a = self.grid[low.point];
            const GridPoint& b = self.grid[high.point];
            const double ofHigh = self.ownEvidence(plan, b, a);
            const double ofLow = self.ownEvidence(plan, a, b);
            const double sum = std::max(low.score + ofHigh, high.score + ofLow);
            if (std::min(ofHigh, ofLow) < kOwnEvidence || sum <= highest) {
                continue;
            }
            highest = sum;
            found = std::array<KeyVerdict, 2>();
            for (std::size_t k = 0; k < 2; ++k) {
                const Candidate& one = k == 0 ? low : high;
                KeyVerdict& verdict = (*found)[k];
                verdict.string = one.string->id;
                verdict.pitch = Hertz(self.refine(plan, self.grid[one.point]));
                verdict.offset = interval(one.string->target, *verdict.pitch);
                verdict.evidence = k == 0 ? ofLow : ofHigh;
            }
        }
    }
    return found;
}

AnalysisTarget chromaticTarget(Hertz a4, int lowestMidi, int highestMidi) {
    EXPECTS(a4.value() >= 300.0 && a4.value() <= 600.0);
    EXPECTS(12 <= lowestMidi && lowestMidi <= highestMidi && highestMidi <= 108);
    AnalysisTarget target;
    for (int midi = lowestMidi; midi <= highestMidi; ++midi) {
        ExpectedString string;
        string.id = StringId{0, static_cast<std::size_t>(midi - lowestMidi)};
        string.target = transpose(a4, Cents(100.0 * (midi - 69)));
        target.strings.push_back(string);
    }
    return target;
}

} // namespace quillbench
