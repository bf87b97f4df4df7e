#include "app/formats/temperament_file.hpp"
#include "core/support/contract.hpp"
#include "core/temperament/bearings.hpp"
#include "core/temperament/catalogue.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>

using namespace quillbench;

/// The first two bytes say where in a good file the rest is put, so that inputs get past the first field.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const std::string kGood = formatTemperament({*findTemperament("werckmeister-6"), ""});
    const std::string bytes(data, data + size);
    std::string text = bytes;
    if (size > 2) {
        const std::size_t place =
            (static_cast<std::size_t>(data[0]) * 256 + data[1]) % kGood.size();
        text = kGood;
        text.replace(place, size - 2, bytes, 2, std::string::npos);
    }
    for (const std::string& input : {bytes, text}) {
        const auto file = parseTemperament(input);
        if (!file) {
            EXPECTS(!file.error().text.empty());
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
