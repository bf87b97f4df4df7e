#include "app/cli/measure_plot.hpp"

#include "app/cli/svg_drawing.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <numbers>
#include <vector>

namespace quillbench::cli {

namespace {

constexpr double kWidth = 1160.0;
constexpr double kHeight = 640.0;
constexpr double kTop = 96.0;
constexpr double kBottom = 500.0;
constexpr double kTimeLeft = 74.0;
constexpr double kTimeRight = 740.0;
constexpr double kPartialLeft = 800.0;
constexpr double kPartialRight = 1130.0;
constexpr double kLastSecond = 2.5;
constexpr double kSpread = 2.0; // cents drawn beyond the quartiles' reach
constexpr double kMostCents = 20.0;
constexpr double kUnsure = 1.5; // cents: single instants less sure are not drawn

struct Instant {
    double t = 0;
    double cents = 0;
};

/// Frequency from instant to instant against the comb of the reading.
std::vector<Instant> instantsOf(const PhaseTrack& track, const StiffComb& comb) {
    std::vector<Instant> instants;
    const double hz = comb.partial(track.n);
    const double centHz = hz * std::numbers::ln2 / 1200.0;
    const auto& points = track.points;
    for (std::size_t i = 1; i + 1 < points.size(); ++i) {
        const double turn = 2.0 * std::numbers::pi * (points[i + 1].t - points[i - 1].t);
        const double offset = (points[i + 1].phase - points[i - 1].phase) / turn;
        const double sd = std::sqrt(points[i + 1].variance + points[i - 1].variance) / turn;
        if (sd < kUnsure * centHz) {
            instants.push_back({points[i].t, (track.referenceHz + offset - hz) / centHz});
        }
    }
    return instants;
}

/// What the picture shows, on one scale of cents.
class Picture {
public:
    Picture(const MeasureContext& context,
            const StringReading& reading,
            const ListeningTrace& trace)
        : context_(context),
          reading_(reading),
          trace_(trace) {
        for (const PartialReading& partial : reading.partials) {
            highest_ = std::max(highest_, partial.number);
        }
        std::vector<double> all{2.0 * reading.deviationUncertainty.value(), 1.0};
        for (const PhaseTrack& track : trace.tracks) {
            instants_.push_back(instantsOf(track, trace.comb));
            if (isUsed(track.n)) {
                for (const Instant& instant : instants_.back()) {
                    all.push_back(std::abs(instant.cents));
                }
            }
        }
        std::sort(all.begin(), all.end());
        const double most =
            all[static_cast<std::size_t>(0.95 * static_cast<double>(all.size() - 1))];
        reach_ = std::ceil(std::min(most + kSpread, kMostCents));
    }

    [[nodiscard]] std::string draw() const {
        const std::string svg = svgHead(kWidth, kHeight);
        return svg + heading() + uncertainty() + axes() + tracks() + glide() + partials() +
               explanation() + "</svg>\n";
    }

private:
    [[nodiscard]] double yOf(double cents) const {
        const double inside = std::clamp(cents, -reach_, reach_);
        return kTop + (kBottom - kTop) * (0.5 - 0.5 * inside / reach_);
    }

    [[nodiscard]] static double xOf(double seconds) {
        return kTimeLeft + (kTimeRight - kTimeLeft) * seconds / kLastSecond;
    }

    [[nodiscard]] double xOfPartial(double n) const {
        return kPartialLeft + (kPartialRight - kPartialLeft) * n / (highest_ + 1);
    }

    [[nodiscard]] bool isUsed(int n) const {
        return std::any_of(
            reading_.partials.begin(), reading_.partials.end(), [n](const PartialReading& partial) {
                return partial.number == n && partial.used;
            });
    }

    [[nodiscard]] std::string heading() const {
        const std::filesystem::path file(context_.question->file);
        std::string title = file.filename().string();
        if (context_.request.note) {
            title += " · " + toAscii(*context_.request.note) + " " + context_.question->choir + "′";
        }
        std::string facts = formatted(
            "%.3f ± %.3f Hz · %+.2f ± %.2f cents from %.3f Hz · after %.2f s · started %.1f ± "
            "%.1f cents sharper",
            reading_.pitch.value(),
            reading_.pitchUncertainty,
            reading_.deviation.value(),
            reading_.deviationUncertainty.value(),
            reading_.target.value(),
            reading_.used.count(),
            reading_.startSharpness.value(),
            reading_.startSharpnessUncertainty.value());
        facts += reading_.standing == Standing::Weak ? " · weak" : "";
        return svgText(kTimeLeft, 34.0, title, "start", kInk, 20.0, "bold") +
               svgText(kTimeLeft, 62.0, facts, "start", kReading, 16.0) +
               svgText(kTimeLeft,
                       86.0,
                       "Each partial in time, cents from the stiff comb of the reading",
                       "start",
                       kFaint) +
               svgText(kPartialLeft, 86.0, "Mean of each partial, by number", "start", kFaint);
    }

    /// The reading with twice its uncertainty.
    [[nodiscard]] std::string uncertainty() const {
        const double u = 2.0 * reading_.deviationUncertainty.value();
        std::string svg;
        for (const auto& [left, right] :
             {std::pair{kTimeLeft, kTimeRight}, std::pair{kPartialLeft, kPartialRight}}) {
            svg +=
                formatted("<rect x='%.1f' y='%.1f' width='%.1f' height='%.1f' fill='#d6efe4'/>\n",
                          left,
                          yOf(u),
                          right - left,
                          yOf(-u) - yOf(u));
            svg += svgLine(left, yOf(0.0), right, yOf(0.0), kReading, 1.5);
        }
        return svg;
    }

    [[nodiscard]] std::string axes() const {
        std::string svg;
        const double step = reach_ <= 4.0 ? 1.0 : reach_ <= 10.0 ? 2.0 : 5.0;
        const int ticks = static_cast<int>(reach_ / step);
        for (int tick = -ticks; tick <= ticks; ++tick) {
            const double cents = tick * step;
            svg += svgLine(kTimeLeft - 5.0, yOf(cents), kTimeLeft, yOf(cents), kInk, 1.0);
            svg += svgText(kTimeLeft - 10.0,
                           yOf(cents) + 5.0,
                           std::abs(cents) < 0.5 ? "0" : formatted("%+.0f", cents),
                           "end");
        }
        svg += svgLine(kTimeLeft, kTop, kTimeLeft, kBottom, kInk, 1.0);
        svg += svgLine(kTimeLeft, kBottom, kTimeRight, kBottom, kInk, 1.0);
        for (int half = 0; half <= 5; ++half) {
            const double seconds = 0.5 * half;
            svg += svgLine(xOf(seconds), kBottom, xOf(seconds), kBottom + 5.0, kInk, 1.0);
            svg += svgText(xOf(seconds), kBottom + 22.0, formatted("%.1f s", seconds), "middle");
        }
        svg += svgLine(kPartialLeft, kTop, kPartialLeft, kBottom, kInk, 1.0);
        svg += svgLine(kPartialLeft, kBottom, kPartialRight, kBottom, kInk, 1.0);
        const int every = highest_ > 20 ? 5 : highest_ > 10 ? 2 : 1;
        for (int n = 1; n <= highest_; ++n) {
            if (n == 1 || n % every == 0) {
                svg += svgText(xOfPartial(n), kBottom + 22.0, formatted("%d", n), "middle");
            }
        }
        return svg;
    }

    [[nodiscard]] std::string tracks() const {
        std::string svg = "<g fill='none'>\n";
        for (std::size_t i = 0; i < instants_.size(); ++i) {
            const int n = trace_.tracks[i].n;
            const bool used = isUsed(n);
            svg += "<polyline points='";
            for (const Instant& instant : instants_[i]) {
                svg += formatted("%.1f,%.1f ", xOf(instant.t), yOf(instant.cents));
            }
            svg += formatted("' stroke='%s' stroke-width='%.1f' stroke-opacity='%.1f'%s/>\n",
                             used ? colourOf(n, highest_).c_str() : kFaint,
                             n <= 3 ? 2.0 : 1.2,
                             used ? 0.8 : 0.6,
                             used ? "" : " stroke-dasharray='3 3'");
        }
        return svg + "</g>\n";
    }

    /// The pitch as the model has it: dotted where it is foretold.
    [[nodiscard]] std::string glide() const {
        std::string svg;
        double last = 0.0;
        for (const PhaseTrack& track : trace_.tracks) {
            last = std::max(last, track.points[track.points.size() - 1].t);
        }
        for (const bool foretold : {false, true}) {
            svg += "<polyline fill='none' points='";
            for (std::size_t k = 0; k < trace_.glide.size(); ++k) {
                const double t = static_cast<double>(k) * ListeningTrace::kGlideStep;
                if (foretold ? t >= last : t <= last) {
                    svg += formatted("%.1f,%.1f ", xOf(t), yOf(trace_.glide[k]));
                }
            }
            svg += formatted("' stroke='%s' stroke-width='3'%s/>\n",
                             kInk,
                             foretold ? " stroke-dasharray='2 6'" : "");
        }
        return svg;
    }

    [[nodiscard]] std::string partials() const {
        std::string svg;
        for (const PartialReading& partial : reading_.partials) {
            const double hz = trace_.comb.partial(partial.number);
            const double centHz = hz * std::numbers::ln2 / 1200.0;
            const double off = (partial.frequency.value() - hz) / centHz;
            const double u = partial.frequencyUncertainty / centHz;
            const double x = xOfPartial(partial.number);
            const std::string colour = partial.used ? colourOf(partial.number, highest_) : kFaint;
            svg += svgLine(x, yOf(off - u), x, yOf(off + u), colour.c_str(), 1.5);
            svg += formatted(
                "<circle cx='%.1f' cy='%.1f' r='4' fill='%s' stroke='%s' stroke-width='1.5'/>\n",
                x,
                yOf(off),
                partial.used ? colour.c_str() : "white",
                colour.c_str());
        }
        return svg;
    }

    /// What was left out and why, and what else is to be said.
    [[nodiscard]] std::string explanation() const {
        std::string out;
        for (const PartialReading& partial : reading_.partials) {
            if (!partial.used) {
                out += (out.empty() ? "" : ", ") + std::to_string(partial.number) +
                       formatted(" (%+.1f)", centsOffComb(reading_, partial));
            }
        }
        std::string silent;
        for (int n = 1; n <= highest_; ++n) {
            const bool heard =
                std::any_of(reading_.partials.begin(),
                            reading_.partials.end(),
                            [n](const PartialReading& partial) { return partial.number == n; });
            if (!heard) {
                silent += (silent.empty() ? "" : ", ") + std::to_string(n);
            }
        }
        const char* why = context_.request.alsoRatio > 1.5
                              ? "Not used (the other string's, or under the noise): "
                              : "Not used (under the noise): ";
        std::string svg =
            svgText(kTimeLeft,
                    kBottom + 54.0,
                    "Black: the pitch as it sinks with the energy of the string, dotted where "
                    "foretold. Green: the reading ± 2 u. Blue to red: partial 1 to the highest.");
        svg += svgText(kTimeLeft,
                       kBottom + 78.0,
                       "Left out, too far off the comb (by so many cents; dashed, hollow): " +
                           (out.empty() ? std::string("none") : out));
        svg += svgText(
            kTimeLeft, kBottom + 102.0, why + (silent.empty() ? std::string("none") : silent));
        const std::string warnings = warningsText(reading_);
        return svg + (warnings.empty()
                          ? ""
                          : svgText(kTimeLeft, kBottom + 126.0, "Heard besides: " + warnings));
    }

    const MeasureContext& context_;
    const StringReading& reading_;
    const ListeningTrace& trace_;
    std::vector<std::vector<Instant>> instants_;
    int highest_ = 1;
    double reach_ = 3.0;
};

} // namespace

std::string measurePlot(const MeasureContext& context,
                        const StringReading& reading,
                        const ListeningTrace& trace) {
    return Picture(context, reading, trace).draw();
}

} // namespace quillbench::cli
