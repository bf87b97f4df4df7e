#pragma once

#include "core/support/result.hpp"
#include "core/workflow/session.hpp"

#include <string>
#include <string_view>

namespace quillbench {

/// The only schema number of events that is written; newer ones are refused.
inline constexpr int kSessionEventSchema = 1;

/// One event as JSON text: what the session needs to be replayed, to the last bit. The partials of a reading are left
/// out.
[[nodiscard]] std::string formatSessionEvent(const SessionEvent& event);

/// **Errors** UnreadableInput: a newer schema, an unknown kind, a field missing or of another kind. Never throws.
[[nodiscard]] Result<SessionEvent> parseSessionEvent(int schema, std::string_view text);

} // namespace quillbench
