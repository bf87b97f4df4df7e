#include "core/dsp/constants.hpp"
#include "core/dsp/tied_pair/tied_model.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

using Value = std::complex<double>;

constexpr Eigen::Index kCourses = 3;
/// Unknowns that one band knows of: three strings, one partial each, loudness and shift.
constexpr Eigen::Index kMostColumns = 3 * (kTiedGlobals + kTiedLocals) + 2;

/// Every derivative of a line is the line times a combination of three courses: inner products of those products among
/// themselves, with the lines, and with what is left.
struct Products {
    Eigen::MatrixXcd among;
    Eigen::MatrixXcd lines;
    Eigen::VectorXcd rest;
};

Products productsOf(const TiedBand& band, const SolvedBand& solved) {
    const Eigen::Index all = solved.firstLine.back();
    Products sums{Eigen::MatrixXcd::Zero(kCourses * all, kCourses * all),
                  Eigen::MatrixXcd::Zero(kCourses * all, all),
                  Eigen::VectorXcd::Zero(kCourses * all)};
    for (std::size_t s = 0; s < band.segments.size(); ++s) {
        const TiedSegment& segment = band.segments[s];
        const PlacedLines& placed = solved.placed[s];
        const Eigen::Index from = solved.firstLine[s];
        const Eigen::Index many = placed.lines.cols();
        Eigen::MatrixXcd products(placed.lines.rows(), kCourses * many);
        for (Eigen::Index k = 0; k < many; ++k) {
            for (Eigen::Index c = 0; c < kCourses; ++c) {
                products.col(kCourses * k + c) = placed.lines.col(k).cwiseProduct(
                    placed.courses.col(kCourses * (k / 2) + c).cast<Value>());
            }
        }
        for (std::size_t third = 0; third < TiedSegment::kThirds; ++third) {
            const Eigen::Index row = segment.bounds[third];
            const Eigen::Index rows = segment.bounds[third + 1] - row;
            const double weight = weightOf(segment, third);
            const auto part = products.middleRows(row, rows);
            sums.among.block(kCourses * from, kCourses * from, kCourses * many, kCourses * many)
                .noalias() += weight * (part.adjoint() * part);
            sums.lines.block(kCourses * from, from, kCourses * many, many).noalias() +=
                weight * (part.adjoint() * placed.lines.middleRows(row, rows));
            sums.rest.segment(kCourses * from, kCourses * many).noalias() +=
                weight * (part.adjoint() * solved.rest[s].segment(row, rows));
        }
    }
    return sums;
}

/// The unknowns that a band knows of, and how its lines' courses combine to the derivative by each of them.
class Derivatives {
public:
    Derivatives(const TiedModel& model, const Eigen::VectorXd& at, Eigen::Index lines)
        : model_(model),
          at_(at),
          combine_(Eigen::MatrixXcd::Zero(kCourses * lines, kMostColumns)) {}

    [[nodiscard]] Eigen::Index column(Eigen::Index index) {
        const auto found = std::find(unknowns_.begin(), unknowns_.end(), index);
        if (found != unknowns_.end()) {
            return Eigen::Index{found - unknowns_.begin()};
        }
        unknowns_.push_back(index);
        return static_cast<Eigen::Index>(unknowns_.size()) - 1;
    }

    /// Line `line` of the band, polarisation `second` of `part`, at amplitude `a`.
    void add(Eigen::Index line, const TiedPart& part, bool second, Value a) {
        const Eigen::Index o = model_.offsets[part.string];
        const Eigen::Index q = o + TiedString::local(part.partial);
        const TiedModel::LineAt placed = model_.lineAt(at_, part, second);
        const double n = part.partial + 1;
        const double stiff = std::exp(at_[o + kTiedStiffness]) * n * n;
        const double sharper = std::expm1(at_[o + kTiedGlide] * kCent);
        const Value turn = Value(0.0, kTwoPi * placed.hz) * a;
        const Eigen::Index v = kCourses * line;
        const auto detune = [&](Eigen::Index index, double relative) {
            const Eigen::Index c = column(index);
            combine_(v, c) += turn * relative;
            combine_(v + 1, c) += turn * relative * sharper;
        };
        detune(o + kTiedPlace, kCent);
        detune(o + kTiedStiffness, 0.5 * stiff / (1.0 + stiff));
        combine_(v + 1, column(o + kTiedGlide)) += turn * kCent * (1.0 + sharper);
        combine_(v + 2, column(o + kTiedStretch)) += turn * sharper;
        detune(q + kTiedOffset, kCent);
        combine_(v, column(q + kTiedDecay)) -= placed.decay * a;
        if (second) {
            detune(q + kTiedSplit, kCent);
            combine_(v, column(q + kTiedSlower)) -= placed.decay * a;
        }
    }

    [[nodiscard]] const std::vector<Eigen::Index>& unknowns() const { return unknowns_; }

    [[nodiscard]] Eigen::MatrixXcd combination() const {
        return combine_.leftCols(static_cast<Eigen::Index>(unknowns_.size()));
    }

private:
    const TiedModel& model_;
    const Eigen::VectorXd& at_;
    Eigen::MatrixXcd combine_;
    std::vector<Eigen::Index> unknowns_;
};

} // namespace

void TiedModel::addTo(Normal& normal, const Eigen::VectorXd& at, const TiedBand& band) const {
    const SolvedBand solved = solve(at, band);
    const Products products = productsOf(band, solved);
    Derivatives derivatives(*this, at, solved.firstLine.back());
    for (std::size_t s = 0; s < band.segments.size(); ++s) {
        const Eigen::Index from = solved.firstLine[s];
        for (Eigen::Index k = 0; k < solved.placed[s].lines.cols(); ++k) {
            derivatives.add(from + k,
                            band.segments[s].parts[static_cast<std::size_t>(k / 2)],
                            k % 2 == 1,
                            solved.amplitudes[from + k]);
        }
    }
    const Eigen::Index gain = band.tied ? derivatives.column(gainIndex()) : 0;
    const Eigen::Index shift = band.tied ? derivatives.column(shiftIndex()) : 0;
    const Eigen::MatrixXcd used = derivatives.combination();
    const Eigen::Index many = used.cols();
    const Eigen::MatrixXcd among = products.among * used;
    Eigen::MatrixXd squares = (used.adjoint() * among).real();
    Eigen::MatrixXcd projected = products.lines.adjoint() * used;
    Eigen::VectorXd gradient = -(used.adjoint() * products.rest).real();
    if (band.tied) {
        Eigen::MatrixXcd byTies = Eigen::MatrixXcd::Zero(2, many);
        for (Eigen::Index k = 0; k < 2; ++k) {
            const Eigen::Index alone = solved.firstLine[1] + k;
            const double hz = solved.tieHz[static_cast<std::size_t>(k)];
            byTies(k, gain) = solved.ties(k, alone) * solved.amplitudes[alone];
            byTies(k, shift) = byTies(k, gain) * Value(0.0, -kTwoPi * hz * kShiftUnit);
        }
        const Eigen::Vector2cd apart = solved.ties * solved.amplitudes;
        squares += (byTies.adjoint() * byTies).real();
        projected += solved.ties.adjoint() * byTies;
        gradient += (byTies.adjoint() * apart).real();
    }
    squares -= (projected.adjoint() * solved.normal.llt().solve(projected)).real();
    for (Eigen::Index i = 0; i < many; ++i) {
        const Eigen::Index row = derivatives.unknowns()[static_cast<std::size_t>(i)];
        normal.gradient[row] += gradient[i];
        for (Eigen::Index j = 0; j < many; ++j) {
            normal.matrix(row, derivatives.unknowns()[static_cast<std::size_t>(j)]) +=
                squares(i, j);
        }
    }
}

} // namespace quillbench
