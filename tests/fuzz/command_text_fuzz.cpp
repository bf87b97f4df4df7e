#include "app/formats/batch_file.hpp"
#include "core/instrument/examples.hpp"
#include "core/support/contract.hpp"
#include "core/virtual/performance.hpp"
#include "tests/fuzz/complaint.hpp"
#include "tests/fuzz/splice.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>

using namespace quillbench;

namespace {

void readRows(const std::string& text) {
    const auto rows = parseBatch(text, "list");
    if (!rows) {
        test::expectComplaint(rows.error());
        return;
    }
    for (const BatchRow& row : *rows) {
        EXPECTS(!row.place().empty());
        for (const char* field : {"file", "note", "a4", "window", "solos"}) {
            // A field has one type: all but one of these refuse it.
            const bool any = row.text(field).hasValue() || row.number(field).hasValue() ||
                             row.numbers(field).hasValue() || row.texts(field).hasValue();
            EXPECTS(any || !test::heldOrComplained(row.numbers(field)));
        }
        EXPECTS(row.unknownFields({"file"}).size() <= text.size());
    }
}

} // namespace

/// Batch lists, and the texts of `simulate`.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const Instrument kInstrument = *findExample("double-8-8-4");
    static const std::string kList =
        R"([{"id": "a", "file": "a.wav", "note": "A3", "a4": 415, "window": [0.5, 1]},)"
        R"({"file": "b.wav", "target_hz": 207.5, "channel": 1, "solos": {"8": "c.wav"}}])";
    for (const std::string& text : test::rawAndSpliced(kList, data, size)) {
        readRows(text);
    }
    for (const std::string& text : test::rawAndSpliced("A3:8@0+2.5,A3:8b@0.03,C4@1", data, size)) {
        const auto played = parsePerformance(text, kInstrument);
        EXPECTS(!test::heldOrComplained(played) || played->size() <= 1000);
    }
    for (const std::string& text : test::rawAndSpliced("8b:A3=+4.2,4:C4=-3", data, size)) {
        const auto detunings = parseDetunings(text, kInstrument);
        if (!detunings) {
            test::expectComplaint(detunings.error());
            continue;
        }
        for (const Detuning& one : *detunings) {
            EXPECTS(std::abs(one.by.value()) <= 600.0);
        }
    }
    return 0;
}
