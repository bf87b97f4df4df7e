#include "core/dsp/stagger/stagger_listener.hpp"

#include "core/dsp/stagger/band_split.hpp"
#include "core/dsp/stagger/beginnings.hpp"
#include "core/dsp/stagger/choir_guess.hpp"
#include "core/dsp/stagger/pluck_enumeration.hpp"
#include "core/dsp/stagger/pluck_likelihood.hpp"
#include "core/dsp/stagger/resample.hpp"
#include "core/dsp/stagger/ring_whitener.hpp"
#include "core/dsp/stagger/solo_pluck.hpp"
#include "core/dsp/stagger/solo_template.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace quillbench {

namespace {

constexpr double kRate = 16000.0;
constexpr double kRingAfter = 0.15; // s after the loudest moment
constexpr double kRingFor = 0.6;
constexpr double kPeriods = 1.2;      // of the key, that the whitening filter sees
constexpr double kGuessPeriods = 2.2; // the same where no solo is known
constexpr double kReach = 0.45;       // plucks lie within this of the loudest beginning
constexpr double kSilence = 1e-14;
constexpr double kNoiseAboveFloor = 0.05; // s of quiet that tell the noise
constexpr std::array<double, 3> kEdges{1200.0, 3000.0, 7000.0};
constexpr std::size_t kKept = 60;   // hypotheses of each choice of choirs
constexpr std::size_t kRefined = 8; // of all, whose instants are moved
constexpr double kSame = 0.003;     // s: two hypotheses speak of the same pluck
constexpr double kTemper = 0.35;    // of the scores, for honest confidences
constexpr double kSureEnough = 0.75;
// Without solos.
constexpr double kLeastRiseDb = 7.0;
constexpr double kWeakest = 0.003; // of the strongest beginning's power
constexpr double kGuessedU = 0.0012;
constexpr double kHeardU = 0.0005;

double meanSquare(std::span<const double> sound) {
    double sum = 0.0;
    for (const double x : sound) {
        sum += x * x;
    }
    return sound.empty() ? 0.0 : sum / static_cast<double>(sound.size());
}

/// Where the sound is loudest, over 10 ms.
std::size_t loudestPlace(std::span<const double> sound) {
    const auto step = static_cast<std::size_t>(0.01 * kRate);
    std::size_t best = 0;
    double most = -1.0;
    for (std::size_t i = 0; i + step <= sound.size(); i += step) {
        const double power = meanSquare(sound.subspan(i, step));
        if (power > most) {
            most = power;
            best = i;
        }
    }
    return best;
}

std::span<const double> ringOf(std::span<const double> sound) {
    const std::size_t from =
        std::min(sound.size(), loudestPlace(sound) + static_cast<std::size_t>(kRingAfter * kRate));
    const auto count = static_cast<std::size_t>(kRingFor * kRate);
    return sound.subspan(from, std::min(count, sound.size() - from));
}

Decibel levelAfter(std::span<const double> sound, std::size_t pluck) {
    const std::size_t from = std::min(pluck, sound.size());
    const auto count = static_cast<std::size_t>(0.25 * kRate);
    return Decibel::fromPower(
        meanSquare(sound.subspan(from, std::min(count, sound.size() - from))));
}

std::size_t filterOrder(Hertz key, double periods) {
    return static_cast<std::size_t>(std::clamp(periods * kRate / key.value(), 64.0, 600.0));
}

/// Samples among which the plucks lie.
struct Zone {
    std::size_t from = 0;
    std::size_t to = 0;
    double floor = 0.0; ///< power of the whitened noise
    std::vector<Beginning> beginnings;
};

Zone zoneOf(const std::vector<double>& whitened, Hertz key, double leastRiseDb) {
    Zone zone;
    zone.floor = quietestPower(whitened, kRate, kNoiseAboveFloor);
    const std::size_t strong = firstStrongBeginning(whitened, kRate, 1.0 / key.value(), zone.floor);
    const auto reach = static_cast<std::size_t>(kReach * kRate);
    zone.from = strong > reach ? strong - reach : 0;
    zone.to = std::min(whitened.size(), strong + reach);
    zone.beginnings = findBeginnings(whitened, kRate, zone.from, zone.to, zone.floor, leastRiseDb);
    return zone;
}

bool better(const PluckHypothesis& a, const PluckHypothesis& b) {
    return a.score > b.score;
}

/// Moves the instants by ever smaller steps while that helps.
void refine(PluckHypothesis& hypothesis, const PluckLikelihood& likelihood) {
    for (const std::ptrdiff_t step : {8, 4, 2, 1}) {
        for (bool moved = true; moved;) {
            moved = false;
            for (std::size_t i = 0; i < hypothesis.plucks.size(); ++i) {
                for (const std::ptrdiff_t by : {-step, step}) {
                    PluckHypothesis trial = hypothesis;
                    const auto at = static_cast<std::ptrdiff_t>(trial.plucks[i].at) + by;
                    trial.plucks[i].at = static_cast<std::size_t>(std::max<std::ptrdiff_t>(at, 0));
                    likelihood.judge(trial);
                    if (trial.score > hypothesis.score + 1e-9) {
                        hypothesis = trial;
                        moved = true;
                    }
                }
            }
        }
    }
}

/// Whether the hypothesis has this choir's pluck there.
bool agrees(const PluckHypothesis& hypothesis, const SupposedPluck& pluck) {
    return std::any_of(
        hypothesis.plucks.begin(), hypothesis.plucks.end(), [&](const SupposedPluck& other) {
            const double apart =
                std::abs(static_cast<double>(other.at) - static_cast<double>(pluck.at));
            return other.choir == pluck.choir && apart <= kSame * kRate;
        });
}

/// The best of the hypotheses, and how sure its parts are.
StaggerReading readingFrom(const std::vector<PluckHypothesis>& all,
                           const std::vector<Decibel>& soloLevels) {
    StaggerReading reading;
    const PluckHypothesis& best = all.front();
    std::vector<SupposedPluck> plucks(best.plucks.begin(), best.plucks.end());
    std::sort(plucks.begin(), plucks.end(), [](const SupposedPluck& a, const SupposedPluck& b) {
        return a.at < b.at;
    });
    const auto sure = [&](auto holds) {
        double yes = 0.0;
        double whole = 0.0;
        for (const PluckHypothesis& hypothesis : all) {
            const double weight = std::exp(kTemper * (hypothesis.score - best.score));
            whole += weight;
            yes += holds(hypothesis) ? weight : 0.0;
        }
        return yes / whole;
    };
    double least = 1.0;
    for (const SupposedPluck& pluck : plucks) {
        ChoirPluck heard;
        heard.at = Seconds(static_cast<double>(pluck.at) / kRate);
        heard.uncertainty = Seconds(kHeardU);
        heard.choir = pluck.choir;
        heard.confidence = sure([&](const PluckHypothesis& h) { return agrees(h, pluck); });
        heard.level = Decibel::fromAmplitude(soloLevels[pluck.choir].amplitude() * pluck.gain);
        least = std::min(least, heard.confidence);
        reading.plucks.tryPush(heard);
    }
    reading.countConfidence =
        sure([&](const PluckHypothesis& h) { return h.plucks.size() == best.plucks.size(); });
    reading.weak = std::min(least, reading.countConfidence) < kSureEnough;
    return reading;
}

/// One joint decision over all choirs, each known by its solo.
StaggerReading decideJointly(const std::vector<double>& sound, const StaggerQuestion& question) {
    std::vector<std::vector<double>> solos;
    std::vector<std::span<const double>> rings{ringOf(sound)};
    std::vector<Decibel> levels;
    for (const StaggeredChoir& choir : question.choirs) {
        solos.push_back(resample(choir.solo->samples, choir.solo->rate.hz(), kRate));
    }
    for (const std::vector<double>& solo : solos) {
        rings.push_back(ringOf(solo));
    }
    const RingWhitener whitener(rings, filterOrder(question.key, kPeriods));
    const auto filtered = [&](const std::vector<double>& what) {
        FilteredSound out;
        out.whole = whitener.apply(what);
        out.bands = splitBands(out.whole, kRate, kEdges);
        return out;
    };
    std::vector<SoloTemplate> templates;
    for (std::size_t i = 0; i < solos.size(); ++i) {
        const FilteredSound solo = filtered(solos[i]);
        const std::size_t pluck =
            pluckOfSolo(solos[i],
                        solo.whole,
                        ringOf(solos[i]),
                        kRate,
                        1.0 / (question.key.value() * question.choirs[i].ratio));
        templates.push_back(cutTemplate(solo, kEdges, kRate, pluck));
        levels.push_back(levelAfter(solos[i], templates[i].at));
    }
    const FilteredSound mixed = filtered(sound);
    const Zone zone = zoneOf(mixed.whole, question.key, 4.0);
    std::vector<std::size_t> places;
    for (const Beginning& beginning : zone.beginnings) {
        places.push_back(beginning.at);
    }
    std::vector<PluckHypothesis> all =
        enumeratePlucks(mixed.whole, templates, zone.from, zone.to, places, kKept);
    if (all.empty()) {
        return {};
    }
    std::vector<PluckLikelihood::Band> bands;
    for (std::size_t b = 0; b < kEdges.size(); ++b) {
        bands.push_back({kEdges[b] - (b == 0 ? 0.0 : kEdges[b - 1]),
                         quietestPower(mixed.bands[b], kRate, kNoiseAboveFloor)});
    }
    const std::size_t end =
        std::min(mixed.whole.size(), zone.to + static_cast<std::size_t>(kTemplateSeconds * kRate));
    const PluckLikelihood likelihood(mixed.bands, bands, templates, kRate, zone.from, end);
    for (PluckHypothesis& hypothesis : all) {
        likelihood.judge(hypothesis);
    }
    std::sort(all.begin(), all.end(), better);
    for (std::size_t i = 0; i < std::min(all.size(), kRefined); ++i) {
        refine(all[i], likelihood);
    }
    std::sort(all.begin(), all.end(), better);
    return readingFrom(all, levels);
}

/// Beginnings that stand out, and the likelier choir of each: no choir was heard alone.
StaggerReading guess(const std::vector<double>& sound, const StaggerQuestion& question) {
    const std::array<std::span<const double>, 1> ring{ringOf(sound)};
    const RingWhitener whitener(ring, filterOrder(question.key, kGuessPeriods));
    const std::vector<double> whitened = whitener.apply(sound);
    Zone zone = zoneOf(whitened, question.key, kLeastRiseDb);
    double strongest = 0.0;
    for (const Beginning& beginning : zone.beginnings) {
        strongest = std::max(strongest, beginning.power);
    }
    std::vector<Beginning>& found = zone.beginnings;
    std::erase_if(found, [&](const Beginning& b) { return b.power < kWeakest * strongest; });
    const auto worth = [](const Beginning& b) { return b.riseDb + 5.0 * std::log10(b.power); };
    std::sort(found.begin(), found.end(), [&](const Beginning& a, const Beginning& b) {
        return worth(a) > worth(b);
    });
    found.resize(std::min(found.size(), question.choirs.size()));
    std::sort(found.begin(), found.end(), [](const Beginning& a, const Beginning& b) {
        return a.at < b.at;
    });
    std::vector<std::size_t> plucks;
    plucks.reserve(found.size());
    for (const Beginning& beginning : found) {
        plucks.push_back(beginning.at);
    }
    std::vector<double> ratios;
    for (const StaggeredChoir& choir : question.choirs) {
        ratios.push_back(choir.ratio);
    }
    const auto shares = oddShares(sound, kRate, question.key.value(), plucks);
    const auto choirs = guessChoirs(shares, ratios);
    StaggerReading reading;
    for (std::size_t i = 0; i < plucks.size(); ++i) {
        ChoirPluck heard;
        heard.at = Seconds(static_cast<double>(plucks[i]) / kRate);
        heard.uncertainty = Seconds(kGuessedU);
        heard.choir = choirs[i].choir;
        heard.confidence = choirs[i].confidence;
        heard.level = levelAfter(sound, plucks[i]);
        reading.plucks.tryPush(heard);
    }
    reading.countConfidence = 0.7;
    reading.weak = question.choirs.size() > 1;
    return reading;
}

} // namespace

StaggerReading
listenToStagger(std::span<const float> samples, SampleRate rate, const StaggerQuestion& question) {
    EXPECTS(!question.choirs.empty());
    EXPECTS(question.key.value() >= 15.0 && question.key.value() <= 4000.0);
    const std::vector<double> sound = resample(samples, rate.hz(), kRate);
    const std::span<const double> ring = ringOf(sound);
    if (ring.size() <= filterOrder(question.key, kGuessPeriods) || meanSquare(ring) < kSilence) {
        return {};
    }
    const bool allKnown = std::all_of(question.choirs.begin(),
                                      question.choirs.end(),
                                      [](const StaggeredChoir& c) { return c.solo.has_value(); });
    return allKnown ? decideJointly(sound, question) : guess(sound, question);
}

} // namespace quillbench
