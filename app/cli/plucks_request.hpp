#pragma once

#include "app/formats/batch_file.hpp"
#include "core/support/result.hpp"
#include "core/units/hertz.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace quillbench::cli {

/// One slow key to listen to, as asked on the command line or in a batch row; not yet checked.
struct PlucksQuestion {
    std::string file;
    std::optional<std::string> note;
    std::optional<double> targetHz;           ///< 8′ pitch of the key
    std::vector<std::string> choirs;          ///< registers that are on
    std::map<std::string, std::string> solos; ///< choir → recording of it alone
    double a4 = 415.0;
    std::string temperament = "equal";
    std::optional<int> channel;
    bool helmholtz = false;
};

/// The question with its meaning.
struct PlucksRequest {
    Hertz key;
    std::vector<double> ratios; ///< of each choir, against the 8′
};

/// **Errors** UnreadableInput, naming row and field.
[[nodiscard]] Result<PlucksQuestion> plucksQuestionOf(const BatchRow& row);
[[nodiscard]] std::vector<std::string> unknownPlucksFields(const BatchRow& row);

/// **Errors** BadArgument, one line that names option, value and what is allowed.
[[nodiscard]] Result<PlucksRequest> understand(const PlucksQuestion& question);

/// The 8′ pitch of a key by its name, or `targetHz` where that is given. **Errors** BadArgument.
[[nodiscard]] Result<Hertz> keyPitch(const std::optional<std::string>& note,
                                     bool helmholtz,
                                     const std::optional<double>& targetHz,
                                     double a4,
                                     const std::string& temperament);

/// "8,8b,4" as its parts.
[[nodiscard]] std::vector<std::string> splitAtCommas(const std::string& text);

} // namespace quillbench::cli
