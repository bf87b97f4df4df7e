#include "app/formats/instrument_file.hpp"
#include "core/instrument/examples.hpp"
#include "core/support/contract.hpp"
#include "tests/fuzz/complaint.hpp"
#include "tests/fuzz/splice.hpp"

#include <cstddef>
#include <cstdint>
#include <string>

using namespace quillbench;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const std::string kGood = formatInstrument({*findExample("virginal"), ""});
    for (const std::string& input : test::rawAndSpliced(kGood, data, size)) {
        const auto file = parseInstrument(input);
        if (!file) {
            test::expectComplaint(file.error());
            continue;
        }
        const auto again = parseInstrument(formatInstrument(*file));
        EXPECTS(again && again->instrument == file->instrument);
    }
    return 0;
}
