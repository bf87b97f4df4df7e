#include "core/dsp/tied_pair/tied_model.hpp"

#include "core/dsp/constants.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

using Complex = std::complex<double>;

constexpr double kStudent = 4.0; ///< degrees of freedom of the ties
/// Effective frames that the whole segment adds to each third's noise.
constexpr double kShrink = 4.0;
constexpr double kFirstShare = 2.0; ///< expected size of a first polarisation, of the loudest frame

std::array<double, TiedSegment::kThirds> noiseOf(const TiedSegment& segment,
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

} // namespace

double weightOf(const TiedSegment& segment, std::size_t third) {
    return 2.0 / (segment.noise[third] * segment.correlation);
}

TiedModel::TiedModel(std::vector<TiedString> someStrings) : strings(std::move(someStrings)) {
    offsets.push_back(0);
    for (const TiedString& string : strings) {
        offsets.push_back(offsets.back() + string.unknowns());
    }
}

TiedModel::LineAt
TiedModel::lineAt(const Eigen::VectorXd& at, const TiedPart& part, bool second) const {
    const TiedString& string = strings[part.string];
    const auto global = at.segment<kTiedGlobals>(offsets[part.string]);
    const auto local =
        at.segment<kTiedLocals>(offsets[part.string] + TiedString::local(part.partial));
    const double n = part.partial + 1;
    const double split = second ? local[kTiedSplit] : 0.0;
    const double cents = global[kTiedPlace] + local[kTiedOffset] + split;
    return {n * string.reference * std::exp(cents * kCent) *
                std::sqrt(1.0 + std::exp(global[kTiedStiffness]) * n * n),
            std::exp(local[kTiedDecay] + (second ? local[kTiedSlower] : 0.0))};
}

PlacedLines TiedModel::place(const Eigen::VectorXd& at, const TiedSegment& segment) const {
    const auto frames = static_cast<Eigen::Index>(segment.times.size());
    const auto parts = static_cast<Eigen::Index>(segment.parts.size());
    PlacedLines placed;
    placed.lines.resize(frames, 2 * parts);
    placed.courses.resize(frames, 3 * parts);
    for (Eigen::Index p = 0; p < parts; ++p) {
        const TiedPart& part = segment.parts[static_cast<std::size_t>(p)];
        const TiedString& string = strings[part.string];
        const auto global = at.segment<kTiedGlobals>(offsets[part.string]);
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

/// Two rows: how far the lower string's amplitudes in the pair lie from those heard alone, in their deviations.
void TiedModel::addTies(SolvedBand& solved, const Eigen::VectorXd& at, const TiedBand& band) const {
    const TiedPart& part = band.segments[1].parts[0];
    const double gain = std::exp(at[gainIndex()]);
    const double shift = at[shiftIndex()] * kShiftUnit;
    const double most = std::max(band.reference[0], band.reference[1]);
    const double least = std::min(band.reference[0], band.reference[1]);
    solved.ties = Eigen::MatrixXcd::Zero(2, solved.firstLine.back());
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
}

SolvedBand TiedModel::solve(const Eigen::VectorXd& at, const TiedBand& band) const {
    SolvedBand solved;
    solved.placed.reserve(band.segments.size());
    for (const TiedSegment& segment : band.segments) {
        solved.placed.push_back(place(at, segment));
    }
    solved.firstLine.push_back(0);
    for (const PlacedLines& one : solved.placed) {
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
            const double weight = weightOf(segment, third);
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
        addTies(solved, at, band);
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

double TiedModel::costOf(const TiedBand& band, const SolvedBand& solved) const {
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

void TiedModel::settle(const Eigen::VectorXd& at, TiedBand& band, const SolvedBand& solved) const {
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
    const double gain = std::exp(at[gainIndex()]);
    band.reference = {gain * std::max(first, 0.1 * most), gain * std::max(second, 0.03 * most)};
}

} // namespace quillbench
