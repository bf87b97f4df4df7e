#pragma once

#include "app/formats/batch_file.hpp"
#include "core/support/result.hpp"
#include "core/units/hertz.hpp"

#include <optional>
#include <string>
#include <vector>

namespace quillbench::cli {

/// One key release to listen to, as asked on the command line or in a batch row; not yet checked.
struct DampingQuestion {
    std::string file;
    std::optional<std::string> note;
    std::string choir = "8";
    std::optional<double> targetHz; ///< pitch of the string
    double a4 = 415.0;
    std::string temperament = "equal";
    std::optional<int> channel;
    bool helmholtz = false;
};

/// **Errors** UnreadableInput, naming row and field.
[[nodiscard]] Result<DampingQuestion> dampingQuestionOf(const BatchRow& row);
[[nodiscard]] std::vector<std::string> unknownDampingFields(const BatchRow& row);

/// The pitch of the string that stops. **Errors** BadArgument, one line that names option, value and what is
/// allowed.
[[nodiscard]] Result<Hertz> understand(const DampingQuestion& question);

} // namespace quillbench::cli
