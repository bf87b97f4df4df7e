#include "core/dsp/stagger/small_system.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

std::array<double, kMostChoirsOfKey> SmallSystem::solve() const {
    auto factor = products;
    auto out = wanted;
    for (std::size_t i = 0; i < size; ++i) {
        for (std::size_t j = 0; j <= i; ++j) {
            double sum = products[i][j] * (i == j ? 1.0 + 1e-6 : 1.0);
            for (std::size_t k = 0; k < j; ++k) {
                sum -= factor[i][k] * factor[j][k];
            }
            factor[i][j] = i == j ? std::sqrt(std::max(sum, 1e-9 * products[i][i] + 1e-300))
                                  : sum / factor[j][j];
        }
    }
    for (std::size_t i = 0; i < size; ++i) {
        for (std::size_t k = 0; k < i; ++k) {
            out[i] -= factor[i][k] * out[k];
        }
        out[i] /= factor[i][i];
    }
    for (std::size_t i = size; i-- > 0;) {
        for (std::size_t k = i + 1; k < size; ++k) {
            out[i] -= factor[k][i] * out[k];
        }
        out[i] /= factor[i][i];
    }
    return out;
}

} // namespace quillbench
