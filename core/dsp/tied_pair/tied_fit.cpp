#include "core/dsp/tied_pair/tied_fit.hpp"

#include "core/dsp/constants.hpp"
#include "core/support/contract.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace quillbench {

namespace {

using Complex = std::complex<double>;

constexpr double kStudent = 4.0; ///< degrees of freedom of the ties
/// Effective frames that the whole segment adds to each third's noise.
constexpr double kShrink = 4.0;
constexpr double kFirstShare = 2.0; ///< expected size of a first polarisation, of the loudest frame
constexpr double kMostStep = 3.0;
/// Unknowns that one band knows of: three strings, one partial each, loudness and shift.
constexpr Eigen::Index kMostColumns = 3 * (kTiedGlobals + kTiedLocals) + 2;

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

/// A segment's lines at one place of the unknowns, and what their derivatives are made of.
struct TiedFit::Placed {
    Eigen::MatrixXcd lines;  ///< [frame][two a part], at amplitude 1 at the pluck
    Eigen::MatrixXd courses; ///< [frame][three a part]: time since the pluck, ∫S, its derivative
};

/// A band's amplitudes and what they leave.
struct TiedFit::Solved {
    std::vector<Placed> placed;
    std::vector<Eigen::Index> firstLine; ///< of each segment, and one past the last
    std::vector<Eigen::VectorXcd> rest;  ///< of each segment, unweighted
    Eigen::MatrixXcd normal;             ///< of the amplitudes
    Eigen::VectorXcd amplitudes;
    Eigen::VectorXd prior; ///< 1/deviation of each amplitude
    Eigen::MatrixXcd ties; ///< two rows over the amplitudes, weighted; empty where not tied
    std::array<double, 2> tieHz{};
};

struct TiedFit::Normal {
    Eigen::MatrixXd matrix;
    Eigen::VectorXd gradient;
};

TiedFit::TiedFit(std::vector<TiedString> someStrings,
                 std::vector<TiedBand> someBands,
                 Prior knowledge)
    : strings(std::move(someStrings)),
      bands(std::move(someBands)),
      prior(std::move(knowledge)) {
    Eigen::Index next = 0;
    for (const TiedString& string : strings) {
        offsets_.push_back(next);
        next += string.unknowns();
    }
    EXPECTS(prior.mean.size() == next + 2 && prior.precision.rows() == next + 2);
}

TiedFit::LineAt
TiedFit::lineAt(const Eigen::VectorXd& at, const TiedPart& part, bool second) const {
    const TiedString& string = strings[part.string];
    const auto global = at.segment<kTiedGlobals>(offsets_[part.string]);
    const auto local =
        at.segment<kTiedLocals>(offsets_[part.string] + TiedString::local(part.partial));
    const double n = part.partial + 1;
    const double split = second ? local[kTiedSplit] : 0.0;
    const double cents = global[kTiedPlace] + local[kTiedOffset] + split;
    return {n * string.reference * std::exp(cents * kCent) *
                std::sqrt(1.0 + std::exp(global[kTiedStiffness]) * n * n),
            std::exp(local[kTiedDecay] + (second ? local[kTiedSlower] : 0.0))};
}

TiedFit::Placed TiedFit::place(const Eigen::VectorXd& at, const TiedSegment& segment) const {
    const auto frames = static_cast<Eigen::Index>(segment.times.size());
    const auto parts = static_cast<Eigen::Index>(segment.parts.size());
    Placed placed;
    placed.lines.resize(frames, 2 * parts);
    placed.courses.resize(frames, 3 * parts);
    for (Eigen::Index p = 0; p < parts; ++p) {
        const TiedPart& part = segment.parts[static_cast<std::size_t>(p)];
        const TiedString& string = strings[part.string];
        const auto global = at.segment<kTiedGlobals>(offsets_[part.string]);
        const double sharper = std::expm1(global[kTiedGlide] * kCent);
        const std::array lines{lineAt(at, part, false), lineAt(at, part, true)};
        for (Eigen::Index m = 0; m < frames; ++m) {
            const double time = segment.times[static_cast<std::size_t>(m)];
            const double since = time - string.pluck;
            const auto glide = string.course.at(since, global[kTiedStretch]);
            placed.courses(m, 3 * p) = since;
            placed.courses(m, 3 * p + 1) = glide.value;
            placed.courses(m, 3 * p + 2) = glide.byStretch;
            const double warped = since + sharper * glide.value;
            for (Eigen::Index second = 0; second < 2; ++second) {
                const LineAt& line = lines[static_cast<std::size_t>(second)];
                const double turns = line.hz * warped - segment.centre * time;
                placed.lines(m, 2 * p + second) =
                    std::polar(std::exp(-line.decay * since), kTwoPi * (turns - std::floor(turns)));
            }
        }
    }
    return placed;
}

TiedFit::Solved TiedFit::solve(const Eigen::VectorXd& at, const TiedBand& band) const {
    std::vector<Placed> placed;
    placed.reserve(band.segments.size());
    for (const TiedSegment& segment : band.segments) {
        placed.push_back(place(at, segment));
    }
    return solve(at, band, std::move(placed));
}

TiedFit::Solved
TiedFit::solve(const Eigen::VectorXd& at, const TiedBand& band, std::vector<Placed> placed) const {
    Solved solved;
    solved.placed = std::move(placed);
    solved.firstLine.push_back(0);
    for (const Placed& one : solved.placed) {
        solved.firstLine.push_back(solved.firstLine.back() + one.lines.cols());
    }
    const Eigen::Index all = solved.firstLine.back();
    solved.normal = Eigen::MatrixXcd::Zero(all, all);
    Eigen::VectorXcd right = Eigen::VectorXcd::Zero(all);
    solved.prior.resize(all);
    for (std::size_t s = 0; s < band.segments.size(); ++s) {
        const TiedSegment& segment = band.segments[s];
        const Eigen::MatrixXcd& lines = solved.placed[s].lines;
        const Eigen::Index from = solved.firstLine[s];
        const Eigen::Index many = lines.cols();
        for (std::size_t third = 0; third < TiedSegment::kThirds; ++third) {
            const Eigen::Index row = segment.bounds[third];
            const Eigen::Index rows = segment.bounds[third + 1] - row;
            const double weight = 2.0 / (segment.noise[third] * segment.correlation);
            const auto part = lines.middleRows(row, rows);
            solved.normal.block(from, from, many, many).noalias() +=
                weight * (part.adjoint() * part);
            right.segment(from, many).noalias() +=
                weight * (part.adjoint() * segment.envelope.segment(row, rows));
        }
        for (Eigen::Index k = 0; k < many; ++k) {
            const double share = k % 2 == 0 ? kFirstShare : secondShare;
            solved.prior[from + k] = std::sqrt(2.0) / (share * segment.top + 1e-12);
        }
    }
    solved.normal.diagonal() += solved.prior.cwiseAbs2().cast<Complex>();
    if (band.tied) {
        const TiedPart& part = band.segments[1].parts[0];
        const double gain = std::exp(at[gainIndex()]);
        const double shift = at[shiftIndex()] * kShiftUnit;
        const double most = std::max(band.reference[0], band.reference[1]);
        const double least = std::min(band.reference[0], band.reference[1]);
        solved.ties = Eigen::MatrixXcd::Zero(2, all);
        for (std::size_t k = 0; k < 2; ++k) {
            const auto row = static_cast<Eigen::Index>(k);
            const double hz = lineAt(at, {0, part.partial}, k == 1).hz;
            const bool louder = band.reference[k] >= band.reference[1 - k];
            const double spread = (louder ? tie.louder : 0.5 * tie.louder) * most +
                                  (louder ? tie.louder : tie.softer) * least;
            const double weight = std::sqrt(2.0 * band.weight[k]) / (spread + 1e-12);
            solved.ties(row, band.lowerLine + row) = weight;
            solved.ties(row, solved.firstLine[1] + row) =
                -weight * gain * std::polar(1.0, -kTwoPi * hz * shift);
            solved.tieHz[k] = hz;
        }
        solved.normal.noalias() += solved.ties.adjoint() * solved.ties;
    }
    solved.amplitudes = solved.normal.llt().solve(right);
    for (std::size_t s = 0; s < band.segments.size(); ++s) {
        const Eigen::MatrixXcd& lines = solved.placed[s].lines;
        solved.rest.emplace_back(band.segments[s].envelope -
                                 lines *
                                     solved.amplitudes.segment(solved.firstLine[s], lines.cols()));
    }
    return solved;
}

std::array<double, TiedSegment::kThirds> TiedFit::noiseOf(const TiedSegment& segment,
                                                          const Eigen::VectorXcd& rest) {
    const double whole = rest.squaredNorm() / static_cast<double>(rest.size());
    std::array<double, TiedSegment::kThirds> noise{};
    for (std::size_t third = 0; third < TiedSegment::kThirds; ++third) {
        const Eigen::Index from = segment.bounds[third];
        const Eigen::Index many = segment.bounds[third + 1] - from;
        const double own = rest.segment(from, many).squaredNorm() /
                           static_cast<double>(std::max<Eigen::Index>(many, 1));
        const double frames =
            static_cast<double>(rest.size()) / TiedSegment::kThirds / segment.correlation;
        noise[third] = (frames * own + kShrink * whole) / (frames + kShrink) + segment.floor[third];
    }
    return noise;
}

double TiedFit::costOf(const TiedBand& band, const Solved& solved) const {
    double cost = 0.0;
    for (std::size_t s = 0; s < band.segments.size(); ++s) {
        const TiedSegment& segment = band.segments[s];
        const auto noise = noiseOf(segment, solved.rest[s]);
        const double level = segment.level * segment.level + 1e-24;
        for (std::size_t third = 0; third < TiedSegment::kThirds; ++third) {
            const auto many =
                static_cast<double>(segment.bounds[third + 1] - segment.bounds[third]);
            cost += many / segment.correlation * std::log(noise[third] / level);
        }
    }
    cost += 0.5 * solved.amplitudes.cwiseProduct(solved.prior.cast<Complex>()).squaredNorm();
    if (band.tied) {
        const Eigen::Vector2cd apart = solved.ties * solved.amplitudes;
        for (std::size_t k = 0; k < 2; ++k) {
            cost +=
                (0.5 * kStudent + 1.0) * std::log1p(std::norm(apart[static_cast<Eigen::Index>(k)]) /
                                                    band.weight[k] / kStudent);
        }
    }
    return cost;
}

void TiedFit::settle(TiedBand& band, const Solved& solved) {
    for (std::size_t s = 0; s < band.segments.size(); ++s) {
        band.segments[s].noise = noiseOf(band.segments[s], solved.rest[s]);
    }
    if (!band.tied) {
        return;
    }
    const Eigen::Vector2cd apart = solved.ties * solved.amplitudes;
    const double first = std::abs(solved.amplitudes[solved.firstLine[1]]);
    const double second = std::abs(solved.amplitudes[solved.firstLine[1] + 1]);
    const double most = std::max(first, second);
    for (std::size_t k = 0; k < 2; ++k) {
        const double q = std::norm(apart[static_cast<Eigen::Index>(k)]) / band.weight[k];
        band.weight[k] = (kStudent + 2.0) / (kStudent + q);
    }
    band.reference = {std::max(first, 0.1 * most), std::max(second, 0.03 * most)};
}

void TiedFit::settleNoise(const Eigen::VectorXd& at, int times) {
    const double gain = std::exp(at[gainIndex()]);
    for (TiedBand& band : bands) {
        std::vector<Placed> placed;
        for (const TiedSegment& segment : band.segments) {
            placed.push_back(place(at, segment));
        }
        for (int i = 0; i < times; ++i) {
            Solved solved = solve(at, band, std::move(placed));
            settle(band, solved);
            for (double& reference : band.reference) {
                reference *= gain;
            }
            placed = std::move(solved.placed);
        }
    }
}

double TiedFit::priorCost(const Eigen::VectorXd& at) const {
    const Eigen::VectorXd from = at - prior.mean;
    return 0.5 * from.dot(prior.precision * from);
}

double TiedFit::costAt(const Eigen::VectorXd& at) {
    double cost = priorCost(at);
    for (const TiedBand& band : bands) {
        cost += costOf(band, solve(at, band));
    }
    return cost;
}

Eigen::VectorXcd TiedFit::amplitudes(const Eigen::VectorXd& at, std::size_t band) {
    return solve(at, bands[band]).amplitudes;
}

Eigen::VectorXcd
TiedFit::drawnAmplitudes(const Eigen::VectorXd& at, std::size_t band, Random& random) {
    const Solved solved = solve(at, bands[band]);
    Eigen::VectorXcd white(solved.amplitudes.size());
    for (Complex& one : white) {
        const double real = random.normal();
        one = Complex(real, random.normal());
    }
    return solved.amplitudes + solved.normal.llt().matrixU().solve(white);
}

Eigen::MatrixXcd TiedFit::amplitudeCovariance(const Eigen::VectorXd& at, std::size_t band) {
    const Solved solved = solve(at, bands[band]);
    return solved.normal.llt().solve(
        Eigen::MatrixXcd::Identity(solved.normal.rows(), solved.normal.cols()));
}

/// Normal matrix and gradient of one band, amplitudes eliminated. Every derivative of a line is the line times a
/// combination of three courses, so that all follow from the Gram matrix of those products.
void TiedFit::addTo(Normal& normal, const Eigen::VectorXd& at, const TiedBand& band) const {
    const Solved solved = solve(at, band);
    std::vector<Eigen::Index> unknown;
    const auto column = [&unknown](Eigen::Index index) {
        const auto found = std::find(unknown.begin(), unknown.end(), index);
        if (found != unknown.end()) {
            return Eigen::Index{found - unknown.begin()};
        }
        unknown.push_back(index);
        return static_cast<Eigen::Index>(unknown.size()) - 1;
    };
    const Eigen::Index all = solved.firstLine.back();
    Eigen::MatrixXcd combine = Eigen::MatrixXcd::Zero(3 * all, kMostColumns);
    Eigen::MatrixXcd gram = Eigen::MatrixXcd::Zero(3 * all, 3 * all);
    Eigen::MatrixXcd across = Eigen::MatrixXcd::Zero(3 * all, all);
    Eigen::VectorXcd left = Eigen::VectorXcd::Zero(3 * all);
    for (std::size_t s = 0; s < band.segments.size(); ++s) {
        const TiedSegment& segment = band.segments[s];
        const Placed& placed = solved.placed[s];
        const Eigen::Index from = solved.firstLine[s];
        const Eigen::Index many = placed.lines.cols();
        Eigen::MatrixXcd products(placed.lines.rows(), 3 * many);
        for (Eigen::Index k = 0; k < many; ++k) {
            for (Eigen::Index c = 0; c < 3; ++c) {
                products.col(3 * k + c) = placed.lines.col(k).cwiseProduct(
                    placed.courses.col(3 * (k / 2) + c).cast<Complex>());
            }
        }
        for (std::size_t third = 0; third < TiedSegment::kThirds; ++third) {
            const Eigen::Index row = segment.bounds[third];
            const Eigen::Index rows = segment.bounds[third + 1] - row;
            const double weight = 2.0 / (segment.noise[third] * segment.correlation);
            const auto part = products.middleRows(row, rows);
            gram.block(3 * from, 3 * from, 3 * many, 3 * many).noalias() +=
                weight * (part.adjoint() * part);
            across.block(3 * from, from, 3 * many, many).noalias() +=
                weight * (part.adjoint() * placed.lines.middleRows(row, rows));
            left.segment(3 * from, 3 * many).noalias() +=
                weight * (part.adjoint() * solved.rest[s].segment(row, rows));
        }
        for (Eigen::Index k = 0; k < many; ++k) {
            const bool second = k % 2 == 1;
            const TiedPart& part = segment.parts[static_cast<std::size_t>(k / 2)];
            const Eigen::Index o = offsets_[part.string];
            const Eigen::Index q = o + TiedString::local(part.partial);
            const LineAt line = lineAt(at, part, second);
            const double n = part.partial + 1;
            const double stiff = std::exp(at[o + kTiedStiffness]) * n * n;
            const double sharper = std::expm1(at[o + kTiedGlide] * kCent);
            const Complex a = solved.amplitudes[from + k];
            const Complex turn = Complex(0.0, kTwoPi * line.hz) * a;
            const Eigen::Index v = 3 * (from + k);
            const auto detune = [&](Eigen::Index index, double relative) {
                combine(v, column(index)) += turn * relative;
                combine(v + 1, column(index)) += turn * relative * sharper;
            };
            detune(o + kTiedPlace, kCent);
            detune(o + kTiedStiffness, 0.5 * stiff / (1.0 + stiff));
            combine(v + 1, column(o + kTiedGlide)) += turn * kCent * (1.0 + sharper);
            combine(v + 2, column(o + kTiedStretch)) += turn * sharper;
            detune(q + kTiedOffset, kCent);
            combine(v, column(q + kTiedDecay)) -= line.decay * a;
            if (second) {
                detune(q + kTiedSplit, kCent);
                combine(v, column(q + kTiedSlower)) -= line.decay * a;
            }
        }
    }
    const Eigen::Index gain = band.tied ? column(gainIndex()) : 0;
    const Eigen::Index shift = band.tied ? column(shiftIndex()) : 0;
    const auto many = static_cast<Eigen::Index>(unknown.size());
    const Eigen::MatrixXcd used = combine.leftCols(many);
    const Eigen::MatrixXcd gramUsed = gram * used;
    Eigen::MatrixXd squares = (used.adjoint() * gramUsed).real();
    Eigen::MatrixXcd projected = across.adjoint() * used;
    Eigen::VectorXd gradient = -(used.adjoint() * left).real();
    if (band.tied) {
        Eigen::MatrixXcd derivative = Eigen::MatrixXcd::Zero(2, many);
        for (Eigen::Index k = 0; k < 2; ++k) {
            const Complex moved = solved.ties(k, solved.firstLine[1] + k) *
                                  solved.amplitudes[solved.firstLine[1] + k];
            derivative(k, gain) = moved;
            derivative(k, shift) =
                moved *
                Complex(0.0, -kTwoPi * solved.tieHz[static_cast<std::size_t>(k)] * kShiftUnit);
        }
        const Eigen::Vector2cd apart = solved.ties * solved.amplitudes;
        squares += (derivative.adjoint() * derivative).real();
        projected += solved.ties.adjoint() * derivative;
        gradient += (derivative.adjoint() * apart).real();
    }
    squares -= (projected.adjoint() * solved.normal.llt().solve(projected)).real();
    for (Eigen::Index i = 0; i < many; ++i) {
        normal.gradient[unknown[static_cast<std::size_t>(i)]] += gradient[i];
        for (Eigen::Index j = 0; j < many; ++j) {
            normal.matrix(unknown[static_cast<std::size_t>(i)],
                          unknown[static_cast<std::size_t>(j)]) += squares(i, j);
        }
    }
}

double TiedFit::refine(Eigen::VectorXd& at, int steps, const Choice& choice) {
    const auto free = chosenUnknowns(choice, unknowns());
    const auto heard = chosenBands(choice, bands.size());
    const auto many = static_cast<Eigen::Index>(free.size());
    const auto costHere = [&](const Eigen::VectorXd& x) {
        double cost = priorCost(x);
        for (const std::size_t b : heard) {
            cost += costOf(bands[b], solve(x, bands[b]));
        }
        return cost;
    };
    const auto settleHere = [&](int times) {
        const double gain = std::exp(at[gainIndex()]);
        for (const std::size_t b : heard) {
            for (int i = 0; i < times; ++i) {
                settle(bands[b], solve(at, bands[b]));
                for (double& reference : bands[b].reference) {
                    reference *= gain;
                }
            }
        }
    };
    settleHere(3);
    double cost = costHere(at);
    double damping = 1e-2;
    for (int step = 0; step < steps; ++step) {
        Normal normal{prior.precision, prior.precision * (at - prior.mean)};
        for (const std::size_t b : heard) {
            addTo(normal, at, bands[b]);
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
            const double reached = costHere(there);
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
        settleHere(1);
        cost = costHere(at);
        if (gained < 1e-2 && damping < 1.0) {
            break;
        }
    }
    return cost;
}

Eigen::MatrixXd TiedFit::normalMatrix(const Eigen::VectorXd& at) {
    Normal normal{prior.precision, Eigen::VectorXd::Zero(unknowns())};
    for (const TiedBand& band : bands) {
        addTo(normal, at, band);
    }
    return normal.matrix;
}

double TiedFit::logVolume(const Eigen::VectorXd& at) {
    const Eigen::VectorXd own = normalMatrix(at).ldlt().vectorD();
    double sum = own.cwiseMax(1e-12).array().log().sum();
    for (const TiedBand& band : bands) {
        const Eigen::MatrixXcd lower = solve(at, band).normal.llt().matrixL();
        // Real and imaginary parts.
        sum += 4.0 * lower.diagonal().real().array().log().sum();
    }
    return -0.5 * sum;
}

void TiedFit::reshape(const Eigen::VectorXd& at) {
    std::vector<std::vector<double>> energies(strings.size());
    std::vector<std::vector<double>> decays(strings.size());
    for (std::size_t b = 0; b < bands.size(); ++b) {
        const Eigen::VectorXcd found = amplitudes(at, b);
        const TiedSegment& pair = bands[b].segments[0];
        for (std::size_t k = 0; k < 2 * pair.parts.size(); ++k) {
            const TiedPart& part = pair.parts[k / 2];
            energies[part.string].push_back(std::norm(found[static_cast<Eigen::Index>(k)]) + 1e-24);
            decays[part.string].push_back(lineAt(at, part, k % 2 == 1).decay);
        }
    }
    for (std::size_t s = 0; s < std::min<std::size_t>(strings.size(), 2); ++s) {
        if (!energies[s].empty()) {
            strings[s].course = GlideCourse(energies[s], decays[s]);
        }
    }
    if (strings.size() > 2) {
        strings[2].course = strings[0].course;
    }
}

} // namespace quillbench
