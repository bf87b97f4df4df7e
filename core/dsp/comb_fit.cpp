#include "core/dsp/comb_fit.hpp"

#include "core/dsp/comb_band_system.hpp"
#include "core/dsp/constants.hpp"
#include "core/support/contract.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

using Complex = std::complex<double>;
constexpr Complex kI(0.0, 1.0);

// What a damped line leaves over on real strings however quiet the room: −35 dB of the band's energy.
constexpr double kModelFloor = 3e-4;
/// How firmly a second polarisation is held at its expected size: as by noise of −25 dB.
constexpr double kSecondHeld = 3e-3;
// Decays outside these bounds are not strings: 0.02 to 90 per second.
constexpr double kLowestLnDecay = -4.0;
constexpr double kHighestLnDecay = 4.5;

} // namespace

double CombState::partial(int n) const {
    const double square = static_cast<double>(n) * n;
    return n * f0 * std::sqrt(1.0 + std::exp(lnB) * square);
}

CombFit::CombFit(std::vector<double> times,
                 std::vector<CombState> strings,
                 std::vector<CombPrior> priors,
                 std::vector<CombLine> lines,
                 std::vector<CombBand> bands,
                 double frameCorrelation)
    : times_(std::move(times)),
      strings_(std::move(strings)),
      priors_(std::move(priors)),
      lines_(std::move(lines)),
      bands_(std::move(bands)),
      frameCorrelation_(frameCorrelation) {
    EXPECTS(!times_.empty() && strings_.size() == priors_.size());
    for (CombBand& band : bands_) {
        band.energy = std::max(band.envelope.squaredNorm(), 1e-30);
    }
    glidePhase_.assign(strings_.size(), std::vector<double>(times_.size(), 0.0));
    energyDecay_.assign(strings_.size(), {});
    for (std::size_t s = 0; s < strings_.size(); ++s) {
        for (const CombLine& line : lines_) {
            if (line.string == s) {
                energyDecay_[s].push_back({1.0, 2.0 * std::exp(line.lnDecay)});
            }
        }
    }
    for (std::size_t s = 0; s < strings_.size(); ++s) {
        for (std::size_t i = 0; i < times_.size(); ++i) {
            glidePhase_[s][i] = glidePhase(s, times_[i]);
        }
    }
}

double CombFit::lineFrequency(const CombLine& line) const {
    return strings_[line.string].partial(line.number) + line.offset;
}

double CombFit::glidePhase(std::size_t string, double time) const {
    const double since = std::max(0.0, time - strings_[string].pluck);
    double sum = 0.0;
    double weights = 0.0;
    for (const auto& [weight, decay] : energyDecay_[string]) {
        sum += weight * (1.0 - std::exp(-decay * since)) / decay;
        weights += weight;
    }
    return weights > 0.0 ? sum / weights : 0.0;
}

void CombFit::updateGlideShape() {
    for (std::size_t s = 0; s < strings_.size(); ++s) {
        auto& decays = energyDecay_[s];
        decays.clear();
        for (const CombLine& line : lines_) {
            if (line.string == s) {
                decays.push_back({std::norm(line.amplitude) + 1e-18, 2.0 * std::exp(line.lnDecay)});
            }
        }
        for (std::size_t i = 0; i < times_.size(); ++i) {
            glidePhase_[s][i] = glidePhase(s, times_[i]);
        }
    }
}

Eigen::Index CombFit::columnsOf(const CombBand& band) const {
    Eigen::Index columns = 0;
    for (const std::size_t line : band.lines) {
        columns += lines_[line].second ? 2 : 1;
    }
    return columns;
}

Eigen::MatrixXcd CombFit::basis(const CombBand& band) const {
    const auto frames = static_cast<Eigen::Index>(times_.size());
    Eigen::MatrixXcd e(frames, columnsOf(band));
    Eigen::Index column = 0;
    const auto add = [&](const CombLine& line, double frequency, double decay) {
        const CombState& string = strings_[line.string];
        for (Eigen::Index i = 0; i < frames; ++i) {
            const auto frame = static_cast<std::size_t>(i);
            const double t = times_[frame];
            const double phase =
                kTwoPi * ((frequency - band.centre) * t +
                          frequency * string.glide * glidePhase_[line.string][frame]);
            e(i, column) = std::polar(std::exp(-decay * (t - string.pluck)), phase);
        }
        ++column;
    };
    for (const std::size_t index : band.lines) {
        const CombLine& line = lines_[index];
        add(line, lineFrequency(line), std::exp(line.lnDecay));
        if (line.second) {
            add(line,
                lineFrequency(line) + line.second->splitHz,
                std::exp(line.lnDecay + line.second->lnSlower));
        }
    }
    return e;
}

/// Least-squares amplitudes of the columns of `e`; a whisper of ridge keeps equal lines apart, and more of it a second
/// polarisation at the size that it is expected to have.
Eigen::VectorXcd CombFit::amplitudesIn(const CombBand& band, const Eigen::MatrixXcd& e) const {
    Eigen::MatrixXcd gram = e.adjoint() * e;
    const double loudest = gram.diagonal().real().maxCoeff();
    gram.diagonal().array() += 1e-6 * loudest + 1e-30;
    Eigen::Index column = 0;
    for (const std::size_t index : band.lines) {
        ++column;
        if (const auto& second = lines_[index].second) {
            gram(column, column) += kSecondHeld * loudest / (second->share * second->share);
            ++column;
        }
    }
    return gram.ldlt().solve(e.adjoint() * band.envelope);
}

double CombFit::project(CombBand& band) {
    const Eigen::MatrixXcd e = basis(band);
    const Eigen::VectorXcd c = amplitudesIn(band, e);
    Eigen::Index column = 0;
    for (const std::size_t index : band.lines) {
        lines_[index].amplitude = c(column);
        column += lines_[index].second ? 2 : 1;
    }
    return (band.envelope - e * c).squaredNorm();
}

double CombFit::residualShare(std::size_t index) const {
    const CombBand& band = bands_[index];
    const Eigen::MatrixXcd e = basis(band);
    return (band.envelope - e * amplitudesIn(band, e)).squaredNorm() / band.energy;
}

double CombFit::priorCost() const {
    double cost = 0.0;
    const auto half = [](double x, double deviation) {
        return deviation > 0.0 ? 0.5 * (x / deviation) * (x / deviation) : 0.0;
    };
    for (std::size_t s = 0; s < strings_.size(); ++s) {
        cost += half(strings_[s].f0 - priors_[s].f0, priors_[s].f0Deviation);
        cost += half(strings_[s].lnB - priors_[s].lnB, priors_[s].lnBDeviation);
        cost += half(strings_[s].glide - priors_[s].glide, priors_[s].glideDeviation);
    }
    if (strings_.size() == 2) {
        cost += half(strings_[0].lnB - strings_[1].lnB, stiffnessTie_);
    }
    return cost;
}

double CombFit::totalCost(std::size_t bandLimit) {
    const double effective = static_cast<double>(times_.size()) / frameCorrelation_;
    double cost = priorCost();
    for (std::size_t b = 0; b < std::min(bandLimit, bands_.size()); ++b) {
        cost += effective * std::log(project(bands_[b]) / bands_[b].energy + kModelFloor);
        for (const std::size_t index : bands_[b].lines) {
            const CombLine& line = lines_[index];
            const double e = (line.offset - line.offsetPrior) / line.offsetDeviation;
            const double d = (line.lnDecay - line.lnDecayPrior) / line.lnDecayDeviation;
            cost += 0.5 * (e * e + d * d);
        }
    }
    return cost;
}

std::vector<double>
CombFit::scan(std::size_t string, const std::vector<double>& f0, std::size_t bandLimit) {
    const double effective = static_cast<double>(times_.size()) / frameCorrelation_;
    const double before = strings_[string].f0;
    std::vector<double> costs;
    costs.reserve(f0.size());
    for (const double value : f0) {
        strings_[string].f0 = value;
        double cost = 0.0;
        for (std::size_t b = 0; b < std::min(bandLimit, bands_.size()); ++b) {
            const auto& own = bands_[b].lines;
            if (std::any_of(own.begin(), own.end(), [&](std::size_t index) {
                    return lines_[index].string == string;
                })) {
                cost += effective * std::log(project(bands_[b]) / bands_[b].energy + kModelFloor);
            }
        }
        costs.push_back(cost);
    }
    strings_[string].f0 = before;
    return costs;
}

void CombFit::setString(std::size_t string, double f0, double lnB) {
    strings_[string].f0 = f0;
    strings_[string].lnB = lnB;
}

CombFit::BandSystem CombFit::system(const CombBand& band) const {
    const auto frames = static_cast<Eigen::Index>(times_.size());
    const auto p = static_cast<Eigen::Index>(band.lines.size());
    const auto shared = static_cast<Eigen::Index>(kPerString * strings_.size());
    const Eigen::MatrixXcd e = basis(band);
    const Eigen::VectorXcd c = amplitudesIn(band, e);
    const Eigen::VectorXcd residual = band.envelope - e * c;
    const Eigen::Index q = e.cols();
    const Eigen::Index own = 2 * (q + p);

    // Columns: Re c, Im c of each column of e, ln decay and offset of each line; then the shared unknowns.
    Eigen::MatrixXcd j = Eigen::MatrixXcd::Zero(frames, own + shared);
    j.leftCols(q) = e;
    j.middleCols(q, q) = kI * e;
    Eigen::Index column = 0;
    for (Eigen::Index k = 0; k < p; ++k) {
        const CombLine& line = lines_[band.lines[static_cast<std::size_t>(k)]];
        const CombState& string = strings_[line.string];
        const double frequency = lineFrequency(line);
        const double decay = std::exp(line.lnDecay);
        const double slower = line.second ? std::exp(line.second->lnSlower) : 0.0;
        const double n = line.number;
        const double stiffness = std::exp(string.lnB);
        const double root = std::sqrt(1.0 + stiffness * n * n);
        const Eigen::Index at = own + kPerString * static_cast<Eigen::Index>(line.string);
        for (Eigen::Index i = 0; i < frames; ++i) {
            const auto frame = static_cast<std::size_t>(i);
            const double t = times_[frame];
            const double phi = glidePhase_[line.string][frame];
            const Complex first = e(i, column) * c(column);
            const Complex second = line.second ? e(i, column + 1) * c(column + 1) : Complex();
            const Complex turn = kI * kTwoPi * (t + string.glide * phi) * (first + second);
            j(i, 2 * q + k) = -decay * (t - string.pluck) * (first + slower * second);
            j(i, 2 * q + p + k) = turn;
            j(i, at) += n * root * turn;
            j(i, at + 1) += n * string.f0 * 0.5 * n * n / root * stiffness * turn;
            j(i, at + 2) += kI * kTwoPi * frequency * phi * (first + second);
        }
        column += line.second ? 2 : 1;
    }
    const double variance = frameCorrelation_ *
                            (residual.squaredNorm() + kModelFloor * band.energy) /
                            (2.0 * static_cast<double>(times_.size()));
    Eigen::MatrixXd h = (j.adjoint() * j).real() / variance;
    Eigen::VectorXd g = (j.adjoint() * residual).real() / variance;
    for (Eigen::Index k = 0; k < p; ++k) {
        const CombLine& line = lines_[band.lines[static_cast<std::size_t>(k)]];
        const Eigen::Index decayAt = 2 * q + k;
        const Eigen::Index offsetAt = decayAt + p;
        const double decayWeight = 1.0 / (line.lnDecayDeviation * line.lnDecayDeviation);
        const double offsetWeight = 1.0 / (line.offsetDeviation * line.offsetDeviation);
        h(decayAt, decayAt) += decayWeight;
        g(decayAt) += decayWeight * (line.lnDecayPrior - line.lnDecay);
        h(offsetAt, offsetAt) += offsetWeight;
        g(offsetAt) += offsetWeight * (line.offsetPrior - line.offset);
    }
    for (Eigen::Index k = 0; k < 2 * q; ++k) {
        h(k, k) *= 1.0 + 1e-6;
        h(k, k) += 1e-30;
    }
    BandSystem result;
    result.local = h.topLeftCorner(own, own);
    result.cross = h.topRightCorner(own, shared);
    result.shared = h.bottomRightCorner(shared, shared);
    result.localGradient = g.head(own);
    result.sharedGradient = g.tail(shared);
    result.solver.compute(result.local);
    return result;
}

void CombFit::addPriors(Eigen::MatrixXd& normal, Eigen::VectorXd& gradient) const {
    const auto add = [&](Eigen::Index at, double off, double deviation) {
        if (deviation > 0.0) {
            const double weight = 1.0 / (deviation * deviation);
            normal(at, at) += weight;
            gradient(at) -= weight * off;
        }
    };
    for (std::size_t s = 0; s < strings_.size(); ++s) {
        const auto at = kPerString * static_cast<Eigen::Index>(s);
        add(at, strings_[s].f0 - priors_[s].f0, priors_[s].f0Deviation);
        add(at + 1, strings_[s].lnB - priors_[s].lnB, priors_[s].lnBDeviation);
        add(at + 2, strings_[s].glide - priors_[s].glide, priors_[s].glideDeviation);
    }
    if (strings_.size() == 2 && stiffnessTie_ > 0.0) {
        const double weight = 1.0 / (stiffnessTie_ * stiffnessTie_);
        const double off = strings_[0].lnB - strings_[1].lnB;
        const Eigen::Index a = 1;
        const Eigen::Index b = kPerString + 1;
        normal(a, a) += weight;
        normal(b, b) += weight;
        normal(a, b) -= weight;
        normal(b, a) -= weight;
        gradient(a) -= weight * off;
        gradient(b) += weight * off;
    }
}

double CombFit::refine(int steps, std::size_t bandLimit) {
    const std::size_t used = std::min(bandLimit, bands_.size());
    const auto shared = static_cast<Eigen::Index>(kPerString * strings_.size());
    for (std::size_t b = 0; b < used; ++b) {
        static_cast<void>(project(bands_[b])); // the glide's shape wants amplitudes
    }
    updateGlideShape();
    double cost = totalCost(used);
    double damping = 1e-3;
    for (int step = 0; step < steps; ++step) {
        Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(shared, shared);
        Eigen::VectorXd gradient = Eigen::VectorXd::Zero(shared);
        std::vector<BandSystem> systems;
        systems.reserve(used);
        for (std::size_t b = 0; b < used; ++b) {
            systems.push_back(system(bands_[b]));
            const BandSystem& s = systems.back();
            normal += s.shared - s.cross.transpose() * s.solver.solve(s.cross);
            gradient += s.sharedGradient - s.cross.transpose() * s.solver.solve(s.localGradient);
        }
        addPriors(normal, gradient);
        const std::vector<CombState> stringsBefore = strings_;
        const std::vector<CombLine> linesBefore = lines_;
        bool better = false;
        double gain = 0.0;
        for (int attempt = 0; attempt < 6 && !better; ++attempt) {
            Eigen::MatrixXd damped = normal;
            damped.diagonal().array() += damping * normal.diagonal().array() + 1e-12;
            const Eigen::VectorXd move = damped.ldlt().solve(gradient);
            for (std::size_t s = 0; s < strings_.size(); ++s) {
                const auto at = kPerString * static_cast<Eigen::Index>(s);
                strings_[s].f0 += move(at);
                strings_[s].lnB += std::clamp(move(at + 1), -0.5, 0.5);
                strings_[s].glide += std::clamp(move(at + 2), -0.001, 0.001);
            }
            for (std::size_t b = 0; b < used; ++b) {
                const BandSystem& s = systems[b];
                const Eigen::VectorXd own = s.solver.solve(s.localGradient - s.cross * move);
                const auto p = static_cast<Eigen::Index>(bands_[b].lines.size());
                const Eigen::Index q = columnsOf(bands_[b]);
                for (Eigen::Index k = 0; k < p; ++k) {
                    CombLine& line = lines_[bands_[b].lines[static_cast<std::size_t>(k)]];
                    line.lnDecay = std::clamp(line.lnDecay + std::clamp(own(2 * q + k), -0.5, 0.5),
                                              kLowestLnDecay,
                                              kHighestLnDecay);
                    const double most = 3.0 * line.offsetDeviation;
                    line.offset += std::clamp(own(2 * q + p + k), -most, most);
                }
            }
            const double reached = totalCost(used);
            if (reached < cost) {
                better = true;
                gain = cost - reached;
                cost = reached;
                damping = std::max(damping / 5.0, 1e-7);
            } else {
                strings_ = stringsBefore;
                lines_ = linesBefore;
                damping = damping * 6.0 + 1e-4;
            }
        }
        if (!better || gain < 1e-3) {
            break;
        }
        updateGlideShape();
        cost = totalCost(used);
    }
    return totalCost(used);
}

Eigen::MatrixXd CombFit::normalMatrix() const {
    const auto shared = static_cast<Eigen::Index>(kPerString * strings_.size());
    Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(shared, shared);
    Eigen::VectorXd gradient = Eigen::VectorXd::Zero(shared);
    for (const CombBand& band : bands_) {
        const BandSystem s = system(band);
        normal += s.shared - s.cross.transpose() * s.solver.solve(s.cross);
    }
    addPriors(normal, gradient);
    return normal;
}

} // namespace quillbench
