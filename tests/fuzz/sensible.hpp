#pragma once

#include "core/analysis/snapshot.hpp"
#include "core/support/contract.hpp"

#include <cmath>

namespace quillbench::test {

/// Whatever was heard: no reading has a number that is none.
inline void expectSensible(const StringReading& reading) {
    EXPECTS(std::isfinite(reading.pitch.value()) && std::isfinite(reading.pitchUncertainty));
    EXPECTS(std::isfinite(reading.deviation.value()));
    EXPECTS(std::isfinite(reading.deviationUncertainty.value()));
    EXPECTS(std::isfinite(reading.startSharpness.value()));
    EXPECTS(std::isfinite(reading.inharmonicity));
    if (reading.standing != Standing::Nothing) {
        EXPECTS(reading.pitch.value() > 0.0 && reading.pitchUncertainty > 0.0);
    }
}

/// The next snapshot after `before`.
inline void expectSensible(const AnalysisSnapshot& shot, const AnalysisSnapshot& before) {
    EXPECTS(shot.sequence == before.sequence + 1);
    EXPECTS(shot.pluckNumber >= before.pluckNumber && shot.gaps >= before.gaps);
    EXPECTS(std::isfinite(shot.microphone.level.value()));
    EXPECTS(std::isfinite(shot.microphone.peak.value()));
    EXPECTS(std::isfinite(shot.microphone.noiseFloor.value()));
    if (shot.reading) {
        expectSensible(*shot.reading);
    }
    if (shot.finished) {
        expectSensible(*shot.finished);
    }
    if (shot.finishedPair) {
        EXPECTS(std::isfinite(shot.finishedPair->beat.perSecond()));
    }
}

} // namespace quillbench::test
