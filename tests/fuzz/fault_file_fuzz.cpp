#include "app/formats/fault_file.hpp"
#include "core/support/contract.hpp"
#include "tests/fuzz/complaint.hpp"

#include <cstddef>
#include <cstdint>
#include <string>

using namespace quillbench;

/// Half of the inputs follow a good head.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    std::string text(data, data + size);
    if (size > 0 && data[0] % 2 == 0) {
        text =
            R"({"schema":1,"cautions":[],"symptoms":[{"id":"a","title":"b","signs":"c","causes":[)" +
            text;
    }
    const auto book = parseFaultBook(text);
    if (!book) {
        test::expectComplaint(book.error());
        return 0;
    }
    for (const FaultSymptom& symptom : book->symptoms) {
        EXPECTS(book->find(symptom.id) == &symptom);
        EXPECTS(inOrderOfCare(symptom, true).size() == symptom.causes.size());
    }
    return 0;
}
