#pragma once

#include "app/cli/recording_question.hpp"
#include "core/pitch/interval.hpp"
#include "core/support/result.hpp"
#include "core/units/beat_rate.hpp"
#include "core/units/hertz.hpp"

#include <optional>
#include <string>
#include <vector>

namespace quillbench::cli {

/// One pair to listen to, as asked on the command line or in a batch row; not yet checked.
struct BeatsQuestion : RecordingQuestion {
    std::optional<std::string> lower;
    std::optional<std::string> upper;
    std::string lowerChoir = "8";
    std::string upperChoir = "8";
    std::optional<double> lowerHz;
    std::optional<double> upperHz;
    std::optional<std::string> interval;
    std::optional<std::string> alone; ///< recording of the lower string by itself
    std::optional<double> aloneFrom;
    std::optional<double> aloneTo;
    std::optional<double> lowerCents; ///< a kept reading of the lower string, from its target
    std::optional<double> lowerU;
};

/// The question with its meaning.
struct BeatsRequest {
    const Interval* interval = nullptr;
    Hertz lower; ///< targets of partial 1
    Hertz upper;
    BeatRate target; ///< the temperament's beat, stiffness left out; + = wide
};

/// **Errors** UnreadableInput, naming row and field.
[[nodiscard]] Result<BeatsQuestion> beatsQuestionOf(const BatchRow& row);
[[nodiscard]] std::vector<std::string> unknownBeatsFields(const BatchRow& row);

/// **Errors** BadArgument, one line that names option, value and what is allowed.
[[nodiscard]] Result<BeatsRequest> understand(const BeatsQuestion& question);

} // namespace quillbench::cli
