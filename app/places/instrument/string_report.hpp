#pragma once

#include "app/places/instrument/instrument_model.hpp"
#include "app/print/report.hpp"

namespace quillbench {

/// The string list on paper: choir by choir from the bass, what each string is and bears.
[[nodiscard]] Report stringReport(const InstrumentModel& model);

} // namespace quillbench
