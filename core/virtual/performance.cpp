#include "core/virtual/performance.hpp"

#include "core/support/contract.hpp"
#include "core/support/excerpt.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string>

namespace quillbench {

namespace {

constexpr std::size_t kMostNotes = 1000;
constexpr double kLongestSeconds = 3600.0;
constexpr double kMostCents = 600.0;
constexpr std::size_t kBlock = 256;
constexpr Seconds kTogether{0.1}; // at least so long, to count as a pair

/// The intervals of the command line's contract: semitones, then partials of the lower and the upper string.
struct TunedInterval {
    int semitones;
    std::string_view name;
    int lowerPartial;
    int upperPartial;
};

constexpr std::array<TunedInterval, 12> kIntervals{{{0, "unison", 1, 1},
                                                    {3, "minor-third", 6, 5},
                                                    {4, "major-third", 5, 4},
                                                    {5, "fourth", 4, 3},
                                                    {7, "fifth", 3, 2},
                                                    {8, "minor-sixth", 8, 5},
                                                    {9, "major-sixth", 5, 3},
                                                    {12, "octave", 2, 1},
                                                    {15, "minor-tenth", 12, 5},
                                                    {16, "tenth", 5, 2},
                                                    {19, "twelfth", 3, 1},
                                                    {24, "fifteenth", 4, 1}}};

std::vector<std::string_view> split(std::string_view text, char at) {
    std::vector<std::string_view> parts;
    while (true) {
        const std::size_t end = text.find(at);
        std::string_view part = text.substr(0, end);
        while (!part.empty() && part.front() == ' ') {
            part.remove_prefix(1);
        }
        while (!part.empty() && part.back() == ' ') {
            part.remove_suffix(1);
        }
        parts.push_back(part);
        if (end == std::string_view::npos) {
            return parts;
        }
        text.remove_prefix(end + 1);
    }
}

std::optional<double> number(std::string_view text) {
    if (!text.empty() && text.front() == '+') {
        text.remove_prefix(1);
    }
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) {
        return std::nullopt;
    }
    return value;
}

Unexpected<Error> wrong(std::string_view part, const std::string& what) {
    return failure(ErrorCode::BadArgument, "'" + excerpt(part) + "': " + what);
}

Unexpected<Error> noSuchChoir(std::string_view part, const Instrument& instrument) {
    std::string known;
    for (const Choir& choir : instrument.choirs) {
        known += (known.empty() ? "" : ", ") + choir.id;
    }
    return wrong(part, "no such choir; this instrument has " + known);
}

Unexpected<Error> noSuchKey(std::string_view part, const Instrument& instrument) {
    return wrong(part,
                 "no such key; the compass is " + toAscii(instrument.compass.keys.front().note) +
                     " to " + toAscii(instrument.compass.keys.back().note));
}

VirtualCommand commandAt(VirtualCommand::Kind kind, SampleRate rate, Seconds at) {
    VirtualCommand command;
    command.kind = kind;
    command.at = FrameIndex(std::max<std::int64_t>(0, rate.frames(at).value()));
    return command;
}

struct Played {
    std::vector<float> samples;
    std::vector<PluckRecord> records;
};

Played play(VirtualInstrument& virtualInstrument,
            const Instrument& instrument,
            const VirtualSettings& settings,
            const std::vector<PlayedNote>& notes,
            Seconds length) {
    using Kind = VirtualCommand::Kind;
    const SampleRate rate = settings.sampleRate;
    for (const PlayedNote& note : notes) {
        if (note.choir) {
            const auto string = stringOf(instrument, *note.choir, note.key, settings.position);
            EXPECTS(string.has_value());
            VirtualCommand pluck =
                commandAt(Kind::PluckString, rate, note.at - VirtualInstrument::kHandContact);
            pluck.string = *string;
            virtualInstrument.apply(pluck);
            if (note.hold) {
                VirtualCommand damp = commandAt(Kind::DampString, rate, note.at + *note.hold);
                damp.string = *string;
                virtualInstrument.apply(damp);
            }
            continue;
        }
        VirtualCommand down = commandAt(Kind::KeyDown, rate, note.at);
        down.key = note.keyIndex;
        virtualInstrument.apply(down);
        if (note.hold) {
            VirtualCommand up = commandAt(Kind::KeyUp, rate, note.at + *note.hold);
            up.key = note.keyIndex;
            virtualInstrument.apply(up);
        }
    }
    Played played;
    played.samples.resize(static_cast<std::size_t>(rate.frames(length).value()));
    for (std::size_t done = 0; done < played.samples.size(); done += kBlock) {
        const std::size_t count = std::min(kBlock, played.samples.size() - done);
        virtualInstrument.render(std::span(played.samples).subspan(done, count));
        while (const auto record = virtualInstrument.takePluck()) {
            played.records.push_back(*record);
        }
    }
    return played;
}

Decibel firstSecond(const Played& played, SampleRate rate) {
    if (played.records.empty()) {
        return {};
    }
    const auto first = static_cast<std::size_t>(played.records.front().at.value());
    const std::size_t end =
        std::min(played.samples.size(), first + static_cast<std::size_t>(rate.hz()));
    double sum = 0.0;
    for (std::size_t i = first; i < end; ++i) {
        sum += static_cast<double>(played.samples[i]) * static_cast<double>(played.samples[i]);
    }
    return Decibel::fromPower(end > first ? sum / static_cast<double>(end - first) : 0.0);
}

/// When the string of a pluck is let go: by the note that plucked it.
std::optional<Seconds> releaseOf(const PerformedPluck& pluck,
                                 const Instrument& instrument,
                                 const VirtualSettings& settings,
                                 const std::vector<PlayedNote>& notes) {
    std::optional<Seconds> release;
    Seconds latest{-1.0};
    for (const PlayedNote& note : notes) {
        const bool sameString =
            note.choir
                ? stringOf(instrument, *note.choir, note.key, settings.position) == pluck.string
                : courseOf(instrument, note.keyIndex, settings.position) == pluck.string.course;
        if (sameString && note.at <= pluck.at && note.at > latest) {
            latest = note.at;
            release = note.hold ? std::optional(note.at + *note.hold) : std::nullopt;
        }
    }
    return release;
}

std::vector<PerformedPair> pairsOf(const VirtualInstrument& virtualInstrument,
                                   const Instrument& instrument,
                                   int position,
                                   const std::vector<PerformedPluck>& plucks) {
    std::vector<PerformedPair> pairs;
    for (std::size_t later = 1; later < plucks.size(); ++later) {
        for (std::size_t earlier = 0; earlier < later; ++earlier) {
            const PerformedPluck& a = plucks[earlier];
            const PerformedPluck& b = plucks[later];
            const bool pluckedAgain =
                std::any_of(plucks.begin() + static_cast<std::ptrdiff_t>(earlier) + 1,
                            plucks.begin() + static_cast<std::ptrdiff_t>(later) + 1,
                            [&a](const PerformedPluck& p) { return p.string == a.string; });
            if (pluckedAgain || (a.released && *a.released < b.at + kTogether)) {
                continue;
            }
            const int aNote = soundingNote(instrument, a.string, position).midiNumber();
            const int bNote = soundingNote(instrument, b.string, position).midiNumber();
            PerformedPair pair;
            pair.lower = bNote < aNote ? later : earlier;
            pair.upper = bNote < aNote ? earlier : later;
            const auto* const known = std::find_if(
                kIntervals.begin(), kIntervals.end(), [aNote, bNote](const TunedInterval& tuned) {
                    return tuned.semitones == std::abs(aNote - bNote);
                });
            if (known == kIntervals.end()) {
                continue;
            }
            pair.interval = known->name;
            pair.lowerPartial = known->lowerPartial;
            pair.upperPartial = known->upperPartial;
            const auto coincident = virtualInstrument.coincidentPair(plucks[pair.lower].record,
                                                                     pair.lowerPartial,
                                                                     plucks[pair.upper].record,
                                                                     pair.upperPartial);
            if (coincident) {
                pair.pair = *coincident;
                pairs.push_back(pair);
            }
        }
    }
    return pairs;
}

} // namespace

Result<std::vector<PlayedNote>> parsePerformance(std::string_view text,
                                                 const Instrument& instrument) {
    constexpr const char* kForm = "write KEY:CHOIR@SECONDS+HELD, such as A3:8@0.5+2";
    std::vector<PlayedNote> notes;
    for (const std::string_view part : split(text, ',')) {
        const std::size_t at = part.find('@');
        if (at == std::string_view::npos) {
            return wrong(part, kForm);
        }
        const std::string_view what = part.substr(0, at);
        const std::string_view when = part.substr(at + 1);
        const std::size_t colon = what.find(':');
        PlayedNote note;
        const Result<Note> key = parseNote(what.substr(0, colon));
        if (!key) {
            return wrong(part, key.error().text);
        }
        const auto index = keyOf(instrument.compass, *key);
        if (!index) {
            return noSuchKey(part, instrument);
        }
        note.keyIndex = *index;
        note.key = instrument.compass.keys[*index].note;
        if (colon != std::string_view::npos) {
            note.choir = choirOf(instrument, what.substr(colon + 1));
            if (!note.choir) {
                return noSuchChoir(part, instrument);
            }
            if (!stringOf(instrument, *note.choir, note.key)) {
                return wrong(part, "this choir has no string there");
            }
        }
        const std::size_t plus = when.find('+', 1);
        const auto start = number(when.substr(0, plus));
        const auto hold =
            plus == std::string_view::npos ? std::optional(0.0) : number(when.substr(plus + 1));
        if (!start || !hold || *start < 0.0 || *start > kLongestSeconds || *hold < 0.0 ||
            *hold > kLongestSeconds) {
            return wrong(part, std::string(kForm) + "; times lie between 0 and 3600 s");
        }
        note.at = Seconds(*start);
        if (plus != std::string_view::npos) {
            note.hold = Seconds(*hold);
        }
        notes.push_back(note);
    }
    if (notes.size() > kMostNotes) {
        return failure(ErrorCode::BadArgument,
                       "at most 1000 notes in one list, not " + std::to_string(notes.size()) +
                           "; play the rest in another");
    }
    return notes;
}

Result<std::vector<Detuning>> parseDetunings(std::string_view text, const Instrument& instrument) {
    std::vector<Detuning> detunings;
    for (const std::string_view part : split(text, ',')) {
        const std::size_t colon = part.find(':');
        const std::size_t equals = part.find('=');
        if (colon == std::string_view::npos || equals == std::string_view::npos || equals < colon) {
            return wrong(part, "write CHOIR:KEY=CENTS, such as 8b:A3=+4.2");
        }
        const auto choir = choirOf(instrument, part.substr(0, colon));
        if (!choir) {
            return noSuchChoir(part, instrument);
        }
        const Result<Note> key = parseNote(part.substr(colon + 1, equals - colon - 1));
        if (!key) {
            return wrong(part, key.error().text);
        }
        const auto string = stringOf(instrument, *choir, *key);
        if (!string) {
            return noSuchKey(part, instrument);
        }
        const auto cents = number(part.substr(equals + 1));
        if (!cents || std::abs(*cents) > kMostCents) {
            return wrong(part, "the detuning is a number of cents between -600 and 600");
        }
        detunings.push_back({*string, Cents(*cents)});
    }
    return detunings;
}

Performance perform(const Instrument& instrument,
                    VirtualSettings settings,
                    const std::vector<PlayedNote>& notes,
                    RoomAgainstStrings room,
                    Seconds length) {
    EXPECTS(!notes.empty());
    EXPECTS(length.count() > 0.0);
    settings.room.noise.reset();
    settings.room.hum.reset();
    VirtualInstrument still(instrument, settings);
    Played played = play(still, instrument, settings, notes, length);
    Performance performance;
    performance.strings = firstSecond(played, settings.sampleRate);
    if (room.noiseBelow || room.humBelow) {
        // The same again with the room: the strings' samples do not change.
        const auto below = [&performance](std::optional<double> by) {
            return by ? std::optional(Decibel::fromAmplitude(performance.strings.amplitude() *
                                                             std::pow(10.0, -*by / 20.0)))
                      : std::nullopt;
        };
        settings.room.noise = below(room.noiseBelow);
        settings.room.hum = below(room.humBelow);
        VirtualInstrument inRoom(instrument, settings);
        played = play(inRoom, instrument, settings, notes, length);
    }
    for (const PluckRecord& record : played.records) {
        PerformedPluck pluck;
        pluck.at = settings.sampleRate.duration(record.at - FrameIndex(0));
        pluck.string = record.string;
        pluck.record = record;
        pluck.truth = still.truth(record);
        pluck.released = releaseOf(pluck, instrument, settings, notes);
        performance.plucks.push_back(pluck);
    }
    performance.pairs = pairsOf(still, instrument, settings.position, performance.plucks);
    performance.samples = std::move(played.samples);
    return performance;
}

} // namespace quillbench
