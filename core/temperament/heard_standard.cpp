#include "core/temperament/heard_standard.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quillbench {

namespace {

constexpr int kChromaOfA = 9;
constexpr double kNotesOfOctave = 12.0;

/// An A in the octave above `lowest`.
std::optional<Hertz> asA4(Hertz pitch, Hertz lowest, Hertz highest) {
    const double octaves = std::ceil(std::log2(lowest / pitch) - 1e-12);
    const Hertz a4 = pitch * std::exp2(octaves);
    return a4 <= highest ? std::optional(a4) : std::nullopt;
}

/// How far the note on a key lies above A by the temperament, in equal steps and beyond.
Cents offsetOf(int chroma, const Temperament& temperament) {
    for (const PitchClass& note : temperament.notes()) {
        if (note.chroma() == chroma) {
            return temperament.offsetFromEqual(note);
        }
    }
    return Cents(0.0);
}

struct NoteSeen {
    Cents fromStandard; ///< from its place in the temperament over the A that was heard
    Cents uncertainty;
};

using NotesSeen = std::array<std::optional<NoteSeen>, 12>;

NotesSeen notesOf(std::span<const HeardTone> tones, const Temperament& temperament, Hertz a4) {
    NotesSeen notes;
    for (const HeardTone& tone : tones) {
        const double above = interval(a4, tone.pitch).value();
        const double steps = std::round(above / 100.0);
        const int chroma = (static_cast<int>(steps) % 12 + 12 + kChromaOfA) % 12;
        auto& note = notes[static_cast<std::size_t>(chroma)];
        if (!note || tone.uncertainty < note->uncertainty) {
            note = NoteSeen{Cents(above - 100.0 * steps) - offsetOf(chroma, temperament),
                            tone.uncertainty};
        }
    }
    return notes;
}

} // namespace

std::optional<HeardStandard> heardStandard(std::span<const HeardTone> tones,
                                           const Temperament& temperament,
                                           Hertz lowest,
                                           Hertz highest) {
    if (tones.empty()) {
        return std::nullopt;
    }
    const auto first = asA4(tones.front().pitch, lowest, highest);
    if (!first) {
        return std::nullopt;
    }
    const NotesSeen notes = notesOf(tones, temperament, *first);
    HeardStandard heard;
    double sum = 0.0;
    double squares = 0.0;
    double variance = 0.0;
    for (std::size_t chroma = 0; chroma < notes.size(); ++chroma) {
        heard.notes.set(chroma, notes[chroma].has_value());
        if (notes[chroma]) {
            const double from = notes[chroma]->fromStandard.value();
            sum += from;
            squares += from * from;
            variance += notes[chroma]->uncertainty.value() * notes[chroma]->uncertainty.value();
        }
    }
    const NoteSeen& a = *notes[kChromaOfA];
    if (!heard.ofTwelve()) {
        heard.a4 = transpose(*first, a.fromStandard);
        heard.uncertainty = a.uncertainty;
        return heard;
    }
    const double mean = sum / kNotesOfOctave;
    heard.scatter = Cents(
        std::sqrt(std::max(0.0, squares - kNotesOfOctave * mean * mean) / (kNotesOfOctave - 1.0)));
    heard.a4 = transpose(*first, Cents(mean));
    heard.uncertainty = Cents(std::hypot(std::sqrt(variance) / kNotesOfOctave,
                                         heard.scatter.value() / std::sqrt(kNotesOfOctave)));
    return heard;
}

} // namespace quillbench
