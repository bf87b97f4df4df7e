#include "core/instrument/instrument.hpp"

#include "core/instrument/compass.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

int lowestPosition(const Instrument& instrument) {
    return instrument.positions.empty()
               ? 0
               : *std::min_element(instrument.positions.begin(), instrument.positions.end());
}

/// Which manuals' keys lift a register's jacks.
bool playedFrom(const Instrument& instrument,
                const JackRegister& row,
                std::size_t manual,
                bool coupled) {
    if (row.manual == manual || row.dogleg) {
        return true;
    }
    const bool engages =
        instrument.coupler == Coupler::Shove || instrument.coupler == Coupler::Lever;
    return engages && coupled && manual == 0 && row.manual == 1;
}

} // namespace

int octavesAbove(Footage footage) {
    switch (footage) {
    case Footage::Sixteen:
        return -1;
    case Footage::Eight:
        return 0;
    case Footage::Four:
        return 1;
    }
    return 0;
}

std::optional<std::size_t> keyOf(const Compass& compass, const Note& note) {
    std::optional<std::size_t> same;
    for (std::size_t i = 0; i < compass.keys.size(); ++i) {
        if (compass.keys[i].note == note) {
            return i;
        }
        if (!same && compass.keys[i].note.midiNumber() == note.midiNumber()) {
            same = i;
        }
    }
    return same;
}

std::size_t courseOf(const Instrument& instrument, std::size_t key, int position) {
    EXPECTS(key < instrument.compass.keys.size());
    const int shift = position - lowestPosition(instrument);
    EXPECTS(shift >= 0);
    return key + static_cast<std::size_t>(shift);
}

std::optional<std::size_t> keyAt(const Instrument& instrument, std::size_t course, int position) {
    const int shift = position - lowestPosition(instrument);
    EXPECTS(shift >= 0);
    const auto first = static_cast<std::size_t>(shift);
    if (course < first || course - first >= instrument.compass.keys.size()) {
        return std::nullopt;
    }
    return course - first;
}

std::optional<StringId>
stringOf(const Instrument& instrument, std::size_t choir, const Note& note, int position) {
    EXPECTS(choir < instrument.choirs.size());
    const auto key = keyOf(instrument.compass, note);
    if (!key) {
        return std::nullopt;
    }
    const std::size_t course = courseOf(instrument, *key, position);
    if (course >= instrument.choirs[choir].strings.size()) {
        return std::nullopt;
    }
    return StringId{choir, course};
}

std::optional<std::size_t> choirOf(const Instrument& instrument, std::string_view id) {
    for (std::size_t i = 0; i < instrument.choirs.size(); ++i) {
        if (instrument.choirs[i].id == id) {
            return i;
        }
    }
    return std::nullopt;
}

Note keyNote(const Instrument& instrument, StringId string, int position) {
    const auto& keys = instrument.compass.keys;
    EXPECTS(!keys.empty());
    if (const auto key = keyAt(instrument, string.course, position)) {
        return keys[*key].note;
    }
    const std::size_t first = courseOf(instrument, 0, position);
    if (string.course < first) {
        return chromaticNote(keys.front().note.midiNumber() -
                             static_cast<int>(first - string.course));
    }
    const std::size_t last = first + keys.size() - 1;
    return chromaticNote(keys.back().note.midiNumber() + static_cast<int>(string.course - last));
}

Note soundingNote(const Instrument& instrument, StringId string, int position) {
    EXPECTS(string.choir < instrument.choirs.size());
    Note note = keyNote(instrument, string, position);
    note.octave = static_cast<std::int8_t>(note.octave +
                                           octavesAbove(instrument.choirs[string.choir].footage));
    return note;
}

std::string choirLabel(const Choir& choir) {
    std::string feet = "8";
    if (choir.footage == Footage::Sixteen) {
        feet = "16";
    } else if (choir.footage == Footage::Four) {
        feet = "4";
    }
    const bool second = choir.id.size() == feet.size() + 1 && choir.id == feet + "b";
    return (second ? "second " : "") + feet + "\u2032";
}

std::string stringLabel(const Instrument& instrument, StringId string, int position) {
    EXPECTS(string.choir < instrument.choirs.size());
    return choirLabel(instrument.choirs[string.choir]) + ", " +
           toDisplay(keyNote(instrument, string, position));
}

std::string stringCode(const Instrument& instrument, StringId string, int position) {
    EXPECTS(string.choir < instrument.choirs.size());
    return instrument.choirs[string.choir].id + ":" +
           toAscii(keyNote(instrument, string, position));
}

Hertz targetPitch(const Instrument& instrument,
                  StringId string,
                  const std::function<Hertz(const Note&)>& pitchOfKey,
                  int position) {
    EXPECTS(string.choir < instrument.choirs.size());
    return pitchOfKey(keyNote(instrument, string, position)) *
           std::exp2(octavesAbove(instrument.choirs[string.choir].footage));
}

Hertz nominalPitch(const Instrument& instrument, StringId string) {
    const int semitones = soundingNote(instrument, string).midiNumber() - 69;
    return Hertz(instrument.pitchStandardHz * std::exp2(semitones / 12.0));
}

std::vector<KeyPluck> plucksOf(const Instrument& instrument,
                               const Registration& registration,
                               std::size_t manual,
                               std::size_t key) {
    EXPECTS(manual < instrument.manuals.size());
    EXPECTS(instrument.registers.size() <= kMostRegisters);
    const std::size_t course = courseOf(instrument, key, registration.position);
    std::vector<KeyPluck> plucks;
    for (std::size_t i = 0; i < instrument.registers.size(); ++i) {
        const JackRegister& row = instrument.registers[i];
        if (registration.on[i] && playedFrom(instrument, row, manual, registration.coupled) &&
            course < instrument.choirs[row.choir].strings.size()) {
            plucks.push_back(KeyPluck{i, StringId{row.choir, course}});
        }
    }
    std::stable_sort(plucks.begin(), plucks.end(), [&](const KeyPluck& a, const KeyPluck& b) {
        return instrument.registers[a.reg].stagger < instrument.registers[b.reg].stagger;
    });
    return plucks;
}

std::vector<StringId> soundingStrings(const Instrument& instrument,
                                      const Registration& registration,
                                      std::size_t manual,
                                      std::size_t key) {
    std::vector<StringId> strings;
    for (const KeyPluck& pluck : plucksOf(instrument, registration, manual, key)) {
        if (std::find(strings.begin(), strings.end(), pluck.string) == strings.end()) {
            strings.push_back(pluck.string);
        }
    }
    return strings;
}

bool shareStrings(const Instrument& instrument, std::size_t a, std::size_t b) {
    EXPECTS(a < instrument.registers.size() && b < instrument.registers.size());
    return a != b && instrument.registers[a].choir == instrument.registers[b].choir;
}

RegisterSet registersOf(const Instrument& instrument, std::size_t choir) {
    EXPECTS(instrument.registers.size() <= kMostRegisters);
    RegisterSet rows;
    for (std::size_t i = 0; i < instrument.registers.size(); ++i) {
        rows[i] = instrument.registers[i].choir == choir;
    }
    return rows;
}

std::optional<std::size_t> soloRegister(const Instrument& instrument, std::size_t choir) {
    std::optional<std::size_t> solo;
    for (std::size_t i = 0; i < instrument.registers.size(); ++i) {
        const JackRegister& row = instrument.registers[i];
        if (row.choir == choir && (!solo || (instrument.registers[*solo].lute && !row.lute))) {
            solo = i;
        }
    }
    return solo;
}

std::vector<std::size_t> unsilenced(const Instrument& instrument, std::size_t choir) {
    std::vector<std::size_t> along;
    const auto solo = soloRegister(instrument, choir);
    for (std::size_t other = 0; solo && other < instrument.choirs.size(); ++other) {
        const auto row = soloRegister(instrument, other);
        if (other != choir && row && instrument.choirs[other].silencing == Silencing::NotAtAll &&
            (playedFrom(instrument,
                        instrument.registers[*row],
                        instrument.registers[*solo].manual,
                        false))) {
            along.push_back(other);
        }
    }
    return along;
}

} // namespace quillbench
