#pragma once
// The residue that a grinding law is asked for.

#include "lakebound/quantity/error.hpp"

namespace lakebound {

/// Throws DomainError unless 0 < target < 1.
inline void check_target(double target) {
    if (!(target > 0.0 && target < 1.0))
        throw_out_of_range("target residue", target * 100.0, "%", "above 0 and below 100 %");
}

} // namespace lakebound
