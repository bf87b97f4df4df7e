#include "app/formats/string_list.hpp"
#include "core/instrument/examples.hpp"
#include "core/support/contract.hpp"
#include "tests/fuzz/complaint.hpp"

#include <cstddef>
#include <cstdint>
#include <string>

using namespace quillbench;

/// Half of the inputs follow a good first row.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    std::string text(data, data + size);
    if (size > 0 && data[0] % 2 == 0) {
        text = "choir,key,length_mm,diameter_mm,material,pin_row\n" + text;
    }
    const auto rows = parseStringList(text);
    if (!rows) {
        test::expectComplaint(rows.error());
        return 0;
    }
    const auto applied = applyStringList(*findExample("virginal"), *rows);
    if (applied) {
        const auto again = parseStringList(formatStringList(applied->instrument));
        EXPECTS(again && !again->empty());
    }
    return 0;
}
