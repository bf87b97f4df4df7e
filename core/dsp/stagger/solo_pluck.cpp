#include "core/dsp/stagger/solo_pluck.hpp"

#include "core/dsp/constants.hpp"
#include "core/dsp/fft.hpp"
#include "core/dsp/stagger/beginnings.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <vector>

namespace quillbench {

namespace {

constexpr double kLowestHz = 40.0;
constexpr double kHighestHz = 6500.0;
constexpr double kStandsOut = 15.0;      // power of a line against that of its neighbourhood
constexpr double kNeighbourhood = 200.0; // Hz either side
constexpr std::size_t kMostLines = 12;
constexpr double kBand = 0.010; // s: length of the window that cuts a band
constexpr double kStep = 0.0005;
constexpr double kQuietest = 0.05;
constexpr double kRiseAhead = 0.004;
constexpr double kLeastBehind = 0.012;
constexpr double kPeriodsBehind = 1.3; // so that no later turn of the wave passes for its first
constexpr double kLeastRise = 0.05;    // of the loudest moment: what is softer is no pluck
constexpr double kBegins = 0.03;       // of the loudest moment's power: no touch is as loud
constexpr double kOverNoise = 5.0;
constexpr double kWindowLate =
    0.0021; // a Hann window of kBand lets kBegins through so long before its middle
constexpr double kFine = 0.003;

std::vector<double> hannOf(std::size_t count) {
    std::vector<double> out(count);
    for (std::size_t i = 0; i < count; ++i) {
        out[i] = 0.5 - 0.5 * std::cos(kTwoPi * (static_cast<double>(i) + 0.5) /
                                      static_cast<double>(count));
    }
    return out;
}

/// Frequencies of the lines that stand out of the ring, those that stand out most first.
std::vector<double> linesOf(std::span<const double> ring, double rateHz) {
    const std::size_t size = std::max<std::size_t>(4, ring.size() / 2 * 2);
    if (ring.size() < size) {
        return {};
    }
    std::vector<double> windowed = hannOf(size);
    for (std::size_t i = 0; i < size; ++i) {
        windowed[i] *= ring[i];
    }
    RealFft fft(size);
    std::vector<std::complex<double>> spectrum(size / 2 + 1);
    fft.transform(windowed, spectrum);
    const double binHz = rateHz / static_cast<double>(size);
    std::vector<double> power;
    power.reserve(spectrum.size());
    for (const std::complex<double>& bin : spectrum) {
        power.push_back(std::norm(bin));
    }

    struct Line {
        double hz;
        double standsOut;
    };

    std::vector<Line> lines;
    const auto reach = static_cast<std::size_t>(kNeighbourhood / binHz);
    const auto first = static_cast<std::size_t>(kLowestHz / binHz);
    const auto last = std::min(power.size() - 1, static_cast<std::size_t>(kHighestHz / binHz));
    for (std::size_t k = std::max<std::size_t>(1, first); k < last; ++k) {
        if (power[k] < power[k - 1] || power[k] < power[k + 1]) {
            continue;
        }
        const auto low = power.begin() + static_cast<std::ptrdiff_t>(k > reach ? k - reach : 0);
        const auto high =
            power.begin() + static_cast<std::ptrdiff_t>(std::min(power.size(), k + reach));
        std::vector<double> around(low, high);
        const auto middle = around.begin() + static_cast<std::ptrdiff_t>(around.size() / 2);
        std::nth_element(around.begin(), middle, around.end());
        const double standsOut = power[k] / std::max(*middle, 1e-30);
        if (standsOut > kStandsOut) {
            lines.push_back({static_cast<double>(k) * binHz, standsOut});
        }
    }
    std::sort(lines.begin(), lines.end(), [](const Line& a, const Line& b) {
        return a.standsOut > b.standsOut;
    });
    lines.resize(std::min(lines.size(), kMostLines));
    std::vector<double> found;
    found.reserve(lines.size());
    for (const Line& line : lines) {
        found.push_back(line.hz);
    }
    return found;
}

/// Power of a narrow band about `hz`, at every step; its window is centred there.
std::vector<double> bandPower(std::span<const double> sound,
                              double hz,
                              double rateHz,
                              std::size_t step,
                              const std::vector<double>& window) {
    std::vector<std::complex<double>> shifted;
    shifted.reserve(window.size());
    for (std::size_t i = 0; i < window.size(); ++i) {
        shifted.push_back(std::polar(window[i], -kTwoPi * hz * static_cast<double>(i) / rateHz));
    }
    std::vector<double> out;
    out.reserve(sound.size() / step + 1);
    const std::size_t half = window.size() / 2;
    for (std::size_t at = 0; at < sound.size(); at += step) {
        std::complex<double> sum;
        const std::size_t skip = at < half ? half - at : 0;
        const std::size_t begin = at + skip - half;
        const std::size_t count = std::min(window.size() - skip, sound.size() - begin);
        for (std::size_t i = 0; i < count; ++i) {
            sum += shifted[skip + i] * sound[begin + i];
        }
        out.push_back(std::norm(sum));
    }
    return out;
}

/// All lines together, each against its own noise.
std::vector<double> ringPower(std::span<const double> sound,
                              const std::vector<double>& lines,
                              double rateHz,
                              std::size_t step) {
    const std::vector<double> window = hannOf(static_cast<std::size_t>(kBand * rateHz));
    std::vector<double> all(sound.size() / step + 1, 0.0);
    for (const double hz : lines) {
        const std::vector<double> one = bandPower(sound, hz, rateHz, step, window);
        const auto over = static_cast<std::size_t>(kQuietest * rateHz) / step;
        double sum = 0.0;
        double quietest = 1e300;
        for (std::size_t i = 0; i < one.size(); ++i) {
            sum += one[i] - (i >= over ? one[i - over] : 0.0);
            if (i + 1 >= over) {
                quietest = std::min(quietest, sum);
            }
        }
        const double noise = quietest / static_cast<double>(over);
        const double loudest = *std::max_element(one.begin(), one.end());
        for (std::size_t i = 0; i < one.size() && i < all.size(); ++i) {
            all[i] += one[i] / std::max(noise, 1e-6 * loudest + 1e-30);
        }
    }
    return all;
}

double meanOf(const std::vector<double>& sums, std::size_t from, std::size_t to) {
    return to > from ? (sums[to] - sums[from]) / static_cast<double>(to - from) : 0.0;
}

} // namespace

std::size_t pluckOfSolo(std::span<const double> sound,
                        std::span<const double> whitened,
                        std::span<const double> ring,
                        double rateHz,
                        double periodSeconds) {
    const auto step = static_cast<std::size_t>(kStep * rateHz);
    const std::vector<double> lines = linesOf(ring, rateHz);
    const std::vector<double> power = ringPower(sound, lines, rateHz, step);
    std::vector<double> sums(power.size() + 1, 0.0);
    for (std::size_t i = 0; i < power.size(); ++i) {
        sums[i + 1] = sums[i] + power[i];
    }
    const auto ahead = static_cast<std::size_t>(kRiseAhead / kStep);
    const auto behind =
        static_cast<std::size_t>(std::max(kLeastBehind, kPeriodsBehind * periodSeconds) / kStep);
    const double loudest = *std::max_element(power.begin(), power.end());
    std::size_t best = 0;
    double most = 0.0;
    for (std::size_t i = behind; i + ahead < power.size(); ++i) {
        const double rise = meanOf(sums, i, i + ahead) /
                            (meanOf(sums, i - behind, i) + kLeastRise * loudest + 1e-300);
        if (rise > most) {
            most = rise;
            best = i;
        }
    }
    const auto reach = std::max(behind, static_cast<std::size_t>(kBand / kStep));
    const auto highest = std::max_element(
        power.begin() + static_cast<std::ptrdiff_t>(best),
        power.begin() + static_cast<std::ptrdiff_t>(std::min(power.size(), best + reach)));
    const double heard =
        std::max(kBegins * *highest, kOverNoise * static_cast<double>(lines.size()));
    const auto loud = static_cast<std::size_t>(highest - power.begin());
    std::size_t first = loud - std::min(loud, reach + behind);
    while (first < loud && power[first] < heard) {
        ++first;
    }
    const std::size_t coarse = first * step + static_cast<std::size_t>(kWindowLate * rateHz);
    const auto margin = static_cast<std::size_t>(kFine * rateHz);
    return likeliestChange(whitened,
                           rateHz,
                           coarse > margin ? coarse - margin : 0,
                           coarse + margin,
                           quietestPower(whitened, rateHz, kQuietest));
}

} // namespace quillbench
