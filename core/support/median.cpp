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

} // namespace quillbench
