#include "app/cli/beats_request.hpp"
#include "app/cli/damping_request.hpp"
#include "app/cli/measure_request.hpp"
#include "app/cli/plucks_request.hpp"
#include "app/cli/scale_options.hpp"
#include "core/support/contract.hpp"
#include "tests/fuzz/complaint.hpp"
#include "tests/fuzz/splice.hpp"

#include <cstddef>
#include <cstdint>
#include <string>

using namespace quillbench;
using namespace quillbench::cli;

namespace {

bool isTarget(Hertz pitch) {
    return pitch.value() >= 15.0 && pitch.value() <= 4000.0;
}

void understandRow(const BatchRow& row) {
    if (const auto question = measureQuestionOf(row); test::heldOrComplained(question)) {
        const auto request = understand(*question);
        EXPECTS(!test::heldOrComplained(request) || !request->target || isTarget(*request->target));
    }
    if (const auto question = beatsQuestionOf(row); test::heldOrComplained(question)) {
        const auto request = understand(*question);
        EXPECTS(
            !test::heldOrComplained(request) ||
            (request->interval != nullptr && isTarget(request->lower) && isTarget(request->upper)));
    }
    if (const auto question = plucksQuestionOf(row); test::heldOrComplained(question)) {
        const auto request = understand(*question);
        EXPECTS(!test::heldOrComplained(request) ||
                (isTarget(request->key) && !request->ratios.empty()));
    }
    if (const auto question = dampingQuestionOf(row); test::heldOrComplained(question)) {
        const auto pitch = understand(*question);
        EXPECTS(!test::heldOrComplained(pitch) || isTarget(*pitch));
    }
}

/// The text as each option of a scale in turn.
void tuneScale(const std::string& text, bool helmholtz) {
    for (std::string ScaleOptions::*option :
         {&ScaleOptions::standard, &ScaleOptions::root, &ScaleOptions::notes}) {
        ScaleOptions options;
        options.temperament = "equal";
        options.helmholtz = helmholtz;
        options.*option = text;
        const auto scale = scaleOf(options);
        if (test::heldOrComplained(scale)) {
            EXPECTS(scale->reference.hz.value() > 0.0);
        }
    }
    const auto keys = keysOf("--keys", text, helmholtz);
    EXPECTS(!test::heldOrComplained(keys) || keys->first.midiNumber() <= keys->second.midiNumber());
}

} // namespace

/// What the subcommands are asked on the command line or by a row of a batch.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const std::string kRows =
        R"([{"file": "a", "note": "A3", "choir": "8", "also": "4", "target_hz": 207.5, "from": 1,)"
        R"( "window": [0.5, 1], "choirs": ["8", "4"], "solos": {"4": "b"}, "channel": 0,)"
        R"( "range_cents": 60, "a4": 415, "temperament": "equal"},)"
        R"({"file": "b", "lower": "C4", "upper": "G4", "upper_choir": "8b", "lower_cents": 1,)"
        R"( "lower_u": 0.1, "interval": "fifth", "alone": "c", "alone_from": 0, "alone_to": 1}])";
    for (const std::string& text : test::rawAndSpliced(kRows, data, size)) {
        const auto rows = parseBatch(text, "list");
        if (test::heldOrComplained(rows)) {
            for (const BatchRow& row : *rows) {
                understandRow(row);
            }
        }
    }
    for (const std::string& text : test::rawAndSpliced("Ab..D#C5=523.25F1..F6", data, size)) {
        tuneScale(text, false);
        tuneScale(text, true);
    }
    return 0;
}
