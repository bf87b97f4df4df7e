#pragma once

#include "core/support/result.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quillbench {

/// In which order things are tried, the most harmless first.
enum class FaultStep { Climate, Register, Height, Cleaning, Jack, Plectrum };

/// Who may do it.
enum class FaultHand { Anyone, Owner, Technician, Maker };

enum class FaultUndo { Yes, Partly, No };

/// What the program measures that helps to answer a question.
enum class FaultMeasure { Strength, Displacement, Sustain, Damping, Repetition, Stagger };

/// One cause of a symptom, how to see whether it is so, and what to do about it.
struct FaultCause {
    std::string cause;
    std::string look;                     ///< the question that tells
    std::optional<FaultMeasure> measured; ///< what to show beside it
    FaultStep step = FaultStep::Climate;
    std::string remedy;
    FaultHand who = FaultHand::Anyone;
    FaultUndo undo = FaultUndo::Yes;
    bool adjusters = false; ///< speaks of adjusting screws: only where the instrument has them
    std::string source;
};

struct FaultSymptom {
    std::string id;
    std::string title;
    std::string signs;
    std::vector<FaultCause> causes; ///< the likeliest first
};

struct FaultCaution {
    std::string id;
    std::string text;
    std::string source;
};

/// The fault finder's data file.
struct FaultBook {
    std::vector<FaultCaution> cautions;
    std::vector<FaultSymptom> symptoms;

    /// Null where there is none of that id.
    [[nodiscard]] const FaultSymptom* find(std::string_view id) const;
};

/// Reads schema 1. Beside each text (title, signs, cause, look, remedy, and the text of a caution) may stand the same in
/// another language, as "title_de": it is taken where `language` is "de". **Errors** UnreadableInput, naming the field, its value and how to mend it: not JSON, another
/// schema, a missing or empty text, an unknown word, an id given twice, a symptom without causes.
[[nodiscard]] Result<FaultBook> parseFaultBook(std::string_view text,
                                               std::string_view language = {});

/// The causes of a symptom on an instrument, in the order in which they are tried: by step, the likelier first within
/// one; those that speak of adjusting screws only where there are some.
[[nodiscard]] std::vector<FaultCause> inOrderOfCare(const FaultSymptom& symptom, bool adjusters);

} // namespace quillbench
