#include "core/units/hertz.hpp"

#include "core/support/contract.hpp"

#include <cmath>
#include <numbers>

namespace quillbench {

Hertz transpose(Hertz from, Cents by) {
    EXPECTS(from.value() > 0.0);
    return Hertz(from.value() * std::exp2(by.value() / 1200.0));
}

Cents interval(Hertz lower, Hertz upper) {
    EXPECTS(lower.value() > 0.0 && upper.value() > 0.0);
    return Cents(1200.0 * std::log2(upper.value() / lower.value()));
}

double hertzPerCent(Hertz at) {
    return at.value() * std::numbers::ln2 / 1200.0;
}

} // namespace quillbench
