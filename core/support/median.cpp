#include "core/support/median.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cstddef>

namespace quillbench {

double medianOf(std::vector<double> values) {
    EXPECTS(!values.empty());
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) {
        return *middle;
    }
    return 0.5 * (*middle + *std::max_element(values.begin(), middle));
}

double middleMeanOf(std::vector<double> values) {
    EXPECTS(!values.empty());
    std::sort(values.begin(), values.end());
    const std::size_t skip = values.size() / 4;
    double sum = 0.0;
    for (std::size_t i = skip; i < values.size() - skip; ++i) {
        sum += values[i];
    }
    return sum / static_cast<double>(values.size() - 2 * skip);
}

} // namespace quillbench
