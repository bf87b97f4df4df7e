#pragma once

#include "app/cli/beats_request.hpp"
#include "core/dsp/beat_estimator.hpp"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace quillbench::cli {

/// Where the side of a beat is known from.
enum class LowerKnown { No, Kept, HeardAlone };

/// Loudness of two partials that meet, from the later pluck on: seconds and dB re full scale.
struct MeetingTrace {
    int lowerPartial = 1;
    int upperPartial = 1;
    std::vector<std::pair<double, double>> points;
};

/// One window of one question, answered.
struct BeatsLine {
    std::optional<double> window; ///< seconds; nothing: all that was heard
    std::optional<BeatsRequest> request;
    BeatReading reading;
    LowerKnown known = LowerKnown::No;
    std::vector<MeetingTrace> traces; ///< of the last window, where a picture is wanted
    std::vector<std::string> warnings;
};

/// As the contract of the command line has it.
[[nodiscard]] nlohmann::ordered_json beatsJson(const std::optional<std::string>& id,
                                               const BeatsQuestion& question,
                                               const BeatsLine& line);

[[nodiscard]] nlohmann::ordered_json beatsProblemJson(const std::optional<std::string>& id,
                                                      const std::string& file,
                                                      const std::optional<double>& window,
                                                      const std::string& text);

/// One line for people, with its newline.
[[nodiscard]] std::string beatsTable(const BeatsQuestion& question, const BeatsLine& line);

/// Pair by pair of the partials that meet, and where the side is known from. **Range** a reading that is found.
[[nodiscard]] std::string beatsExplanation(const BeatsLine& line);

} // namespace quillbench::cli
