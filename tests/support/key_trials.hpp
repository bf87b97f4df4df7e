#pragma once

#include "core/analysis/key_recogniser.hpp"
#include "tests/support/string_trials.hpp"

#include <array>
#include <cstdint>
#include <optional>
#include <string>

namespace quillbench::trials {

/// What surrounds the pluck of a trial.
enum class Around {
    Quiet,      ///< 40 dB SNR
    WhiteNoise, ///< 10 dB SNR
    PinkNoise,  ///< 10 dB SNR
    Hum,        ///< 6 dB below the note
    OldNotes,   ///< two other strings ring on
    OldNotesNoisy,
    Again,        ///< the same string, plucked 0.3 s before
    AgainLater,   ///< the same string, plucked 0.85 s before
    TwoRegisters, ///< the choir an octave above is on as well and plucks within 30 ms
};

inline constexpr std::array kAround{Around::Quiet,
                                    Around::WhiteNoise,
                                    Around::PinkNoise,
                                    Around::Hum,
                                    Around::OldNotes,
                                    Around::OldNotesNoisy,
                                    Around::Again,
                                    Around::AgainLater,
                                    Around::TwoRegisters};

inline std::string nameOf(Around around) {
    constexpr std::array kNames{"quiet",
                                "10 dB, white",
                                "10 dB, pink",
                                "hum",
                                "old notes",
                                "old notes, 10 dB",
                                "again after 0.3 s",
                                "again after 0.85 s",
                                "two registers"};
    return kNames[static_cast<std::size_t>(around)];
}

inline constexpr int kLowestKey = 29; ///< F1 … F6: sixty-one keys, five octaves
inline constexpr int kKeys = 61;

struct KeyTrial {
    AnalysisTarget target;
    std::vector<float> sound;
    std::size_t pluck = 0;
    std::size_t steadyFrom = 0;
    StringId truth;
    double hz = 0;
    double offsetCents = 0;
};

inline AnalysisTarget keyTarget(Around around, double footing) {
    AnalysisTarget target;
    target.strings = choirStrings(0, footing, 415.0, kLowestKey, kKeys);
    if (around == Around::TwoRegisters) {
        const auto more = choirStrings(1, 2.0 * footing, 415.0, kLowestKey, kKeys);
        target.strings.insert(target.strings.end(), more.begin(), more.end());
    }
    return target;
}

/// One pluck of key `key` of the choir with this footing (0.5, 1, 2), within ±45 cents of its target.
inline KeyTrial
makeKeyTrial(Around around, double footing, int key, std::uint64_t seed, SampleRate rate) {
    Random random(seed);
    KeyTrial trial;
    trial.target = keyTarget(around, footing);
    const auto index = static_cast<std::size_t>(key);
    trial.truth = StringId{0, index};
    trial.offsetCents = random.uniform(-45.0, 45.0);
    trial.hz = transpose(trial.target.strings[index].target, Cents(trial.offsetCents)).value();
    trial.sound.resize(static_cast<std::size_t>(1.4 * rate.hz()));
    std::span<float> sound(trial.sound);
    const double pluck = 0.9 * rate.hz() + random.uniform();
    trial.pluck = static_cast<std::size_t>(pluck);
    const SyntheticString string = drawString(random, trial.hz);
    const Decibel level = Decibel::fromAmplitude(0.1);
    SyntheticPluck(string).addTo(sound, rate, pluck, level);
    const double note = rms(sound.subspan(trial.pluck + 1));
    if (around == Around::TwoRegisters) {
        const double octave = 2.0 * trial.hz * std::exp2(random.uniform(-10.0, 10.0) / 1200.0);
        SyntheticPluck(drawString(random, octave))
            .addTo(sound,
                   rate,
                   pluck + random.uniform(-0.03, 0.03) * rate.hz(),
                   Decibel::fromAmplitude(0.1 * random.uniform(0.4, 1.0)));
    }
    if (around == Around::Again || around == Around::AgainLater) {
        const double earlier = pluck - (around == Around::Again ? 0.3 : 0.85) * rate.hz();
        trial.steadyFrom = static_cast<std::size_t>(earlier);
        std::vector<float> before(trial.sound.size());
        SyntheticPluck(string).addTo(before, rate, earlier, level);
        // The plectrum comes to rest on the string: at one extreme it stops it, at the other it does nothing.
        const bool stops = random.uniform() < 0.5;
        const auto touch =
            stops ? static_cast<std::size_t>(pluck - random.uniform(0.005, 0.02) * rate.hz())
                  : before.size();
        for (std::size_t i = 0; i < touch; ++i) {
            sound[i] += before[i];
        }
    }
    if (around == Around::OldNotes || around == Around::OldNotesNoisy) {
        for (int old = 0; old < 2; ++old) {
            const auto other = static_cast<std::size_t>(random.uniform(0.0, kKeys));
            const Hertz hz =
                transpose(trial.target.strings[other].target, Cents(random.uniform(-20.0, 20.0)));
            SyntheticPluck(drawString(random, hz.value()))
                .addTo(sound,
                       rate,
                       random.uniform(0.05, 0.15) * rate.hz(),
                       Decibel::fromAmplitude(0.1 * random.uniform(0.2, 1.0)));
        }
    }
    const bool noisy = around == Around::WhiteNoise || around == Around::PinkNoise ||
                       around == Around::OldNotesNoisy;
    const bool pink =
        around == Around::PinkNoise || (around != Around::WhiteNoise && random.uniform() < 0.5);
    addNoise(
        sound, random, Decibel::fromAmplitude(note * std::pow(10.0, noisy ? -0.5 : -2.0)), pink);
    if (around == Around::Hum) {
        addHum(sound,
               rate,
               random,
               random.uniform() < 0.5 ? 50.0 : 60.0,
               Decibel::fromAmplitude(0.5 * note));
    }
    return trial;
}

/// Looks as the analyser does: later and later, until one settles it.
inline KeyVerdict
recognise(KeyRecogniser& recogniser, const KeyTrial& trial, int* looks = nullptr) {
    KeyVerdict verdict;
    for (int look = 0; look < KeyRecogniser::kLooks && !verdict.settled; ++look) {
        verdict = recogniser.look(look, trial.sound, trial.pluck, trial.steadyFrom);
        if (looks != nullptr) {
            *looks = look + 1;
        }
    }
    return verdict;
}

struct KeyScore {
    int plucks = 0;
    int right = 0;
    int wrong = 0;
    int unknown = 0;
    int late = 0; ///< right, but needed more than 0.15 s above 100 Hz or 0.3 s below
    double meanOffsetError = 0;
};

/// All keys of 16′, 8′ and 4′ (two registers: 16′+8′ and 8′+4′), every `stride`-th key, `repeats` times.
inline KeyScore scoreKeys(Around around, int repeats, int stride, SampleRate rate) {
    KeyScore score;
    KeyRecogniser recogniser(rate);
    for (const double footing : {0.5, 1.0, 2.0}) {
        if (around == Around::TwoRegisters && footing > 1.0) {
            continue;
        }
        recogniser.setTarget(keyTarget(around, footing));
        for (int repeat = 0; repeat < repeats; ++repeat) {
            for (int key = 0; key < kKeys; key += stride) {
                const auto seed =
                    static_cast<std::uint64_t>(1000000.0 * (static_cast<double>(around) + 1.0) +
                                               100000.0 * footing + 1000.0 * repeat + key);
                const KeyTrial trial = makeKeyTrial(around, footing, key, seed, rate);
                int looks = 0;
                const KeyVerdict verdict = recognise(recogniser, trial, &looks);
                ++score.plucks;
                if (!verdict.string) {
                    ++score.unknown;
                } else if (*verdict.string != trial.truth) {
                    ++score.wrong;
                } else {
                    ++score.right;
                    score.late += looks > (trial.hz > 100.0 ? 2 : 3) ? 1 : 0;
                    score.meanOffsetError += std::abs(verdict.offset.value() - trial.offsetCents);
                }
            }
        }
    }
    score.meanOffsetError /= std::max(1, score.right);
    return score;
}

} // namespace quillbench::trials
