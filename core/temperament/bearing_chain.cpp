#include "core/temperament/bearing_chain.hpp"

#include <algorithm>

namespace quillbench::detail {

namespace {

constexpr int kRange = 19; // semitones: an octave and a fifth

} // namespace

BearingChain::BearingChain(const TunedScale& scale, BearingRange range)
    : scale_(scale),
      lowest_(range == BearingRange::F3ToC5 ? 53 : 48) {
    const auto notes = scale.temperament.notes();
    circle_ = scale.temperament.closesWithoutWolf();
    const int count = static_cast<int>(notes.size());
    // Of an open chain the twelve about D make the octave; the others follow from them.
    constexpr int kFlattestUsual = -3; // E♭
    first_ = std::clamp(kFlattestUsual - notes.front().fifthsFromC(), 0, count - kFifthsAround);
    keys_.reserve(notes.size());
    for (const PitchClass& each : notes) {
        const int chroma = each.chroma();
        const int midi =
            lowest_ + ((chroma - lowest_) % kFifthsAround + kFifthsAround) % kFifthsAround;
        const int octave = 4 + (midi - Note{each, 4}.midiNumber()) / kFifthsAround;
        keys_.push_back(Note{each, static_cast<std::int8_t>(octave)});
    }
}

int BearingChain::wrapped(int place) {
    return (place % kFifthsAround + kFifthsAround) % kFifthsAround;
}

std::uint32_t BearingChain::bit(int place) {
    return std::uint32_t{1} << static_cast<unsigned>(wrapped(place));
}

Note BearingChain::up(Note note, int octaves) {
    note.octave = static_cast<std::int8_t>(note.octave + octaves);
    return note;
}

bool BearingChain::inRange(const Note& note) const {
    return note.midiNumber() >= lowest_ && note.midiNumber() <= lowest_ + kRange;
}

bool BearingChain::reaches(int place, int fifths) const {
    const int end = place + fifths;
    return circle_ || (end >= 0 && end < kFifthsAround);
}

Cents BearingChain::tempering(int place) const {
    const auto fifths = scale_.temperament.fifths();
    return fifths[indexAt(place)].cents();
}

int BearingChain::startingPlace() const {
    const PitchClass wanted = scale_.temperament.played(scale_.reference.note.pitchClass);
    int nearest = 0;
    for (int place = 0; place < kFifthsAround; ++place) {
        if (key(place).pitchClass.chroma() == wanted.chroma()) {
            nearest = place;
        }
    }
    return nearest;
}

std::size_t BearingChain::indexOf(const Note& note) const {
    for (std::size_t i = 0; i < keys_.size(); ++i) {
        if (keys_[i].pitchClass == note.pitchClass) {
            return i;
        }
    }
    return keys_.size();
}

std::size_t BearingChain::indexAt(int place) const {
    const int index = first_ + wrapped(place);
    return static_cast<std::size_t>(index);
}

} // namespace quillbench::detail
