#include "core/support/contract.hpp"
#include "core/temperament/bearing_steps.hpp"
#include "core/temperament/bearings.hpp"

#include <algorithm>
#include <array>
#include <sstream>

namespace quillbench {

namespace {

using detail::fromStandard;
using detail::shareBetween;
using detail::shareOf;
using detail::stepOf;
using detail::temporaryOf;

/// One published plan. Each line of `steps` is one step: "set A4" from the pitch standard; "tune F3 A3" against
/// a note; "hold C4 F3" pure for now; "share G3 C4 D4" between two notes, as they stand; "check C4 E4".
struct Script {
    PublishedPlan plan;
    std::string_view temperament; ///< id in the catalogue; empty for every regular meantone
    std::string_view steps;
};

constexpr std::array<Script, 9> kScripts{{
    {{"equal-from-f-a",
      "Equal temperament from F-A",
      "Indiana University, piano technology page; fractions of beats lost in the stored text are "
      "computed"},
     "equal",
     "set A4\ntune A3 A4\ntune F3 A3\ntune C4 F3\ntune D4 A3\nshare G3 C4 D4\ntune E4 A3\ncheck C4 "
     "E4\n"
     "tune B3 E4\ncheck G3 B3\ntune C3 C4\ntune D3 D4\ntune E3 E4\ncheck C3 E3\ntune F#3 B3\ncheck "
     "D3 F#3\n"
     "tune G#3 E3\ncheck G#3 C4\ntune Bb3 F3\ncheck F#3 Bb3\ncheck Bb3 D4\nshare C#4 G#3 F#3\n"
     "share Eb4 Bb3 G#3\n"},
    {{"meantone-from-c",
      "Quarter-comma meantone from C",
      "J. Conrad, instructions for harpsichord owners"},
     "meantone-quarter",
     "set C4\ntune E4 C4\ntune G3 C4\ntune D4 G3\nshare A3 D4 E4\ntune B3 G3\ntune F3 A3\ntune C#4 "
     "A3\n"
     "tune Bb3 D4\ntune F#4 D4\ntune F#3 F#4\ntune G4 G3\ntune Eb4 G4\ntune E3 E4\ntune G#3 E3\n"},
    {{"kirnberger-3-from-c",
      "Kirnberger III from C",
      "hpschd.nu for the four fifths; the pure fifths that follow are from the definition"},
     "kirnberger-3",
     "set C5\ntune C4 C5\ntune E4 C4\ntune G3 C4\ntune D4 G3\nshare A3 D4 E4\ntune B3 E4\ntune F#3 "
     "B3\n"
     "tune F3 C4\ntune Bb3 F3\ntune Eb4 Bb3\ntune G#3 Eb4\ntune C#4 G#3\ncheck F#3 C#4\n"},
    {{"vallotti-from-f-a",
      "Vallotti from F-A",
      "hpschd.nu for the steps up to C; the rest is common practice, no source"},
     "vallotti",
     "set A4\ntune A3 A4\ntune F3 A3\ntune Bb3 F3\ntune Eb4 Bb3\ntune G#3 Eb4\ntune C#4 G#3\ntune "
     "F#3 C#4\n"
     "tune B3 F#3\nshare E4 A3 B3\ntune C4 F3\ncheck C4 E4\ntune G3 C4\ncheck G3 B3\nshare D4 G3 "
     "A3\n"},
    {{"lehman-practical",
      "Lehman from F-A",
      "B. Lehman, practical instructions of 2005, up to the check C-E; the rest is from the "
      "definition"},
     "lehman",
     "set A4\ntune A3 A4\ntune F3 A3\nhold C3 F3\nhold D3 A3\nshare G3 C3 D3\nshare C4 F3 G3\n"
     "share D4 G3 A3\ntune C3 C4\ntune D3 D4\ntune E4 A3\ncheck C4 E4\ntune B3 E4\ntune F#3 B3\n"
     "tune C#4 F#3\ntune G#3 C#4\ntune Eb4 G#3\ntune Bb3 Eb4\ncheck F3 Bb3\n"},
    {{"meantone-bisected",
      "Any regular meantone by halving",
      "B. Lehman, page on halving a third; the notes beyond F to D are from the definition"},
     "",
     "set A4\ntune A3 A4\ntune F3 A3\nhold C3 F3\nhold D3 A3\nshare G3 C3 D3\nshare C4 F3 G3\n"
     "share D4 G3 A3\ntune C3 C4\ntune D3 D4\ntune E4 A3\ncheck C4 E4\ntune B3 E4\ncheck G3 B3\n"
     "tune F#3 B3\ntune C#4 F#3\ncheck A3 C#4\ntune G#3 C#4\ntune Bb3 F3\ncheck Bb3 D4\ntune Eb4 "
     "Bb3\n"},
    {{"lambert-from-f-a",
      "Lambert from F-A",
      "hpschd.nu for F-A and the pure fifths; sharing the other seven from memory"},
     "lambert",
     "set A4\ntune A3 A4\ntune F3 A3\ntune Bb3 F3\ntune Eb4 Bb3\ntune G#3 Eb4\ntune C#4 G#3\ntune "
     "F#3 C#4\n"
     "tune C4 F3\ntune G3 C4\nshare D4 G3 A3\ntune E4 A3\ncheck C4 E4\nshare B3 E4 F#3\ncheck G3 "
     "B3\n"},
    {{"dom-bedos",
      "Dom Bedos from C",
      "Dom Bedos, L'art du facteur d'orgues, as told on clavecins.fr; the pattern of Kirnberger "
      "II"},
     "kirnberger-2",
     "set C4\ntune G3 C4\ntune D4 G3\ntune E4 C4\ntune B3 E4\ntune F#3 B3\ntune F3 C4\ntune Bb3 "
     "F3\n"
     "tune Eb4 Bb3\ntune G#3 Eb4\ntune C#4 G#3\nshare A3 D4 E4\ncheck F3 A3\n"},
    {{"dalembert-by-proofs",
      "D'Alembert with his three proofs",
      "Rousseau, Dictionnaire de musique, after d'Alembert; sizes of the later fifths idealised"},
     "dalembert",
     "set C4\ntune G3 C4\ntune D4 G3\ntune A3 D4\ntune E4 A3\ncheck C4 E4\ntune B3 E4\ntune F#3 "
     "B3\n"
     "tune C#4 F#3\ntune G#3 C#4\ntune E3 E4\ncheck E3 G#3\ntune F3 C4\ntune Bb3 F3\ntune Eb4 Bb3\n"
     "check G#3 Eb4\n"},
}};

bool fits(const Script& script, const Temperament& temperament) {
    if (!temperament.isCircle()) {
        return false;
    }
    if (script.temperament.empty()) {
        const PitchClass eFlat{Letter::E, -1};
        return temperament.isRegular() && !temperament.closesWithoutWolf() &&
               temperament.notes().front() == eFlat &&
               temperament.fifths().front().cents() < Cents(0.0);
    }
    return temperament.id() == script.temperament;
}

Note noteFrom(std::istringstream& words) {
    std::string name;
    words >> name;
    const auto note = parseNote(name);
    ENSURES(note.hasValue());
    return *note;
}

BearingPlan worked(const Script& script, const TunedScale& scale) {
    BearingPlan plan;
    plan.id = script.plan.id;
    plan.name = script.plan.name;
    plan.source = script.plan.source;
    std::vector<BearingStep> held;
    const auto standing = [&held](const Note& note) {
        return std::find_if(held.begin(), held.end(), [&note](const BearingStep& step) {
            return step.tune == note;
        });
    };
    std::istringstream lines{std::string(script.steps)};
    for (std::string line; std::getline(lines, line);) {
        std::istringstream words(line);
        std::string what;
        words >> what;
        const Note tuned = noteFrom(words);
        if (what == "set") {
            plan.steps.push_back(fromStandard(scale, tuned, tuned));
            continue;
        }
        const Note against = noteFrom(words);
        if (what == "hold") {
            plan.steps.push_back(temporaryOf(scale, tuned, against));
            held.push_back(plan.steps.back());
            continue;
        }
        if (what == "share") {
            const Note with = noteFrom(words);
            const auto lower = standing(against);
            const auto upper = standing(with);
            plan.steps.push_back(lower != held.end() && upper != held.end()
                                     ? shareBetween(scale, tuned, *lower, *upper)
                                     : shareOf(scale, tuned, against, with));
            continue;
        }
        if (what == "check") {
            // The note named second is the upper one; the step's own note is the one heard above.
            plan.steps.push_back(stepOf(scale, StepKind::Check, against, tuned));
            continue;
        }
        plan.steps.push_back(stepOf(scale, StepKind::Tune, tuned, against));
        held.erase(std::remove_if(held.begin(),
                                  held.end(),
                                  [&tuned](const BearingStep& step) { return step.tune == tuned; }),
                   held.end());
    }
    return plan;
}

} // namespace

std::vector<PublishedPlan> publishedPlansFor(const Temperament& temperament) {
    std::vector<PublishedPlan> plans;
    for (const Script& script : kScripts) {
        if (fits(script, temperament)) {
            plans.push_back(script.plan);
        }
    }
    return plans;
}

Result<BearingPlan> publishedPlan(const TunedScale& scale, std::string_view id) {
    std::string there;
    for (const Script& script : kScripts) {
        if (!fits(script, scale.temperament)) {
            continue;
        }
        if (script.plan.id == id) {
            return worked(script, scale);
        }
        there += ", " + std::string(script.plan.id);
    }
    return failure(ErrorCode::BadArgument,
                   "no plan '" + std::string(id) + "' for " + scale.temperament.id() +
                       "; there is: computed" + there);
}

} // namespace quillbench
