#include "core/workflow/session_event.hpp"

namespace quillbench {

HeardPair heardPair(const PairReading& reading, Seconds at) {
    return {reading.lower,
            reading.upper,
            reading.beat,
            reading.uncertainty,
            reading.direction,
            reading.weak || !reading.joint,
            reading.pluck,
            at,
            reading.reference == ReferenceKind::HeardAlone};
}

} // namespace quillbench
