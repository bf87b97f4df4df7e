#include "core/dsp/tied_pair/tied_fit.hpp"

#include "core/dsp/constants.hpp"
#include "core/support/contract.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numeric>
#include <utility>

namespace quillbench {

namespace {

constexpr double kMostStep = 3.0;

std::vector<Eigen::Index> chosenUnknowns(const TiedFit::Choice& choice, Eigen::Index all) {
    if (!choice.unknowns.empty()) {
        return choice.unknowns;
    }
    std::vector<Eigen::Index> every(static_cast<std::size_t>(all));
    std::iota(every.begin(), every.end(), Eigen::Index{0});
    return every;
}

std::vector<std::size_t> chosenBands(const TiedFit::Choice& choice, std::size_t all) {
    if (!choice.bands.empty()) {
        return choice.bands;
    }
    std::vector<std::size_t> every(all);
    std::iota(every.begin(), every.end(), std::size_t{0});
    return every;
}

} // namespace

TiedFit::TiedFit(std::vector<TiedString> strings, std::vector<TiedBand> someBands, Prior knowledge)
    : model(std::move(strings)),
      bands(std::move(someBands)),
      prior(std::move(knowledge)) {
    EXPECTS(prior.mean.size() == model.unknowns() && prior.precision.rows() == model.unknowns());
}

void TiedFit::settleOver(const std::vector<std::size_t>& chosen,
                         const Eigen::VectorXd& at,
                         int times) {
    for (const std::size_t b : chosen) {
        for (int i = 0; i < times; ++i) {
            model.settle(at, bands[b], model.solve(at, bands[b]));
        }
    }
}

void TiedFit::settleNoise(const Eigen::VectorXd& at, int times) {
    settleOver(chosenBands({}, bands.size()), at, times);
}

double TiedFit::costOver(const std::vector<std::size_t>& chosen, const Eigen::VectorXd& at) const {
    const Eigen::VectorXd from = at - prior.mean;
    double cost = 0.5 * from.dot(prior.precision * from);
    for (const std::size_t b : chosen) {
        cost += model.costOf(bands[b], model.solve(at, bands[b]));
    }
    return cost;
}

double TiedFit::costAt(const Eigen::VectorXd& at) const {
    return costOver(chosenBands({}, bands.size()), at);
}

Eigen::VectorXcd TiedFit::amplitudes(const Eigen::VectorXd& at, std::size_t band) const {
    return model.solve(at, bands[band]).amplitudes;
}

Eigen::VectorXcd
TiedFit::drawnAmplitudes(const Eigen::VectorXd& at, std::size_t band, Random& random) const {
    const SolvedBand solved = model.solve(at, bands[band]);
    Eigen::VectorXcd white(solved.amplitudes.size());
    for (std::complex<double>& one : white) {
        const double real = random.normal();
        one = {real, random.normal()};
    }
    return solved.amplitudes + solved.normal.llt().matrixU().solve(white);
}

Eigen::MatrixXcd TiedFit::amplitudeCovariance(const Eigen::VectorXd& at, std::size_t band) const {
    const SolvedBand solved = model.solve(at, bands[band]);
    return solved.normal.llt().solve(
        Eigen::MatrixXcd::Identity(solved.normal.rows(), solved.normal.cols()));
}

double TiedFit::refine(Eigen::VectorXd& at, int steps, const Choice& choice) {
    const auto free = chosenUnknowns(choice, unknowns());
    const auto heard = chosenBands(choice, bands.size());
    const auto many = static_cast<Eigen::Index>(free.size());
    settleOver(heard, at, 3);
    double cost = costOver(heard, at);
    double damping = 1e-2;
    for (int step = 0; step < steps; ++step) {
        TiedModel::Normal normal{prior.precision, prior.precision * (at - prior.mean)};
        for (const std::size_t b : heard) {
            model.addTo(normal, at, bands[b]);
        }
        Eigen::MatrixXd matrix(many, many);
        Eigen::VectorXd gradient(many);
        for (Eigen::Index i = 0; i < many; ++i) {
            gradient[i] = normal.gradient[free[static_cast<std::size_t>(i)]];
            for (Eigen::Index j = 0; j < many; ++j) {
                matrix(i, j) = normal.matrix(free[static_cast<std::size_t>(i)],
                                             free[static_cast<std::size_t>(j)]);
            }
        }
        bool better = false;
        double gained = 0.0;
        for (int attempt = 0; attempt < 6 && !better; ++attempt) {
            Eigen::MatrixXd damped = matrix;
            damped.diagonal() *= 1.0 + damping;
            const Eigen::VectorXd move = damped.ldlt().solve(-gradient);
            Eigen::VectorXd there = at;
            for (Eigen::Index i = 0; i < many; ++i) {
                there[free[static_cast<std::size_t>(i)]] +=
                    std::clamp(move[i], -kMostStep, kMostStep);
            }
            const double reached = costOver(heard, there);
            if (reached < cost) {
                better = true;
                gained = cost - reached;
                at = there;
            } else {
                damping *= 6.0;
            }
        }
        if (!better) {
            break;
        }
        damping = std::max(damping / 5.0, 1e-6);
        settleOver(heard, at, 1);
        cost = costOver(heard, at);
        if (gained < 1e-2 && damping < 1.0) {
            break;
        }
    }
    return cost;
}

Eigen::MatrixXd TiedFit::normalMatrix(const Eigen::VectorXd& at) const {
    TiedModel::Normal normal{prior.precision, Eigen::VectorXd::Zero(unknowns())};
    for (const TiedBand& band : bands) {
        model.addTo(normal, at, band);
    }
    return normal.matrix;
}

double TiedFit::logVolume(const Eigen::VectorXd& at) const {
    const Eigen::VectorXd own = normalMatrix(at).ldlt().vectorD();
    double sum = own.cwiseMax(1e-12).array().log().sum();
    for (const TiedBand& band : bands) {
        const Eigen::MatrixXcd lower = model.solve(at, band).normal.llt().matrixL();
        // Real and imaginary parts.
        sum += 4.0 * lower.diagonal().real().array().log().sum();
    }
    return -0.5 * sum;
}

void TiedFit::reshape(const Eigen::VectorXd& at) {
    std::vector<std::vector<double>> energies(model.strings.size());
    std::vector<std::vector<double>> decays(model.strings.size());
    for (std::size_t b = 0; b < bands.size(); ++b) {
        const Eigen::VectorXcd found = amplitudes(at, b);
        const TiedSegment& pair = bands[b].segments[0];
        for (std::size_t k = 0; k < 2 * pair.parts.size(); ++k) {
            const TiedPart& part = pair.parts[k / 2];
            energies[part.string].push_back(std::norm(found[static_cast<Eigen::Index>(k)]) + 1e-24);
            decays[part.string].push_back(model.lineAt(at, part, k % 2 == 1).decay);
        }
    }
    for (std::size_t s = 0; s < std::min<std::size_t>(model.strings.size(), 2); ++s) {
        if (!energies[s].empty()) {
            model.strings[s].course = GlideCourse(energies[s], decays[s]);
        }
    }
    if (model.strings.size() > 2) {
        model.strings[2].course = model.strings[0].course;
    }
}

} // namespace quillbench
