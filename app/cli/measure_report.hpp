#pragma once

#include "app/cli/measure_request.hpp"
#include "core/analysis/snapshot.hpp"
#include "core/units/frames.hpp"

#include <nlohmann/json.hpp>

#include <optional>
#include <string>

namespace quillbench::cli {

/// What one line of `measure` is about.
struct MeasureContext {
    std::optional<std::string> id;
    const MeasureQuestion* question = nullptr;
    MeasureRequest request;
    std::optional<double> window; ///< as asked
    SampleRate rate;
    bool plucked = false; ///< a pluck of the asked string was found
};

/// The line as cli-contract JSON.
[[nodiscard]] nlohmann::ordered_json measureJson(const MeasureContext& context,
                                                 const StringReading& reading);

/// A line for a row that could not be read.
[[nodiscard]] nlohmann::ordered_json errorJson(const std::optional<std::string>& id,
                                               const MeasureQuestion& question,
                                               std::optional<double> window,
                                               const std::string& text);

/// The same facts for people.
[[nodiscard]] std::string measureTable(const MeasureContext& context, const StringReading& reading);

/// How far a partial lies off the reading's comb.
[[nodiscard]] double centsOffComb(const StringReading& reading, const PartialReading& partial);

/// The warnings, one after the other; empty where there are none.
[[nodiscard]] std::string warningsText(const StringReading& reading);

/// Partial by partial: what was used, what was left out and why.
[[nodiscard]] std::string measureExplanation(const StringReading& reading);

} // namespace quillbench::cli
