#pragma once

#include "core/drift/settling.hpp"
#include "core/instrument/instrument.hpp"
#include "core/logbook/records.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// A string that was replaced, and what was seen of the new one until it was replaced again.
struct NewString {
    StringId string;
    Instant putOn;                 ///< when its replacement was written down
    std::optional<double> lastSet; ///< its age in days when it was last settled; nothing: not since
    SettlingHistory seen;
};

/// Sessions that tuned an instrument within a year after one of its strings was replaced: their events say how far each
/// string had sunk when it was first heard.
[[nodiscard]] std::vector<RowNumber> sessionsAfterNewStrings(const LogbookContents& contents,
                                                             const Instrument& instrument,
                                                             bool virtualInstrument);

/// Every replaced string of an instrument, of its real strings or of those of the virtual instrument, in the order in
/// which they were put on. Seen is what a recheck heard, and, of sessions whose `events` are given, what each string
/// did from where it was settled before to where it was first heard; what the rest of the instrument did meanwhile
/// (core/drift/drift_fit) is taken off where five other strings were heard, else two cents are added to the uncertainty.
[[nodiscard]] std::vector<NewString> newStringsOf(const LogbookContents& contents,
                                                  const Instrument& instrument,
                                                  bool virtualInstrument,
                                                  std::span<const EventRecord> events = {});

/// What the strings replaced before say of new ones, `but` one of them left out where it is given.
[[nodiscard]] SettlingLaw settlingLaw(std::span<const NewString> strings,
                                      std::optional<std::size_t> but = std::nullopt);

} // namespace quillbench
