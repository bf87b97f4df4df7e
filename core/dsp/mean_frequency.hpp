#pragma once

#include "core/dsp/constants.hpp"
#include "core/dsp/energy_model.hpp"
#include "core/dsp/phase_track.hpp"
#include "core/dsp/stiff_comb.hpp"

#include <Eigen/Dense>

#include <cmath>
#include <span>

namespace quillbench {

/// Parameters of a string: pitch in cents off a base comb, ln B off the base's, glide in cents.
using StringVector = Eigen::Vector3d;

/// Gaussian likelihood of the parameters in information form.
struct StringInformation {
    Eigen::Matrix3d a = Eigen::Matrix3d::Zero();
    StringVector b = StringVector::Zero();
    double square = 0.0;
    double logDeterminant = 0.0;

    [[nodiscard]] double logLikelihood(const StringVector& at) const {
        return -0.5 * (logDeterminant + square - 2.0 * b.dot(at) + at.dot(a * at));
    }
};

/// What one partial's phase says, for one size of wandering: its mean frequency over the time that the
/// definition of the sustain pitch names is value + glide·perGlide cents off the base comb, and how well the
/// phase fits by glide.
struct MeanFrequency {
    double value = 0.0;
    double perGlide = 0.0;
    double variance = 0.0; ///< cents²
    double slope = 0.0;    ///< cents per unit of ln B
    StringInformation fit;

    /// How pitch, ln B and glide make the mean frequency.
    [[nodiscard]] StringVector row() const { return {1.0, slope, -perGlide}; }
};

/// Cents that partial n gains per unit of ln B while the pitch stays.
[[nodiscard]] double stiffnessSlope(const StiffComb& comb, double n);

/// Certainty in the definition of one partial's mean frequency, as a variance in cents².
[[nodiscard]] double definitionVariance(double hz);

/// Least-squares slope of a partial's phase from 0.1 s to `end`, heard and foretold, its own wandering (an
/// Ornstein–Uhlenbeck process of so many cents) carried by a Kalman filter whose last state is the slope; one
/// result for each size of wandering. **Range** track of two points or more, wanders > 0.
/// **Source** augmented Kalman filter [DeJong1991].
void meanFrequencies(const PhaseTrack& track,
                     double end,
                     const EnergyModel& energy,
                     const StiffComb& base,
                     std::span<const double> wanders,
                     std::span<MeanFrequency> results);

} // namespace quillbench
