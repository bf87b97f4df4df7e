#include "app/cli/scale_options.hpp"

#include "app/cli/command.hpp"
#include "app/formats/temperament_file.hpp"
#include "core/instrument/limits.hpp"
#include "core/pitch/note_names.hpp"
#include "core/support/excerpt.hpp"

#include <charconv>
#include <cstdio>

namespace quillbench::cli {

namespace {

constexpr Limits kStandardLimits{20.0, 8000.0}; // Hz, of any note

Result<Note> noteOf(const std::string& text, bool helmholtz) {
    return helmholtz ? parseHelmholtz(text) : parseNote(text);
}

Result<ReferencePitch> referenceOf(const ScaleOptions& options) {
    ReferencePitch reference;
    if (!options.standard.empty()) {
        const std::size_t equals = options.standard.find('=');
        const std::string number =
            equals == std::string::npos ? "" : options.standard.substr(equals + 1);
        double hz = 0.0;
        const auto [end, code] = std::from_chars(number.data(), number.data() + number.size(), hz);
        if (number.empty() || code != std::errc{} || end != number.data() + number.size() ||
            !kStandardLimits.holds(hz)) {
            return failure(ErrorCode::BadArgument,
                           "--standard is '" + excerpt(options.standard) +
                               "': give a note and 20 to 8000 Hz, such as C5=523.25");
        }
        const auto note = noteOf(options.standard.substr(0, equals), options.helmholtz);
        if (!note) {
            return Unexpected<Error>(note.error());
        }
        return ReferencePitch{Hertz(hz), *note};
    }
    if (options.a4Hz) {
        if (!kPitchStandardLimits.holds(*options.a4Hz)) {
            char text[120];
            std::snprintf(text,
                          sizeof text,
                          "--a4 is %g: give %g to %g Hz, such as 392, 415 or 440",
                          *options.a4Hz,
                          kPitchStandardLimits.low,
                          kPitchStandardLimits.high);
            return failure(ErrorCode::BadArgument, text);
        }
        reference.hz = Hertz(*options.a4Hz);
    }
    return reference;
}

} // namespace

void addScaleOptions(CLI::App& command, ScaleOptions& options) {
    auto* a4 = command.add_option("--a4", options.a4Hz, "Pitch of A4 in Hz (415)");
    command
        .add_option("--standard", options.standard, "Another note fixes the pitch, as C5=523.25")
        ->excludes(a4);
    command.add_option("--root", options.root, "Note on which the temperament stands (C)");
    command.add_option("--notes",
                       options.notes,
                       "First and last note of the chain of fifths, as Ab..D#, for split sharps in "
                       "a regular temperament");
    command.add_flag(
        "--helmholtz",
        options.helmholtz,
        "Read and show notes as c' for C4, c for C3, C for C2, C, for C1; H is B natural");
}

Result<TunedScale> scaleOf(const ScaleOptions& options) {
    auto temperament = loadTemperament(options.temperament);
    if (temperament && !options.notes.empty()) {
        const std::size_t dots = options.notes.find("..");
        const auto first = parsePitchClass(options.notes.substr(0, dots));
        const auto last = parsePitchClass(
            dots == std::string::npos ? std::string() : options.notes.substr(dots + 2));
        if (!first || !last) {
            return failure(ErrorCode::BadArgument,
                           "--notes is '" + excerpt(options.notes) +
                               "': give the first and last note of the chain, such as Ab..D#");
        }
        temperament = temperament->extended(*first, *last);
    }
    if (temperament && !options.root.empty()) {
        const auto root = parsePitchClass(options.root);
        if (!root) {
            return failure(ErrorCode::BadArgument,
                           "--root is '" + excerpt(options.root) +
                               "': give a note such as D or Bb");
        }
        temperament = temperament->withRoot(*root);
    }
    if (!temperament) {
        return Unexpected<Error>(temperament.error());
    }
    const auto reference = referenceOf(options);
    if (!reference) {
        return Unexpected<Error>(reference.error());
    }
    return TunedScale{std::move(temperament).value(), *reference};
}

Result<std::pair<Note, Note>>
keysOf(const std::string& option, const std::string& text, bool helmholtz) {
    const std::size_t dots = text.find("..");
    const auto lowest = noteOf(text.substr(0, dots), helmholtz);
    const auto highest =
        noteOf(dots == std::string::npos ? std::string() : text.substr(dots + 2), helmholtz);
    if (!lowest || !highest || lowest->midiNumber() > highest->midiNumber() ||
        lowest->midiNumber() < 0 || highest->midiNumber() > 127) {
        return failure(ErrorCode::BadArgument,
                       option + " is '" + excerpt(text) +
                           "': give the lowest and highest key within C-1 to G9, such as F1..F6");
    }
    return std::pair(*lowest, *highest);
}

std::string shown(const Note& note, bool helmholtz) {
    constexpr std::size_t kColumns = 6;
    std::string text = helmholtz ? toHelmholtz(note) : toDisplay(note);
    std::size_t columns = 0;
    for (const char each : text) { // continuation bytes of UTF-8 take no column
        columns += (static_cast<unsigned char>(each) & 0xC0U) == 0x80U ? 0 : 1;
    }
    text.append(columns < kColumns ? kColumns - columns : 0, ' ');
    return text;
}

int refuse(const char* command, const Error& error) {
    std::fprintf(stderr, "quillbench-cli %s: %s\n", command, error.text.c_str());
    return error.code == ErrorCode::BadArgument ? kWrongCommandLine : kUnreadableInput;
}

} // namespace quillbench::cli
