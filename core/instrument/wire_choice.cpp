#include "core/instrument/wire_choice.hpp"

#include "core/instrument/limits.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr std::size_t kNeighbours = 4; // on either side
constexpr double kTensionMatters = 0.08;
constexpr double kStiffnessMatters = 0.5;
constexpr double kLeastMargin = 1.0; // semitones above the weakest wire's breaking
constexpr double kMarginMatters = 0.5;
constexpr double kOtherMaterial = 1.5; // as much as 12 % of tension
constexpr double kAnotherWire = 0.5;   // without a reason the old wire is kept
constexpr std::size_t kMostOptions = 10;
constexpr double kSameGauge = 1e-6;

/// Value at 0 of the straight line through points, nearer ones counting more.
double lineAt0(const std::vector<double>& x, const std::vector<double>& y) {
    double s0 = 0.0;
    double s1 = 0.0;
    double s2 = 0.0;
    double t0 = 0.0;
    double t1 = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double w = 1.0 / (1.0 + x[i] * x[i] / 4.0);
        s0 += w;
        s1 += w * x[i];
        s2 += w * x[i] * x[i];
        t0 += w * y[i];
        t1 += w * x[i] * y[i];
    }
    const double determinant = s0 * s2 - s1 * s1;
    return std::abs(determinant) > 1e-9 * s0 * s2 ? (s2 * t0 - s1 * t1) / determinant : t0 / s0;
}

/// Mean, nearer ones counting more: tension jumps with every gauge, so that a line runs astray at the ends.
double meanNear(const std::vector<double>& x, const std::vector<double>& y) {
    double weights = 0.0;
    double sum = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double w = 1.0 / (1.0 + x[i] * x[i] / 4.0);
        weights += w;
        sum += w * y[i];
    }
    return sum / weights;
}

NeighbourScaling scalingAt(const Instrument& instrument, StringId string, Hertz pitch) {
    const std::vector<StringMake>& makes = instrument.choirs[string.choir].strings;
    const Hertz nominal = nominalPitch(instrument, string);
    std::vector<double> x;
    std::vector<double> tensions;
    std::vector<double> stiffness;
    std::vector<double> lengths;
    const std::size_t from = string.course - std::min(string.course, kNeighbours);
    const std::size_t to = std::min(makes.size(), string.course + kNeighbours + 1);
    for (std::size_t course = from; course < to; ++course) {
        if (course == string.course) {
            continue;
        }
        // The neighbours stand at the same standard as the string asked for.
        const Hertz own =
            nominalPitch(instrument, {string.choir, course}) * (pitch.value() / nominal.value());
        const StringState state = stringState(makes[course], own);
        x.push_back(static_cast<double>(course) - static_cast<double>(string.course));
        tensions.push_back(std::log(state.tension.value()));
        stiffness.push_back(std::log(state.inharmonicity));
        lengths.push_back(std::log(makes[course].length.value()));
    }
    NeighbourScaling scaling;
    scaling.known = !x.empty();
    if (scaling.known) {
        scaling.tension = Newton(std::exp(meanNear(x, tensions)));
        scaling.inharmonicity = std::exp(lineAt0(x, stiffness));
        scaling.length = Millimetre(std::exp(lineAt0(x, lengths)));
    }
    return scaling;
}

bool besideOf(const std::vector<StringMake>& makes, std::size_t course, std::string_view material) {
    const bool below = course > 0 && makes[course - 1].material == material;
    const bool above = course + 1 < makes.size() && makes[course + 1].material == material;
    return below || above;
}

double squared(double value) {
    return value * value;
}

double misfitOf(const WireOption& option) {
    const double margin = std::max(0.0, kLeastMargin - option.state.margin.lowSemitones);
    return squared(std::log(option.tensionRatio) / kTensionMatters) +
           squared(std::log(option.stiffnessRatio) / kStiffnessMatters) +
           squared(margin / kMarginMatters) +
           (option.asNeighbours || option.asBefore ? 0.0 : squared(kOtherMaterial)) +
           (option.asBefore ? 0.0 : squared(kAnotherWire));
}

WireOption optionOf(const WireAdvice& advice, const StringMake& make, Hertz pitch) {
    WireOption option;
    option.make = make;
    option.state = stringState(make, pitch);
    const NeighbourScaling& beside = advice.neighbours;
    if (beside.known) {
        option.tensionRatio = option.state.tension / beside.tension;
        option.stiffnessRatio = option.state.inharmonicity / beside.inharmonicity;
        option.sustainRatio = make.length / beside.length / option.tensionRatio;
    }
    return option;
}

} // namespace

std::vector<Millimetre> wireGauges(const Instrument& instrument) {
    std::vector<Millimetre> gauges;
    const auto steps = [&gauges](double from, double to, double step) {
        const auto count = static_cast<int>(std::lround((to - from) / step));
        for (int i = 0; i < count; ++i) {
            gauges.emplace_back(from + step * i);
        }
    };
    steps(0.15, 0.40, 0.01);
    steps(0.40, 0.60, 0.02);
    steps(0.60, 1.01, 0.05);
    for (const Choir& choir : instrument.choirs) {
        for (const StringMake& make : choir.strings) {
            gauges.push_back(make.diameter);
        }
    }
    std::sort(gauges.begin(), gauges.end());
    const auto same = [](Millimetre a, Millimetre b) { return (b - a).value() < kSameGauge; };
    gauges.erase(std::unique(gauges.begin(), gauges.end(), same), gauges.end());
    return gauges;
}

WireAdvice
whichWire(const Instrument& instrument, StringId string, Millimetre length, Hertz pitch) {
    EXPECTS(string.choir < instrument.choirs.size());
    const std::vector<StringMake>& makes = instrument.choirs[string.choir].strings;
    EXPECTS(string.course < makes.size());
    EXPECTS(kLengthLimits.holds(length.value()) && pitch.value() > 0.0);
    WireAdvice advice;
    advice.old = makes[string.course];
    advice.oldState = stringState(advice.old, pitch);
    advice.neighbours = scalingAt(instrument, string, pitch);
    const std::vector<Millimetre> gauges = wireGauges(instrument);
    std::vector<WireOption> breaking;
    for (const Material& material : materials()) {
        std::vector<WireOption> own;
        own.reserve(gauges.size());
        for (const Millimetre gauge : gauges) {
            StringMake make = advice.old;
            make.length = length;
            make.diameter = gauge;
            make.material = std::string(material.id);
            WireOption option = optionOf(advice, make, pitch);
            option.asNeighbours = besideOf(makes, string.course, material.id);
            option.asBefore = make.material == advice.old.material &&
                              std::abs((gauge - advice.old.diameter).value()) < kSameGauge;
            option.misfit = misfitOf(option);
            own.push_back(option);
        }
        std::stable_sort(own.begin(), own.end(), [](const WireOption& a, const WireOption& b) {
            return a.misfit < b.misfit;
        });
        own.resize(std::min<std::size_t>(own.size(), 2));
        for (const WireOption& option : own) {
            const bool bears = option.state.margin.highSemitones > 0.0;
            (bears ? advice.options : breaking).push_back(option);
        }
    }
    if (advice.options.empty()) {
        advice.options = std::move(breaking);
    }
    std::stable_sort(advice.options.begin(),
                     advice.options.end(),
                     [](const WireOption& a, const WireOption& b) { return a.misfit < b.misfit; });
    advice.options.resize(std::min(advice.options.size(), kMostOptions));
    return advice;
}

} // namespace quillbench
