#include "app/formats/fault_file.hpp"

#include "app/formats/json_fields.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <set>

namespace quillbench {

namespace {

constexpr std::size_t kMostFaultBytes = 1'000'000;
constexpr int kFaultSchema = 1;
constexpr std::size_t kMostFaultEntries = 100;

constexpr std::array<std::string_view, 6> kStepNames{
    "climate", "register", "height", "cleaning", "jack", "plectrum"};
constexpr std::array<std::string_view, 6> kMeasureNames{
    "strength", "displacement", "sustain", "damping", "repetition", "stagger"};
constexpr std::array<std::string_view, 4> kHandNames{"anyone", "owner", "technician", "maker"};
constexpr std::array<std::string_view, 3> kUndoNames{"yes", "partly", "no"};

/// The field in `language` where it is given, else in English, which has to be there.
std::string wordsOf(const JsonObject& object,
                    std::string_view language,
                    const std::string& field,
                    const char* mend) {
    const std::string english = object.text(field.c_str(), mend);
    return language.empty()
               ? english
               : object.textOr((field + "_" + std::string(language)).c_str(), english.c_str());
}

FaultCause readCause(const JsonObject& object, std::string_view language) {
    FaultCause cause;
    cause.cause = wordsOf(object, language, "cause", "say what is wrong");
    cause.look = wordsOf(object, language, "look", "give the question that tells whether it is so");
    if (const auto measured = object.optionalChoice("measured", kMeasureNames)) {
        cause.measured = static_cast<FaultMeasure>(*measured);
    }
    cause.step = static_cast<FaultStep>(object.choice("step", kStepNames));
    cause.remedy = wordsOf(object, language, "remedy", "say what to do");
    cause.who = static_cast<FaultHand>(object.choice("who", kHandNames));
    cause.undo = static_cast<FaultUndo>(object.choice("undo", kUndoNames));
    cause.adjusters = object.flagOr("adjusters", false);
    cause.source = object.text("source", "name it, or write \"common practice, no source\"");
    return cause;
}

std::string placeIn(const char* list, std::size_t index) {
    return std::string(list) + "[" + std::to_string(index) + "]";
}

} // namespace

const FaultSymptom* FaultBook::find(std::string_view id) const {
    const auto found = std::find_if(
        symptoms.begin(), symptoms.end(), [id](const FaultSymptom& one) { return one.id == id; });
    return found == symptoms.end() ? nullptr : &*found;
}

Result<FaultBook> parseFaultBook(std::string_view text, std::string_view language) {
    const auto json = parseJson(text, kMostFaultBytes);
    if (!json) {
        return Unexpected<Error>(json.error());
    }
    FieldReport report;
    const JsonObject file(*json, "", report);
    const int schema = file.whole("schema", {1.0, 1e6}, "this is the number of the file's form");
    if (report.clean() && schema != kFaultSchema) {
        report.complain("schema", std::to_string(schema), "this program reads schema 1");
    }
    FaultBook book;
    const Json& cautions = file.list("cautions", 0, kMostFaultEntries, "give the cautions");
    for (std::size_t i = 0; i < cautions.size(); ++i) {
        const JsonObject one(cautions[i], placeIn("cautions", i), report);
        book.cautions.push_back({one.text("id", "give it a name"),
                                 wordsOf(one, language, "text", "say what to mind"),
                                 one.text("source",
                                          "name it, or write \"common practice, no "
                                          "source\"")});
    }
    std::set<std::string> ids;
    const Json& symptoms = file.list("symptoms", 1, kMostFaultEntries, "give at least one");
    for (std::size_t i = 0; i < symptoms.size(); ++i) {
        const std::string place = placeIn("symptoms", i);
        const JsonObject one(symptoms[i], place, report);
        FaultSymptom symptom;
        symptom.id = one.text("id", "give it a name");
        symptom.title = wordsOf(one, language, "title", "say what is seen or heard");
        symptom.signs = wordsOf(one, language, "signs", "say how it shows");
        if (!ids.insert(symptom.id).second) {
            report.complain(place + ".id", symptom.id, "it was given before: name it otherwise");
        }
        const Json& causes = one.list("causes", 1, kMostFaultEntries, "give at least one cause");
        for (std::size_t c = 0; c < causes.size(); ++c) {
            symptom.causes.push_back(readCause(
                JsonObject(causes[c], place + "." + placeIn("causes", c), report), language));
        }
        book.symptoms.push_back(std::move(symptom));
    }
    if (!report.clean()) {
        return Unexpected<Error>(report.error());
    }
    return book;
}

std::vector<FaultCause> inOrderOfCare(const FaultSymptom& symptom, bool adjusters) {
    std::vector<FaultCause> causes;
    std::copy_if(symptom.causes.begin(),
                 symptom.causes.end(),
                 std::back_inserter(causes),
                 [adjusters](const FaultCause& cause) { return adjusters || !cause.adjusters; });
    std::stable_sort(causes.begin(), causes.end(), [](const FaultCause& a, const FaultCause& b) {
        return a.step < b.step;
    });
    return causes;
}

} // namespace quillbench
