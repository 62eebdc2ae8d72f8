#include "lakebound/paint/verdict.hpp"

namespace lakebound {

Verdict verdict(BinderSufficiency sufficiency, const SufficiencyWindow& window) {
    if (!(window.amber_low <= window.green_low && window.green_low <= window.green_high &&
          window.green_high <= window.amber_high))
        throw DomainError("window of k", "out of order", "amber_low <= green_low <= green_high <= amber_high");
    if (!(window.amber_low.value() > 0.0)) throw DomainError("window of k", "not set", "limits above 0");
    // An aim of exactly 1.2 must not fall out of a window from 1.2 for a rounding error.
    constexpr double slack = 1e-9;
    const double k = sufficiency.value();
    const auto below = [k](BinderSufficiency limit) { return k < limit.value() * (1.0 - slack); };
    const auto above = [k](BinderSufficiency limit) { return k > limit.value() * (1.0 + slack); };
    if (below(window.amber_low)) return Verdict::fails_under;
    if (below(window.green_low)) return Verdict::amber_under;
    if (above(window.amber_high)) return Verdict::fails_over;
    if (above(window.green_high)) return Verdict::amber_over;
    return Verdict::green;
}

} // namespace lakebound
