#include "app/formats/temperament_file.hpp"
#include "core/support/contract.hpp"
#include "core/temperament/bearings.hpp"
#include "core/temperament/catalogue.hpp"
#include "tests/fuzz/complaint.hpp"
#include "tests/fuzz/splice.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>

using namespace quillbench;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const std::string kGood = formatTemperament({*findTemperament("werckmeister-6"), ""});
    for (const std::string& input : test::rawAndSpliced(kGood, data, size)) {
        const auto file = parseTemperament(input);
        if (!file) {
            test::expectComplaint(file.error());
            continue;
        }
        const auto again = parseTemperament(formatTemperament(*file));
        EXPECTS(again.hasValue());
        for (const PitchClass& note : file->temperament.notes()) {
            EXPECTS(std::abs((again->temperament.offsetFromEqual(note) -
                              file->temperament.offsetFromEqual(note))
                                 .value()) < 1e-6);
        }
        EXPECTS(!computedPlan({file->temperament, {}}).steps.empty());
    }
    return 0;
}
