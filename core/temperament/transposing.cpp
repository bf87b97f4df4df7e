#include "core/temperament/transposing.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cstdlib>

namespace quillbench {

namespace {

/// The key of a chroma, as the temperament spells it; of two split sharps the one nearer to D.
PitchClass keyAt(const Temperament& temperament, int chroma) {
    constexpr int kD = 2;
    const PitchClass* best = nullptr;
    for (const PitchClass& each : temperament.notes()) {
        if (each.chroma() == chroma &&
            (best == nullptr ||
             std::abs(each.fifthsFromC() - kD) < std::abs(best->fifthsFromC() - kD))) {
            best = &each;
        }
    }
    EXPECTS(best != nullptr); // at least twelve neighbouring fifths hold every chroma
    return *best;
}

} // namespace

Note stringUnderKey(const Temperament& temperament, const Note& key, int semitones) {
    if (semitones == 0) {
        return playedKey(temperament, key);
    }
    const int midi = key.midiNumber() + semitones;
    const PitchClass pitchClass = keyAt(temperament, ((midi % 12) + 12) % 12);
    const int octave = 4 + (midi - Note{pitchClass, 4}.midiNumber()) / 12;
    return Note{pitchClass, static_cast<std::int8_t>(octave)};
}

Hertz pitchAtPosition(const TunedScale& scale, const Note& key, int semitones) {
    return scale.pitchOf(stringUnderKey(scale.temperament, key, semitones));
}

std::vector<PositionReport>
positionReports(const TunedScale& scale, int tunedAt, const std::vector<int>& played) {
    std::vector<PositionReport> reports;
    const std::vector<ThirdSize> thirds = thirdsOf(scale.temperament, true);
    for (const int position : played) {
        PositionReport report;
        report.position = position;
        const int moved = position - tunedAt;
        report.a4 = pitchAtPosition(scale, Note{{Letter::A, 0}, 4}, moved);
        for (ThirdSize third : thirds) {
            third.lower =
                stringUnderKey(scale.temperament, Note{third.lower, 4}, -moved).pitchClass;
            third.upper =
                stringUnderKey(scale.temperament, Note{third.upper, 4}, -moved).pitchClass;
            third.asSpelled = third.upper.fifthsFromC() - third.lower.fifthsFromC() ==
                              intervalOf(IntervalKind::MajorThird).fifths;
            report.majorThirds.push_back(third);
        }
        std::stable_sort(report.majorThirds.begin(),
                         report.majorThirds.end(),
                         [](const ThirdSize& a, const ThirdSize& b) { return a.width > b.width; });
        reports.push_back(std::move(report));
    }
    return reports;
}

} // namespace quillbench
