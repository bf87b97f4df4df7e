#include "app/formats/tuning_standard.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <string>

namespace quillbench {

namespace {

constexpr std::uint8_t kStart = 0xF0;
constexpr std::uint8_t kEnd = 0xF7;
constexpr std::uint8_t kNonRealTime = 0x7E;
constexpr std::uint8_t kRealTime = 0x7F;
constexpr std::uint8_t kTuning = 0x08;
constexpr std::uint8_t kDataMask = 0x7F;
constexpr std::size_t kNameBytes = 16;
constexpr int kKeys = 128;
constexpr int kStepsPerSemitone = 16384;

std::uint8_t data(long value) {
    EXPECTS(value >= 0 && value <= kDataMask);
    return static_cast<std::uint8_t>(value);
}

/// The key of a MIDI number; its spelling is the temperament's affair.
Note keyOf(int midi) {
    constexpr std::array<int, 12> kFifths{0, 7, 2, -3, 4, -1, 6, 1, 8, 3, -2, 5};
    const PitchClass pitchClass = pitchClassAtFifth(kFifths[static_cast<std::size_t>(midi % 12)]);
    return Note{pitchClass,
                static_cast<std::int8_t>(4 + (midi - Note{pitchClass, 4}.midiNumber()) / 12)};
}

Result<void> checkTwelve(const TunedScale& scale) {
    if (scale.temperament.isCircle()) {
        return {};
    }
    return failure(ErrorCode::BadArgument,
                   "the MIDI Tuning Standard has 12 notes to the octave, this temperament has " +
                       std::to_string(scale.temperament.notes().size()) +
                       ": leave out --notes, or export CSV or JSON");
}

/// Cents from equal of C, C♯ … B when the reference note agrees with it.
Result<std::array<double, 12>> offsets(const TunedScale& scale, double lowest, double highest) {
    const auto twelve = checkTwelve(scale);
    if (!twelve) {
        return Unexpected<Error>(twelve.error());
    }
    std::array<double, 12> all{};
    for (int chroma = 0; chroma < 12; ++chroma) {
        const PitchClass note = keyOf(60 + chroma).pitchClass;
        const double offset =
            scale.temperament.offsetFromEqual(note, scale.reference.note.pitchClass).value();
        if (!(offset >= lowest && offset <= highest)) {
            std::array<char, 160> text{};
            std::snprintf(text.data(),
                          text.size(),
                          "%s is %+.1f cents from equal, this message holds %+.0f to %+.0f: use "
                          "the bulk dump",
                          toAscii(note).c_str(),
                          offset,
                          lowest,
                          highest);
            return failure(ErrorCode::BadArgument, text.data());
        }
        all[static_cast<std::size_t>(chroma)] = offset;
    }
    return all;
}

SystemExclusive octaveHead(MidiTarget target, std::uint8_t form) {
    // 03 7F 7F: channels 16–15, 14–8, 7–1, all of them.
    return {kStart, kRealTime, data(target.device), kTuning, form, 0x03, 0x7F, 0x7F};
}

void append(SystemExclusive& message, const std::optional<FrequencyData>& frequency) {
    const FrequencyData bytes = frequency.value_or(FrequencyData{0x7F, 0x7F, 0x7F});
    message.insert(message.end(), {bytes.semitone, bytes.high, bytes.low});
}

} // namespace

std::optional<FrequencyData> frequencyData(Hertz pitch) {
    EXPECTS(pitch.value() > 0.0);
    const double semitones = 69.0 + interval(Hertz(440.0), pitch).value() / 100.0;
    const double steps = std::round(semitones * kStepsPerSemitone);
    constexpr double kReserved = static_cast<double>(kKeys) * kStepsPerSemitone - 1.0;
    if (steps < 0.0 || steps >= kReserved) {
        return std::nullopt;
    }
    const auto whole = static_cast<long>(steps);
    const long fraction = whole % kStepsPerSemitone;
    return FrequencyData{
        data(whole / kStepsPerSemitone), data(fraction / kKeys), data(fraction % kKeys)};
}

Result<SystemExclusive> octaveTuningOneByte(const TunedScale& scale, MidiTarget target) {
    const auto all = offsets(scale, -64.5, 63.49);
    if (!all) {
        return Unexpected<Error>(all.error());
    }
    SystemExclusive message = octaveHead(target, 0x08);
    for (const double offset : *all) {
        message.push_back(data(64 + static_cast<long>(std::floor(offset + 0.5))));
    }
    message.push_back(kEnd);
    return message;
}

Result<SystemExclusive> octaveTuningTwoBytes(const TunedScale& scale, MidiTarget target) {
    const auto all = offsets(scale, -100.0, 100.0);
    if (!all) {
        return Unexpected<Error>(all.error());
    }
    SystemExclusive message = octaveHead(target, 0x09);
    constexpr long kMiddle = 8192;
    for (const double offset : *all) {
        const long steps =
            std::min(2 * kMiddle - 1, kMiddle + std::lround(offset * kMiddle / 100.0));
        message.push_back(data(steps / kKeys));
        message.push_back(data(steps % kKeys));
    }
    message.push_back(kEnd);
    return message;
}

Result<SystemExclusive> singleNoteTuning(const TunedScale& scale,
                                         const Note& lowest,
                                         const Note& highest,
                                         MidiTarget target) {
    const auto twelve = checkTwelve(scale);
    if (!twelve) {
        return Unexpected<Error>(twelve.error());
    }
    const int from = lowest.midiNumber();
    const int to = highest.midiNumber();
    if (from < 0 || to >= kKeys || from > to || to - from + 1 >= kKeys) {
        return failure(ErrorCode::BadArgument,
                       "keys from " + toAscii(lowest) + " to " + toAscii(highest) +
                           ": give 1 to 127 keys within C-1 to G9");
    }
    SystemExclusive message{kStart,
                            kRealTime,
                            data(target.device),
                            kTuning,
                            0x02,
                            data(target.program),
                            data(to - from + 1)};
    for (int midi = from; midi <= to; ++midi) {
        message.push_back(data(midi));
        append(message, frequencyData(scale.pitchOf(keyOf(midi))));
    }
    message.push_back(kEnd);
    return message;
}

Result<SystemExclusive> bulkTuningDump(const TunedScale& scale, MidiTarget target) {
    const auto twelve = checkTwelve(scale);
    if (!twelve) {
        return Unexpected<Error>(twelve.error());
    }
    SystemExclusive message{
        kStart, kNonRealTime, data(target.device), kTuning, 0x01, data(target.program)};
    std::string name = scale.temperament.id();
    name.resize(kNameBytes, ' ');
    for (const char each : name) {
        const auto byte = static_cast<unsigned char>(each);
        message.push_back(byte >= 0x20 && byte < 0x7F ? byte : std::uint8_t{'?'});
    }
    for (int midi = 0; midi < kKeys; ++midi) {
        append(message, frequencyData(scale.pitchOf(keyOf(midi))));
    }
    std::uint8_t checksum = 0;
    for (std::size_t i = 1; i < message.size(); ++i) {
        checksum ^= message[i];
    }
    message.push_back(checksum & kDataMask);
    message.push_back(kEnd);
    return message;
}

} // namespace quillbench
