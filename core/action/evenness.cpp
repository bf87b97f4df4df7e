#include "core/action/evenness.hpp"

#include "core/action/smooth_curve.hpp"
#include "core/support/median.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace quillbench {

namespace {

constexpr std::size_t kFewestKeys = 10;
constexpr double kScattersOff = 3.1; // 0.2 % of normal keys lie farther
constexpr double kFewKeys = 3.0;     // over the number of keys: the scatter of few is itself unsure
constexpr double kSureEnough = 0.95;
constexpr double kUsualRepeatDb = 0.7;  // where no key was played twice; common practice, no source
constexpr double kUnequalOctaves = 0.5; // of the partials' centre
constexpr double kUnequalAttackDb = 6.0;
constexpr double kUnequalSustainDb = 2.5; // 10·log10: little more than half as long
constexpr double kPlectrumShare = 0.5;    // of the level's difference, seen in the displacement
constexpr double kPlaceShare = 0.3;

double limitOf(VoiceQuality quality) {
    switch (quality) {
    case VoiceQuality::Brightness:
        return kUnequalOctaves;
    case VoiceQuality::Attack:
        return kUnequalAttackDb;
    case VoiceQuality::Sustain:
        return kUnequalSustainDb;
    case VoiceQuality::Strength:
    case VoiceQuality::Level:
    case VoiceQuality::PlainLevel:
    case VoiceQuality::Displacement:
        break;
    }
    return kUnequalDb;
}

std::optional<double> valueOf(const PluckVoice& voice, VoiceQuality quality) {
    switch (quality) {
    case VoiceQuality::Level:
        return voice.levelA;
    case VoiceQuality::PlainLevel:
        return voice.level;
    case VoiceQuality::Brightness:
        return voice.brightness;
    case VoiceQuality::Attack:
        return voice.attack;
    case VoiceQuality::Sustain:
        return 10.0 * std::log10(std::max(voice.sustain.count(), 1e-3));
    case VoiceQuality::Displacement:
        return voice.displacement;
    case VoiceQuality::Strength:
        break; // strengthsOf
    }
    return std::nullopt;
}

using KeyValues = std::map<std::size_t, std::vector<double>>;

/// Each pluck's partials against the curve of that partial over the compass: a plectrum makes all of them stronger,
/// while board and room lift some and not others.
KeyValues strengthsOf(std::span<const VoicedPluck> plucks) {
    std::vector<std::vector<double>> away(plucks.size());
    for (std::size_t n = 0; n < PluckVoice::kPartials; ++n) {
        KeyValues levels;
        for (const VoicedPluck& pluck : plucks) {
            if (pluck.voice.partials[n] > PluckVoice::kUnheard) {
                levels[pluck.key].push_back(pluck.voice.partials[n]);
            }
        }
        if (levels.size() < kFewestKeys) {
            continue;
        }
        std::vector<double> x;
        std::vector<double> y;
        for (auto& [key, one] : levels) {
            x.push_back(static_cast<double>(key));
            y.push_back(medianOf(one));
        }
        const SmoothCurve curve = smoothCurve(x, y);
        std::map<std::size_t, double> usual;
        for (std::size_t i = 0; i < x.size(); ++i) {
            usual[static_cast<std::size_t>(x[i])] = curve.fitted[i];
        }
        for (std::size_t i = 0; i < plucks.size(); ++i) {
            if (plucks[i].voice.partials[n] > PluckVoice::kUnheard) {
                away[i].push_back(plucks[i].voice.partials[n] - usual[plucks[i].key]);
            }
        }
    }
    KeyValues strengths;
    for (std::size_t i = 0; i < plucks.size(); ++i) {
        if (!away[i].empty()) {
            strengths[plucks[i].key].push_back(middleMeanOf(away[i]));
        }
    }
    return strengths;
}

/// One standard deviation of a single pluck about its key, pooled robustly over the register.
double repeatOf(const KeyValues& values, double limit) {
    std::vector<double> squares;
    for (const auto& [key, plucks] : values) {
        if (plucks.size() < 2) {
            continue;
        }
        double mean = 0.0;
        for (const double one : plucks) {
            mean += one / static_cast<double>(plucks.size());
        }
        double sum = 0.0;
        for (const double one : plucks) {
            sum += (one - mean) * (one - mean);
        }
        squares.push_back(sum / static_cast<double>(plucks.size() - 1));
    }
    const double usual = kUsualRepeatDb * limit / kUnequalDb;
    if (squares.size() < 3) {
        return usual;
    }
    // Half of the mean above its median is not thrown away, so that careless playing still counts.
    double mean = 0.0;
    for (const double one : squares) {
        mean += one / static_cast<double>(squares.size());
    }
    const double median = medianOf(squares);
    return std::sqrt(std::max(0.5 * (mean + median), 1e-4));
}

VoiceCurve curveOf(std::span<const VoicedPluck> plucks, VoiceQuality quality) {
    KeyValues values;
    if (quality == VoiceQuality::Strength) {
        values = strengthsOf(plucks);
    }
    for (const VoicedPluck& pluck : plucks) {
        if (const auto value = valueOf(pluck.voice, quality)) {
            values[pluck.key].push_back(*value);
        }
    }
    VoiceCurve curve;
    if (values.size() < kFewestKeys) {
        return curve;
    }
    curve.repeat = repeatOf(values, limitOf(quality));
    std::vector<double> x;
    std::vector<double> y;
    for (auto& [key, one] : values) {
        x.push_back(static_cast<double>(key));
        y.push_back(medianOf(one));
    }
    const SmoothCurve smooth = smoothCurve(x, y);
    curve.scatter = smooth.scale;
    std::size_t i = 0;
    for (const auto& [key, one] : values) {
        VoicePoint point;
        point.key = key;
        point.count = static_cast<int>(one.size());
        point.value = y[i];
        point.curve = smooth.fitted[i];
        point.away = point.value - point.curve;
        point.uncertainty = std::hypot(curve.repeat / std::sqrt(static_cast<double>(one.size())),
                                       smooth.scale / std::sqrt(smooth.degreesOfFreedom));
        curve.points.push_back(point);
        ++i;
    }
    return curve;
}

/// That the key truly lies farther off than half the limit; more than the limit is asked of the number itself.
double confidenceOf(const VoicePoint& point, double limit) {
    return normalBelow((std::abs(point.away) - 0.5 * limit) / std::max(point.uncertainty, 1e-6));
}

bool standsOut(const VoiceCurve& curve, const VoicePoint& point, double limit) {
    const double off = kScattersOff * (1.0 + kFewKeys / static_cast<double>(curve.points.size()));
    return std::abs(point.away) >= std::max(limit, off * curve.scatter) &&
           confidenceOf(point, limit) >= kSureEnough;
}

std::optional<VoiceFault> faultOf(VoiceQuality quality, double away) {
    switch (quality) {
    case VoiceQuality::Strength:
        return away < 0.0 ? VoiceFault::Weak : VoiceFault::Loud;
    case VoiceQuality::Brightness:
        return away < 0.0 ? VoiceFault::Dull : VoiceFault::Bright;
    case VoiceQuality::Attack:
        return away > 0.0 ? std::optional(VoiceFault::NoisyAttack) : std::nullopt;
    case VoiceQuality::Sustain:
        return away < 0.0 ? std::optional(VoiceFault::ShortSustain) : std::nullopt;
    case VoiceQuality::Level:
    case VoiceQuality::PlainLevel:
    case VoiceQuality::Displacement:
        break;
    }
    return std::nullopt;
}

const VoicePoint* pointOf(const VoiceCurve& curve, std::size_t key) {
    const auto found = std::find_if(curve.points.begin(),
                                    curve.points.end(),
                                    [key](const VoicePoint& point) { return point.key == key; });
    return found == curve.points.end() ? nullptr : &*found;
}

VoiceCause causeOf(const VoiceCurve& displacement, const VoicePoint& level) {
    const VoicePoint* moved = pointOf(displacement, level.key);
    if (moved == nullptr || moved->count < 2) {
        return VoiceCause::Unknown;
    }
    const double share = moved->away / level.away;
    const double unsure =
        std::hypot(moved->uncertainty, 0.5 * displacement.scatter) / std::abs(level.away);
    if (share - unsure > kPlaceShare && share > kPlectrumShare) {
        return VoiceCause::Plectrum;
    }
    return share + unsure < kPlectrumShare && share < kPlaceShare ? VoiceCause::Place
                                                                  : VoiceCause::Unknown;
}

/// What the plucks of one place of the microphone say of a finding.
void checkElsewhere(VoiceFinding& finding,
                    VoiceQuality quality,
                    const std::vector<VoicedPluck>& first,
                    const std::vector<VoicedPluck>& second) {
    const VoiceCurve here = curveOf(first, quality);
    const VoiceCurve there = curveOf(second, quality);
    const VoicePoint* a = pointOf(here, finding.key);
    const VoicePoint* b = pointOf(there, finding.key);
    if (a == nullptr || b == nullptr) {
        return;
    }
    const double half = 0.5 * limitOf(quality);
    const bool both = a->away * finding.amount > 0.0 && b->away * finding.amount > 0.0;
    finding.heardTwice = both && std::abs(a->away) > half && std::abs(b->away) > half;
    finding.contradicted = !finding.heardTwice;
}

} // namespace

EvennessReport compareKeys(std::span<const VoicedPluck> plucks) {
    EvennessReport report;
    std::array<std::vector<VoicedPluck>, 2> places;
    std::map<std::size_t, int> heard;
    for (const VoicedPluck& pluck : plucks) {
        places[pluck.place == 0 ? 0 : 1].push_back(pluck);
        ++heard[pluck.key];
    }
    report.keys = heard.size();
    report.enough = report.keys >= kFewestKeys;
    for (std::size_t q = 0; q < kVoiceQualities; ++q) {
        report.curves[q] = curveOf(plucks, static_cast<VoiceQuality>(q));
    }
    const VoiceCurve& displacement = report.curve(VoiceQuality::Displacement);
    for (std::size_t q = 0; q < kVoiceQualities; ++q) {
        const auto quality = static_cast<VoiceQuality>(q);
        const double limit = limitOf(quality);
        for (const VoicePoint& point : report.curves[q].points) {
            const auto fault = faultOf(quality, point.away);
            if (!fault || point.count < 2 || !standsOut(report.curves[q], point, limit)) {
                continue;
            }
            VoiceFinding finding;
            finding.key = point.key;
            finding.fault = *fault;
            finding.amount = point.away;
            finding.confidence = confidenceOf(point, limit);
            if (quality == VoiceQuality::Strength) {
                finding.cause = causeOf(displacement, point);
            }
            checkElsewhere(finding, quality, places[0], places[1]);
            report.findings.push_back(finding);
        }
    }
    const auto weight = [](const VoiceFinding& finding) {
        const bool level = finding.fault == VoiceFault::Weak || finding.fault == VoiceFault::Loud;
        return (level ? 2.0 : 1.0) * finding.confidence * std::abs(finding.amount);
    };
    std::stable_sort(
        report.findings.begin(),
        report.findings.end(),
        [&](const VoiceFinding& a, const VoiceFinding& b) { return weight(a) > weight(b); });
    return report;
}

} // namespace quillbench
