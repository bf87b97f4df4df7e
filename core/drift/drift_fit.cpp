#include "core/drift/drift_fit.hpp"

#include "core/instrument/string.hpp"
#include "core/support/contract.hpp"
#include "core/support/median.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

/// Standard deviations of the parts before anything was heard: cents, cents, kelvin, cents an octave. Own judgement
/// from the figures of reference tables: brass bass moves 5 to 10 cents a kelvin, doors and lids change 2 to 5 cents.
constexpr double kWholePrior = 20.0;
constexpr double kChoirPrior = 4.0;
constexpr double kKelvinPrior = 5.0;
constexpr double kOctavePrior = 1.0;
/// Tukey's constant: 95 % efficient for normal scatter ([Holland1977]).
constexpr double kTukey = 4.685;
constexpr int kRounds = 30;
/// Scatter that strings of a good instrument show at the least, cents.
constexpr double kLeastScatter = 0.05;

/// Beyond the first of each pair a string is played again, beyond the second it has moved; after one, two and more
/// plucks. Chosen by simulation for the accuracy that the header states.
struct Bounds {
    double again;
    double moved;
};

constexpr Bounds kAfterOne{0.95, 4.5};
constexpr Bounds kAfterTwo{1.7, 3.2};
constexpr Bounds kAfterMore{2.45, 2.45};

struct System {
    Eigen::MatrixXd design;
    Eigen::VectorXd moved;
    Eigen::VectorXd noise; ///< standard deviations of the readings
    Eigen::VectorXd prior; ///< inverse variances of the parts
};

System systemOf(const Instrument& instrument, std::span<const Movement> movements) {
    const auto rows = static_cast<Eigen::Index>(movements.size());
    const auto choirs = static_cast<Eigen::Index>(instrument.choirs.size());
    System system;
    system.design = Eigen::MatrixXd::Zero(rows, choirs + 3);
    system.moved.resize(rows);
    system.noise.resize(rows);
    for (Eigen::Index row = 0; row < rows; ++row) {
        const Movement& one = movements[static_cast<std::size_t>(row)];
        EXPECTS(one.string.choir < instrument.choirs.size());
        system.design(row, 0) = 1.0;
        system.design(row, 1 + static_cast<Eigen::Index>(one.string.choir)) = 1.0;
        system.design(row, choirs + 1) = one.centsPerKelvin;
        system.design(row, choirs + 2) = one.place;
        system.moved(row) = one.moved.value();
        system.noise(row) = std::max(one.uncertainty.value(), 0.01);
    }
    system.prior = Eigen::VectorXd::Constant(choirs + 3, 1.0 / (kChoirPrior * kChoirPrior));
    system.prior(0) = 1.0 / (kWholePrior * kWholePrior);
    system.prior(choirs + 1) = 1.0 / (kKelvinPrior * kKelvinPrior);
    system.prior(choirs + 2) = 1.0 / (kOctavePrior * kOctavePrior);
    return system;
}

/// What single strings scatter beside the noise of their readings: from the middle of the residuals, which culprits
/// do not reach (1.4826: normal).
double scatterOf(const Eigen::VectorXd& residual, const Eigen::VectorXd& noise) {
    std::vector<double> sizes;
    std::vector<double> variances;
    for (Eigen::Index i = 0; i < residual.size(); ++i) {
        sizes.push_back(std::abs(residual(i)));
        variances.push_back(noise(i) * noise(i));
    }
    const double spread = 1.4826 * medianOf(sizes);
    return std::max(kLeastScatter, std::sqrt(std::max(0.0, spread * spread - medianOf(variances))));
}

struct Solution {
    Eigen::VectorXd parts;
    Eigen::MatrixXd covariance;
    Eigen::VectorXd deviation; ///< of each string's residual
    double scatter = kLeastScatter;
};

Solution solve(const System& system) {
    const Eigen::Index rows = system.moved.size();
    Solution solution;
    Eigen::VectorXd weight = Eigen::VectorXd::Ones(rows);
    solution.deviation = system.noise;
    // The first rounds start from the median, so that a third of culprits cannot draw the fit to themselves.
    solution.parts = Eigen::VectorXd::Zero(system.prior.size());
    std::vector<double> moved(system.moved.data(), system.moved.data() + rows);
    solution.parts(0) = medianOf(moved);
    for (int round = 0; round < kRounds; ++round) {
        const Eigen::VectorXd residual = system.moved - system.design * solution.parts;
        solution.scatter = scatterOf(residual, system.noise);
        // At first what the parts have not explained yet must not count as culprits.
        const double loose = round < 5 ? 3.0 : 1.0;
        for (Eigen::Index i = 0; i < rows; ++i) {
            solution.deviation(i) = std::hypot(system.noise(i), solution.scatter);
            const double t = residual(i) / (loose * kTukey * solution.deviation(i));
            const double bite = std::abs(t) < 1.0 ? (1.0 - t * t) * (1.0 - t * t) : 0.0;
            weight(i) = bite / (solution.deviation(i) * solution.deviation(i));
        }
        const Eigen::MatrixXd weighted = system.design.transpose() * weight.asDiagonal();
        Eigen::MatrixXd normal = weighted * system.design;
        normal.diagonal() += system.prior;
        const Eigen::LDLT<Eigen::MatrixXd> factor(normal);
        solution.parts = factor.solve(weighted * system.moved);
        solution.covariance = factor.solve(Eigen::MatrixXd::Identity(normal.rows(), normal.cols()));
    }
    return solution;
}

StringDrift verdictOf(double score, int plucks) {
    const double size = std::abs(score);
    const Bounds& bounds = plucks < 2 ? kAfterOne : plucks == 2 ? kAfterTwo : kAfterMore;
    return size > bounds.moved   ? StringDrift::Moved
           : size > bounds.again ? StringDrift::PlayAgain
                                 : StringDrift::AsTheRest;
}

} // namespace

DriftFit fitDrift(const Instrument& instrument, std::span<const Movement> movements) {
    EXPECTS(!movements.empty());
    const System system = systemOf(instrument, movements);
    const Solution solution = solve(system);
    const auto part = [&](Eigen::Index i) {
        return DriftPart{solution.parts(i), std::sqrt(solution.covariance(i, i))};
    };
    const auto choirs = static_cast<Eigen::Index>(instrument.choirs.size());
    DriftFit fit;
    fit.whole = part(0);
    for (Eigen::Index choir = 0; choir < choirs; ++choir) {
        fit.choir.push_back(part(1 + choir));
    }
    fit.kelvin = part(choirs + 1);
    fit.perOctave = part(choirs + 2);
    fit.scatter = Cents(solution.scatter);
    const Eigen::VectorXd expected = system.design * solution.parts;
    for (Eigen::Index row = 0; row < expected.size(); ++row) {
        const Movement& one = movements[static_cast<std::size_t>(row)];
        StringVerdict verdict;
        verdict.string = one.string;
        verdict.expected = Cents(expected(row));
        verdict.own = one.moved - verdict.expected;
        const Eigen::VectorXd place = system.design.row(row).transpose();
        const double fitted = place.dot(solution.covariance * place);
        verdict.score = verdict.own.value() /
                        std::sqrt(solution.deviation(row) * solution.deviation(row) + fitted);
        verdict.drift = verdictOf(verdict.score, one.plucks);
        fit.strings.push_back(verdict);
    }
    return fit;
}

Movement movementOf(
    const Instrument& instrument, StringId string, Cents moved, Cents uncertainty, int plucks) {
    const StringMake& make = instrument.choirs[string.choir].strings[string.course];
    const Hertz pitch = nominalPitch(instrument, string);
    Movement movement{string, moved, uncertainty, plucks, 0.0, 0.0};
    movement.centsPerKelvin = stringState(make, pitch).centsPerKelvin.value();
    movement.place = (soundingNote(instrument, string).midiNumber() - 60) / 12.0;
    return movement;
}

} // namespace quillbench
