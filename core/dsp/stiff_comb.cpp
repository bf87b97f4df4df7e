#include "core/dsp/stiff_comb.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quillbench {

namespace {

constexpr std::size_t kMostTeeth = 40;
constexpr int kCombSteps = 12;
constexpr double kTukey = 4.0; // in robust standard deviations

double medianOf(std::array<double, kMostTeeth>& values, std::size_t count) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(count / 2);
    std::nth_element(values.begin(), middle, values.begin() + static_cast<std::ptrdiff_t>(count));
    return *middle;
}

double tukey(double u, double reach) {
    const double part = u / reach;
    return std::abs(part) < 1.0 ? (1.0 - part * part) * (1.0 - part * part) : 1e-6;
}

} // namespace

double StiffComb::partial(double n) const {
    return n * f0 * std::sqrt(1.0 + b * n * n);
}

StiffCombFit fitStiffComb(std::span<const MeasuredPartial> partials,
                          const StiffComb& start,
                          double priorB,
                          double priorLnSd) {
    EXPECTS(!partials.empty() && partials.size() <= kMostTeeth);
    StiffComb comb = start;
    const double precision = 1.0 / (priorLnSd * priorLnSd);
    double spread = 1.0;
    double aff = 1.0;
    double afb = 0.0;
    double abb = precision;
    for (int step = 0; step < kCombSteps; ++step) {
        std::array<double, kMostTeeth> sizes{};
        for (std::size_t i = 0; i < partials.size(); ++i) {
            sizes[i] = std::abs(partials[i].hz - comb.partial(partials[i].n)) / partials[i].sd;
        }
        spread = std::max(1.0, 1.4826 * medianOf(sizes, partials.size()));
        aff = 0.0;
        afb = 0.0;
        abb = precision;
        double gf = 0.0;
        double gb = -std::log(comb.b / priorB) * precision;
        for (const MeasuredPartial& partial : partials) {
            const double root = std::sqrt(1.0 + comb.b * partial.n * partial.n);
            const double df = partial.n * root;
            const double db = partial.n * comb.f0 * 0.5 * partial.n * partial.n / root * comb.b;
            const double residual = partial.hz - comb.partial(partial.n);
            const double u = std::abs(residual) / partial.sd;
            const double weight = (step < 2 ? 1.0 / (1.0 + u / 3.0) : tukey(u, kTukey * spread)) /
                                  (partial.sd * partial.sd);
            aff += weight * df * df;
            afb += weight * df * db;
            abb += weight * db * db;
            gf += weight * df * residual;
            gb += weight * db * residual;
        }
        const double det = aff * abb - afb * afb;
        comb.f0 += (abb * gf - afb * gb) / det;
        comb.b *= std::exp(std::clamp((aff * gb - afb * gf) / det, -0.7, 0.7));
        comb.b = std::clamp(comb.b, 1e-8, 1e-2);
    }
    const double det = aff * abb - afb * afb;
    const double root = std::sqrt(1.0 + comb.b);
    const double slopeB = 0.5 * comb.f0 / root * comb.b;
    StiffCombFit fit;
    fit.comb = comb;
    const double variance =
        (root * root * abb - 2.0 * root * slopeB * afb + slopeB * slopeB * aff) / det;
    fit.pitchSd = spread * std::sqrt(std::max(variance, 0.0));
    fit.lnBSd = spread * std::sqrt(std::max(aff / det, 0.0));
    return fit;
}

} // namespace quillbench
