#pragma once

#include "app/formats/batch_file.hpp"
#include "core/pitch/interval.hpp"
#include "core/support/result.hpp"
#include "core/units/beat_rate.hpp"
#include "core/units/hertz.hpp"

#include <optional>
#include <string>
#include <vector>

namespace quillbench::cli {

/// One pair to listen to, as asked on the command line or in a batch row; not yet checked.
struct BeatsQuestion {
    std::string file;
    std::optional<std::string> lower;
    std::optional<std::string> upper;
    std::string lowerChoir = "8";
    std::string upperChoir = "8";
    std::optional<double> lowerHz;
    std::optional<double> upperHz;
    std::optional<std::string> interval;
    double a4 = 415.0;
    std::string temperament = "equal";
    double rangeCents = 60.0;
    std::optional<std::string> alone; ///< recording of the lower string by itself
    std::optional<double> aloneFrom;
    std::optional<double> aloneTo;
    std::optional<double> lowerCents; ///< a kept reading of the lower string, from its target
    std::optional<double> lowerU;
    double from = 0.0;
    std::vector<double> windows; ///< empty: all that can be used
    std::optional<int> channel;
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
