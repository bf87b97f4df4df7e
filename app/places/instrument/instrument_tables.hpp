#pragma once

#include "app/places/instrument/instrument_model.hpp"

class QTableWidget;

namespace quillbench {

/// The rows of jacks: which choir each plucks, from which manual, of what kind, with adjusters or not, where.
void fillRegisters(QTableWidget& table, const Instrument& instrument);

/// The choirs: how many strings, how each is silenced, whether the buff serves it.
void fillChoirs(QTableWidget& table, const Instrument& instrument);

/// The strings of a choir with what was computed of each.
void fillStrings(QTableWidget& table, const InstrumentModel& model, std::size_t choir);

/// Strings that a change of pitch would bring near to breaking.
void fillNearBreaking(QTableWidget& table,
                      const InstrumentModel& model,
                      const std::vector<StringChange>& strings);

} // namespace quillbench
