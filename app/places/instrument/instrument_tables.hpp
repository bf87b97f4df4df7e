#pragma once

#include "app/places/instrument/cell_delegate.hpp"
#include "app/places/instrument/instrument_model.hpp"
#include "core/instrument/wire_choice.hpp"

#include <functional>
#include <map>

class QTableWidget;

namespace quillbench {

/// Columns of the tables that take entries.
namespace register_column {
inline constexpr int kName = 0;
inline constexpr int kChoir = 1;
inline constexpr int kManual = 2;
inline constexpr int kKind = 3;
inline constexpr int kAdjusters = 4;
inline constexpr int kPluckPoint = 5; ///< per cent of the length
inline constexpr int kTravel = 6;     ///< mm
} // namespace register_column

namespace choir_column {
inline constexpr int kSilenced = 1;
inline constexpr int kBuff = 2;
} // namespace choir_column

namespace string_column {
inline constexpr int kMaterial = 1;
inline constexpr int kPinRow = 2;
inline constexpr int kPinPlace = 3;
inline constexpr int kLength = 4;
inline constexpr int kWire = 5;
} // namespace string_column

/// The kinds of a register, in the order of their choice.
struct RegisterKind {
    bool lute = false;
    bool dogleg = false;
};

[[nodiscard]] RegisterKind registerKind(int choice);

/// How each column is entered: what can be chosen depends on the instrument.
[[nodiscard]] std::map<int, CellEntry> registerEntries(const Instrument& instrument);
[[nodiscard]] std::map<int, CellEntry> choirEntries();
[[nodiscard]] std::map<int, CellEntry> stringEntries();

/// Fills a table anew; the marked cell stays marked, where there still is one.
void keepingPlace(QTableWidget& table, const std::function<void()>& fill);

/// The rows of jacks: which choir each plucks, from which manual, of what kind, with adjusters or not, where.
void fillRegisters(QTableWidget& table, const Instrument& instrument);

/// The choirs: how many strings, how each is silenced, whether the buff serves it.
void fillChoirs(QTableWidget& table, const Instrument& instrument);

/// The strings of a choir with what was computed of each.
void fillStrings(QTableWidget& table, const InstrumentModel& model, std::size_t choir);

/// How a wire is likely to sound beside its neighbours: "like its neighbours", "shorter by 12 %, …".
[[nodiscard]] QString soundBeside(const WireOption& option);

/// Wires that could be fitted, each against the strings beside it.
void fillWires(QTableWidget& table, const WireAdvice& advice);

/// Strings that a change of pitch would bring near to breaking.
void fillNearBreaking(QTableWidget& table,
                      const InstrumentModel& model,
                      const std::vector<StringChange>& strings);

} // namespace quillbench
