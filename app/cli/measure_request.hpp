#pragma once

#include "app/cli/recording_question.hpp"
#include "core/instrument/instrument.hpp"
#include "core/pitch/note.hpp"
#include "core/support/result.hpp"
#include "core/units/hertz.hpp"

#include <optional>
#include <string>
#include <vector>

namespace quillbench::cli {

/// One thing to measure, as asked on the command line or in a batch row; not yet checked.
struct MeasureQuestion : RecordingQuestion {
    std::optional<std::string> note;
    std::string choir = "8";
    std::optional<double> targetHz;
    std::optional<std::string> also;
    bool helmholtz = false;
};

/// The question with its meaning.
struct MeasureRequest {
    std::optional<Note> note;
    std::optional<Hertz> target; ///< none: the note is to be recognised
    double alsoRatio = 0.0; ///< pitch of the other string as a multiple of this one's; 0 for none
};

/// **Errors** UnreadableInput, naming row and field.
[[nodiscard]] Result<MeasureQuestion> measureQuestionOf(const BatchRow& row);

/// Fields of a row that `measure` does not know.
[[nodiscard]] std::vector<std::string> unknownMeasureFields(const BatchRow& row);

/// **Errors** BadArgument, one line that names option, value and what is allowed.
[[nodiscard]] Result<MeasureRequest> understand(const MeasureQuestion& question);

/// Pitch of a choir's string against the 8′ of the same key: 8 and 8b 1, 4 2, 16 0.5.
[[nodiscard]] Result<double> choirRatio(const std::string& choir);

/// Where an 8′ string of this note is tuned. **Errors** BadArgument: no such temperament.
[[nodiscard]] Result<Hertz>
eightFootPitch(const Note& note, double a4, const std::string& temperament);

} // namespace quillbench::cli
