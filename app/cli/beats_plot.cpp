#include "app/cli/beats_plot.hpp"

#include "app/cli/svg_drawing.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <filesystem>

namespace quillbench::cli {

namespace {

constexpr double kBreathWidth = 1160.0;
constexpr double kBreathHeight = 560.0;
constexpr double kUpper = 96.0;
constexpr double kLower = 450.0;
constexpr double kBreathLeft = 74.0;
constexpr double kBreathRight = 740.0;
constexpr double kPairsLeft = 820.0;
constexpr double kPairsRight = 1130.0;
constexpr double kReachDb = 50.0; ///< under the loudest point
constexpr double kCrestDb = 1.0;  ///< a crest stands out of the troughs beside it by so much
constexpr double kDeepEnoughForEarDb = 12.0; ///< a swing deeper than this is followed no sooner
constexpr double kNoBeat = 0.02; ///< per second: slower has no second crest worth drawing

/// Crests: higher than both troughs beside them.
std::vector<double> crestsOf(const MeetingTrace& trace) {
    std::vector<double> crests;
    double trough = 1e9;
    std::optional<std::size_t> top;
    for (std::size_t i = 0; i < trace.points.size(); ++i) {
        const double level = trace.points[i].second;
        if (top && level < trace.points[*top].second - kCrestDb) {
            crests.push_back(trace.points[*top].first);
            top.reset();
            trough = level;
        } else if (top ? level > trace.points[*top].second : level > trough + kCrestDb) {
            top = i;
        }
        trough = std::min(trough, level);
    }
    return crests;
}

class Breath {
public:
    Breath(const BeatsQuestion& question, const BeatsLine& line)
        : question_(question),
          line_(line),
          interval_(*line.request->interval) {
        for (const MeetingTrace& trace : line.traces) {
            for (const auto& [time, level] : trace.points) {
                loudest_ = std::max(loudest_, level);
                last_ = std::max(last_, time);
            }
        }
        double best = -1e9;
        for (std::size_t i = 0; i < line.traces.size() && i < line.reading.coincident.size(); ++i) {
            double top = -1e9;
            for (const auto& point : line.traces[i].points) {
                top = std::max(top, point.second);
            }
            const double ear =
                top + std::min(line.reading.coincident[i].depthDb, kDeepEnoughForEarDb);
            if (ear > best) {
                best = ear;
                followed_ = i;
            }
        }
        double most = 0.5;
        for (const MeetingPartials& pair : line.reading.coincident) {
            most = std::max(most, atLowest(pair));
        }
        most = std::max(
            most, std::abs(line.reading.beat.perSecond()) + 2.0 * line.reading.beatUncertainty);
        most = std::max(most, std::abs(line.request->target.perSecond()));
        mostBeats_ = std::ceil(most * 1.1 * 2.0) / 2.0;
    }

    [[nodiscard]] std::string draw() const {
        return svgHead(kBreathWidth, kBreathHeight) + heading() + axes() + traces() + crests() +
               pairs() + explanation() + "</svg>\n";
    }

private:
    [[nodiscard]] double atLowest(const MeetingPartials& pair) const {
        return std::abs(pair.beat.perSecond()) * interval_.pair.ofLower / pair.lowerPartial;
    }

    [[nodiscard]] double xOf(double seconds) const {
        return kBreathLeft + (kBreathRight - kBreathLeft) * seconds / std::max(last_, 0.1);
    }

    [[nodiscard]] double yOf(double level) const {
        const double under = std::clamp((loudest_ - level) / kReachDb, 0.0, 1.0);
        return kUpper + (kLower - kUpper) * under;
    }

    [[nodiscard]] double yOfBeat(double perSecond) const {
        return kLower - (kLower - kUpper) * std::clamp(perSecond / mostBeats_, 0.0, 1.0);
    }

    [[nodiscard]] double xOfPair(std::size_t pair) const {
        const auto count = static_cast<double>(line_.reading.coincident.size());
        return kPairsLeft + (kPairsRight - kPairsLeft) * (static_cast<double>(pair) + 0.5) /
                                std::max(1.0, count);
    }

    [[nodiscard]] int highest() const {
        return static_cast<int>(std::max<std::size_t>(1, line_.traces.size()));
    }

    [[nodiscard]] std::string heading() const {
        const std::string title = std::filesystem::path(question_.file).filename().string() +
                                  " · " + std::string(interval_.name);
        std::string facts = beatsTable(question_, line_);
        facts = facts.substr(facts.rfind(": ") + 2);
        facts.pop_back();
        return svgText(kBreathLeft, 34.0, title, "start", kInk, 20.0, "bold") +
               svgText(kBreathLeft, 62.0, facts, "start", kReading, 16.0) +
               svgText(kBreathLeft,
                       86.0,
                       "Loudness of the partials that meet, dB under the loudest",
                       "start",
                       kFaint) +
               svgText(kPairsLeft, 86.0, "Beats a second, at the lowest pair", "start", kFaint);
    }

    [[nodiscard]] std::string axes() const {
        std::string svg;
        for (int under = 0; under <= static_cast<int>(kReachDb); under += 10) {
            const double y = yOf(loudest_ - under);
            svg += svgLine(kBreathLeft - 5.0, y, kBreathLeft, y, kInk, 1.0);
            svg += svgText(kBreathLeft - 10.0, y + 5.0, formatted("%d", under), "end");
        }
        svg += svgLine(kBreathLeft, kUpper, kBreathLeft, kLower, kInk, 1.0);
        svg += svgLine(kBreathLeft, kLower, kBreathRight, kLower, kInk, 1.0);
        for (int half = 0; half * 0.5 <= last_ + 1e-9; ++half) {
            const double x = xOf(half * 0.5);
            svg += svgLine(x, kLower, x, kLower + 5.0, kInk, 1.0);
            svg += svgText(x, kLower + 22.0, formatted("%.1f s", half * 0.5), "middle");
        }
        svg += svgLine(kPairsLeft, kUpper, kPairsLeft, kLower, kInk, 1.0);
        svg += svgLine(kPairsLeft, kLower, kPairsRight, kLower, kInk, 1.0);
        for (int tick = 0; tick <= 4; ++tick) {
            const double beats = mostBeats_ * tick / 4.0;
            svg += svgLine(kPairsLeft - 5.0, yOfBeat(beats), kPairsLeft, yOfBeat(beats), kInk, 1.0);
            svg +=
                svgText(kPairsLeft - 10.0, yOfBeat(beats) + 5.0, formatted("%.2f", beats), "end");
        }
        return svg;
    }

    [[nodiscard]] std::string traces() const {
        std::string svg = "<g fill='none'>\n";
        for (std::size_t i = 0; i < line_.traces.size(); ++i) {
            svg += "<polyline points='";
            for (const auto& [time, level] : line_.traces[i].points) {
                svg += formatted("%.1f,%.1f ", xOf(time), yOf(level));
            }
            svg += formatted("' stroke='%s' stroke-width='%.1f' stroke-opacity='%.1f'/>\n",
                             colourOf(static_cast<int>(i) + 1, highest()).c_str(),
                             i == followed_ ? 3.0 : 1.2,
                             i == followed_ ? 1.0 : 0.6);
        }
        return svg + "</g>\n";
    }

    /// Heard above, wanted below as a fine line.
    [[nodiscard]] std::string crests() const {
        if (followed_ >= line_.traces.size()) {
            return {};
        }
        const MeetingTrace& followed = line_.traces[followed_];
        std::string svg;
        const std::vector<double> heard = crestsOf(followed);
        for (const double at : heard) {
            svg += svgLine(xOf(at), kUpper - 6.0, xOf(at), kUpper + 6.0, kInk, 3.0);
        }
        const double wanted = std::abs(line_.request->target.perSecond()) * followed.lowerPartial /
                              interval_.pair.ofLower;
        if (wanted > kNoBeat) {
            const double first = heard.empty() ? 0.0 : heard.front();
            const int count = static_cast<int>((last_ - first) * wanted);
            for (int crest = 0; crest <= count; ++crest) {
                const double x = xOf(first + crest / wanted);
                svg += svgLine(x, kUpper, x, kLower, kReading, 0.7);
            }
        }
        return svg;
    }

    [[nodiscard]] std::string pairs() const {
        const BeatReading& reading = line_.reading;
        const double beat = std::abs(reading.beat.perSecond());
        const double u = 2.0 * reading.beatUncertainty;
        std::string svg =
            formatted("<rect x='%.1f' y='%.1f' width='%.1f' height='%.1f' fill='#d6efe4'/>\n",
                      kPairsLeft,
                      yOfBeat(beat + u),
                      kPairsRight - kPairsLeft,
                      yOfBeat(std::max(0.0, beat - u)) - yOfBeat(beat + u));
        svg += svgLine(kPairsLeft, yOfBeat(beat), kPairsRight, yOfBeat(beat), kReading, 1.5);
        for (std::size_t i = 0; i < reading.coincident.size(); ++i) {
            const MeetingPartials& pair = reading.coincident[i];
            svg += formatted(
                "<circle cx='%.1f' cy='%.1f' r='%.1f' fill='%s'/>\n",
                xOfPair(i),
                yOfBeat(atLowest(pair)),
                i == followed_ ? 6.0 : 4.0,
                colourOf(std::min(static_cast<int>(i) + 1, highest()), highest()).c_str());
            svg += svgText(xOfPair(i),
                           kLower + 22.0,
                           formatted("%d:%d", pair.lowerPartial, pair.upperPartial),
                           "middle",
                           kInk,
                           reading.coincident.size() > 5 ? 11.0 : 14.0);
        }
        return svg;
    }

    [[nodiscard]] std::string explanation() const {
        return svgText(
                   kBreathLeft,
                   kLower + 54.0,
                   "Blue to red: the lowest pair of partials to the highest; thick: the one the "
                   "ear follows. Black marks: its crests.") +
               svgText(kBreathLeft,
                       kLower + 78.0,
                       "Green: fine lines where the wanted beat would have its crests; band: the "
                       "reading ± 2 u; dashed: what is wanted.");
    }

    const BeatsQuestion& question_;
    const BeatsLine& line_;
    const Interval& interval_;
    double loudest_ = -200.0;
    double last_ = 0.5;
    double mostBeats_ = 1.0;
    std::size_t followed_ = 0;
};

} // namespace

std::string beatsPlot(const BeatsQuestion& question, const BeatsLine& line) {
    return Breath(question, line).draw();
}

} // namespace quillbench::cli
