#include "app/formats/fault_file.hpp"
#include "app/formats/text_file.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

using namespace quillbench;

namespace {

std::string oneFault(const std::string& cause) {
    return R"({"schema":1,"kind":"faults","cautions":[],"symptoms":[{"id":"weak","title":"t","signs":"s","causes":[)" +
           cause + "]}]}";
}

const std::string kGoodCause =
    R"({"cause":"c","look":"l","step":"jack","remedy":"r","who":"owner","undo":"yes","source":"s"})";

FaultBook ownBook() {
    const auto text = readTextFile(std::string(QUILLBENCH_RESOURCE_DIR) + "/faults.json");
    REQUIRE(text);
    auto book = parseFaultBook(*text);
    if (!book) {
        FAIL(book.error().text);
    }
    return *book;
}

} // namespace

TEST_CASE("the program's own book of faults is whole", "[formats]") {
    const FaultBook book = ownBook();
    // The fault table of regulation by ear and eye: common practice, no source.
    for (const char* id : {"hangs",
                           "silent",
                           "weak",
                           "loud",
                           "heavy",
                           "late-pluck",
                           "rings-on",
                           "short",
                           "buzz",
                           "double",
                           "false-beat",
                           "key-sticks"}) {
        INFO(id);
        CHECK(book.find(id) != nullptr);
    }
    CHECK(book.find("nothing") == nullptr);
    CHECK(book.cautions.size() >= 4);
    for (const FaultSymptom& symptom : book.symptoms) {
        for (const FaultCause& cause : symptom.causes) {
            INFO(symptom.id << ": " << cause.cause);
            CHECK(cause.source.size() > 5);
            // What cannot be undone is not for owners.
            CHECK((cause.undo != FaultUndo::No || cause.who >= FaultHand::Technician));
        }
    }
}

TEST_CASE("remedies come in order of care, a plectrum last, and screws only where there are some",
          "[formats]") {
    for (const FaultSymptom& symptom : ownBook().symptoms) {
        const auto with = inOrderOfCare(symptom, true);
        const auto without = inOrderOfCare(symptom, false);
        CHECK(with.size() == symptom.causes.size());
        CHECK(std::is_sorted(with.begin(), with.end(), [](const auto& a, const auto& b) {
            return a.step < b.step;
        }));
        for (const FaultCause& cause : without) {
            CHECK_FALSE(cause.adjusters);
            CHECK(cause.remedy.find("nd screw") ==
                  std::string::npos); // the keyboard has screws of its own
        }
    }
}

TEST_CASE("a good book is read", "[formats]") {
    const auto book = parseFaultBook(oneFault(kGoodCause));
    REQUIRE(book);
    CHECK(book->symptoms[0].causes[0].step == FaultStep::Jack);
    CHECK_FALSE(book->symptoms[0].causes[0].measured);
}

TEST_CASE("what is wrong in a book is named with its field", "[formats]") {
    const auto complaint = [](const std::string& text) {
        const auto book = parseFaultBook(text);
        REQUIRE_FALSE(book);
        return book.error().text;
    };
    using Catch::Matchers::Contains;
    CHECK_THAT(complaint("[]"), Contains("object"));
    CHECK_THAT(complaint("{"), Contains("JSON"));
    CHECK_THAT(complaint(R"({"schema":2,"cautions":[],"symptoms":[]})"), Contains("schema"));
    CHECK_THAT(complaint(oneFault("")), Contains("symptoms[0].causes"));
    std::string wrong = kGoodCause;
    wrong.replace(wrong.find("\"jack\""), 6, "\"glue\"");
    CHECK_THAT(complaint(oneFault(wrong)), Contains("symptoms[0].causes[0].step"));
    wrong = kGoodCause;
    wrong.replace(wrong.find("\"source\":\"s\""), 12, "\"source\":\"\"");
    CHECK_THAT(complaint(oneFault(wrong)), Contains("symptoms[0].causes[0].source"));
}
