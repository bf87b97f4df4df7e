#include "core/pitch/note_names.hpp"
#include "core/support/contract.hpp"
#include "core/units/ratio.hpp"
#include "tests/fuzz/complaint.hpp"

#include <cstddef>
#include <cstdint>
#include <string>

using namespace quillbench;

namespace {

/// What can be read is written so that it is read again as the same.
template <typename Parse, typename Write>
void readsItself(const std::string& text, Parse parse, Write write) {
    const auto value = parse(text);
    if (!value) {
        test::expectComplaint(value.error());
        return;
    }
    const auto again = parse(write(*value));
    EXPECTS(again && *again == *value);
}

} // namespace

/// What a person types for notes and temperings.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text(data, data + size);
    readsItself(text, parseNote, [](const Note& note) { return toAscii(note); });
    readsItself(text, parseNote, [](const Note& note) { return toDisplay(note); });
    readsItself(text, parsePitchClass, [](const PitchClass& note) { return toAscii(note); });
    readsItself(text, parseHelmholtz, toHelmholtz);
    readsItself(text, parseFraction, [](const Fraction& fraction) { return toText(fraction); });
    const auto tempering = parseTempering(text);
    if (tempering) {
        EXPECTS(parseTempering(toText(*tempering)).hasValue());
    }
    return 0;
}
