#include "app/models/breath_maker.hpp"

#include "app/text/beat_text.hpp"
#include "app/text/format.hpp"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

struct BreathText {
    Q_DECLARE_TR_FUNCTIONS(BreathText)
};

/// Figures stand at least so long.
constexpr Seconds kReadFor{0.4};

/// Loudness grows with this power of the sound pressure. **Source** Stevens' law for loudness, value from memory.
constexpr double kLoudness = 0.6;
/// The scale of the curve follows the loudest in steps, so that it stands still.
constexpr double kScaleStepDb = 3.0;
/// Seconds of the picture; what rings longer turns the page by half of it.
constexpr double kSpan = 5.0;
/// The attack is left out of the decay that the wanted line follows; the line is renewed once a second.
constexpr double kSteady = 0.1;
constexpr double kCent = std::numbers::ln2 / 1200.0;

struct Decay {
    double atZero = 0.0; ///< dB
    double slope = 0.0;  ///< dB a second
};

/// A straight line through the first whole seconds of a level, lifted to its crests.
Decay decayOf(const Breath& breath) {
    const double last =
        breath.firstTime.count() + breath.hop.count() * static_cast<double>(breath.level.size());
    const double until = last < 1.0 ? last : std::floor(last);
    double n = 0.0;
    double sumT = 0.0;
    double sumL = 0.0;
    double sumTT = 0.0;
    double sumTL = 0.0;
    const auto timeOf = [&](std::size_t i) {
        return breath.firstTime.count() + breath.hop.count() * static_cast<double>(i);
    };
    for (std::size_t i = 0; i < breath.level.size(); ++i) {
        const double t = timeOf(i);
        if (t < kSteady || t > until) {
            continue;
        }
        const auto level = static_cast<double>(breath.level[i]);
        n += 1.0;
        sumT += t;
        sumL += level;
        sumTT += t * t;
        sumTL += t * level;
    }
    Decay decay;
    const double spread = sumTT - sumT * sumT / std::max(n, 1.0);
    if (n < 8.0 || spread <= 0.0) {
        return decay;
    }
    decay.slope = std::min(0.0, (sumTL - sumT * sumL / n) / spread);
    double highest = -200.0;
    for (std::size_t i = 0; i < breath.level.size(); ++i) {
        const double t = timeOf(i);
        if (t >= kSteady && t <= until) {
            highest = std::max(highest, static_cast<double>(breath.level[i]) - decay.slope * t);
        }
    }
    decay.atZero = highest;
    return decay;
}

void drawCurve(const Breath& breath, BreathPicture& picture, double topDb) {
    for (std::size_t i = 0; i < breath.level.size(); ++i) {
        const double t = breath.firstTime.count() + breath.hop.count() * static_cast<double>(i);
        if (t < picture.from) {
            continue;
        }
        const double amplitude =
            std::pow(10.0, (static_cast<double>(breath.level[i]) - topDb) / 20.0);
        picture.curve.push_back({t, std::min(1.0, std::pow(amplitude, kLoudness))});
    }
    for (const float crest : breath.crests) {
        if (static_cast<double>(crest) >= picture.from) {
            picture.crests.push_back(static_cast<double>(crest));
        }
    }
}

/// What the curve would be if the pair beat as wanted, its crests beginning at the first one heard.
void drawWanted(const Breath& breath, BreathPicture& picture, double topDb, double rate) {
    const Decay decay = decayOf(breath);
    if (decay.atZero <= -200.0 || breath.level.size() < 8) {
        return;
    }
    const double anchor = breath.crests.empty() ? kSteady : static_cast<double>(breath.crests[0]);
    constexpr double kStep = 1.0 / 60.0;
    constexpr double kShallow = 0.35; // so much of the line swings: a fine sign, not a second sound
    const double first = std::max(picture.from, kSteady);
    const auto steps = static_cast<int>((picture.from + kSpan - first) / kStep);
    for (int i = 0; i <= steps; ++i) {
        const double t = first + i * kStep;
        const double amplitude = std::pow(10.0, (decay.atZero + decay.slope * t - topDb) / 20.0);
        const double swing =
            rate > 0.0
                ? 1.0 - kShallow *
                            (0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * rate * (t - anchor)))
                : 1.0;
        picture.wanted.push_back({t, std::min(1.0, std::pow(amplitude, kLoudness) * swing)});
    }
    if (rate > 0.0) {
        const auto last = static_cast<int>((picture.from + kSpan - anchor) * rate);
        const auto before =
            static_cast<int>(std::ceil(std::max(0.0, picture.from - anchor) * rate));
        for (int i = before; i <= last; ++i) {
            picture.wantedCrests.push_back(anchor + i / rate);
        }
    }
}

/// Where the plan sets the lower string by the upper one, that is the one to turn; else the upper.
PairTuned tunedOf(const TuningModel& model, const PairHeard& pair) {
    const TuningPlan& plan = *model.session().plan;
    const auto step = plan.stepOf(pair.lower);
    const bool lower =
        step && plan.steps[*step].pair && plan.steps[*step].pair->against == pair.upper;
    return lower ? PairTuned::Lower : PairTuned::Upper;
}

} // namespace

BeatRate targetBeat(const TuningModel& model, const PairHeard& pair) {
    const PartialPair partials = intervalOf(pair.interval).pair;
    const bool oneKey = pair.lower.course == pair.upper.course;
    if (oneKey || partials.ofUpper == 1) {
        return BeatRate(0.0);
    }
    return beatRate(partials, model.targetOf(pair.lower), model.targetOf(pair.upper));
}

bool BreathMaker::pairAtHand(const AnalysisSnapshot* snapshot) const {
    if (snapshot == nullptr || !snapshot->pair) {
        return false;
    }
    const PairHeard& pair = *snapshot->pair;
    if (pair.sounding || !snapshot->reading || snapshot->reading->pluck <= pair.pluck) {
        return true;
    }
    // A string of the pair alone becomes the reference, and the pair comes back; what is not recognised leads nowhere.
    return !snapshot->recognised || snapshot->recognised == pair.lower ||
           snapshot->recognised == pair.upper;
}

void BreathMaker::renewFigures(const TuningModel& model, const PairHeard& pair, BeatRate target) {
    const PairReading& reading = *pair.reading;
    const int position = model.position();
    const Instrument& instrument = model.instrument();
    figures_.note = pairText(instrument, pair.lower, pair.upper, position);
    figures_.choir = pairDetail(instrument, pair.interval, pair.lower, pair.upper);
    figures_.remark = wantedText(target);
    if (pair.breath.turning && pair.breath.live) {
        figures_.deviation = QLocale().toString(pair.breath.live->perSecond(), 'f', 1);
        figures_.words = BreathText::tr("%1 beats a second, the pin turns")
                             .arg(rateUncertainty(std::max(pair.breath.liveUncertainty, 0.05)));
        wire_.reset();
        return;
    }
    const bool still = reading.still;
    figures_.deviation =
        still ? BreathText::tr("still") : rateText(reading.beat, reading.uncertainty);
    figures_.words =
        still
            ? BreathText::tr("slower than %1 beats a second, %2")
                  .arg(
                      QLocale().toString(
                          std::ceil(100.0 * reading.stillLimit.perSecond() - 1e-9) / 100.0, 'f', 2),
                      rateUncertainty(reading.uncertainty))
            : BreathText::tr("%1 beats a second, %2")
                  .arg(rateUncertainty(reading.uncertainty), directionText(reading.direction));
    const PairTuned tuned = tunedOf(model, pair);
    sentence_ = pairSentence(instrument, reading, target, position, tuned);
    wire_.reset();
    if (reading.direction != BeatDirection::Unknown) {
        const double f =
            intervalOf(pair.interval).pair.ofLower * model.targetOf(pair.lower).value();
        const double wide = reading.beat.perSecond() - target.perSecond();
        const double off = tuned == PairTuned::Upper ? wide : -wide;
        wire_ = SoundingWire{Cents(std::round(20.0 * off / (f * kCent)) / 20.0),
                             Cents(std::round(20.0 * reading.uncertainty / (f * kCent)) / 20.0),
                             pair.sounding,
                             !reading.weak};
    }
}

BreathPicture BreathMaker::make(const TuningModel& model, const AnalysisSnapshot* snapshot) {
    BreathPicture picture;
    if (snapshot == nullptr || !snapshot->pair) {
        picture.hint = BreathText::tr(
            "Two strings together: play both keys, or one key with two registers on.");
        return picture;
    }
    const PairHeard& pair = *snapshot->pair;
    const BeatRate target = targetBeat(model, pair);
    if (pair.pluck != pluck_) {
        const QString name = pairText(model.instrument(), pair.lower, pair.upper, model.position());
        const bool another =
            name != figures_.note ||
            figures_.choir != pairDetail(model.instrument(), pair.interval, pair.lower, pair.upper);
        if (another) {
            figures_ = FiguresPicture();
            sentence_.clear();
            wire_.reset();
        }
        pluck_ = pair.pluck;
        said_ = false;
        final_ = false;
    }
    if (pair.reading) {
        // The last word is said at once.
        const bool last = !pair.sounding && !final_;
        if (!said_ || last || snapshot->upTo - changedAt_ > SampleRate().frames(kReadFor) ||
            snapshot->upTo < changedAt_) {
            const FiguresPicture before = figures_;
            renewFigures(model, pair, target);
            if (!(figures_ == before)) {
                changedAt_ = snapshot->upTo;
            }
            said_ = true;
            final_ = !pair.sounding;
        }
    } else if (!said_) {
        figures_.note = pairText(model.instrument(), pair.lower, pair.upper, model.position());
        figures_.choir = pairDetail(model.instrument(), pair.interval, pair.lower, pair.upper);
        figures_.remark = wantedText(target);
    }
    figures_.ringing = pair.sounding && said_;
    if (wire_) {
        wire_->ringing = figures_.ringing;
    }
    picture.sounding = pair.sounding;
    picture.span = kSpan;
    const Breath& breath = pair.breath;
    if (!breath.level.empty() && pair.followed < pair.pairs.size()) {
        const double last = breath.firstTime.count() +
                            breath.hop.count() * static_cast<double>(breath.level.size());
        picture.from =
            last <= kSpan ? 0.0 : std::ceil((last - kSpan) / (0.5 * kSpan)) * 0.5 * kSpan;
        float loudest = -200.0F;
        for (const float level : breath.level) {
            loudest = std::max(loudest, level);
        }
        const double topDb =
            std::ceil(static_cast<double>(loudest) / kScaleStepDb) * kScaleStepDb + 1.0;
        drawCurve(breath, picture, topDb);
        const EarPair& ear = pair.pairs[pair.followed];
        const double multiple =
            static_cast<double>(ear.lowerPartial) / intervalOf(pair.interval).pair.ofLower;
        drawWanted(breath, picture, topDb, std::abs(target.perSecond()) * multiple);
        picture.ear = BreathText::tr("heard at partials %1 and %2, %3")
                          .arg(ear.lowerPartial)
                          .arg(ear.upperPartial)
                          .arg(BreathText::tr("%1 Hz").arg(
                              QLocale().toString(ear.frequency.value(), 'f', 0)));
        if (multiple > 1.5 && std::abs(target.perSecond()) + std::abs(ear.beat.perSecond()) > 0.1) {
            picture.ear += BreathText::tr(", where they beat %1 times as fast")
                               .arg(static_cast<int>(std::lround(multiple)));
        }
    }
    picture.description =
        BreathText::tr("%1, %2: %3 %4; %5")
            .arg(
                figures_.note, figures_.choir, figures_.deviation, figures_.words, figures_.remark);
    return picture;
}

} // namespace quillbench
